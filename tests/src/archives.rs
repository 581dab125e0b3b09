//! Archives of version 1: golden files open for ever and are written back to the letter; damaged ones say why.

use sidelight_core::archive::{self, ArchiveError};

use crate::repository::{files, root, text};

const FOLDER: &str = "tests/archives/v1/";

#[test]
fn golden_archives_open_and_are_written_back_the_same() {
    let golden: Vec<String> = files().into_iter().filter(|p| p.starts_with(FOLDER) && p.ends_with(".json")).collect();
    assert!(golden.len() >= 3, "only {} golden archives", golden.len());
    for path in golden {
        let stored = text(&path);
        let archive = archive::read(stored.as_bytes()).unwrap_or_else(|error| panic!("{path}: {error}"));
        let written = String::from_utf8(archive::write(&archive)).expect("archives are UTF-8");
        assert_eq!(as_value(&written), as_value(&stored), "{path}: something was lost or changed");
        let again = archive::read(written.as_bytes()).expect("what was written can be read");
        assert_eq!(again, archive, "{path}: reading twice differs");
    }
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

fn as_value(json: &str) -> serde_json::Value {
    serde_json::from_str(json).expect("JSON")
}
