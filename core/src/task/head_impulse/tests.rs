//! Tests of the head impulse: the danger sign, the catch-up jump, where it is not read, whom it is kept from.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::{Answer, Cell};
use crate::sign::{self, Seen};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Vertigo for more than a day, nystagmus, a trained examiner.
const VALID: [(&str, &str); 3] = [("vertigo", "day"), ("nystagmus", "seen"), ("trained", "yes")];

fn visit(answers: &[(&str, &str)], impulse: &[(&str, &str)]) -> Visit {
    let mut visit = Visit::begin("v", "p", "full", NOW, "test");
    let record = visit.record_mut(TASK.id, NOW);
    record.state = State::Done;
    let mut set = |key: &str, answer: Answer| {
        assert!(FORM.field(key).is_some_and(|field| field.accepts(&answer)), "the form refuses {key}");
        record.answers.set(key, Some(answer));
    };
    for (key, id) in answers {
        set(key, Answer::One((*id).into()));
    }
    if !impulse.is_empty() {
        let cell = |(row, grade): &(&str, &str)| Cell {
            row: (*row).into(),
            column: "turn".into(),
            grade: (*grade).into(),
            from_cycle: None,
        };
        set("impulse", Answer::Grid(impulse.iter().map(cell).collect()));
    }
    visit
}

fn read_visit(visit: &Visit) -> Reading {
    (TASK.read)(&Context { visit, age: None }, visit.record(TASK.id).expect("opened by the test"))
}

/// A valid test with these outcomes to the right and to the left.
fn valid(right: &str, left: &str) -> Reading {
    read_visit(&visit(&VALID, &[("right", right), ("left", left)]))
}

fn instead(key: &str, id: &str) -> Reading {
    let answers = VALID.map(|(known, answer)| if known == key { (known, id) } else { (known, answer) });
    read_visit(&visit(&answers, &[("right", "steady"), ("left", "steady")]))
}

fn one(reading: &Reading) -> (&str, Grade) {
    assert_eq!(reading.findings.len(), 1);
    (reading.findings[0].key.as_str(), reading.findings[0].grade)
}

fn said(reading: &Reading) -> String {
    reading.findings[0].details.join(" ")
}

fn gaps_of(reading: &Reading) -> Vec<(&str, Why)> {
    reading.gaps.iter().map(|gap| (gap.what.as_str(), gap.why.clone())).collect()
}

/// Kattah et al. 2009: a normal impulse in continuous vertigo is the central sign.
#[test]
fn a_normal_impulse_in_continuous_vertigo_with_nystagmus_is_the_danger_sign() {
    let reading = valid("steady", "steady");
    assert_eq!(one(&reading), ("head_impulse.central", Grade::Urgent));
    let flags: Vec<(&str, &str)> = reading.flags.iter().map(|f| (f.id.as_str(), f.seen.as_str())).collect();
    let words = "a steady head impulse to both sides, in vertigo with nystagmus";
    assert_eq!(flags, [("head_impulse.central", words)]);
    assert!(reading.findings[0].details[0].contains("emergency care now"));
    // Gottlieb et al. 2023: head impulse alone 68.8 / 92.5.
    assert!(said(&reading).contains("68.8 %") && said(&reading).contains("92.5 %"));
    assert_eq!(gaps_of(&reading), []);
}

#[test]
fn a_catch_up_jump_is_never_safe() {
    for (right, left, place) in [
        ("catch_up", "steady", Place::Toward(Side::Right.direction())),
        ("steady", "catch_up", Place::Toward(Side::Left.direction())),
        ("catch_up", "unclear", Place::Toward(Side::Right.direction())),
        ("catch_up", "catch_up", Place::Both),
    ] {
        let reading = valid(right, left);
        assert_eq!(one(&reading), ("head_impulse.catch_up", Grade::OutsideRange), "{right} {left}");
        assert_eq!((reading.findings[0].place, reading.flags.len()), (place, 0));
        let said = said(&reading);
        assert!(reading.findings[0].details[0].starts_with("This does not make it safe"), "{said}");
        for figure in
            ["84 %", "100 %", "94 % (82 to 98)", "87 % (75 to 94)", "83 % and 44 %", "12 %", "20 to 50 %", "0.29"]
        {
            assert!(said.contains(figure), "{figure} is not told: {said}");
        }
    }
}

#[test]
fn it_is_not_read_where_it_is_not_valid() {
    for (key, id, grade) in [
        ("vertigo", "spells", Grade::NoRange),
        ("vertigo", "position", Grade::NoRange),
        ("vertigo", "none", Grade::NoRange),
        ("nystagmus", "none", Grade::NoRange),
        ("nystagmus", "unknown", Grade::NoRange),
        ("trained", "no", Grade::OutsideRange),
    ] {
        let reading = instead(key, id);
        assert_eq!(one(&reading), ("head_impulse.not_read", grade), "{key} {id}");
        assert!(reading.flags.is_empty() && reading.signs.is_empty(), "{key} {id}");
        assert!(said(&reading).starts_with("Not read"), "{}", said(&reading));
    }
    // Nothing is ever in range: a steady impulse is not a result to be glad of.
    for reading in [valid("unclear", "steady"), valid("unclear", "unclear"), instead("vertigo", "none")] {
        assert!(reading.findings.iter().all(|finding| finding.grade != Grade::WithinRange));
    }
}

#[test]
fn before_a_day_is_over_the_danger_sign_counts_already() {
    let reading = instead("vertigo", "hours");
    assert_eq!((one(&reading).1, reading.flags.len()), (Grade::Urgent, 1));
    assert!(said(&reading).contains("24 h"));
    let day = valid("steady", "steady");
    assert!(!said(&day).contains("24 h"));
}

#[test]
fn what_was_not_asked_is_a_gap_and_loses_no_danger_sign() {
    let steady = [("right", "steady"), ("left", "steady")];
    let untold = read_visit(&visit(&VALID[..2], &steady));
    assert_eq!(untold.flags.len(), 1);
    assert_eq!(gaps_of(&untold), [("whether the examiner is trained in the head impulse test", Why::NotRecorded)]);
    let unknown = read_visit(&visit(&[], &steady));
    assert_eq!(one(&unknown), ("head_impulse.not_read", Grade::NoRange));
    assert_eq!(unknown.gaps.len(), 3);
}

#[test]
fn one_side_alone_stays_open() {
    let reading = read_visit(&visit(&VALID, &[("right", "steady")]));
    assert_eq!(one(&reading), ("head_impulse.open", Grade::OutsideRange));
    assert_eq!(reading.findings[0].headline, "Head impulse steady to the right, not done to the left");
    assert_eq!(gaps_of(&reading), [("head impulse to the left", Why::NotRecorded)]);
    assert_eq!((reading.flags.len(), reading.signs.len()), (0, 2));
}

#[test]
fn signs_are_steady_or_catch_up_by_side() {
    let reading = valid("catch_up", "steady");
    let found: Vec<(What, Place, Seen)> = reading.signs.iter().map(|sign| (sign.what, sign.place, sign.seen)).collect();
    let (right, left) = (Place::Toward(Side::Right.direction()), Place::Toward(Side::Left.direction()));
    assert_eq!(
        found,
        [
            (What::SteadyImpulse, right, Seen::No),
            (What::CatchUpImpulse, right, Seen::Yes),
            (What::SteadyImpulse, left, Seen::Yes),
            (What::CatchUpImpulse, left, Seen::No),
        ]
    );
    assert!(!sign::looked_for(&valid("unclear", "steady").signs, What::SteadyImpulse, right));
    for (right, left) in [("steady", "steady"), ("unclear", "catch_up"), ("unclear", "steady")] {
        let reading = valid(right, left);
        assert!(reading.signs.iter().all(|sign| sign.finding == reading.findings[0].key), "{right} {left}");
    }
}

#[test]
fn nothing_not_done_and_not_testable_are_three_things() {
    assert_eq!(gaps_of(&read_visit(&visit(&[], &[]))), [("head impulse test", Why::NotRecorded)]);
    for (state, why) in [
        (State::NotDone("no trained examiner".into()), Why::NotDone("no trained examiner".into())),
        (State::NotTestable("blinks".into()), Why::NotTestable("blinks".into())),
    ] {
        let mut skipped = visit(&[], &[]);
        skipped.record_mut(TASK.id, NOW).state = state;
        let reading = read_visit(&skipped);
        assert_eq!((gaps_of(&reading), reading.findings.len()), (vec![("head impulse test", why)], 0));
    }
    let mut stopped = visit(&VALID, &[("right", "steady"), ("left", "steady")]);
    stopped.record_mut(TASK.id, NOW).state = State::NotTestable("vomited".into());
    assert_eq!(read_visit(&stopped).flags.len(), 1, "a danger sign outlives a skip");
}

#[test]
fn it_is_kept_from_those_it_can_hurt_and_those_it_says_nothing_of() {
    let reason = |cautions: &[&str], reason: &str, since: &str, safety: Option<&str>| {
        let mut visit = Visit::begin("v", "p", "full", NOW, "test");
        let record = visit.record_mut(frame::SLOT, NOW);
        let ids = cautions.iter().map(|id| (*id).to_string()).collect();
        record.answers.set("cautions", Some(Answer::Many(ids)));
        record.answers.set("reason", Some(Answer::One(reason.into())));
        record.answers.set("since", Some(Answer::One(since.into())));
        if let Some(key) = safety {
            visit.record_mut(safety::SLOT, NOW).answers.set(key, Some(Answer::One("yes".into())));
        }
        (TASK.barred)(&Context { visit: &visit, age: None })
    };
    let starts = |reason: Option<&str>, words: &str| reason.is_some_and(|reason| reason.starts_with(words));
    assert_eq!(reason(&["vertigo"], "dizzy", "hours", None), None);
    assert!(starts(reason(&["vertigo", "neck"], "dizzy", "hours", None), "neck"));
    assert!(starts(reason(&["vertigo"], "dizzy", "hours", Some("neck")), "neck"));
    assert!(starts(reason(&["vertigo"], "knock", "week", None), "after a knock"));
    assert_eq!(reason(&["vertigo"], "knock", "longer", None), None);
    assert!(starts(reason(&["vertigo", "surgery"], "dizzy", "hours", None), "recent surgery"));
    assert!(starts(reason(&[], "dizzy", "hours", None), "read only with vertigo"));
    let empty = Visit::begin("v", "p", "full", NOW, "test");
    assert!(starts((TASK.barred)(&Context { visit: &empty, age: None }), "read only with vertigo"));
}

#[test]
fn mirrored_answers_give_mirrored_findings() {
    let outcomes = ["steady", "catch_up", "unclear"];
    for right in outcomes {
        for left in outcomes {
            let (here, there) = (told_of(&valid(right, left)), told_of(&valid(left, right)));
            let mut turned: Vec<String> = here.iter().map(|words| swapped(words)).collect();
            let mut there = there;
            turned.sort();
            there.sort();
            assert_eq!(turned, there, "{right} {left}");
        }
    }
}

/// What a reading says about sides. Headlines that list both sides list the right one first in either.
fn told_of(reading: &Reading) -> Vec<String> {
    let listed = |headline: &str| {
        let mut parts: Vec<String> =
            headline.trim_start_matches("Head impulse ").split(", ").map(str::to_string).collect();
        parts.sort_by_key(|part| swapped_to_right(part));
        parts.join("; ")
    };
    let findings = reading.findings.iter();
    let mut told: Vec<String> =
        findings.map(|f| format!("{} {:?} {:?} {}", f.key, f.place, f.grade, listed(&f.headline))).collect();
    told.extend(reading.signs.iter().map(|sign| format!("{sign:?}")));
    told.extend(reading.flags.iter().map(|flag| flag.seen.clone()));
    told
}

fn swapped_to_right(words: &str) -> String {
    words.replace("left", "right")
}

fn swapped(words: &str) -> String {
    let pairs = [
        ("right", "\u{1}"),
        ("left", "right"),
        ("\u{1}", "left"),
        ("Right", "\u{1}"),
        ("Left", "Right"),
        ("\u{1}", "Left"),
    ];
    pairs.iter().fold(words.to_string(), |words, (from, to)| words.replace(from, to))
}
