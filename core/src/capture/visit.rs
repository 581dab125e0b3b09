//! A person and a visit: the only things that are stored.

use super::home::{Given, Returned};
use super::record::{Record, State};
use super::unread::Unread;
use crate::calendar::{Born, Moment};

/// An examined person.
#[derive(Debug, Clone, PartialEq)]
pub struct Person {
    /// Random id.
    pub id: String,
    /// A code or a name, as the practice likes.
    pub label: String,
    /// What is known of the birth.
    pub born: Option<Born>,
    /// Whether the person is invented (demo).
    pub invented: bool,
    /// When the entry was last changed, by the clock of the device; see [`edited`].
    pub changed: Option<Moment>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// One visit of one person.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// Random id.
    pub id: String,
    /// The person's id.
    pub person: String,
    /// The routine's id.
    pub routine: String,
    /// Ids of the tasks it is made of, in order; empty for the routine's own list.
    pub plan: Vec<String>,
    /// When it was begun.
    pub started: Moment,
    /// When it was closed; a closed visit is not changed any more.
    pub closed: Option<Moment>,
    /// The step that was in sight last, as its slot; a restart goes back to it.
    pub at: String,
    /// The filled forms, in the order they were opened.
    pub records: Vec<Record>,
    /// Sheets given to take home, in order.
    pub sheets: Vec<Given>,
    /// Logs of earlier sheets that came back, in order.
    pub logs: Vec<Returned>,
    /// Name and version of the program that wrote it.
    pub program: String,
    /// The digest of a closed visit, 64 lower-case hexadecimal digits; older ones have none.
    pub sha256: Option<String>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// The moment to note for a change made now to something last changed then. It is always the later one, so that whoever
/// saw the earlier change and made another one prevails, even by a clock that was set back.
#[must_use]
pub fn edited(before: Option<Moment>, now: Moment) -> Moment {
    match before {
        Some(before) if now.unix_ms <= before.unix_ms => {
            Moment { unix_ms: before.unix_ms.saturating_add(1), offset_minutes: now.offset_minutes }
        }
        Some(_) | None => now,
    }
}

impl Visit {
    /// An empty visit.
    #[must_use]
    pub fn begin(id: &str, person: &str, routine: &str, now: Moment, program: &str) -> Visit {
        Visit {
            id: id.to_string(),
            person: person.to_string(),
            routine: routine.to_string(),
            plan: Vec::new(),
            started: now,
            closed: None,
            at: String::new(),
            records: Vec::new(),
            sheets: Vec::new(),
            logs: Vec::new(),
            program: program.to_string(),
            sha256: None,
            unread: Unread::default(),
        }
    }

    /// A record by slot.
    #[must_use]
    pub fn record(&self, slot: &str) -> Option<&Record> {
        self.records.iter().find(|record| record.slot == slot)
    }

    /// A record by slot unless it was skipped.
    #[must_use]
    pub fn filled(&self, slot: &str) -> Option<&Record> {
        self.record(slot).filter(|record| !record.skipped())
    }

    /// The record of a slot, opened now if it was not there.
    pub fn record_mut(&mut self, slot: &str, now: Moment) -> &mut Record {
        let at = match self.records.iter().position(|record| record.slot == slot) {
            Some(at) => at,
            None => {
                self.records.push(Record::open(slot, Some(now)));
                self.records.len() - 1
            }
        };
        &mut self.records[at]
    }

    /// Whether this slot was ended, as done or skipped.
    #[must_use]
    pub fn ended(&self, slot: &str) -> bool {
        self.record(slot).is_some_and(|record| record.state != State::Open)
    }
}
