//! What a device keeps about its records beside them: what was handed over, taken in, joined and erased. Only ids stand
//! here, no person.

use super::unread::Unread;
use crate::calendar::Moment;

/// One closing of a visit, or one correction of it: its id and what it said.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct VisitRef {
    /// The visit's or the correction's id.
    pub id: String,
    /// Its digest, 64 lower-case hexadecimal digits.
    pub sha256: String,
}

/// What the taking side says it has: shown there, entered at the phone.
#[derive(Debug, Clone, PartialEq)]
pub struct Receipt {
    /// Random id.
    pub id: String,
    /// When it was given.
    pub issued: Moment,
    /// The visits it is for.
    pub visits: Vec<VisitRef>,
    /// The corrections it is for.
    pub addenda: Vec<VisitRef>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// The phone's own note of one hand over; it stays on the phone.
#[derive(Debug, Clone, PartialEq)]
pub struct HandedOver {
    /// Random id.
    pub id: String,
    /// When it was made.
    pub made: Moment,
    /// The random word in the file's name.
    pub word: String,
    /// The visits in it.
    pub visits: Vec<VisitRef>,
    /// The corrections in it.
    pub addenda: Vec<VisitRef>,
    /// When its receipt was entered.
    pub confirmed: Option<Moment>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// Two entries that somebody said are the same person.
#[derive(Debug, Clone, PartialEq)]
pub struct Join {
    /// Random id.
    pub id: String,
    /// The person whose entry stands for both.
    pub keep: String,
    /// The other one.
    pub other: String,
    /// When they were joined.
    pub made: Moment,
    /// When that was taken back; it stays so, and whoever joins them again makes a new join.
    pub undone: Option<Moment>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// A person was erased here; an old file does not bring them back unasked. It never leaves the device.
#[derive(Debug, Clone, PartialEq)]
pub struct Tombstone {
    /// The person's id.
    pub person: String,
    /// When.
    pub erased: Moment,
    /// What this program cannot read.
    pub unread: Unread,
}
