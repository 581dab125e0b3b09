//! What is shown on a screen, through the edits of every task: what it answers, how long it is kept, and that it is told.

use sidelight_core::archive;
use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::answer::{Answer, Made, Series, Tap};
use sidelight_core::capture::edit::{self, Edit};
use sidelight_core::capture::showing::{Setting, Showing, Shown, Value, key, program};
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::{self, Verdict};
use sidelight_core::measure::Measure;
use sidelight_core::task;

use crate::dice::Dice;
use crate::odd_showing;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

fn showing(id: &str, settings: &[(&str, f64)]) -> Showing {
    let setting = |(key, value): &(&str, f64)| Setting {
        key: (*key).to_string(),
        value: Value::Number(*value),
        unit: String::new(),
    };
    let screen = Shown {
        px_per_mm: 6.0,
        distance_cm: 40.0,
        pixel_ratio: 3.0,
        zoom: 1.0,
        width_px: 844.0,
        height_px: 390.0,
        frames_a_second: Some(60.0),
        drawn: 1200,
        dropped: 0,
        held: true,
    };
    Showing {
        at: NOW,
        program: id.to_string(),
        settings: settings.iter().map(setting).collect(),
        instruction: String::new(),
        seconds: 20.0,
        stopped: false,
        elsewhere: false,
        screen: Some(screen),
        unread: Unread::default(),
    }
}

/// The answers of a task after these showings, by key.
fn answered(id: &str, showings: &[Showing]) -> Vec<(String, Answer)> {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let form = task::by_id(id).expect("a task").form;
    for showing in showings {
        edit::apply(&mut visit, form, id, Edit::Shown(showing.clone()), NOW).expect("accepted");
    }
    let record = visit.record(id).expect("a record");
    record.answers.iter().map(|(key, answer)| (key.to_string(), answer.clone())).collect()
}

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

/// A task, what is shown during it, and what that answers.
type Case = (&'static str, Vec<Showing>, Vec<(&'static str, Answer)>);

/// Worked out by hand: 40 cm × tan 8° = 5.62 cm, twice that between both places.
#[test]
fn what_was_shown_answers_how_it_was_done() {
    let stripes = |speed| showing(program::STRIPES, &[(key::SPEED, speed), (key::STRIPE, 4.0)]);
    let following = |speed| showing(program::FOLLOWING, &[(key::SPEED, speed)]);
    let cm = Answer::Number;
    let cases: Vec<Case> = vec![
        (
            "optokinetic",
            vec![stripes(10.0).told("follow")],
            vec![("stimulus", one("screen")), ("width", cm(4.0)), ("speed", cm(10.0)), ("instruction", one("follow"))],
        ),
        ("optokinetic", vec![stripes(10.0), stripes(20.0)], vec![("stimulus", one("screen")), ("width", cm(4.0))]),
        ("optokinetic", vec![following(15.0)], vec![]),
        (
            "saccade",
            vec![showing(program::JUMPS, &[(key::EACH_WAY, 8.0)])],
            vec![("distance", cm(40.0)), ("separation", cm(11.2))],
        ),
        (
            "antisaccade",
            vec![showing(program::ANTISACCADE, &[(key::EACH_WAY, 8.0)])],
            vec![("stimulus", one("screen")), ("distance", cm(40.0)), ("offset", cm(5.6))],
        ),
        (
            "pursuit",
            vec![following(15.0), following(30.0)],
            vec![("target", one("screen")), ("distance", cm(40.0)), ("speed", one("as_said"))],
        ),
        (
            "pursuit",
            vec![following(8.0)],
            vec![("target", one("screen")), ("distance", cm(40.0)), ("speed", one("slower"))],
        ),
        ("pursuit", vec![following(21.0)], vec![("target", one("screen")), ("distance", cm(40.0))]),
        ("vergence", vec![showing(program::NEAR_FAR, &[])], vec![("near", cm(40.0))]),
        (
            "head_turn_gaze",
            vec![showing(program::HEAD_TURNS, &[(key::PACE, 120.0)])],
            vec![("pace", one("slower")), ("distance", cm(40.0))],
        ),
        ("gaze_range", vec![showing(program::STILL, &[])], vec![]),
    ];
    for (task, showings, expected) in cases {
        let expected: Vec<(String, Answer)> = expected.into_iter().map(|(key, a)| (key.to_string(), a)).collect();
        assert_eq!(answered(task, &showings), expected, "{task}: {showings:?}");
    }
}

#[test]
fn a_screen_that_is_not_known_answers_no_distance() {
    let elsewhere = Showing { elsewhere: true, screen: None, ..showing(program::ANTISACCADE, &[(key::EACH_WAY, 8.0)]) };
    assert_eq!(answered("antisaccade", &[elsewhere]), vec![("stimulus".to_string(), one("screen"))]);
}

/// A visit with ten taps each way at this field, and these showings.
fn examined(task: &str, key: &str, mark: &str, answers: &[(&str, &str)], showings: &[Showing]) -> Vec<Measure> {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let form = task::by_id(task).expect("a task").form;
    let mut edit = |edit| drop(edit::apply(&mut visit, form, task, edit, NOW).expect("accepted"));
    for (key, id) in answers {
        edit(Edit::Answer((*key).to_string(), Some(one(id))));
    }
    showings.iter().for_each(|showing| edit(Edit::Shown(showing.clone())));
    let record = visit.record_mut(task, NOW);
    let tap = |at: u32, pad: &str| Tap {
        at_ms: 1000 * at,
        pad: pad.to_string(),
        mark: mark.to_string(),
        also: vec![],
        made: Made::Tapped,
    };
    let taps = (0..20).map(|at| tap(at, if at % 2 == 0 { "right" } else { "left" })).collect();
    record.answers.set(key, Some(Answer::Series(Series { runs: vec![], taps })));
    let person = Person {
        id: "p".into(),
        label: "R-21".into(),
        born: None,
        invented: true,
        changed: None,
        unread: Unread::default(),
    };
    let assessment = assess(&person, &visit);
    assessment.tasks.iter().flat_map(|task| task.reading.measures.clone()).collect()
}

/// How the first value of a task that both visits have is compared: whether its way of measuring differs, and in what.
fn compared(then: &[Measure], now: &[Measure]) -> (bool, Vec<&'static str>) {
    let (then, now) = (then.first().expect("a measure"), now.first().expect("a measure"));
    assert_eq!(then.key, now.key);
    let change = change::compare(then, now);
    (change.verdict == Verdict::OtherMethod, change.method.iter().map(|differs| differs.part).collect())
}

#[test]
fn a_tape_is_not_compared_with_a_screen_nor_one_speed_with_another() {
    let stripes = |speed| showing(program::STRIPES, &[(key::SPEED, speed), (key::STRIPE, 4.0)]);
    let with = |showings: &[Showing]| examined("optokinetic", "stripes", "beat", &[], showings);
    let tape = examined("optokinetic", "stripes", "beat", &[("stimulus", "tape")], &[]);
    let (slow, same, fast) = (with(&[stripes(10.0)]), with(&[stripes(10.0)]), with(&[stripes(20.0)]));
    assert_eq!(compared(&tape, &slow), (true, vec!["stripes on a"]));
    assert_eq!(compared(&slow, &same), (false, vec![]));
    assert_eq!(compared(&slow, &fast), (true, vec!["stripe speed", "on a screen"]));
    let mixed = with(&[stripes(20.0), stripes(10.0)]);
    assert_eq!(compared(&slow, &mixed), (true, vec!["on a screen"]), "no one speed is true of both");
    assert_eq!(compared(&mixed, &with(&[stripes(10.0), stripes(20.0)])), (false, vec![]), "in whatever order");
    // 6 px to the millimetre, 40 cm: 844 by 390 px are 20 by 9 degrees; twice as large are 38 and 18.
    let mut large = stripes(10.0);
    large.screen = large.screen.map(|screen| Shown { width_px: 1688.0, height_px: 780.0, ..screen });
    assert_eq!(compared(&slow, &with(&[large])), (true, vec!["on a screen"]), "a larger screen is another test");
}

#[test]
fn jumps_on_a_screen_are_not_compared_with_held_targets() {
    let jumps = |each| showing(program::JUMPS, &[(key::EACH_WAY, each), (key::EVERY, 1.5)]);
    let with = |showings: &[Showing]| examined("saccade", "jumps", "on", &[], showings);
    let (held, shown) = (with(&[]), with(&[jumps(8.0)]));
    assert_eq!(compared(&held, &shown), (true, vec!["on a screen"]));
    assert_eq!(compared(&held, &held), (false, vec![]));
    assert_eq!(compared(&shown, &shown), (false, vec![]));
    assert_eq!(compared(&shown, &with(&[jumps(5.0)])), (true, vec!["distance between the targets", "on a screen"]));
}

/// Whatever a file holds: it comes back the same, no task stops over it, and what it answers its form can take.
#[test]
fn odd_showings_are_kept_and_answer_nothing_their_form_cannot_take() {
    for seed in 0..2000 {
        let mut dice = Dice::new(seed);
        let task = dice.pick(task::ALL);
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        for showing in odd_showing::some(&mut dice, NOW) {
            edit::apply(&mut visit, task.form, task.id, Edit::Shown(showing), NOW).expect("accepted");
        }
        let stored = archive::read_visit(&archive::write_visit(&visit)).unwrap_or_else(|no| panic!("{seed}: {no}"));
        assert_eq!(stored, visit, "{seed}");
        for (key, answer) in visit.records[0].answers.iter() {
            assert!(task.form.field(key).is_some_and(|field| field.accepts(answer)), "{seed}: {key} {answer:?}");
        }
    }
}
