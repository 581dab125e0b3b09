//! Changes worked out by hand from the published limits, and the choice of the visit to compare with.

use super::*;
use crate::anatomy::Direction;
use crate::assess::assess;
use crate::calendar::Born;
use crate::capture::answer::{Answer, Trial};
use crate::capture::unread::Unread;
use crate::statistics::proportion::Proportion;
use crate::task::near_point::CHANGE_LIMITS;

const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const DAY: i64 = 24 * 3_600_000;

fn on(day: i64) -> Moment {
    Moment { unix_ms: NOON.unix_ms + day * DAY, ..NOON }
}

fn person() -> Person {
    Person {
        id: "p".into(),
        label: "R-21".into(),
        born: Some(Born::Year(2012)),
        invented: false,
        changed: None,
        unread: Unread::default(),
    }
}

/// A closed visit on a day, for a reason, with a near point trial so that something was examined.
fn visit(id: &str, day: i64, reason: &str) -> Visit {
    let mut visit = Visit::begin(id, "p", "sideline", on(day), "test");
    visit.record_mut(frame::SLOT, on(day)).answers.set("reason", Some(Answer::One(reason.into())));
    let trial = Trial { at_ms: 0, answers: [("break".to_string(), Answer::Number(8.0))].into_iter().collect() };
    visit.record_mut("near_point", on(day)).answers.set("trials", Some(Answer::Trials(vec![trial])));
    visit.closed = Some(on(day));
    visit
}

fn near_point(cm: f64) -> Measure {
    Measure {
        key: "near_point.break".into(),
        task: "near_point",
        what: "near point, break".into(),
        place: Place::Both,
        amount: Amount::Number { value: cm, unit: "cm" },
        better: Better::Lower,
        method: Vec::new(),
        limits: CHANGE_LIMITS,
        norm: None,
    }
}

fn jumps(events: u32, n: u32) -> Measure {
    let amount = Amount::Share(Proportion::new(events, n).expect("fits"));
    let place = Place::Toward(Direction::Left);
    Measure {
        key: "saccade.off".into(),
        what: "jumps not on target".into(),
        place,
        amount,
        limits: &[],
        ..near_point(0.0)
    }
}

static SMOOTH: &[&str] = &["smooth", "few catch-ups", "many catch-ups"];

fn following(step: u8) -> Measure {
    let amount = Amount::Step { step, words: SMOOTH };
    Measure { key: "pursuit.left".into(), what: "following".into(), amount, limits: &[], ..near_point(0.0) }
}

fn with_method(measure: Measure, part: &'static str, words: &str) -> Measure {
    Measure { method: vec![(part, words.to_string())], ..measure }
}

fn judged(then: &Measure, now: &Measure) -> (Verdict, Way) {
    let change = compare(then, now);
    (change.verdict, change.way)
}

/// Limits of 2 (one session), 2.5 (90 days) and 4 cm (a year).
#[test]
fn a_near_point_is_certain_only_beyond_the_largest_limit() {
    for (then, now, expected) in [
        (12.5, 6.0, (Verdict::Certain, Way::Better)),
        (8.0, 12.0, (Verdict::Certain, Way::Worse)),
        (8.0, 11.9, (Verdict::SomeLimits, Way::Worse)),
        (8.0, 10.0, (Verdict::SomeLimits, Way::Worse)),
        (8.0, 9.9, (Verdict::WithinError, Way::Worse)),
        (8.0, 8.0, (Verdict::WithinError, Way::Same)),
    ] {
        assert_eq!(judged(&near_point(then), &near_point(now)), expected, "{then} to {now}");
    }
}

/// 7.97 and 11.96 print as 8 and 12: what a reader works out from the page is what was judged.
#[test]
fn values_are_judged_as_they_are_printed() {
    assert_eq!(judged(&near_point(7.97), &near_point(11.96)).0, Verdict::Certain);
    assert_eq!(judged(&near_point(8.04), &near_point(12.0)).0, Verdict::Certain);
    assert_eq!(off_by(11.17, 8.0), -3.2);
    assert_eq!(off_by(0.25, 0.5), 0.25);
}

/// Newcombe 1998, table II, method 10: 9 of 10 against 3 of 10 is 17 to 81 in 100.
#[test]
fn shares_change_when_the_interval_of_the_difference_leaves_out_zero() {
    let change = compare(&jumps(3, 10), &jumps(9, 10));
    assert_eq!((change.verdict, change.way), (Verdict::Certain, Way::Worse));
    let interval = change.difference.expect("counted");
    assert!((interval.low - 0.1705).abs() < 5e-5 && (interval.high - 0.8090).abs() < 5e-5, "{interval:?}");
    assert_eq!(change.what, "jumps not on target to the left");
    assert_eq!(judged(&jumps(3, 10), &jumps(5, 10)), (Verdict::WithinError, Way::Worse));
    assert_eq!(judged(&jumps(0, 4), &jumps(4, 4)), (Verdict::TooFew, Way::Worse));
    assert_eq!(judged(&jumps(0, 0), &jumps(5, 5)).0, Verdict::TooFew);
}

#[test]
fn grades_are_told_as_seen_and_never_tested() {
    assert_eq!(judged(&following(0), &following(2)), (Verdict::Untested, Way::Worse));
    assert_eq!(judged(&following(1), &following(0)), (Verdict::Untested, Way::Better));
    assert_eq!(judged(&following(1), &following(1)), (Verdict::Untested, Way::Same));
    assert!(!Verdict::Untested.tested() && !Verdict::Untested.beyond_error());
}

#[test]
fn another_way_of_measuring_is_not_tested_and_says_what_it_does_alone() {
    let (then, now) =
        (with_method(near_point(12.0), "end point", "blurred"), with_method(near_point(7.0), "end point", "double"));
    let change = compare(&then, &now);
    assert_eq!(change.verdict, Verdict::OtherMethod);
    let effect = change.method[0].effect.expect("published");
    assert!(effect.says.contains("4.1 cm") && effect.source.short == "McGinnis et al. 2019");
    // Noted once only is not the same as differing.
    let change = compare(&then, &near_point(7.0));
    assert_eq!((change.verdict, change.not_noted.as_slice()), (Verdict::Certain, ["end point"].as_slice()));
    let change = compare(&with_method(jumps(1, 10), "distance", "1 m"), &with_method(jumps(1, 10), "distance", "2 m"));
    assert!(change.verdict == Verdict::OtherMethod && change.method[0].effect.is_none());
}

#[test]
fn values_of_two_kinds_or_units_are_not_compared() {
    let in_dioptres = Measure { amount: Amount::Number { value: 8.0, unit: "PD" }, ..near_point(0.0) };
    assert_eq!(judged(&near_point(8.0), &in_dioptres).0, Verdict::NotAlike);
    assert_eq!(judged(&jumps(1, 5), &near_point(8.0)).0, Verdict::NotAlike);
    let nothing = Measure { amount: Amount::Number { value: f64::NAN, unit: "cm" }, ..near_point(0.0) };
    assert_eq!(judged(&near_point(8.0), &nothing).0, Verdict::NotAlike);
}

#[test]
fn the_own_baseline_is_compared_with_first() {
    let all = [
        visit("old baseline", -400, "baseline"),
        visit("baseline", -30, "baseline"),
        visit("knock", -7, "knock"),
        visit("later", 5, "follow_up"),
    ];
    let now = visit("now", 0, "follow_up");
    assert_eq!(earlier(&now, &all).map(|v| v.id.as_str()), Some("baseline"));
    assert_eq!(earlier(&now, &all[2..]).map(|v| v.id.as_str()), Some("knock"));
    assert_eq!(earlier(&all[0], &all), None);
}

#[test]
fn open_visits_other_people_and_visits_without_a_task_are_passed_over() {
    let now = visit("now", 0, "follow_up");
    let open = Visit { closed: None, ..visit("open", -1, "knock") };
    let someone_else = Visit { person: "q".into(), ..visit("else", -1, "knock") };
    let mut stopped = visit("stopped", -1, "knock");
    stopped.records.retain(|record| record.slot != "near_point");
    let all = [open, someone_else, stopped, now.clone()];
    assert_eq!(earlier(&now, &all), None);
}

fn assessed(visit: &Visit, measures: Vec<Measure>) -> Assessment {
    let mut assessment = assess(&person(), visit);
    assessment.tasks.iter_mut().for_each(|task| task.reading.measures.clear());
    assessment.symptoms.measures.clear();
    let task = assessment.tasks.iter_mut().find(|task| task.task.id == "near_point").expect("in the routine");
    task.reading.measures = measures;
    assessment
}

#[test]
fn two_visits_are_ordered_by_date_whichever_is_given_first() {
    let (follow_up, baseline) = (visit("follow-up", -10, "follow_up"), visit("baseline", 0, "baseline"));
    let (one, other) =
        (assessed(&follow_up, vec![near_point(12.0)]), assessed(&baseline, vec![near_point(6.0), following(1)]));
    let (first, second) =
        (Occasion { visit: &follow_up, assessment: &one }, Occasion { visit: &baseline, assessment: &other });
    let changes = between(second, first);
    assert_eq!(changes, between(first, second));
    assert_eq!((changes.earlier.as_str(), changes.relation), ("follow-up", Relation::BeforeBaseline));
    assert_eq!(changes.all[0].way, Way::Better, "12 cm came first");
    assert_eq!((changes.only_then.len(), changes.only_now.as_slice()), (0, ["following".to_string()].as_slice()));
    assert_eq!(changes.tested(), 1);
    assert_eq!(changes.sources().len(), 3);
}

#[test]
fn glasses_and_influences_that_differ_are_said() {
    let (mut then, mut now) = (visit("then", -10, "knock"), visit("now", 0, "follow_up"));
    for (visit, glasses, influences) in [(&mut then, "not_worn", vec!["tired"]), (&mut now, "worn", vec![])] {
        let record = visit.record_mut(frame::SLOT, NOON);
        record.answers.set("glasses", Some(Answer::One(glasses.into())));
        let influences = influences.into_iter().map(String::from).collect();
        record.answers.set("influences", Some(Answer::Many(influences)));
    }
    let said = circumstances(&then, &now);
    assert_eq!(said[0], "Glasses for near then: has them, not worn now; now: worn now.");
    assert!(said[1].contains("then: short of sleep, worn out; now: nothing known"), "{}", said[1]);
    assert!(circumstances(&now, &now).is_empty());
}

#[test]
fn trials_left_out_at_one_visit_are_another_way_of_measuring() {
    let now = with_method(near_point(7.0), "left out", "trials that stayed single");
    let change = compare(&near_point(12.0), &now);
    assert_eq!(change.verdict, Verdict::OtherMethod);
    assert_eq!((change.method[0].then.as_str(), change.not_noted.len()), ("nothing", 0));
}
