//! The four directions as the examiner sees them: their right on the left of the paper.

use super::{Cell, Followed, Quality, Rule, Speed};
use crate::anatomy::Direction;
use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use crate::side_by_side::drawing::{WIDTH, line, text};

const HEIGHT: f64 = 244.0;
const CENTRE: (f64, f64) = (WIDTH / 2.0, 122.0);

/// Draws the grade of each direction and speed at the end of an arrow into that direction.
pub(super) fn compass(seen: &[Followed; 4], rule: &Rule) -> Figure {
    let mut shapes = Vec::new();
    for followed in seen {
        shapes.extend(arrow(followed.direction));
        shapes.extend(corner(followed, rule));
    }
    shapes.push(Shape::Mark { at: CENTRE, kind: MarkKind::Disc, size: 9.0 });
    let told = seen.each_ref().map(|followed| {
        let words = if followed.any() { followed.words() } else { "not recorded".to_string() };
        format!("{}: {words}", followed.direction.phrase())
    });
    let says = format!("Following as the examiner sees it, their right on the left. {}.", told.join(". "));
    Figure { id: "pursuit.compass".into(), title: "Following".into(), says, width: WIDTH, height: HEIGHT, shapes }
}

/// A direction's heading and its two lines, "slow ○ smooth" and "fast ◐ few, from 3".
fn corner(followed: &Followed, rule: &Rule) -> Vec<Shape> {
    let (x, y, heading) = match followed.direction {
        Direction::Right => (0.0, 108.0, "their right"),
        Direction::Left => (WIDTH - 136.0, 108.0, "their left"),
        Direction::Up => (CENTRE.0 - 52.0, 16.0, "up"),
        Direction::Down => (CENTRE.0 - 52.0, 200.0, "down"),
    };
    let mut shapes = vec![text((x, y), heading, Anchor::Start, Ink::Strong, true)];
    for (speed, row) in Speed::BOTH.into_iter().zip(1..) {
        let y = y + 19.0 * f64::from(row);
        shapes.push(text((x, y), speed.word(), Anchor::Start, Ink::Soft, false));
        let cell = followed.at(speed);
        let kind = cell.and_then(|cell| rule.grade(speed, cell.quality).mark()).unwrap_or(MarkKind::Dash);
        shapes.push(Shape::Mark { at: (x + 39.0, y - 4.5), kind, size: 12.0 });
        let words = cell.map_or("not noted".to_string(), short);
        shapes.push(text((x + 50.0, y), &words, Anchor::Start, Ink::Strong, false));
    }
    shapes
}

fn short(cell: Cell) -> String {
    let word = match cell.quality {
        Quality::Smooth => "smooth",
        Quality::Few => "few",
        Quality::Many => "many",
        Quality::Cannot => "cannot",
    };
    cell.from.map_or(word.to_string(), |cycle| format!("{word}, {}", super::ordinal(cycle)))
}

/// A stroke from the middle with two barbs at its end.
fn arrow(direction: Direction) -> [Shape; 3] {
    let (dx, dy) = match direction {
        Direction::Right => (-1.0, 0.0),
        Direction::Left => (1.0, 0.0),
        Direction::Up => (0.0, -1.0),
        Direction::Down => (0.0, 1.0),
    };
    // Sideways there is less room: the words stand at the height of the middle.
    let (from, to) = if dy == 0.0 { (9.0, 30.0) } else { (9.0, 52.0) };
    let at = |along: f64, across: f64| (CENTRE.0 + along * dx + across * dy, CENTRE.1 + along * dy + across * dx);
    let stroke = |a, b| line(a, b, Ink::Soft, 2.0, false);
    [
        stroke(at(from, 0.0), at(to, 0.0)),
        stroke(at(to, 0.0), at(to - 6.0, 5.0)),
        stroke(at(to, 0.0), at(to - 6.0, -5.0)),
    ]
}
