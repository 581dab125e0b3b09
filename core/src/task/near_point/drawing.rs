//! The drawing of the near point: trials on a ruler, in order.

use super::{BREAK, RECOVERS, Seen, counted, judge};
use crate::evidence::{Limit, Norm, number};
use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use crate::finding::Value;

/// The trials on a ruler from the eyes outward, with the band of the range; `None` for a single trial.
pub(super) fn drawing(trials: &[Seen], years: Option<u8>, norm: &Norm, back: Option<&Value>) -> Option<Figure> {
    let rows: Vec<&Seen> = trials.iter().filter(|trial| trial.counts()).collect();
    if rows.len() < 2 {
        return None;
    }
    let reach = rows.iter().flat_map(|trial| [trial.broke(), trial.recovery]).flatten().fold(0.0, f64::max);
    let end = (reach / 5.0).ceil().max(3.0) * 5.0;
    let recovers = rows.iter().any(|trial| trial.recovery.is_some());
    let (left, right, top) = (14.0, if recovers { 236.0 } else { 270.0 }, 24.0);
    let x = |cm: f64| left + (right - left) * cm / end;
    let pitch = if rows.len() > 5 { 16.0 } else { 20.0 };
    let y = |row: usize| top + pitch * (row as f64 + 0.7);
    let bottom = top + pitch * (rows.len() as f64 + 0.4);
    let limit = match norm.limit {
        Limit::AtMost(cm) | Limit::Below(cm) | Limit::AtLeast(cm) => cm,
    };
    let mut shapes = vec![
        Shape::Rect { at: (x(0.0), top), size: (x(limit) - x(0.0), bottom - top), fill: Ink::Band },
        Shape::plain((x(0.0), top - 8.0), format!("range to {} cm", number(limit)), Anchor::Start, Ink::Soft),
    ];
    let mut before: Option<(f64, f64)> = None;
    for (row, trial) in rows.iter().enumerate() {
        let words = match (trial.broke(), trial.recovery) {
            (Some(cm), Some(again)) => format!("{} → {}", BREAK.digits(cm), RECOVERS.digits(again)),
            (Some(cm), None) => BREAK.digits(cm),
            (None, _) => "to the nose".to_string(),
        };
        shapes.push(Shape::plain((326.0, y(row) + 4.5), words, Anchor::End, Ink::Strong));
        let Some(cm) = trial.broke() else {
            before = None;
            continue;
        };
        let here = (x(cm), y(row));
        if let Some(again) = trial.recovery {
            shapes.push(Shape::thin(here, (x(again), y(row)), Ink::Soft, true));
            shapes.push(Shape::thin((x(again), y(row) - 4.0), (x(again), y(row) + 4.0), Ink::Soft, false));
        }
        if let Some(before) = before.replace(here) {
            shapes.push(Shape::thin(before, here, Ink::Strong, false));
        }
    }
    for (row, trial) in rows.iter().enumerate() {
        if let Some(cm) = trial.broke() {
            shapes.push(Shape::Mark {
                at: (x(cm), y(row)),
                kind: judge(cm, years).0.mark().unwrap_or(MarkKind::Disc),
                size: 11.0,
            });
        }
    }
    let mut axis = bottom;
    let drawn_back = back.filter(|back| back.number != 0.0).map(|back| {
        let word = if back.number > 0.0 { "drawing back" } else { "coming nearer" };
        format!("{word} {}", BREAK.show(back.number.abs()))
    });
    let (first, last) = (rows.first().and_then(|trial| trial.broke()), rows.last().and_then(|trial| trial.broke()));
    if let (Some(words), Some(first), Some(last)) = (&drawn_back, first, last) {
        let level = bottom + 10.0;
        shapes.push(Shape::thin((x(first), level), (x(last), level), Ink::Strong, false));
        for end in [x(first), x(last)] {
            shapes.push(Shape::thin((end, level - 4.0), (end, level + 4.0), Ink::Strong, false));
        }
        // About half the label's width, so that it stays on the canvas.
        let middle = f64::midpoint(x(first), x(last)).clamp(80.0, 250.0);
        shapes.push(Shape::plain((middle, level + 18.0), words.clone(), Anchor::Middle, Ink::Strong));
        axis = level + 26.0;
    }
    shapes.push(Shape::thin((x(0.0), axis), (x(end), axis), Ink::Soft, false));
    let step = if end > 30.0 { 20 } else { 5 };
    for cm in (0..=end as u32).step_by(step) {
        let at = x(f64::from(cm));
        shapes.push(Shape::thin((at, axis), (at, axis + 5.0), Ink::Soft, false));
        shapes.push(Shape::plain((at, axis + 19.0), cm.to_string(), Anchor::Middle, Ink::Soft));
    }
    shapes.push(Shape::plain((326.0, axis + 19.0), "cm".to_string(), Anchor::End, Ink::Soft));
    let words: Vec<String> = rows.iter().map(|trial| trial.words()).collect();
    let ending = drawn_back.map_or(String::new(), |words| format!(" From first to last: {words}."));
    Some(Figure {
        id: "near_point.trials".to_string(),
        title: "Near point, trial by trial".to_string(),
        says: format!(
            "{} on a ruler: {}. The range reaches to {} cm.{ending}",
            counted(rows.len(), "trial"),
            words.join(", "),
            number(limit)
        ),
        width: 340.0,
        height: axis + 26.0,
        shapes,
    })
}
