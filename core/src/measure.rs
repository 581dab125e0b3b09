//! Measures: values a task hands on to be compared with another visit, with the other side or over the trials of a task.

use crate::anatomy::{Direction, Place};
use crate::evidence::{ChangeLimit, Norm, number};
use crate::statistics::proportion::Proportion;

/// One measured value of one visit, comparable with the same measure of another visit.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// Stable key, the same in every visit: "near_point.break", "saccade.off_target.right".
    pub key: String,
    /// The task, or "symptoms".
    pub task: &'static str,
    /// What is measured, in small letters: "near point, break".
    pub what: String,
    /// Where.
    pub place: Place,
    /// How much.
    pub amount: Amount,
    /// Which way is better.
    pub better: Better,
    /// How it was measured, as name and words: ("end point", "double"). Two visits that differ here are compared with a
    /// warning only. A part that was not noted is left out.
    pub method: Vec<(&'static str, String)>,
    /// Published limits of change beyond measurement error; empty when none is known.
    pub limits: &'static [ChangeLimit],
    /// The range it is read against, drawn as a band.
    pub norm: Option<&'static Norm>,
}

/// How much.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// A number in a unit (empty for a count or a sum).
    Number {
        /// The number.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A count of repetitions.
    Share(Proportion),
    /// A step of an ordered list of grades, 0 the best.
    Step {
        /// The step.
        step: u8,
        /// The words of all steps, best first.
        words: &'static [&'static str],
    },
}

impl Amount {
    /// As it is printed: "12.5 cm", "3 of 10", "few catch-ups".
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Amount::Number { value, unit } => with_unit(*value, unit),
            Amount::Share(share) => format!("{} of {}", share.events(), share.n()),
            Amount::Step { step, words } => words.get(usize::from(*step)).copied().unwrap_or("not known").to_string(),
        }
    }
}

/// A number as it is printed, with its unit.
#[must_use]
pub fn with_unit(value: f64, unit: &str) -> String {
    let digits = number(as_printed(value));
    match unit.chars().next() {
        None => digits,
        Some('/' | '°') => format!("{digits}{unit}"),
        Some(_) => format!("{digits} {unit}"),
    }
}

/// Rounded to a tenth, far below any published error; a value under 1 keeps two decimals.
#[must_use]
pub fn as_printed(value: f64) -> f64 {
    let scale = if value.abs() < 1.0 { 100.0 } else { 10.0 };
    // Adding zero takes the sign off a negative zero.
    (value * scale).round() / scale + 0.0
}

/// Which way is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Better {
    /// Lower is better.
    Lower,
    /// Higher is better.
    Higher,
    /// Neither is better; only that it changed is said.
    Neither,
}

/// Repetitions of one task to the right and to the left, for the test across tasks. Higher is worse.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sided {
    /// The task.
    pub task: &'static str,
    /// What is scored, in words: "jumps not on target".
    pub what: &'static str,
    /// Every repetition in the order it was recorded.
    pub repetitions: Vec<Repetition>,
    /// Whether right and left were examined in turn, so that neighbours in time share their circumstances; otherwise one
    /// direction after the other.
    pub in_turn: bool,
}

/// One repetition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Repetition {
    /// Right or left; nothing else.
    pub toward: Direction,
    /// How bad it was: 0 for as expected, 1 for an event, or the step of a grade.
    pub score: i32,
}

/// The order of one thing within a task, for tiring.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Stable key: task id, dot, what.
    pub key: String,
    /// The task.
    pub task: &'static str,
    /// What is followed, in small letters: "near point", "jumps to the left not on target".
    pub what: String,
    /// Where.
    pub place: Place,
    /// The values in the order they were recorded.
    pub values: Values,
    /// Which way is better.
    pub better: Better,
}

/// Values in order.
#[derive(Debug, Clone, PartialEq)]
pub enum Values {
    /// Numbers in a unit.
    Numbers(Vec<f64>, &'static str),
    /// Whether the counted thing happened at each repetition.
    Events(Vec<bool>),
    /// The cycle from which on it was worse, of so many; `None` when it never was.
    BrokeAt(Option<u8>, u8),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_printed_as_a_reader_expects() {
        let number = |value, unit| Amount::Number { value, unit }.words();
        assert_eq!(number(11.1667, "cm"), "11.2 cm");
        assert_eq!(number(8.0, "cm"), "8 cm");
        assert_eq!(number(-0.04, ""), "-0.04");
        assert_eq!(number(-0.001, ""), "0");
        assert_eq!(number(1.25, "/s"), "1.3/s");
        assert_eq!(Amount::Share(Proportion::counting([true, false, false])).words(), "1 of 3");
        assert_eq!(Amount::Step { step: 1, words: &["smooth", "few"] }.words(), "few");
        assert_eq!(Amount::Step { step: 7, words: &["smooth", "few"] }.words(), "not known");
    }
}
