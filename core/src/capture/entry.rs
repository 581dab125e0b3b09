//! The index row of a visit: what lists need to know, so that visits are read one at a time.

use super::decision;
use super::unread::Unread;
use super::visit::Visit;
use crate::calendar::{Date, Moment};

/// What lists show of a visit.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// The visit's id.
    pub id: String,
    /// The person's id.
    pub person: String,
    /// When it was begun.
    pub started: Moment,
    /// When it was closed.
    pub closed: Option<Moment>,
    /// The routine's id.
    pub routine: String,
    /// The day of the re-test, when that is what was decided.
    pub retest_on: Option<Date>,
    /// The digest of a closed visit.
    pub sha256: Option<String>,
    /// Whether a receipt says that it was handed over.
    pub handed_over: bool,
    /// What this program cannot read.
    pub unread: Unread,
}

impl Entry {
    /// The row of a visit that was not handed over.
    #[must_use]
    pub fn of(visit: &Visit) -> Entry {
        Entry {
            id: visit.id.clone(),
            person: visit.person.clone(),
            started: visit.started,
            closed: visit.closed,
            routine: visit.routine.clone(),
            retest_on: retest_on(visit),
            sha256: visit.sha256.clone(),
            handed_over: false,
            unread: Unread::default(),
        }
    }
}

/// The day of the re-test, when that is what was decided.
#[must_use]
pub fn retest_on(visit: &Visit) -> Option<Date> {
    let answers = &visit.filled(decision::SLOT)?.answers;
    // A day that was typed before another action was chosen stays in the record and does not count.
    answers.day("retest_on").filter(|_| answers.one("action") == Some("retest"))
}
