//! Stances held, lost, cut short and not done; walks with and without faults.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Made, Tap, Trial};
use crate::capture::record::State;
use crate::capture::visit::Visit;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn many(ids: &[&str]) -> Answer {
    Answer::Many(ids.iter().map(|id| (*id).to_string()).collect())
}

/// Runs one after the other, each with its pad, its length and its errors at seconds after its start.
fn series(runs: &[(&str, f64, &[f64])]) -> Answer {
    let ms = |seconds: f64| (seconds * 1000.0) as u32;
    let mut series = Series::default();
    let mut from = 1000;
    for (pad, seconds, errors) in runs {
        series.runs.push(Run { pad: (*pad).into(), from_ms: from, to_ms: Some(from + ms(*seconds)), bpm: None });
        series.taps.extend(errors.iter().map(|at| Tap {
            at_ms: from + ms(*at),
            pad: (*pad).into(),
            mark: "error".into(),
            also: vec![],
            made: Made::Tapped,
        }));
        from += ms(*seconds) + 5000;
    }
    Answer::Series(series)
}

fn walks(walks: &[(f64, &str)]) -> Answer {
    let trial = |(seconds, went): &(f64, &str)| Trial {
        at_ms: 0,
        answers: [
            ("seconds".to_string(), Answer::Number(*seconds)),
            ("went".to_string(), Answer::One((*went).to_string())),
        ]
        .into_iter()
        .collect(),
    };
    Answer::Trials(walks.iter().map(trial).collect())
}

fn read_in(answers: &[(&str, Answer)], state: State) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let record = visit.record_mut(TASK.id, NOW);
    record.state = state;
    for (key, answer) in answers {
        assert!(FORM.field(key).is_some_and(|field| field.accepts(answer)), "the form refuses {key}");
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    read(&Context { visit: &visit, age: Some(Age { years: 14, exact: true }) }, &record)
}

fn read_answers(answers: &[(&str, Answer)]) -> Reading {
    read_in(answers, State::Done)
}

fn value(reading: &Reading, key: &str) -> Option<f64> {
    let measure = reading.measures.iter().find(|measure| measure.key == key)?;
    match measure.amount {
        Amount::Number { value, .. } => Some(value),
        Amount::Share(_) | Amount::Step { .. } => None,
    }
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("balance.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

#[test]
fn errors_and_walk_are_recorded_without_a_band() {
    let reading = read_answers(&[
        ("fell", many(&[])),
        ("errors", series(&[("double", 20.0, &[]), ("single", 20.4, &[3.0, 9.0, 15.0]), ("tandem", 20.0, &[4.0])])),
        ("walk", walks(&[(12.4, "clean"), (11.2, "clean"), (10.1, "faults")])),
        ("shoes", Answer::One("shoes".into())),
    ]);
    assert_eq!(reading.gaps, []);
    let errors = found(&reading, "errors");
    assert_eq!(errors.headline, "4 balance errors of at most 30 (feet together 0, one foot 3, heel to toe 1)");
    assert!(errors.details[1].contains("13 to 15 years make 3 on average"), "{:?}", errors.details);
    let walk = found(&reading, "walk");
    assert_eq!(walk.headline, "Heel-to-toe walk 11.2 s, best of 2 walks");
    assert!(walk.details[1].starts_with("No band is shown") && walk.details[2].starts_with("Left out: 1 walk"));
    assert!(reading.findings.iter().all(|finding| finding.grade == Grade::NoRange && finding.norm.is_none()));
    assert_eq!(value(&reading, "balance.errors"), Some(4.0));
    assert_eq!(value(&reading, "balance.single_leg"), Some(3.0));
    assert_eq!(value(&reading, "balance.walk"), Some(11.2));
    assert_eq!(reading.measures[0].method, [("feet", "shoes".to_string())]);
    assert_eq!(reading.courses[0].values, Values::Numbers(vec![12.4, 11.2], "s"));
}

#[test]
fn ten_is_the_most_of_a_stance_and_what_a_lost_start_counts() {
    let twelve: Vec<f64> = (1..=12).map(f64::from).collect();
    let reading = read_answers(&[
        ("fell", many(&["tandem"])),
        ("errors", series(&[("double", 20.0, &[]), ("single", 20.0, &twelve)])),
    ]);
    assert_eq!(value(&reading, "balance.errors"), Some(20.0));
    assert_eq!(value(&reading, "balance.single_leg"), Some(10.0));
    // Ten errors are ten, though the stance was ended at the tenth.
    let ended = read_answers(&[("errors", series(&[("single", 11.0, &twelve[..10])]))]);
    assert_eq!(value(&ended, "balance.single_leg"), Some(10.0));
}

#[test]
fn who_cannot_stand_feet_together_stands_out() {
    let reading = read_answers(&[("fell", many(&["double", "single", "tandem"]))]);
    assert_eq!(found(&reading, "feet_together").grade, Grade::OutsideRange);
    assert_eq!(value(&reading, "balance.errors"), Some(30.0));
    let other = read_answers(&[("fell", many(&["single"]))]);
    assert!(other.findings.iter().all(|finding| finding.grade == Grade::NoRange));
}

/// No errors in 20 s is zero; nothing run, or a run cut short, is no number.
#[test]
fn a_stance_not_stood_is_a_gap_and_never_zero() {
    let reading =
        read_answers(&[("fell", many(&[])), ("errors", series(&[("double", 20.0, &[]), ("single", 9.0, &[2.0])]))]);
    assert_eq!(found(&reading, "errors").headline, "Balance errors, not all stances: feet together 0");
    assert!(reading.measures.is_empty());
    let gaps: Vec<(&str, &Why)> = reading.gaps.iter().map(|gap| (gap.what.as_str(), &gap.why)).collect();
    assert_eq!(
        gaps,
        [
            ("balance errors one foot", &Why::NotTestable("stopped after 9 s of 20".into())),
            ("balance errors heel to toe", &Why::NotRecorded),
            ("heel-to-toe walk", &Why::NotRecorded),
        ]
    );
}

#[test]
fn a_second_start_replaces_the_first_and_a_late_stop_adds_nothing() {
    let reading = read_answers(&[(
        "errors",
        series(&[("single", 4.0, &[1.0, 2.0]), ("single", 31.0, &[5.0, 12.0, 20.8, 24.0, 30.0])]),
    )]);
    assert_eq!(value(&reading, "balance.single_leg"), Some(3.0), "24 s and 30 s lie behind the 20 s");
}

#[test]
fn a_stance_still_running_and_taps_without_a_run_have_no_count() {
    let mut open = series(&[("single", 20.0, &[1.0])]);
    let Answer::Series(inner) = &mut open else { panic!("a series") };
    inner.runs[0].to_ms = None;
    assert!(read_answers(&[("errors", open.clone())]).measures.is_empty());
    let Answer::Series(inner) = &mut open else { panic!("a series") };
    inner.runs.clear();
    assert!(read_answers(&[("errors", open)]).measures.is_empty());
}

#[test]
fn a_walk_with_faults_only_is_not_testable() {
    let reading = read_answers(&[("walk", walks(&[(9.0, "faults"), (14.0, "held")]))]);
    let gap = reading.gaps.iter().find(|gap| gap.what == "heel-to-toe walk").expect("a gap");
    assert_eq!(gap.why, Why::NotTestable("no walk without a fault".into()));
    assert!(reading.findings.is_empty() && reading.courses.is_empty());
}

#[test]
fn a_skipped_record_says_nothing() {
    for state in [State::NotDone("no time".into()), State::NotTestable("in a chair".into())] {
        assert_eq!(read_in(&[("fell", many(&["double"]))], state), Reading::default());
    }
}

#[test]
fn a_neck_to_be_held_still_bars_it_and_vertigo_does_not() {
    let barred_by = |slot: &str, key: &str, answer: Answer| {
        let mut visit = Visit::begin("v", "p", "full", NOW, "test");
        visit.record_mut(slot, NOW).answers.set(key, Some(answer));
        (TASK.barred)(&Context { visit: &visit, age: None })
    };
    for id in ["neck", "passed_out", "limbs", "skull"] {
        assert!(barred_by(safety::SLOT, id, Answer::One("yes".into())).is_some(), "{id}");
    }
    assert_eq!(barred_by(safety::SLOT, "headache", Answer::One("yes".into())), None);
    assert_eq!(barred_by("frame", "cautions", many(&["vertigo"])), None);
}
