//! Head turns done, cut short, left out and barred.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::Answer;
use crate::capture::record::State;
use crate::capture::visit::Visit;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

fn many(ids: &[&str]) -> Answer {
    Answer::Many(ids.iter().map(|id| (*id).to_string()).collect())
}

fn read_in(mut visit: Visit, answers: &[(&str, Answer)], state: State) -> Reading {
    let record = visit.record_mut(TASK.id, NOW);
    record.state = state;
    for (key, answer) in answers {
        assert!(FORM.field(key).is_some_and(|field| field.accepts(answer)), "the form refuses {key}");
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    read(&Context { visit: &visit, age: None }, &record)
}

fn visit() -> Visit {
    Visit::begin("v", "p", "sideline", NOW, "test")
}

fn read_answers(answers: &[(&str, Answer)]) -> Reading {
    read_in(visit(), answers, State::Done)
}

fn headlines(reading: &Reading) -> Vec<(&str, Grade)> {
    reading.findings.iter().map(|finding| (finding.headline.as_str(), finding.grade)).collect()
}

/// 180 beats a minute, two beats for each turn there and back: 1.5 turns a second, ten in 6.67 s; at 20° each way the
/// sine peaks at 2π × 1.5 × 20 = 188° a second.
#[test]
fn the_pace_is_one_and_a_half_turns_a_second() {
    let turns_a_second = PACE.bpm / 60.0 / 2.0;
    assert!((turns_a_second - 1.5).abs() < 1e-12);
    assert!((WANTED / turns_a_second - 6.67).abs() < 0.005);
    assert!((f64::from(PACE.beats) - 2.0 * WANTED).abs() < 1e-12);
    assert!((2.0 * std::f64::consts::PI * turns_a_second * 20.0 - 188.5).abs() < 0.01);
}

#[test]
fn all_done_and_clear_is_recorded_without_a_gap() {
    let usual = FORM.usual_answers();
    let reading = read_answers(&usual);
    let told = [
        ("Side to side: ten turns, target clear", Grade::NoRange),
        ("Up and down: ten turns, target clear", Grade::NoRange),
    ];
    assert_eq!(headlines(&reading), told);
    assert_eq!((reading.gaps.len(), reading.flags.len(), reading.measures.len()), (0, 0, 2));
}

#[test]
fn blur_has_no_grade_and_double_sight_stands_out() {
    let reading = read_answers(&[
        ("horizontal", one("all")),
        ("horizontal_target", one("blurred")),
        ("vertical", one("all")),
        ("vertical_target", one("doubled")),
        ("stopped", many(&[])),
    ]);
    assert_eq!(reading.findings[0].grade, Grade::NoRange);
    assert!(reading.findings[0].details[0].contains("no published limit"));
    assert_eq!(reading.findings[1].grade, Grade::NearLimit);
    let steps: Vec<&Amount> = reading.measures.iter().map(|measure| &measure.amount).collect();
    assert_eq!(steps[0], &Amount::Step { step: 1, words: &["clear", "blurred", "doubled"] });
    assert_eq!(steps[1], &Amount::Step { step: 2, words: &["clear", "blurred", "doubled"] });
}

#[test]
fn turns_cut_short_are_counted_and_those_not_done_are_a_gap_with_the_reason() {
    let reading = read_answers(&[
        ("horizontal", one("fewer")),
        ("horizontal_turns", Answer::Number(6.0)),
        ("horizontal_target", one("clear")),
        ("vertical", one("none")),
        ("stopped", many(&["dizziness", "nausea"])),
    ]);
    assert_eq!(
        headlines(&reading),
        [
            ("Side to side: 6 of ten turns, target clear", Grade::NoRange),
            ("Head turns stopped early: dizziness, nausea", Grade::NearLimit)
        ]
    );
    assert!(reading.findings[0].details[0].contains("19 to 23 of 100"));
    assert_eq!(reading.gaps.len(), 1);
    assert_eq!(reading.gaps[0].what, "head turns up and down");
    assert_eq!(reading.gaps[0].why, Why::NotDone("dizziness, nausea".into()));
    assert_eq!(reading.measures.len(), 1, "what was not done has no value");
}

#[test]
fn what_was_not_answered_is_a_gap_and_no_value() {
    let reading = read_answers(&[("horizontal", one("all"))]);
    assert_eq!(headlines(&reading), [("Side to side: ten turns", Grade::NoRange)]);
    let gaps: Vec<&str> = reading.gaps.iter().map(|gap| gap.what.as_str()).collect();
    assert_eq!(
        gaps,
        [
            "whether the target stayed clear side to side",
            "head turns up and down",
            "whether the head turns were stopped early"
        ]
    );
    assert!(reading.measures.is_empty());
}

/// A target noted before the amount was changed to "not done" says nothing any more.
#[test]
fn a_target_of_turns_that_were_not_done_is_not_read() {
    let reading = read_answers(&[("horizontal", one("none")), ("horizontal_target", one("blurred"))]);
    assert!(reading.findings.is_empty() && reading.measures.is_empty());
}

#[test]
fn a_skipped_record_says_nothing() {
    for state in [State::NotDone("no time".into()), State::NotTestable("asleep".into())] {
        assert_eq!(read_in(visit(), &FORM.usual_answers(), state), Reading::default());
    }
}

#[test]
fn neck_pain_stands_out_and_after_a_knock_is_a_danger_sign() {
    let answers = [("horizontal", one("fewer")), ("stopped", many(&["neck"]))];
    let reading = read_answers(&answers);
    assert_eq!(reading.findings[1].grade, Grade::OutsideRange);
    assert!(reading.flags.is_empty());
    let mut visit = visit();
    visit.record_mut(frame::SLOT, NOW).answers.set("reason", Some(one("knock")));
    let flags = read_in(visit, &answers, State::Done).flags;
    assert_eq!(flags.len(), 1);
    assert!(flags[0].neck);
}

#[test]
fn a_neck_at_risk_surgery_or_strong_vertigo_bars_it() {
    let barred_by = |change: &dyn Fn(&mut Visit)| {
        let mut visit = visit();
        change(&mut visit);
        barred(&Context { visit: &visit, age: None })
    };
    let caution = |id: &'static str| {
        move |visit: &mut Visit| {
            visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(many(&[id])));
        }
    };
    let danger = |id: &'static str| {
        move |visit: &mut Visit| {
            visit.record_mut(safety::SLOT, NOW).answers.set(id, Some(one("yes")));
        }
    };
    let dizzy = |rating: u8| {
        move |visit: &mut Visit| {
            let rated = Answer::Ratings(vec![("dizziness".to_string(), rating)]);
            visit.record_mut(symptoms::BEFORE, NOW).answers.set("now", Some(rated));
        }
    };
    assert_eq!(barred_by(&|_| {}), None);
    for id in ["neck", "surgery"] {
        assert!(barred_by(&caution(id)).is_some(), "{id}");
    }
    assert_eq!(barred_by(&caution("falls")), None);
    for id in ["neck", "passed_out", "limbs", "skull", "vomiting"] {
        assert!(barred_by(&danger(id)).is_some(), "{id}");
    }
    assert_eq!(barred_by(&danger("headache")), None);
    assert_eq!(barred_by(&dizzy(6)), None);
    assert!(barred_by(&dizzy(7)).is_some_and(|why| why.contains("7 or more")));
}
