//! What a task's reading rule says: findings, gaps, red flags, comparisons and drawings.

pub use crate::anatomy::Place;
use crate::capture::record::State;
use crate::capture::stop;
use crate::capture::visit::Visit;
use crate::evidence::{BaseRate, Citation, Norm};
use crate::figure::{Figure, MarkKind};
use crate::measure::{Course, Measure, Sided};
use crate::sign::Sign;
use crate::statistics::Interval;
use crate::statistics::proportion::Proportion;

/// How a finding stands to a published range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Recorded; no published range applies.
    NoRange,
    /// Within the range.
    WithinRange,
    /// So near the limit that measurement error or ordinary variation could carry it across.
    NearLimit,
    /// Outside the range.
    OutsideRange,
    /// A danger sign.
    Urgent,
}

impl Grade {
    /// The word printed beside its shape.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Grade::NoRange => "recorded",
            Grade::WithinRange => "in range",
            Grade::NearLimit => "near the limit",
            Grade::OutsideRange => "outside the range",
            Grade::Urgent => "urgent",
        }
    }

    /// Its shape; none where no range applies.
    #[must_use]
    pub fn mark(self) -> Option<MarkKind> {
        match self {
            Grade::NoRange => None,
            Grade::WithinRange => Some(MarkKind::Ring),
            Grade::NearLimit => Some(MarkKind::HalfRing),
            Grade::OutsideRange => Some(MarkKind::Diamond),
            Grade::Urgent => Some(MarkKind::Octagon),
        }
    }
}

/// A measured value, for structured output.
#[derive(Debug, Clone, PartialEq)]
pub struct Value {
    /// The number.
    pub number: f64,
    /// Its unit; empty for a share or a count.
    pub unit: &'static str,
    /// 95 % interval, when there is one.
    pub interval: Option<Interval>,
}

/// One thing that was seen or measured, in words and as a value.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Stable key: task id, dot, what.
    pub key: String,
    /// The task, or "symptoms".
    pub task: &'static str,
    /// Where it was seen.
    pub place: Place,
    /// One short sentence without a full stop, as a colleague would say it.
    pub headline: String,
    /// Further sentences: how much, compared with what, how sure, what else it could be.
    pub details: Vec<String>,
    /// How it stands to the range.
    pub grade: Grade,
    /// Whether it is not as expected but said to be long known, and so not graded.
    pub long_known: bool,
    /// The range it was graded against.
    pub norm: Option<&'static Norm>,
    /// How often healthy people show the same.
    pub healthy: Vec<&'static BaseRate>,
    /// Sources of the details.
    pub sources: Vec<&'static Citation>,
    /// The value behind it.
    pub value: Option<Value>,
}

impl Finding {
    /// A finding with a headline and nothing else yet.
    #[must_use]
    pub fn new(task: &'static str, what: &str, place: Place, headline: String) -> Finding {
        Finding {
            key: format!("{task}.{what}"),
            task,
            place,
            headline,
            details: Vec::new(),
            grade: Grade::NoRange,
            long_known: false,
            norm: None,
            healthy: Vec::new(),
            sources: Vec::new(),
            value: None,
        }
    }
}

/// Why something is missing. Missing is neither normal nor zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// Left out by the examiner, with the reason.
    NotDone(String),
    /// Tried and not possible, with the reason.
    NotTestable(String),
    /// Left out by a rule of the examination, with the reason: "neck pain: no quick head turns".
    Dropped(String),
    /// Not asked or not recorded.
    NotRecorded,
    /// Too few repetitions to say anything.
    TooFew,
    /// Written by a newer program and not readable here.
    Unread,
}

impl Why {
    /// Why nothing stands in a slot: skipped with its reason, ended by an emergency stop, or never recorded.
    #[must_use]
    pub fn missing(visit: &Visit, slot: &str) -> Why {
        match visit.record(slot).map(|record| &record.state) {
            Some(State::NotDone(reason)) => Why::NotDone(reason.clone()),
            Some(State::NotTestable(reason)) => Why::NotTestable(reason.clone()),
            Some(State::Open | State::Done) => Why::NotRecorded,
            None if stop::ended(visit) => Why::NotDone("stopped at an emergency sign".to_string()),
            None => Why::NotRecorded,
        }
    }
}

/// Something that was not done or cannot be said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gap {
    /// The slot it belongs to.
    pub slot: String,
    /// What is missing, in words.
    pub what: String,
    /// Why.
    pub why: Why,
}

/// A danger sign.
#[derive(Debug, Clone, PartialEq)]
pub struct Flag {
    /// Stable id.
    pub id: String,
    /// What was seen, as a phrase: "neck pain or tenderness".
    pub seen: String,
    /// Whether the neck must be held still until it is cleared.
    pub neck: bool,
    /// Where the sign is published.
    pub source: &'static Citation,
}

/// Two directions of one task set side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Stable key: task id, dot, what.
    pub key: String,
    /// The task.
    pub task: &'static str,
    /// What is counted, in words: "jumps not on target".
    pub what: &'static str,
    /// Events and number to the right.
    pub right: Proportion,
    /// Events and number to the left.
    pub left: Proportion,
    /// Two-sided exact p (mid-p); `None` when there are too few to compare.
    pub p: Option<f64>,
    /// 95 % interval of the difference right minus left (Newcombe), as shares.
    pub difference: Option<Interval>,
    /// One sentence for the reader.
    pub says: String,
}

/// All that one record says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reading {
    /// Findings in the order they are told.
    pub findings: Vec<Finding>,
    /// What is missing.
    pub gaps: Vec<Gap>,
    /// Danger signs.
    pub flags: Vec<Flag>,
    /// Right against left.
    pub comparisons: Vec<Comparison>,
    /// Drawings.
    pub figures: Vec<Figure>,
    /// Signs, for patterns and the working model.
    pub signs: Vec<Sign>,
    /// Values to compare with another visit.
    pub measures: Vec<Measure>,
    /// Repetitions by side, for the test across tasks.
    pub sided: Vec<Sided>,
    /// Values in order, for tiring.
    pub courses: Vec<Course>,
}
