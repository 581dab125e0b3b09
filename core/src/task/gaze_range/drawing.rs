//! The eight directions of each eye as the examiner sees them: their right eye, and their right, on the left.

use super::reach::{Gaze, Range, Reach};
use crate::anatomy::{Direction, Eye};
use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use crate::side_by_side::drawing::{WIDTH, line, text};

const HEIGHT: f64 = 230.0;
const ACROSS: f64 = WIDTH / 4.0;
const MIDDLE: f64 = 108.0;

/// Length of a stroke to the end of gaze.
const LONG: f64 = 46.0;

/// Draws each eye as a star of eight strokes, as long as the eye goes, with a mark at each end.
pub(super) fn stars(ranges: &[Range; 2]) -> Figure {
    let mut shapes: Vec<Shape> = ranges.iter().flat_map(star).collect();
    shapes.push(text((0.0, HEIGHT - 8.0), "their right", Anchor::Start, Ink::Soft, false));
    shapes.push(text((WIDTH, HEIGHT - 8.0), "their left", Anchor::End, Ink::Soft, false));
    let told = ranges.each_ref().map(|range| format!("Their {} eye: {}", range.eye.word(), words(range)));
    let says = format!("Range of gaze as the examiner sees it, their right on the left. {}.", told.join(". "));
    Figure { id: "gaze_range.stars".into(), title: "Range of gaze".into(), says, width: WIDTH, height: HEIGHT, shapes }
}

fn star(range: &Range) -> Vec<Shape> {
    let x = match range.eye {
        Eye::Right => ACROSS,
        Eye::Left => WIDTH - ACROSS,
    };
    let heading = format!("their {} eye", range.eye.word());
    let mut shapes = vec![
        text((x, 16.0), &heading, Anchor::Middle, Ink::Strong, true),
        text((x, 40.0), "up", Anchor::Middle, Ink::Soft, false),
        text((x, 178.0), "down", Anchor::Middle, Ink::Soft, false),
        text((x, 202.0), &short(range), Anchor::Middle, Ink::Strong, false),
    ];
    for (gaze, reach) in range.cells() {
        let (dx, dy) = way(gaze);
        let at = |along: f64| (x + along * dx, MIDDLE + along * dy);
        let (length, kind) = end(reach);
        shapes.push(line(at(5.0), at(LONG), Ink::Soft, 1.0, true));
        shapes.push(line(at(5.0), at(length), Ink::Strong, 2.0, false));
        shapes.push(Shape::Mark { at: at(length + 7.0), kind, size: 11.0 });
    }
    shapes.push(Shape::Mark { at: (x, MIDDLE), kind: MarkKind::Disc, size: 8.0 });
    shapes
}

/// How far the stroke goes, and what stands at its end. The lengths show an order, no angle.
fn end(reach: Option<Reach>) -> (f64, MarkKind) {
    match reach {
        Some(Reach::Full) => (LONG, MarkKind::Ring),
        Some(Reach::Slight) => (0.8 * LONG, MarkKind::HalfRing),
        Some(Reach::Clear) => (0.5 * LONG, MarkKind::Diamond),
        Some(Reach::Middle) => (0.2 * LONG, MarkKind::Cross),
        None => (5.0, MarkKind::Dash),
    }
}

/// A unit step on the paper.
fn way(gaze: &Gaze) -> (f64, f64) {
    let step = |direction: &Direction| match direction {
        Direction::Right => (-1.0, 0.0),
        Direction::Left => (1.0, 0.0),
        Direction::Up => (0.0, -1.0),
        Direction::Down => (0.0, 1.0),
    };
    let (x, y) = gaze.parts.iter().map(step).fold((0.0_f64, 0.0_f64), |sum, step| (sum.0 + step.0, sum.1 + step.1));
    let long = x.hypot(y);
    (x / long, y / long)
}

/// One line under the star.
fn short(range: &Range) -> String {
    let count = |wanted: fn(Option<Reach>) -> bool| range.cells().filter(|(_, reach)| wanted(*reach)).count();
    let limited = count(|reach| reach.is_some_and(|reach| reach > Reach::Full));
    let missing = count(|reach| reach.is_none());
    match (limited, missing) {
        (0, 0) => "all full".to_string(),
        (_, 8) => "not noted".to_string(),
        (0, missing) => format!("full, {missing} not noted"),
        (limited, 0) => format!("{limited} of 8 short"),
        (limited, missing) => format!("{limited} short, {missing} not noted"),
    }
}

fn words(range: &Range) -> String {
    if range.all_full() {
        return "full in all eight directions".to_string();
    }
    let each = range
        .cells()
        .map(|(gaze, reach)| format!("{} {}", gaze.phrase, reach.map_or("not noted", |reach| reach.words())));
    each.collect::<Vec<_>>().join(", ")
}
