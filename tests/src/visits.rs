//! Golden visits: what is read from a visit file, word for word. `SIDELIGHT_BLESS=1` rewrites the expected texts; the
//! difference is then read by a person.

use std::fs;
use std::path::PathBuf;

use sidelight_core::archive;
use sidelight_core::assess::assess;
use sidelight_core::export::{html, text};
use sidelight_core::summary::{self, Options};

use crate::repository::root;

#[test]
fn golden_visits_read_as_they_did() {
    let bless = std::env::var_os("SIDELIGHT_BLESS").is_some();
    let folders = folders();
    assert!(folders.len() >= 5, "only {} golden visits", folders.len());
    let mut differing = Vec::new();
    for folder in folders {
        let bytes = fs::read(folder.join("visit.json")).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        let read = archive::read(&bytes).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
        let (person, visit) = (&read.people[0], &read.visits[0]);
        let assessment = assess(person, visit);
        let options = Options::new("Sidelight, golden visit");
        let document = summary::compose(person, visit, &assessment, &options);
        for (name, made) in [("summary.txt", text::render(&document)), ("summary.html", html::render(&document))] {
            let path = folder.join(name);
            if bless {
                fs::write(&path, &made).expect("golden texts can be written");
            }
            let expected = fs::read_to_string(&path).unwrap_or_default();
            if expected.replace("\r\n", "\n") != made {
                differing.push(path.display().to_string());
            }
        }
    }
    assert!(differing.is_empty(), "these differ; look with SIDELIGHT_BLESS=1 and git diff:\n{}", differing.join("\n"));
}

fn folders() -> Vec<PathBuf> {
    let entries = fs::read_dir(root().join("tests/visits")).expect("there are golden visits");
    let mut folders: Vec<PathBuf> =
        entries.filter_map(|entry| Some(entry.ok()?.path())).filter(|p| p.is_dir()).collect();
    folders.sort();
    folders
}
