//! The words that columns may hold, taken from the forms, so that a new choice or task needs no line here.

use super::column::Cell;
use crate::capture::form::{Choice, Field, Form, Kind};
use crate::capture::record::{Record, State};
use crate::finding::{Grade, Why};
use crate::task;

/// How far a record came; "absent" when there is none.
pub(super) const STATES: [&str; 5] = ["done", "open", "not_done", "not_testable", "absent"];

/// Why a value is missing.
pub(super) const MISSING: [&str; 6] =
    ["not_done", "not_testable", "left_out", "not_recorded", "too_few", "not_readable"];

/// How a value stands to its range.
pub(super) const GRADES: [&str; 5] = ["no_range", "within_range", "near_limit", "outside_range", "urgent"];

/// The occasions on which symptoms are rated.
pub(super) fn occasions() -> Vec<&'static str> {
    std::iter::once("before").chain(tasks()).collect()
}

/// Ids of all tasks.
pub(super) fn tasks() -> impl Iterator<Item = &'static str> {
    task::ALL.iter().map(|task| task.id)
}

/// Every field of every task, with the task.
pub(super) fn fields() -> impl Iterator<Item = (&'static str, &'static Field)> {
    task::ALL.iter().flat_map(|task| task.form.fields.iter().map(|field| (task.id, field)))
}

/// The ids a field of this form can be answered with.
pub(super) fn choices(form: &Form, key: &str) -> Vec<&'static str> {
    form.field(key).map_or(Vec::new(), |field| of_kind(&field.kind))
}

/// The ids an answer of this kind is made of.
pub(super) fn of_kind(kind: &Kind) -> Vec<&'static str> {
    match kind {
        Kind::One(choices) | Kind::Many { choices, .. } | Kind::Ratings(choices) => ids(choices),
        Kind::Grid(form) => ids(form.grades),
        Kind::Number(_) | Kind::Text { .. } | Kind::Day | Kind::Trials(_) | Kind::Series(_) => Vec::new(),
    }
}

/// Ids of a list.
pub(super) fn ids(choices: &[Choice]) -> Vec<&'static str> {
    choices.iter().map(|choice| choice.id).collect()
}

/// Each word once, in the order in which it comes first.
pub(super) fn once(words: impl IntoIterator<Item = &'static str>) -> Vec<&'static str> {
    let mut once = Vec::new();
    for word in words {
        if !once.contains(&word) {
            once.push(word);
        }
    }
    once
}

/// The state of a record.
pub(super) fn state(record: Option<&Record>) -> Cell {
    Cell::Word(
        match record.map(|record| &record.state) {
            Some(State::Done) => "done",
            Some(State::Open) => "open",
            Some(State::NotDone(_)) => "not_done",
            Some(State::NotTestable(_)) => "not_testable",
            None => "absent",
        }
        .to_string(),
    )
}

/// The word for a grade.
pub(super) fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::NoRange => "no_range",
        Grade::WithinRange => "within_range",
        Grade::NearLimit => "near_limit",
        Grade::OutsideRange => "outside_range",
        Grade::Urgent => "urgent",
    }
}

/// The word for why something is missing, and the reason that was given.
pub(super) fn missing(why: &Why) -> (&'static str, Option<&str>) {
    match why {
        Why::NotDone(reason) => ("not_done", Some(reason)),
        Why::NotTestable(reason) => ("not_testable", Some(reason)),
        Why::Dropped(reason) => ("left_out", Some(reason)),
        Why::NotRecorded => ("not_recorded", None),
        Why::TooFew => ("too_few", None),
        Why::Unread => ("not_readable", None),
    }
}

/// Why a record was skipped, as it was given.
pub(super) fn reason(record: &Record) -> Cell {
    match &record.state {
        State::NotDone(reason) | State::NotTestable(reason) => Cell::text(Some(reason)),
        State::Open | State::Done => Cell::Empty,
    }
}
