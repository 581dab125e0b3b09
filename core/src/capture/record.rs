//! A record: one form as it was filled in during a visit.

use super::answer::Answers;
use super::showing::Showing;
use super::unread::Unread;
use crate::calendar::Moment;

/// One filled form.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// Which place in the visit it fills: a form id, or form id and occasion ("symptoms.near_point").
    pub slot: String,
    /// How far it came.
    pub state: State,
    /// When it was opened.
    pub started: Option<Moment>,
    /// When it was ended.
    pub ended: Option<Moment>,
    /// The answers.
    pub answers: Answers,
    /// What was shown on a screen meanwhile, in order.
    pub showings: Vec<Showing>,
    /// What a newer program wrote here and this one cannot read.
    pub unread: Unread,
}

/// How far a record came. "Not done", "not testable" and "normal" are three different things.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// Begun, or left open.
    Open,
    /// Ended by the examiner as done.
    Done,
    /// Left out, with a reason.
    NotDone(String),
    /// Tried, but the person could not do it or could not be judged, with a reason.
    NotTestable(String),
}

impl Record {
    /// An empty open record.
    #[must_use]
    pub fn open(slot: &str, now: Option<Moment>) -> Record {
        Record {
            slot: slot.to_string(),
            state: State::Open,
            started: now,
            ended: None,
            answers: Answers::default(),
            showings: Vec::new(),
            unread: Unread::default(),
        }
    }

    /// The form it fills: the slot up to the first dot.
    #[must_use]
    pub fn form(&self) -> &str {
        self.slot.split('.').next().unwrap_or(&self.slot)
    }

    /// The occasion behind the dot; empty when there is none.
    #[must_use]
    pub fn occasion(&self) -> &str {
        self.slot.split_once('.').map_or("", |(_, occasion)| occasion)
    }

    /// Whether the examiner said it was not done or not testable.
    #[must_use]
    pub fn skipped(&self) -> bool {
        matches!(self.state, State::NotDone(_) | State::NotTestable(_))
    }
}
