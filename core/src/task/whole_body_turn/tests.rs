//! Turns done, cut short, left out and barred.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::Answer;
use crate::capture::frame;
use crate::capture::record::State;
use crate::capture::visit::Visit;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

fn many(ids: &[&str]) -> Answer {
    Answer::Many(ids.iter().map(|id| (*id).to_string()).collect())
}

fn read_answers(answers: &[(&str, Answer)], state: State) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let record = visit.record_mut(TASK.id, NOW);
    record.state = state;
    for (key, answer) in answers {
        assert!(FORM.field(key).is_some_and(|field| field.accepts(answer)), "the form refuses {key}");
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    read(&Context { visit: &visit, age: None }, &record)
}

fn headlines(reading: &Reading) -> Vec<(&str, Grade)> {
    reading.findings.iter().map(|finding| (finding.headline.as_str(), finding.grade)).collect()
}

/// Ten beats at 50 a minute are 12 s; five sweeps there and back over 160° each way in that time are 133° a second.
#[test]
fn the_pace_is_twelve_seconds_for_five_turns() {
    let seconds = f64::from(PACE.beats) / PACE.bpm * 60.0;
    assert!((seconds - 12.0).abs() < 1e-12);
    assert!((WANTED * 2.0 * 160.0 / seconds - 133.3).abs() < 0.05);
}

#[test]
fn all_done_and_steady_is_recorded_without_a_gap() {
    let reading = read_answers(&FORM.usual_answers(), State::Done);
    let told = [
        ("Five turns, eyes stayed on the thumb", Grade::NoRange),
        ("Steady on the feet while turning", Grade::NoRange),
    ];
    assert_eq!(headlines(&reading), told);
    assert_eq!((reading.gaps.len(), reading.measures.len()), (0, 1));
}

#[test]
fn who_steps_or_stops_for_dizziness_stands_out() {
    let reading = read_answers(
        &[
            ("turns", one("fewer")),
            ("turns_done", Answer::Number(3.0)),
            ("gaze", one("lost")),
            ("feet", one("stepped")),
            ("stopped", many(&["dizziness"])),
        ],
        State::Done,
    );
    let told = [
        ("3 of five turns, eyes left the thumb", Grade::NoRange),
        ("Stepped or held on while turning", Grade::NearLimit),
        ("Stopped before five turns: dizziness", Grade::NearLimit),
    ];
    assert_eq!(headlines(&reading), told);
    assert!(reading.findings[0].details[0].contains("do them again"));
    assert!(matches!(reading.measures[0].amount, Amount::Step { step: 2, .. }));
}

/// Neck pain is a reason of its own, and after a knock a danger sign (Patricios et al. 2023).
#[test]
fn neck_pain_stands_out_and_after_a_knock_it_is_a_danger_sign() {
    for (reason, flags) in [("knock", 1), ("dizzy", 0)] {
        let mut visit = Visit::begin("v", "p", "full", NOW, "test");
        visit.record_mut(frame::SLOT, NOW).answers.set("reason", Some(one(reason)));
        let record = visit.record_mut(TASK.id, NOW);
        record.answers.set("turns", Some(one("fewer")));
        record.answers.set("stopped", Some(many(&["neck"])));
        let record = record.clone();
        let reading = read(&Context { visit: &visit, age: None }, &record);
        assert_eq!(headlines(&reading).last(), Some(&("Stopped before five turns: neck pain", Grade::OutsideRange)));
        assert_eq!(reading.flags.iter().filter(|flag| flag.neck).count(), flags, "{reason}");
    }
}

/// Not done is a gap with its reason, not five turns and not none.
#[test]
fn what_was_not_done_is_a_gap_and_no_value() {
    let reading =
        read_answers(&[("turns", one("none")), ("feet", one("steady")), ("stopped", many(&["unsteady"]))], State::Done);
    assert_eq!(reading.gaps.len(), 1);
    assert_eq!(reading.gaps[0].why, Why::NotDone("unsteady".into()));
    assert!(reading.measures.is_empty() && reading.findings.iter().all(|finding| finding.value.is_none()));
    let empty = read_answers(&[("pace", one("beat"))], State::Open);
    let gaps: Vec<&str> = empty.gaps.iter().map(|gap| gap.what.as_str()).collect();
    assert_eq!(gaps, ["turns with the arm out", "whether the turns were stopped early"]);
    for state in [State::NotDone("no time".into()), State::NotTestable("dizzy".into())] {
        assert_eq!(read_answers(&FORM.usual_answers(), state), Reading::default());
    }
}

/// A caution for falls, vertigo and the neck; barred only where standing and turning must not be tried at all.
#[test]
fn cautions_do_not_bar_it_but_strong_vertigo_and_danger_signs_do() {
    let barred_by = |change: &dyn Fn(&mut Visit)| {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        change(&mut visit);
        barred(&Context { visit: &visit, age: None })
    };
    for id in ["falls", "vertigo", "neck", "surgery"] {
        let ticked = |visit: &mut Visit| {
            visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(many(&[id])));
        };
        assert_eq!(barred_by(&ticked), None, "{id}");
        assert!(CAUTIONS.iter().any(|caution| caution.when.contains(&id)), "{id}");
    }
    for id in ["neck", "limbs", "vomiting"] {
        let danger = |visit: &mut Visit| {
            visit.record_mut(safety::SLOT, NOW).answers.set(id, Some(one("yes")));
        };
        assert!(barred_by(&danger).is_some(), "{id}");
    }
    // Rated after the head turns: it counts for what comes next.
    let dizzy = |visit: &mut Visit| {
        let rated = |rating| Some(Answer::Ratings(vec![("dizziness".to_string(), rating)]));
        visit.record_mut(symptoms::BEFORE, NOW).answers.set("now", rated(1));
        visit.record_mut(&symptoms::after("head_turn_gaze"), NOW).answers.set("now", rated(8));
    };
    assert!(barred_by(&dizzy).is_some());
    // Rated after the turns themselves: it does not take them back.
    let after = |visit: &mut Visit| {
        let rated = Some(Answer::Ratings(vec![("dizziness".to_string(), 8)]));
        visit.record_mut(&symptoms::after(TASK.id), NOW).answers.set("now", rated);
    };
    assert_eq!(barred_by(&after), None);
}
