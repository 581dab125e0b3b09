//! The drawing of a series: time to the right, the range as a band, each value with its error, told apart by shape.

use super::{Point, Series};
use crate::calendar::{Date, long_date};
use crate::evidence::{Limit, Norm, capital, number};
use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use crate::measure::with_unit;

const LEFT: f64 = 44.0;
const RIGHT: f64 = 326.0;
const TOP: f64 = 26.0;
const BOTTOM: f64 = 150.0;
/// Room for a short date, so that two do not run into each other.
const LABEL: f64 = 52.0;
/// Least distance of two marks.
const APART: f64 = 14.0;

/// Draws a series of at least two points; `None` for fewer, and for grades, whose words stand better in a table.
#[must_use]
pub fn drawing(series: &Series) -> Option<Figure> {
    if series.points.len() < 2 || series.is_grade() {
        return None;
    }
    let scale = Scale::of(series);
    let at: Vec<f64> = places(&series.points);
    let mut shapes = Vec::new();
    band(&mut shapes, series, &scale);
    axes(&mut shapes, series, &scale);
    for pair in 0..series.points.len() - 1 {
        let (from, to) = (&series.points[pair], &series.points[pair + 1]);
        let (from, to) = ((at[pair], scale.y(from.value)), (at[pair + 1], scale.y(to.value)));
        shapes.push(Shape::thin(from, to, Ink::Soft, series.points[pair + 1].other_method));
    }
    for (point, x) in series.points.iter().zip(&at) {
        error(&mut shapes, point, *x, &scale);
        shapes.push(Shape::Mark {
            at: (*x, scale.y(point.value)),
            kind: point.grade.mark().unwrap_or(MarkKind::Disc),
            size: 12.0,
        });
    }
    baseline(&mut shapes, series, &at);
    let height = dates(&mut shapes, series, &at);
    Some(Figure {
        id: format!("trend.{}", series.key),
        title: title(series),
        says: says(series),
        width: 340.0,
        height,
        shapes,
    })
}

/// From the smallest to the largest number drawn.
struct Scale {
    low: f64,
    high: f64,
    step: f64,
}

impl Scale {
    fn of(series: &Series) -> Scale {
        let ends = series.points.iter().flat_map(|point| {
            let (low, high) = point.limits.unwrap_or((point.value, point.value));
            [low, high, point.value]
        });
        let limit = series.norm.map(limit);
        let (low, high) = ends.chain(limit).fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
        if series.unit == "in 100" {
            return Scale { low: 0.0, high: 100.0, step: 50.0 };
        }
        // A sum or a distance is never below zero, so its bar need not be drawn there.
        let low = if series.points.iter().all(|point| point.value >= 0.0) { 0.0 } else { low };
        let step = round_step((high - low) / 3.0);
        Scale { low: (low / step).floor() * step, high: ((high / step).ceil() * step).max(step), step }
    }

    fn y(&self, value: f64) -> f64 {
        let share = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low);
        BOTTOM - share * (BOTTOM - TOP)
    }
}

/// 1, 2 or 5 times a power of ten, at least as large as asked for.
fn round_step(asked: f64) -> f64 {
    let power = 10.0_f64.powf(asked.max(1e-6).log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|times| times * power).find(|step| *step >= asked).unwrap_or(10.0 * power)
}

/// Places from left to right in proportion to time, moved apart where marks would cover each other.
fn places(points: &[Point]) -> Vec<f64> {
    let (left, right) = (LEFT + 16.0, RIGHT - 16.0);
    let gaps = points.len() as f64 - 1.0;
    let first = points.first().map_or(0, |point| point.at.unix_ms);
    let last = points.last().map_or(0, |point| point.at.unix_ms);
    let whole = last.saturating_sub(first) as f64;
    if whole <= 0.0 || gaps * APART > right - left {
        return (0..points.len()).map(|at| left + (right - left) * at as f64 / gaps).collect();
    }
    let mut at: Vec<f64> = points
        .iter()
        .map(|point| left + (right - left) * point.at.unix_ms.saturating_sub(first) as f64 / whole)
        .collect();
    for index in 1..at.len() {
        at[index] = at[index].max(at[index - 1] + APART);
    }
    let mut most = right;
    for place in at.iter_mut().rev() {
        *place = place.min(most);
        most = *place - APART;
    }
    at
}

fn band(shapes: &mut Vec<Shape>, series: &Series, scale: &Scale) {
    let Some(norm) = series.norm else { return };
    let (from, to) = match norm.limit {
        Limit::AtMost(limit) | Limit::Below(limit) => (scale.low, limit),
        Limit::AtLeast(limit) => (limit, scale.high),
    };
    let (top, bottom) = (scale.y(to), scale.y(from));
    if bottom - top > 0.5 {
        shapes.push(Shape::Rect { at: (LEFT, top), size: (RIGHT - LEFT, bottom - top), fill: Ink::Band });
    }
    // The edge of the band, for a screen in the sun or a pale print.
    let edge = scale.y(limit(norm));
    shapes.push(Shape::thin((LEFT, edge), (RIGHT, edge), Ink::Soft, true));
    let range = if series.unit == "in 100" { norm.range().replace(" %", " in 100") } else { norm.range() };
    shapes.push(Shape::plain((RIGHT, 12.0), format!("range: {range}"), Anchor::End, Ink::Soft));
}

fn limit(norm: &Norm) -> f64 {
    match norm.limit {
        Limit::AtMost(limit) | Limit::Below(limit) | Limit::AtLeast(limit) => limit,
    }
}

fn axes(shapes: &mut Vec<Shape>, series: &Series, scale: &Scale) {
    shapes.push(Shape::thin((LEFT, BOTTOM), (RIGHT, BOTTOM), Ink::Soft, false));
    let steps = ((scale.high - scale.low) / scale.step).round() as u32;
    for step in 0..=steps {
        let value = scale.low + scale.step * f64::from(step);
        let y = scale.y(value);
        let label = number(value);
        shapes.push(Shape::thin((LEFT - 4.0, y), (LEFT, y), Ink::Soft, false));
        shapes.push(Shape::plain((LEFT - 8.0, y + 4.5), label, Anchor::End, Ink::Soft));
    }
    shapes.push(Shape::plain((4.0, 12.0), series.unit.to_string(), Anchor::Start, Ink::Soft));
}

fn error(shapes: &mut Vec<Shape>, point: &Point, x: f64, scale: &Scale) {
    let Some((low, high)) = point.limits else { return };
    let (top, bottom) = (scale.y(high), scale.y(low));
    shapes.push(Shape::thin((x, top), (x, bottom), Ink::Strong, false));
    for y in [top, bottom] {
        shapes.push(Shape::thin((x - 4.0, y), (x + 4.0, y), Ink::Strong, false));
    }
}

/// The own baseline by a dashed line across, so that every later value is seen against it.
fn baseline(shapes: &mut Vec<Shape>, series: &Series, at: &[f64]) {
    for (point, x) in series.points.iter().zip(at).filter(|(point, _)| point.baseline) {
        shapes.push(Shape::thin((*x, TOP - 4.0), (*x, BOTTOM), Ink::Soft, true));
        let anchor = if *x < 110.0 {
            Anchor::Start
        } else if *x > 260.0 {
            Anchor::End
        } else {
            Anchor::Middle
        };
        shapes.push(Shape::plain((*x, BOTTOM + 34.0), format!("own baseline {}", point.words), anchor, Ink::Strong));
    }
}

/// Dates under the marks, the first and the last always; returns the height of the whole.
fn dates(shapes: &mut Vec<Shape>, series: &Series, at: &[f64]) -> f64 {
    let last = series.points.len() - 1;
    let mut free_from = 0.0;
    for (index, (point, x)) in series.points.iter().zip(at).enumerate() {
        let anchor_x = x.clamp(LEFT + 4.0, RIGHT - LABEL / 2.0);
        let fits = anchor_x - LABEL / 2.0 >= free_from;
        let leaves_room = index == last || anchor_x + LABEL / 2.0 <= at[last] - LABEL / 2.0;
        shapes.push(Shape::thin((*x, BOTTOM), (*x, BOTTOM + 4.0), Ink::Soft, false));
        if index == last || (fits && leaves_room) {
            shapes.push(Shape::plain((anchor_x, BOTTOM + 17.0), short(point.at.date()), Anchor::Middle, Ink::Soft));
            free_from = anchor_x + LABEL / 2.0;
        }
    }
    if series.points.iter().any(|point| point.baseline) { BOTTOM + 40.0 } else { BOTTOM + 24.0 }
}

/// "2 Mar".
fn short(date: Date) -> String {
    let month: String = date.month().to_string().chars().take(3).collect();
    format!("{} {month}", date.day())
}

fn title(series: &Series) -> String {
    let what = capital(&series.what);
    if series.unit.is_empty() { what } else { format!("{what} ({})", series.unit) }
}

/// The whole series in words: every value with its day, the range, the error, first against last.
fn says(series: &Series) -> String {
    let told = series.points.iter().map(|point| {
        let baseline = if point.baseline { ", own baseline" } else { "" };
        let method = if point.other_method { ", measured in another way than before" } else { "" };
        format!("{}: {}{baseline}{method}", long_date(point.at.date()), point.words)
    });
    let told: Vec<String> = told.collect();
    let mut said = vec![format!("{} visits. {}.", series.points.len(), told.join("; "))];
    said.extend(
        series.norm.map(|norm| format!("Range: {} ({}; {}).", norm.range(), norm.population, norm.source.short)),
    );
    said.extend(errors(series));
    said.join(" ")
}

/// What the bars mean.
#[must_use]
pub fn errors(series: &Series) -> Option<String> {
    if series.unit == "in 100" {
        return Some("Bars: 95 % interval of each share.".to_string());
    }
    let limit = series.limit?;
    Some(format!(
        "Bars: 95 % error of one measurement, worked out from the widest published limit of change, {} ({}; {}).",
        with_unit(limit.value, limit.unit),
        limit.population,
        limit.source.short
    ))
}
