//! Every language says the same: keys, words to fill in, and how hard it is to read.

use super::*;
use crate::advice;
use crate::exercise;
use crate::reading_level::{self, Counts};
use crate::tolerance;
use std::collections::{BTreeMap, BTreeSet};

fn keys(language: Language) -> BTreeSet<&'static str> {
    language.texts().iter().map(|(key, _)| *key).collect()
}

#[test]
fn no_key_is_missing_or_told_twice_in_any_language() {
    let english = keys(Language::English);
    for language in Language::ALL {
        let here = keys(language);
        let missing: Vec<_> = english.difference(&here).collect();
        let more: Vec<_> = here.difference(&english).collect();
        assert!(missing.is_empty() && more.is_empty(), "{}: without {missing:?}, beyond {more:?}", language.name());
        assert_eq!(here.len(), language.texts().len(), "{}: a key stands twice", language.name());
    }
}

#[test]
fn every_text_is_there_and_fills_in_the_same() {
    let english: BTreeMap<_, _> = Language::English.texts().iter().copied().collect();
    for language in Language::ALL {
        for (key, text) in language.texts() {
            assert!(!text.trim().is_empty() && text.trim() == *text, "{}: {key} is “{text}”", language.name());
            assert_eq!(placeholders(text), placeholders(english[key]), "{}: {key}", language.name());
            assert_eq!(text.matches('{').count(), text.matches('}').count(), "{}: {key}", language.name());
            assert!(!text.contains(['<', '>', '&']), "{}: {key} has markup", language.name());
            let ends = |text: &str| text.ends_with(['.', '?', '!']);
            assert_eq!(ends(text), ends(english[key]), "{}: {key} ends otherwise", language.name());
        }
    }
}

/// Neither language stands in the other's table.
#[test]
fn no_longer_text_is_the_same_in_both_languages() {
    for (key, text) in Language::English.texts() {
        assert_ne!(find(Language::Spanish, key), Some(*text), "{key} is not translated");
    }
}

#[test]
fn every_key_in_use_is_there_and_every_text_of_an_exercise_is_in_use() {
    let exercises: BTreeSet<&str> = exercise::ALL.iter().flat_map(|one| one.family.keys()).collect();
    let advice: BTreeSet<&str> =
        advice::ALL.iter().flat_map(|one| one.lines.iter().copied().chain([one.heading])).collect();
    let dangers: BTreeSet<&str> = tolerance::DANGERS.iter().map(|one| one.key).collect();
    let here = keys(Language::English);
    for key in exercises.iter().chain(&advice).chain(&dangers) {
        assert!(here.contains(key), "{key} has no text");
    }
    for key in here {
        let used = match key.split('.').next() {
            Some("exercise") => exercises.contains(key),
            Some("advice") => advice.contains(key),
            Some("danger") => {
                dangers.contains(key) || ["danger.none", "danger.ask", "danger.tap", "danger.else"].contains(&key)
            }
            _ => true,
        };
        assert!(used, "{key} is in use nowhere");
    }
}

#[test]
fn texts_are_filled_in_once() {
    assert_eq!(filled(Language::English, "call.emergency", &[("number", "112")]), "Call 112 now.");
    assert_eq!(filled(Language::Spanish, "call.emergency", &[("number", "112")]), "Llame ya al 112.");
    assert_eq!(filled(Language::English, "call.emergency", &[("number", "{number}")]), "Call {number} now.");
    assert_eq!(filled(Language::English, "call.emergency", &[]), "Call {number} now.");
    assert_eq!(text(Language::English, "no.such.key"), "");
    assert_eq!(Language::from_tag("es-MX"), Some(Language::Spanish));
    assert_eq!(Language::from_tag("ES"), Some(Language::Spanish));
    assert_eq!(Language::from_tag("fr"), None);
}

/// Numbers are filled in before counting: a count is read as ten.
fn counts(language: Language, text: &str) -> Counts {
    let mut plain = text.to_string();
    for name in placeholders(text) {
        plain = plain.replace(&format!("{{{name}}}"), "10");
    }
    match language {
        Language::English => Counts::english(&plain),
        Language::Spanish => Counts::spanish(&plain),
    }
}

fn easy(language: Language, counts: Counts) -> bool {
    match language {
        Language::English => counts.grade() <= reading_level::HIGHEST_GRADE,
        Language::Spanish => {
            counts.szigriszt() >= reading_level::LOWEST_SZIGRISZT && counts.huerta() >= reading_level::LOWEST_HUERTA
        }
    }
}

/// The measure of a language in one cell: a grade, or the two Spanish values.
fn level(language: Language, counts: Counts) -> String {
    match language {
        Language::English => format!("{:.1}", counts.grade()),
        Language::Spanish => format!("{:.1} / {:.1}", counts.szigriszt(), counts.huerta()),
    }
}

/// Formulas need some words to say anything: single texts are read from ten words on, passages from twenty, and what is
/// shorter in its passage.
#[test]
fn every_passage_and_every_longer_text_reads_at_sixth_grade_or_lower() {
    let mut faults = Vec::new();
    for language in Language::ALL {
        let measure = match language {
            Language::English => "Flesch-Kincaid grade, at most 6",
            Language::Spanish => "Szigriszt-Pazos, at least 65 / Fernández Huerta, at least 70",
        };
        println!("\n{}: {measure}", language.name());
        println!("{:<32}{:>6}{:>6}{:>6}{:>16}{:>16}", "passage", "words", "sent.", "syll.", "level", "hardest text");
        for (name, texts) in passages(language) {
            let whole = counts(language, &reading_level::joined(texts.iter().copied()));
            let longer = texts.iter().map(|text| counts(language, text)).filter(|counts| counts.words >= 10);
            let hardest = longer.max_by(|a, b| harder(language, *a).total_cmp(&harder(language, *b)));
            let told = hardest.map(|counts| level(language, counts)).unwrap_or_default();
            let Counts { words, sentences, syllables } = whole;
            println!("{name:<32}{words:>6}{sentences:>6}{syllables:>6}{:>16}{told:>16}", level(language, whole));
            if words >= 20 && !easy(language, whole) {
                faults.push(format!("{}: {name} {}", language.name(), level(language, whole)));
            }
            if hardest.is_some_and(|counts| !easy(language, counts)) {
                faults.push(format!("{}: a text of {name} {told}", language.name()));
            }
        }
    }
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

fn harder(language: Language, counts: Counts) -> f64 {
    match language {
        Language::English => counts.grade(),
        Language::Spanish => -counts.szigriszt(),
    }
}

/// The rule can fail: a hospital's sentence is refused in both languages.
#[test]
fn a_hospital_sentence_is_too_hard() {
    let english =
        "Symptom exacerbation exceeding the predetermined tolerance threshold necessitates professional reassessment.";
    assert!(!easy(Language::English, counts(Language::English, english)));
    let spanish = "La exacerbación sintomática superior al umbral establecido obliga a modificar la intensidad del entrenamiento.";
    assert!(!easy(Language::Spanish, counts(Language::Spanish, spanish)));
}
