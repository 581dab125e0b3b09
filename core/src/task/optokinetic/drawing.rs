//! The stripes in their order and the shares missed, right above left.

use super::Stripes;
use crate::figure::{Figure, MarkKind};
use crate::side_by_side::drawing::{Bar, Dot, Row, intervals, strip};
use crate::side_by_side::{interval_words, of};

/// Every stripe in its order.
pub(super) fn order(seen: &[Stripes; 2]) -> Figure {
    let row = |stripes: &Stripes| {
        let dot = |missed: &bool| Dot { kind: mark(*missed), underlined: false };
        let dots = stripes.missed.iter().map(dot).collect();
        Row { label: stripes.direction.phrase(), tally: format!("{} missed", of(stripes.misses())), dots }
    };
    let told = seen.each_ref().map(|stripes| format!("{}: {}", stripes.direction.phrase(), in_words(stripes)));
    let says = format!("Every stripe in its order. {}.", told.join(". "));
    let legend = [(Some(mark(false)), "taken up"), (Some(mark(true)), "missed")];
    strip("optokinetic.order", "Stripes in their order", says, &seen.each_ref().map(row), &legend)
}

/// The share missed with its interval.
pub(super) fn shares(seen: &[Stripes; 2]) -> Figure {
    let bar =
        |stripes: &Stripes| Bar { label: stripes.direction.word(), share: stripes.misses(), kind: MarkKind::Cross };
    let told = seen.each_ref().map(|stripes| {
        let share = stripes.misses();
        format!("{}: {} missed, {}", stripes.direction.phrase(), of(share), interval_words(share))
    });
    let says = format!("Share of stripes missed with its 95 % interval. {}.", told.join(". "));
    intervals("optokinetic.shares", "Stripes missed", says, &seen.each_ref().map(bar), "all missed")
}

fn in_words(stripes: &Stripes) -> String {
    if stripes.n() == 0 {
        return "none recorded".to_string();
    }
    let words = stripes.missed.iter().map(|missed| if *missed { "missed" } else { "taken up" });
    words.collect::<Vec<_>>().join(", ")
}

fn mark(missed: bool) -> MarkKind {
    if missed { MarkKind::Cross } else { MarkKind::Disc }
}
