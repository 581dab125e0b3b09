//! Every exercise has a drawing that is small, well formed and safe to put into a page.

use super::*;
use crate::exercise;
use std::collections::BTreeSet;

#[test]
fn every_exercise_has_a_drawing_of_its_own_and_no_drawing_is_left_over() {
    let drawn: BTreeSet<&str> = DRAWN.iter().map(|(id, _)| *id).collect();
    let exercises: BTreeSet<&str> = exercise::ALL.iter().map(|exercise| exercise.id).collect();
    assert_eq!(drawn, exercises);
    let pictures: BTreeSet<String> = DRAWN.iter().map(|(_, marks)| mark::elements(marks)).collect();
    assert_eq!(pictures.len(), DRAWN.len());
}

#[test]
fn every_drawing_is_labelled_in_every_language() {
    for exercise in exercise::ALL {
        let labels = Language::ALL.map(|language| {
            let svg = svg(exercise, language);
            let (_, behind) = svg.split_once("aria-label=\"").expect("a label");
            behind.split_once('"').map(|(label, _)| label.to_string()).expect("an end")
        });
        assert!(labels.iter().all(|label| label.len() > 10), "{}: {labels:?}", exercise.id);
        assert_ne!(labels[0], labels[1], "{}", exercise.id);
    }
}

#[test]
fn drawings_are_small_and_hold_nothing_but_lines() {
    for exercise in exercise::ALL {
        let svg = svg(exercise, Language::Spanish);
        assert!(svg.len() <= 3 * 1024, "{}: {} bytes", exercise.id, svg.len());
        for never in [" id=", "<script", "<text", "style=", "href", "onload", "NaN", "url("] {
            assert!(!svg.contains(never), "{}: {never}", exercise.id);
        }
        assert!(svg.contains("currentColor") && svg.contains("var(--accent, #f5b82e)"), "{}", exercise.id);
    }
}

/// A small reader of its own: tags are nested, attributes quoted, nothing stands between.
#[test]
fn drawings_are_well_formed() {
    let all = exercise::ALL.iter().map(|exercise| svg(exercise, Language::English));
    for svg in all.chain(face::ALL.iter().map(|face| face.svg(face.name))) {
        let mut open: Vec<&str> = Vec::new();
        for tag in svg.split_inclusive('>') {
            let inner = tag.strip_prefix('<').and_then(|tag| tag.strip_suffix('>')).expect("only tags");
            let name = inner.trim_start_matches('/').split([' ', '/']).next().expect("a name");
            assert!(["svg", "g", "path"].contains(&name), "{inner}");
            assert_eq!(inner.matches('"').count() % 2, 0, "{inner}");
            if inner.starts_with('/') {
                assert_eq!(open.pop(), Some(name), "{svg}");
            } else if !inner.ends_with('/') {
                open.push(name);
            }
        }
        assert!(open.is_empty(), "{svg}");
    }
}

/// Path data: known letters and numbers only, beginning with a move, and no point far beyond the picture.
#[test]
fn path_data_can_be_read() {
    let all: Vec<String> = exercise::ALL.iter().map(|exercise| svg(exercise, Language::English)).collect();
    for svg in &all {
        for path in svg.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            assert!(path.starts_with('M'), "{path}");
            let known = |c: char| c.is_ascii_digit() || "MLHVCQTSAZa.- ".contains(c);
            assert!(path.chars().all(known), "{path}");
            let numbers = path.replace(|c: char| c.is_ascii_alphabetic(), " ").replace('-', " -");
            for number in numbers.split_whitespace() {
                let value: f64 = number.parse().unwrap_or_else(|_| panic!("{number} in {path}"));
                assert!(value.abs() <= 160.0, "{path}");
            }
        }
    }
}
