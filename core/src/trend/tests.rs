//! Series of invented visits, and drawings whose places are worked out by hand.

use super::*;
use crate::calendar::Born;
use crate::capture::answer::{Answer, Trial};
use crate::capture::unread::Unread;
use crate::export::svg;
use crate::figure::{Figure, MarkKind, Shape};
use crate::statistics::proportion::Proportion;
use crate::task::near_point::CHANGE_LIMITS;

const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn person() -> Person {
    let born = Some(Born::Year(2012));
    Person { id: "p".into(), label: "R-21".into(), born, invented: false, changed: None, unread: Unread::default() }
}

fn day(day: i64) -> Moment {
    Moment { unix_ms: NOON.unix_ms + day * 86_400_000, ..NOON }
}

fn visit(id: &str, on: i64, cm: f64, end: &str) -> Visit {
    let mut visit = Visit::begin(id, "p", "sideline", day(on), "test");
    let trial = |cm: f64| Trial {
        at_ms: 0,
        answers: [("break".to_string(), Answer::Number(cm)), ("end".to_string(), Answer::One(end.into()))]
            .into_iter()
            .collect(),
    };
    let trials = Answer::Trials(vec![trial(cm), trial(cm), trial(cm)]);
    visit.record_mut("near_point", day(on)).answers.set("trials", Some(trials));
    visit.closed = Some(day(on));
    visit
}

fn near_points(visits: &[Visit]) -> Option<Series> {
    of(&person(), visits).into_iter().find(|series| series.key == "near_point.break")
}

fn marks(figure: &Figure) -> Vec<(f64, f64, MarkKind)> {
    let mark = |shape: &Shape| match shape {
        Shape::Mark { at, kind, .. } => Some((at.0, at.1, *kind)),
        Shape::Line { .. } | Shape::Rect { .. } | Shape::Text { .. } => None,
    };
    figure.shapes.iter().filter_map(mark).collect()
}

fn words(figure: &Figure) -> Vec<String> {
    let text = |shape: &Shape| match shape {
        Shape::Text { text, .. } => Some(text.clone()),
        Shape::Line { .. } | Shape::Rect { .. } | Shape::Mark { .. } => None,
    };
    figure.shapes.iter().filter_map(text).collect()
}

#[test]
fn visits_stand_in_the_order_of_their_dates_and_one_alone_is_no_series() {
    let visits =
        [visit("third", 35, 6.0, "double"), visit("first", 0, 12.5, "double"), visit("second", 7, 10.0, "double")];
    let series = near_points(&visits).expect("three visits");
    let told: Vec<_> = series.points.iter().map(|point| (point.visit.as_str(), point.words.as_str())).collect();
    assert_eq!(told, [("first", "12.5 cm"), ("second", "10 cm"), ("third", "6 cm")]);
    assert!(series.moved());
    assert_eq!(near_points(&visits[..1]), None);
    let open = Visit { closed: None, ..visit("open", 1, 9.0, "double") };
    assert_eq!(near_points(&[visit("first", 0, 12.5, "double"), open]), None, "an open visit is not finished");
    let someone_else = Visit { person: "q".into(), ..visit("else", 1, 9.0, "double") };
    assert_eq!(near_points(&[visit("first", 0, 12.5, "double"), someone_else]), None);
}

/// The widest limit is 4 cm (CARE consortium 2021): its standard error is 4 / (1.96 √2) = 1.443, and 1.96 of these are
/// 4 / √2 = 2.83 cm to either side.
#[test]
fn bars_are_the_error_of_one_measurement() {
    let series = near_points(&[visit("a", 0, 12.5, "double"), visit("b", 7, 10.0, "double")]).expect("two visits");
    let (low, high) = series.points[0].limits.expect("a limit is published");
    assert!((low - 9.672).abs() < 5e-4 && (high - 15.328).abs() < 5e-4, "{low} to {high}");
    assert_eq!(series.limit.map(|limit| limit.value), Some(4.0));
    assert!(errors(&series).expect("bars").contains("4 cm (378 at college"));
}

#[test]
fn a_change_of_method_is_marked_on_the_way() {
    let series = near_points(&[visit("a", 0, 12.5, "blurred"), visit("b", 7, 8.0, "double")]).expect("two visits");
    assert!(!series.points[0].other_method && series.points[1].other_method);
    let figure = drawing(&series).expect("drawn");
    assert!(figure.says.contains("8 cm, measured in another way than before"), "{}", figure.says);
    let dashed =
        figure.shapes.iter().any(|shape| matches!(shape, Shape::Line { dashed: true, from, to, .. } if from.1 != to.1));
    assert!(dashed, "the way there is dashed");
}

fn made(points: &[(i64, f64)]) -> Series {
    let point = |(on, value): &(i64, f64)| Point {
        visit: format!("v{on}"),
        at: day(*on),
        value: *value,
        words: format!("{value} cm"),
        limits: None,
        grade: Grade::WithinRange,
        baseline: *on == 0,
        other_method: false,
    };
    Series {
        key: "near_point.break".into(),
        task: "near_point",
        what: "near point, break".into(),
        unit: "cm",
        words: &[],
        better: Better::Lower,
        norm: None,
        limit: CHANGE_LIMITS.last(),
        points: points.iter().map(point).collect(),
    }
}

/// From 60 to 310 px in 100 days: day 50 lies at 185. The scale runs from 0 to 15 (steps of 5), so 7.5 is half way
/// between 150 and 26 px: 88.
#[test]
fn places_are_in_proportion_to_time_and_value() {
    let figure = drawing(&made(&[(0, 15.0), (50, 7.5), (100, 0.0)])).expect("drawn");
    let places: Vec<_> = marks(&figure).into_iter().map(|(x, y, _)| (x, y)).collect();
    assert_eq!(places, [(60.0, 26.0), (185.0, 88.0), (310.0, 150.0)]);
    let words = words(&figure);
    assert!(words.contains(&"own baseline 15 cm".to_string()) && words.contains(&"2 Mar".to_string()), "{words:?}");
}

#[test]
fn visits_of_one_week_after_a_long_pause_do_not_cover_each_other() {
    let figure = drawing(&made(&[(0, 5.0), (700, 6.0), (701, 7.0), (702, 8.0)])).expect("drawn");
    let at: Vec<f64> = marks(&figure).into_iter().map(|(x, _, _)| x).collect();
    assert!(at.windows(2).all(|pair| pair[1] - pair[0] >= 14.0) && at[3] <= 310.0, "{at:?}");
    let same_day = drawing(&made(&[(3, 5.0), (3, 6.0)])).expect("drawn");
    assert_eq!(marks(&same_day).into_iter().map(|(x, _, _)| x).collect::<Vec<_>>(), [60.0, 310.0]);
    let many: Vec<(i64, f64)> = (0..40).map(|on| (on, 5.0)).collect();
    let at: Vec<f64> = marks(&drawing(&made(&many)).expect("drawn")).into_iter().map(|(x, _, _)| x).collect();
    assert!(at.windows(2).all(|pair| pair[1] > pair[0]), "{at:?}");
}

#[test]
fn grades_are_told_by_shape() {
    let mut series = made(&[(0, 5.0), (7, 6.0), (14, 9.0)]);
    for (point, grade) in series.points.iter_mut().zip([Grade::WithinRange, Grade::NearLimit, Grade::OutsideRange]) {
        point.grade = grade;
    }
    let kinds: Vec<MarkKind> = marks(&drawing(&series).expect("drawn")).into_iter().map(|(_, _, kind)| kind).collect();
    assert_eq!(kinds, [MarkKind::Ring, MarkKind::HalfRing, MarkKind::Diamond]);
    assert!(svg::render(&drawing(&series).expect("drawn")).contains("role=\"img\""));
}

/// Wilson 95 % of 0 of 20 is 0 to 16.1 in 100 (Newcombe 1998, Stat Med 17:857, table I).
#[test]
fn shares_are_drawn_in_a_hundred_with_their_intervals() {
    let measure = |events, n| Measure {
        key: "saccade.off".into(),
        task: "saccade",
        what: "jumps not on target".into(),
        place: crate::anatomy::Place::Both,
        amount: Amount::Share(Proportion::new(events, n).expect("fits")),
        better: Better::Lower,
        method: Vec::new(),
        limits: &[],
        norm: None,
    };
    let mut found = Vec::new();
    add(&mut found, &visit("a", 0, 5.0, "double"), &measure(10, 20), None);
    add(&mut found, &visit("b", 7, 5.0, "double"), &measure(0, 20), None);
    // Nothing counted is no point, not a zero.
    add(&mut found, &visit("c", 9, 5.0, "double"), &measure(0, 0), None);
    let series = &found[0].0;
    assert_eq!(series.points.len(), 2);
    let (low, high) = series.points[1].limits.expect("counted");
    assert!(low == 0.0 && (high - 16.11).abs() < 5e-3, "{low} to {high}");
    let places: Vec<f64> = marks(&drawing(series).expect("drawn")).into_iter().map(|(_, y, _)| y).collect();
    assert_eq!(places, [88.0, 150.0], "half way up, and at the foot");
}
