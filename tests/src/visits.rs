//! Golden visits: what is read from a visit file, word for word. `SIDELIGHT_BLESS=1` rewrites the expected texts; the
//! difference is then read by a person.

use std::fs;
use std::path::{Path, PathBuf};

use sidelight_core::archive::{self, Archive};
use sidelight_core::assess::assess;
use sidelight_core::change;
use sidelight_core::export::{html, json, text};
use sidelight_core::summary::{self, Options};

use crate::fhir_bundles;
use crate::repository::root;
use crate::scenarios;

const WITH_WORKING_MODEL: &str = "stroke-full-one-side-worse";

#[test]
fn golden_visits_read_as_they_did() {
    let mut differing = write_scenarios();
    let folders = folders();
    assert!(folders.len() >= 12, "only {} golden visits", folders.len());
    for folder in folders {
        let bytes = fs::read(folder.join("visit.json")).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        let read = archive::read(&bytes).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        let person = &read.people[0];
        // The last visit is read; the ones before it are what it is compared with.
        let visit = read.visits.last().unwrap_or_else(|| panic!("{} has no visit", folder.display()));
        let assessment = assess(person, visit);
        let changes = change::since_earlier(person, visit, &assessment, &read.visits);
        let options = Options::new("Sidelight, golden visit").with_addenda(&read.addenda).with_visits(&read.visits);
        let options = changes.as_ref().map_or(options, |changes| options.with_changes(changes));
        let document = summary::compose(person, visit, &assessment, &options);
        let made = [
            ("summary.txt", text::render(&document)),
            ("summary.html", html::render(&document)),
            ("assessment.json", json::render(visit, &assessment, changes.as_ref(), &read.addenda)),
            ("fhir.json", fhir_bundles::golden(&read)),
        ];
        for (name, made) in made {
            differing.extend(compare(&folder.join(name), &made));
        }
        // Off by default, so one visit stands for how it prints.
        if folder.ends_with(WITH_WORKING_MODEL) {
            let document = summary::compose(person, visit, &assessment, &options.with_working_model(true));
            differing.extend(compare(&folder.join("summary-with-working-model.txt"), &text::render(&document)));
        }
    }
    // The code list is the same in every bundle and stands here once.
    let codes = root().join("tests/data/golden/fhir-codes.json");
    differing.extend(compare(&codes, &fhir_bundles::pretty(&fhir_bundles::code_list())));
    assert!(differing.is_empty(), "these differ; look with SIDELIGHT_BLESS=1 and git diff:\n{}", differing.join("\n"));
}

/// The visit files of the scenarios; the others were frozen when they were made.
fn write_scenarios() -> Vec<String> {
    let mut differing = Vec::new();
    for scenario in scenarios::all() {
        let folder = root().join("tests/visits").join(scenario.folder);
        if bless() {
            fs::create_dir_all(&folder).expect("a folder can be made");
        }
        let file = archive::write(&Archive {
            addenda: scenario.addenda,
            ..Archive::of(vec![scenario.person], scenario.visits)
        });
        differing.extend(compare(&folder.join("visit.json"), &String::from_utf8_lossy(&file)));
    }
    differing
}

/// The path when the file differs from what is expected now; with the variable set it is rewritten first.
fn compare(path: &Path, made: &str) -> Option<String> {
    if bless() {
        fs::write(path, made).expect("golden texts can be written");
    }
    let expected = fs::read_to_string(path).unwrap_or_default();
    (expected.replace("\r\n", "\n") != made).then(|| path.display().to_string())
}

fn bless() -> bool {
    std::env::var_os("SIDELIGHT_BLESS").is_some()
}

fn folders() -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join("tests/visits")).expect("there are golden visits");
    let mut folders: Vec<PathBuf> =
        entries.filter_map(|entry| Some(entry.ok()?.path())).filter(|p| p.is_dir()).collect();
    folders.sort();
    folders
}

/// A doctor reads each sentence once. Short ones ("No limit is published.") may return.
#[test]
fn no_golden_summary_says_a_sentence_twice() {
    let mut repeated = Vec::new();
    for folder in folders() {
        for name in ["summary.txt", "summary-with-working-model.txt"] {
            let Ok(printed) = fs::read_to_string(folder.join(name)) else { continue };
            let words = printed.split_whitespace().collect::<Vec<_>>().join(" ");
            let mut sentences: Vec<&str> = words.split(". ").filter(|sentence| sentence.len() > 60).collect();
            // Each comparison has its own p, which may come out the same.
            sentences.retain(|sentence| !sentence.starts_with("If both directions were alike"));
            sentences.sort_unstable();
            let twice = sentences.windows(2).filter(|pair| pair[0] == pair[1]);
            repeated.extend(twice.map(|pair| format!("{}: {}", folder.join(name).display(), pair[0])));
        }
    }
    assert!(repeated.is_empty(), "said twice:\n{}", repeated.join("\n"));
}
