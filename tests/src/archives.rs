//! Archives of version 1: golden files open for ever and are written back to the letter; damaged ones say why.

use sidelight_core::archive::{self, Archive, ArchiveError, Fault};
use sidelight_core::calendar::Moment;

use crate::odd_visit::{Oddness, odd};
use crate::repository::{files, root, text};

const FOLDER: &str = "tests/archives/v1/";

#[test]
fn golden_archives_open_and_are_written_back_the_same() {
    for path in golden() {
        let stored = text(&path);
        let archive = archive::read(stored.as_bytes()).unwrap_or_else(|error| panic!("{path}: {error}"));
        let written = String::from_utf8(archive::write(&archive)).expect("archives are UTF-8");
        assert_eq!(as_value(&written), as_value(&stored), "{path}: something was lost or changed");
        let again = archive::read(written.as_bytes()).expect("what was written can be read");
        assert_eq!(again, archive, "{path}: reading twice differs");
    }
}

/// Their digests were worked out by a program of its own when they were made.
#[test]
fn golden_closed_visits_are_intact_and_a_changed_one_shows() {
    let mut noted = 0;
    for path in golden() {
        let archive = archive::read(text(&path).as_bytes()).expect("readable");
        for visit in &archive.visits {
            assert!(archive::intact(visit), "{path}: {} was changed after it was closed", visit.id);
            noted += usize::from(visit.sha256.is_some());
        }
    }
    assert!(noted >= 3, "only {noted} note a digest");
    let changed = text(&format!("{FOLDER}every-member.json")).replacen("\"short\"", "\"past\"", 1);
    let archive = archive::read(changed.as_bytes()).expect("it is still an archive");
    assert!(!archive::intact(&archive.visits[0]));
}

/// Also one that holds what no form takes, since the digest must never accuse a visit that nobody touched.
#[test]
fn a_closed_visit_is_intact_wherever_it_was_written_and_read() {
    for seed in 0..150 {
        let (person, visit) = odd(seed, Oddness::Anything);
        let closed = archive::closed(visit, Moment { unix_ms: 1_772_463_128_007, offset_minutes: -210 });
        let stored =
            archive::read_visit(&archive::write_visit(&closed)).unwrap_or_else(|error| panic!("{seed}: {error}"));
        assert!(archive::intact(&stored), "{seed}");
        let file = archive::write(&Archive::of(vec![person], vec![stored]));
        let taken_in = archive::read(&file).expect("readable").visits.remove(0);
        assert!(archive::intact(&taken_in), "{seed}");
        assert_eq!(archive::digest(&taken_in), archive::digest(&closed), "{seed}");
    }
}

#[test]
fn the_same_closing_twice_is_refused_and_two_closings_are_not() {
    let whole = text(&format!("{FOLDER}two-phones.json"));
    let archive = archive::read(whole.as_bytes()).expect("two closings of one visit");
    assert_eq!(archive.visits.iter().filter(|visit| visit.id == "v1").count(), 2);
    let again = Archive { visits: [archive.visits.clone(), vec![archive.visits[0].clone()]].concat(), ..archive };
    let refused = archive::read(&archive::write(&again)).expect_err("the same twice");
    assert_eq!(refused, ArchiveError::Broken { place: "visits[3].id".into(), fault: Fault::Twice });
}

#[test]
fn damaged_files_say_what_and_what_to_do() {
    let whole = text(&format!("{FOLDER}sideline.json"));
    let cut = &whole[..whole.len() / 2];
    let newer = whole.replacen("\"version\": 1", "\"version\": 7", 1);
    let huge = " ".repeat(archive::MAX_BYTES + 1);
    let cases: [(&str, &str, &str); 6] = [
        ("empty", "", "empty"),
        ("cut", cut, "breaks off"),
        ("foreign", "{\"a\": 1}", "not"),
        ("newer", &newer, "newer"),
        ("huge", &huge, "larger"),
        ("prose", "Dear colleague,", "not"),
    ];
    for (name, bytes, part) in cases {
        let error = archive::read(bytes.as_bytes()).expect_err(name);
        let said = error.to_string();
        assert!(said.contains(part), "{name}: {said}");
        assert!(said.ends_with('.') && said.matches('.').count() <= 3, "{name}: not a clear sentence: {said}");
        assert!(!said.contains("R-21"), "{name}: an error names a person");
    }
}

#[test]
fn a_newer_version_is_named() {
    let newer = text(&format!("{FOLDER}minimal.json")).replacen("\"version\": 1", "\"version\": 7", 1);
    assert_eq!(archive::read(newer.as_bytes()), Err(ArchiveError::Newer { version: 7 }));
}

/// Every way to cut a file or to change one byte of it is an error or another archive, never a panic.
#[test]
fn no_damage_panics() {
    let whole = std::fs::read(root().join(format!("{FOLDER}unknown-parts.json"))).expect("a golden archive");
    for at in 0..whole.len() {
        let _ = archive::read(&whole[..at]);
        let mut bent = whole.clone();
        bent[at] = bent[at].wrapping_add(1);
        let _ = archive::read(&bent);
    }
}

fn golden() -> Vec<String> {
    let is_golden =
        |path: &String| path.starts_with(FOLDER) && path.ends_with(".json") && !path.ends_with("/schema.json");
    let golden: Vec<String> = files().into_iter().filter(is_golden).collect();
    assert!(golden.len() >= 7, "only {} golden archives", golden.len());
    golden
}

fn as_value(json: &str) -> serde_json::Value {
    serde_json::from_str(json).expect("JSON")
}
