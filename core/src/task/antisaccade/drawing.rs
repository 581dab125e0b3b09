//! Every trial in its order and the shares of errors, targets on the right above those on the left.

use super::{Response, Trials};
use crate::anatomy::Direction;
use crate::figure::{Figure, MarkKind};
use crate::side_by_side::drawing::{Bar, Dot, Row, intervals, strip};
use crate::side_by_side::{interval_words, of};

/// Every trial in its order.
pub(super) fn order(seen: &[Trials; 2]) -> Figure {
    let row = |trials: &Trials| {
        let dots = trials.responses.iter().map(|response| Dot { kind: mark(*response), underlined: false });
        Row { label: target(trials.side), tally: format!("{} errors", of(trials.errors())), dots: dots.collect() }
    };
    let told = seen.each_ref().map(|trials| format!("{}: {}", target(trials.side), in_words(trials)));
    let says = format!("Every trial in its order. {}.", told.join(". "));
    let all = [Response::Correct, Response::Glanced, Response::Wrong];
    let occurs = |response: &Response| seen.iter().any(|trials| trials.responses.contains(response));
    let legend: Vec<_> =
        all.into_iter().filter(occurs).map(|response| (Some(mark(response)), words(response))).collect();
    strip("antisaccade.order", "Looking away, in order", says, &seen.each_ref().map(row), &legend)
}

/// The share of errors with its interval.
pub(super) fn shares(seen: &[Trials; 2]) -> Figure {
    let bar = |trials: &Trials| Bar { label: trials.side.word(), share: trials.errors(), kind: MarkKind::Cross };
    let told = seen.each_ref().map(|trials| {
        let share = trials.errors();
        format!("{}: {} errors, {}", target(trials.side), of(share), interval_words(share))
    });
    let says = format!("Share of errors with its 95 % interval. {}.", told.join(". "));
    intervals("antisaccade.shares", "Errors by side of the target", says, &seen.each_ref().map(bar), "all errors")
}

fn target(side: Direction) -> &'static str {
    match side {
        Direction::Right => "target on their right",
        Direction::Left => "target on their left",
        Direction::Up => "target above",
        Direction::Down => "target below",
    }
}

fn in_words(trials: &Trials) -> String {
    if trials.n() == 0 {
        return "none recorded".to_string();
    }
    trials.responses.iter().map(|response| words(*response)).collect::<Vec<_>>().join(", ")
}

fn words(response: Response) -> &'static str {
    match response {
        Response::Correct => "away at once",
        Response::Glanced => "after a glance",
        Response::Wrong => "only at it",
    }
}

fn mark(response: Response) -> MarkKind {
    match response {
        Response::Correct => MarkKind::Disc,
        Response::Glanced => MarkKind::Ring,
        Response::Wrong => MarkKind::Cross,
    }
}
