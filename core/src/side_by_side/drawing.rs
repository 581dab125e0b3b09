//! Two drawings that every task by direction shares: the outcomes in their order, and shares with their intervals.

use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use crate::statistics::proportion::{Proportion, wilson};

/// Width of the drawings: a phone's column.
pub const WIDTH: f64 = 340.0;

/// One repetition in a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dot {
    /// Its outcome.
    pub kind: MarkKind,
    /// Whether it is underlined, for a remark.
    pub underlined: bool,
}

/// The repetitions of one direction.
#[derive(Debug)]
pub struct Row<'a> {
    /// The direction.
    pub label: &'a str,
    /// The count, in words: "9 of 10 on target".
    pub tally: String,
    /// The repetitions in their order.
    pub dots: Vec<Dot>,
}

/// A share in one direction.
#[derive(Debug)]
pub struct Bar<'a> {
    /// The direction.
    pub label: &'a str,
    /// The share.
    pub share: Proportion,
    /// The mark that stands for its grade.
    pub kind: MarkKind,
}

/// Draws every repetition in its order, one row for each direction, so that a pattern is seen before it is computed.
/// The legend names the shapes; a last entry without a shape explains the underline.
#[must_use]
pub fn strip(id: &str, title: &str, says: String, rows: &[Row<'_>], legend: &[(Option<MarkKind>, &str)]) -> Figure {
    let most = rows.iter().map(|row| row.dots.len()).max().unwrap_or(0);
    let grid = if most <= 60 { Grid::ROOMY } else { Grid::TIGHT };
    let mut shapes = Vec::new();
    let mut y = 0.0;
    for row in rows {
        shapes.push(text((0.0, y + 14.0), row.label, Anchor::Start, Ink::Soft, false));
        shapes.push(text((WIDTH, y + 14.0), &row.tally, Anchor::End, Ink::Strong, true));
        y += 20.0;
        for line in row.dots.chunks(grid.per_line) {
            let dots = line.iter().enumerate();
            shapes.extend(dots.flat_map(|(at, dot)| dot_shapes((grid.x(at), y + grid.step / 2.0), *dot, grid)));
            y += grid.step + 4.0;
        }
        y += 10.0;
    }
    y = draw_legend(&mut shapes, legend, y);
    Figure { id: id.to_string(), title: title.to_string(), says, width: WIDTH, height: y, shapes }
}

/// Draws shares from none to all with their 95 % intervals, one line for each direction.
#[must_use]
pub fn intervals(id: &str, title: &str, says: String, bars: &[Bar<'_>], all: &str) -> Figure {
    const LEFT: f64 = 64.0;
    const RIGHT: f64 = 268.0;
    let x = |share: f64| LEFT + share * (RIGHT - LEFT);
    let mut shapes = Vec::new();
    let bottom = 28.0 * bars.len() as f64 + 6.0;
    for at in [0.0, 0.5, 1.0] {
        shapes.push(line((x(at), 2.0), (x(at), bottom), Ink::Soft, 1.0, at > 0.0 && at < 1.0));
    }
    for (bar, at) in bars.iter().zip(0..) {
        let y = 18.0 + 28.0 * f64::from(at);
        shapes.push(text((0.0, y + 5.0), bar.label, Anchor::Start, Ink::Soft, false));
        let counted = format!("{} of {}", bar.share.events(), bar.share.n());
        shapes.push(text((WIDTH, y + 5.0), &counted, Anchor::End, Ink::Strong, true));
        let (Some(rate), Some(interval)) = (bar.share.rate(), wilson(bar.share.events(), bar.share.n(), 0.95)) else {
            shapes.push(Shape::Mark { at: (x(0.5), y), kind: MarkKind::Dash, size: 12.0 });
            continue;
        };
        shapes.push(line((x(interval.low), y), (x(interval.high), y), Ink::Strong, 2.0, false));
        shapes.push(Shape::Mark { at: (x(rate), y), kind: bar.kind, size: 13.0 });
    }
    shapes.push(line((LEFT, bottom), (RIGHT, bottom), Ink::Soft, 1.0, false));
    let below = bottom + 18.0;
    shapes.push(text((LEFT, below), "none", Anchor::Middle, Ink::Soft, false));
    shapes.push(text((x(0.5), below), "half", Anchor::Middle, Ink::Soft, false));
    shapes.push(text((RIGHT - 12.0, below), all, Anchor::Start, Ink::Soft, false));
    Figure { id: id.to_string(), title: title.to_string(), says, width: WIDTH, height: below + 6.0, shapes }
}

/// Text at a point; for drawings of a task's own.
#[must_use]
pub fn text(at: (f64, f64), words: &str, anchor: Anchor, ink: Ink, bold: bool) -> Shape {
    Shape::Text { at, text: words.to_string(), anchor, ink, bold }
}

/// A stroke; for drawings of a task's own.
#[must_use]
pub fn line(from: (f64, f64), to: (f64, f64), ink: Ink, width: f64, dashed: bool) -> Shape {
    Shape::Line { from, to, ink, width, dashed }
}

/// How marks stand in a row; groups of five are set apart so that they can be counted.
#[derive(Clone, Copy)]
struct Grid {
    per_line: usize,
    step: f64,
    size: f64,
    group_gap: f64,
}

impl Grid {
    const ROOMY: Grid = Grid { per_line: 20, step: 15.5, size: 12.0, group_gap: 6.0 };
    const TIGHT: Grid = Grid { per_line: 40, step: 8.0, size: 7.0, group_gap: 2.0 };

    fn x(self, at: usize) -> f64 {
        self.step * (at as f64 + 0.5) + self.group_gap * (at / 5) as f64
    }
}

fn dot_shapes(at: (f64, f64), dot: Dot, grid: Grid) -> Vec<Shape> {
    let mut shapes = vec![Shape::Mark { at, kind: dot.kind, size: grid.size }];
    if dot.underlined {
        let (half, y) = (grid.size / 2.0, at.1 + grid.step / 2.0 + 1.5);
        shapes.push(line((at.0 - half, y), (at.0 + half, y), Ink::Strong, 2.0, false));
    }
    shapes
}

/// Draws the legend from `y` down and returns where it ends.
fn draw_legend(shapes: &mut Vec<Shape>, legend: &[(Option<MarkKind>, &str)], y: f64) -> f64 {
    // A letter of 13 units is about 7 wide on average; the room is generous.
    let room = |words: &str| 18.0 + 7.0 * words.chars().count() as f64 + 14.0;
    let (mut x, mut y) = (0.0, y + 12.0);
    for (kind, words) in legend {
        if x > 0.0 && x + room(words) > WIDTH + 14.0 {
            (x, y) = (0.0, y + 20.0);
        }
        match kind {
            Some(kind) => shapes.push(Shape::Mark { at: (x + 6.0, y - 4.0), kind: *kind, size: 12.0 }),
            None => shapes.push(line((x, y + 2.0), (x + 12.0, y + 2.0), Ink::Strong, 2.0, false)),
        }
        shapes.push(text((x + 18.0, y), words, Anchor::Start, Ink::Soft, false));
        x += room(words);
    }
    y + 8.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(label: &str, n: usize) -> Row<'_> {
        let dot = |at: usize| Dot {
            kind: if at.is_multiple_of(3) { MarkKind::Wedge } else { MarkKind::Disc },
            underlined: at.is_multiple_of(4),
        };
        Row { label, tally: format!("{n} done"), dots: (0..n).map(dot).collect() }
    }

    fn points(figure: &Figure) -> Vec<(f64, f64)> {
        let of = |shape: &Shape| match shape {
            Shape::Line { from, to, .. } => vec![*from, *to],
            Shape::Rect { at, size, .. } => vec![*at, (at.0 + size.0, at.1 + size.1)],
            Shape::Mark { at, size, .. } => {
                vec![(at.0 - size / 2.0, at.1 - size / 2.0), (at.0 + size / 2.0, at.1 + size / 2.0)]
            }
            Shape::Text { at, .. } => vec![*at],
        };
        figure.shapes.iter().flat_map(of).collect()
    }

    #[track_caller]
    fn check_inside(figure: &Figure) {
        for (x, y) in points(figure) {
            assert!(
                (0.0..=figure.width).contains(&x) && (0.0..=figure.height).contains(&y),
                "({x}, {y}) in {figure:?}"
            );
        }
    }

    #[test]
    fn every_repetition_is_drawn_inside_the_paper() {
        for n in [0, 1, 10, 20, 21, 60, 61, 120, 240] {
            let legend = [(Some(MarkKind::Disc), "on target"), (Some(MarkKind::Wedge), "short"), (None, "late start")];
            let figure = strip("t.order", "Order", "In order.".into(), &[row("right", n), row("left", 3)], &legend);
            let marks = figure.shapes.iter().filter(|shape| matches!(shape, Shape::Mark { .. })).count();
            assert_eq!(marks, n + 3 + 2, "two marks are the legend's");
            check_inside(&figure);
        }
    }

    #[test]
    fn marks_of_one_row_never_touch() {
        for grid in [Grid::ROOMY, Grid::TIGHT] {
            assert!((1..grid.per_line).all(|at| grid.x(at) - grid.x(at - 1) > grid.size));
        }
    }

    #[test]
    fn intervals_are_drawn_where_their_shares_lie() {
        let bar =
            |label, events, n| Bar { label, share: Proportion::new(events, n).expect("fits"), kind: MarkKind::Ring };
        let bars = [bar("right", 10, 10), bar("left", 0, 0)];
        let figure = intervals("t.shares", "Shares", "Shares.".into(), &bars, "all on target");
        check_inside(&figure);
        let marks = figure.shapes.iter().filter_map(|shape| match shape {
            Shape::Mark { at, kind, .. } => Some((at.0, *kind)),
            Shape::Line { .. } | Shape::Rect { .. } | Shape::Text { .. } => None,
        });
        assert_eq!(marks.collect::<Vec<_>>(), [(268.0, MarkKind::Ring), (166.0, MarkKind::Dash)]);
    }
}
