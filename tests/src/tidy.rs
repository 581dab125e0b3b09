//! House rules about files and words, each with its reason in DEVELOPERS.md.

use std::collections::BTreeSet;

use sidelight_core::evidence::Status;
use sidelight_core::{pattern, routine, task};

use crate::repository::{files, files_ending, root, text};

/// Most lines of a source file, tests included.
const MOST_LINES: usize = 800;

#[test]
fn the_top_level_is_fixed() {
    let allowed = ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "rust-toolchain.toml"];
    let folders = ["app", "core", "public", "tests", "e2e"];
    for path in files() {
        let top = path.split('/').next().unwrap_or_default();
        let known = allowed.contains(&top) || folders.contains(&top) || top.starts_with('.');
        assert!(known, "{path} does not belong to the top level");
    }
}

#[test]
fn every_source_file_says_what_it_is_and_is_short() {
    let mut lengths = Vec::new();
    for path in files_ending(".rs") {
        let text = text(&path);
        assert!(text.starts_with("//!"), "{path} does not begin with a //! sentence");
        let lines = text.lines().count();
        assert!(lines <= MOST_LINES, "{path} has {lines} lines, more than {MOST_LINES}");
        lengths.push(lines);
    }
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    assert!(median < 200, "the median source file has {median} lines");
}

#[test]
fn nothing_is_left_unfinished() {
    let marks = [concat!("to", "do!("), concat!("unimple", "mented!("), concat!("#[ig", "nore"), concat!("FIX", "ME")];
    for path in files_ending(".rs") {
        let text = text(&path);
        for mark in marks {
            assert!(!text.contains(mark), "{path} has {mark}");
        }
    }
}

#[test]
fn no_path_of_one_machine_is_written_down() {
    let places = [concat!("/ro", "ot/"), concat!("/ho", "me/"), concat!("/wo", "rk/"), concat!("C:\\", "Users")];
    for path in files() {
        let Ok(text) = std::fs::read_to_string(root().join(&path)) else { continue };
        for place in places {
            assert!(!text.contains(place), "{path} names {place}");
        }
    }
}

#[test]
fn every_path_the_documents_name_exists() {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = text(document);
        let named = named_paths(&text);
        assert!(named.len() >= 3, "{document} names only {} paths", named.len());
        for path in named {
            assert!(root().join(&path).exists(), "{document} names {path}, which does not exist");
        }
    }
}

#[test]
fn one_task_one_file() {
    let listed: BTreeSet<String> = task::ALL.iter().map(|task| task.id.to_string()).collect();
    let here = |path: &String| {
        let name = path.strip_prefix("core/src/task/")?.strip_suffix(".rs")?.to_string();
        (!name.contains('/')).then_some(name)
    };
    let files: BTreeSet<String> = files_ending(".rs").iter().filter_map(here).collect();
    assert_eq!(listed, files, "the list in core/src/task.rs and the folder differ");
    assert_eq!(listed.len(), task::ALL.len(), "a task is listed twice");
}

#[test]
fn one_pattern_one_file() {
    let listed: BTreeSet<String> = pattern::ALL.iter().map(|rule| rule.id.to_string()).collect();
    let here = |path: &String| path.strip_prefix("core/src/pattern/")?.strip_suffix(".rs").map(String::from);
    let beside = ["evidence", "tests"];
    let rules = files_ending(".rs").iter().filter_map(here).filter(|name| !beside.contains(&name.as_str())).collect();
    assert_eq!(listed, rules, "the list in core/src/pattern.rs and the folder differ");
    assert_eq!(listed.len(), pattern::ALL.len(), "a pattern is listed twice");
}

#[test]
fn every_file_is_part_of_its_crate() {
    for (folder, list) in [("core/src", "core/src/lib.rs"), ("tests/src", "tests/src/lib.rs")] {
        let list = text(list);
        for path in files_ending(".rs") {
            let name = path.strip_prefix(&format!("{folder}/")).and_then(|rest| rest.strip_suffix(".rs"));
            let Some(name) = name.filter(|name| !name.contains('/') && *name != "lib") else { continue };
            assert!(list.contains(&format!("mod {name};")), "{path} is no module of {folder}");
        }
    }
}

#[test]
fn every_task_is_complete() {
    for task in task::ALL {
        let setup = &task.setup;
        assert_eq!(task.form.id, task.id);
        assert!(!task.form.fields.is_empty(), "{} asks nothing", task.id);
        for words in [task.title, task.term, setup.position, setup.target, setup.motion, setup.say, setup.watch] {
            assert!(!words.is_empty(), "{} lacks words", task.id);
        }
        for usual in task.form.usual {
            assert!(task.form.field(usual.key).is_some(), "{} expects {}, which is not asked", task.id, usual.key);
        }
        let answers = task.form.usual_answers();
        assert_eq!(answers.len(), task.form.usual.len(), "{} cannot give every usual answer", task.id);
        for (key, answer) in answers {
            assert!(
                task.form.field(key).is_some_and(|field| field.accepts(&answer)),
                "{} refuses its own {key}",
                task.id
            );
        }
    }
}

#[test]
fn every_norm_has_its_source() {
    let mut ids = BTreeSet::new();
    for (task, norm) in task::ALL.iter().flat_map(|task| task.norms.iter().map(move |norm| (task.id, *norm))) {
        assert!(ids.insert(norm.id), "two norms are called {}", norm.id);
        assert!(norm.id.starts_with(task), "{} is not named after its task {task}", norm.id);
        assert!(!norm.what.is_empty() && !norm.population.is_empty(), "{} lacks words", norm.id);
        let sourced = !norm.source.short.is_empty() && !norm.source.place.is_empty();
        assert!(sourced || norm.status == Status::CommonPractice, "{} has no source", norm.id);
        for rate in norm.healthy {
            let shares = [rate.low_percent, rate.high_percent];
            assert!(shares.iter().all(|share| (0.0..=100.0).contains(share)), "{}: {shares:?}", norm.id);
            assert!(!rate.population.is_empty() && !rate.source.short.is_empty(), "{} has a rate of nobody", norm.id);
        }
    }
    assert!(!ids.is_empty(), "no norm was found");
}

#[test]
fn every_routine_names_known_tasks() {
    for routine in routine::ALL {
        assert_eq!(routine.tasks().count(), routine.tasks.len(), "{} names an unknown task", routine.id);
    }
}

/// Paths in backticks or links: words with a slash or a known ending, and no blanks.
fn named_paths(text: &str) -> BTreeSet<String> {
    let in_ticks = text.split('`').skip(1).step_by(2);
    let in_links = text.match_indices("](").filter_map(|(at, _)| text[at + 2..].split(')').next());
    let is_path = |word: &&str| {
        let plain = word.chars().all(|c| c.is_ascii_alphanumeric() || "/._-".contains(c));
        let known = ["core", "app", "public", "tests", "e2e"].contains(&word.split('/').next().unwrap_or_default());
        plain && ((known && word.contains('/')) || word.ends_with(".md") || *word == "LICENSE")
    };
    in_ticks.chain(in_links).filter(is_path).map(String::from).collect()
}
