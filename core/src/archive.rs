//! The archive form: the only shape in which people and visits are stored, handed over and taken in.
//!
//! It is JSON, meant to be read by people too. Version 1 is frozen: files written today open for ever, and what a
//! newer program adds to a file is kept to the letter and written back (see [`Unread`]).
//!
//! ```json
//! {
//!   "format": "sidelight-archive",
//!   "version": 1,
//!   "people": [
//!     { "id": "p1", "label": "R-21", "born": "2012-05-31", "invented": true }
//!   ],
//!   "visits": [
//!     {
//!       "id": "v1", "person": "p1", "routine": "sideline",
//!       "started": "2026-03-02T15:52:08.000+01:00", "closed": "2026-03-02T15:58:00.000+01:00",
//!       "at": "decision", "program": "Sidelight 0.1.0",
//!       "records": [
//!         {
//!           "slot": "saccade", "state": "done", "started": "2026-03-02T15:54:00.000+01:00",
//!           "answers": { "jumps": { "series": {
//!             "runs": [{ "pad": "", "from_ms": 0, "to_ms": 30000, "bpm": 40 }],
//!             "taps": [{ "at_ms": 1500, "pad": "right", "mark": "short", "also": ["late"], "made": "tapped" }]
//!           } } }
//!         },
//!         { "slot": "optokinetic", "state": "not_done", "reason": "too tired", "answers": {} }
//!       ]
//!     }
//!   ],
//!   "addenda": [
//!     { "id": "a1", "visit": "v1", "person": "p1", "written": "2026-03-03T09:00:00.000+01:00", "text": "Left, not right." }
//!   ],
//!   "routines": [{ "id": "r1", "title": "Monday", "tasks": ["near_point", "saccade"] }],
//!   "receipts": [{ "id": "q1", "issued": "2026-03-04T08:00:00.000+01:00", "visits": [{ "id": "v1", "sha256": "…" }] }],
//!   "joins": [{ "id": "j1", "keep": "p1", "other": "p2", "made": "2026-03-04T08:10:00.000+01:00" }]
//! }
//! ```
//!
//! [`schema`] gives every member with its meaning as JSON Schema; reader and schema are made from one table.
//!
//! - `plan` (optional): ids of the visit's tasks in order, each once; absent for the routine's own list.
//! - `born`: a year or a date. `invented`: written only when true. Moments are local time with its offset from UTC.
//! - `state`: `open`, `done`, `not_done` or `not_testable`; the last two carry a `reason`.
//! - An answer is an object with one field that names its kind: `one`, `many`, `number`, `text`, `day`, `ratings`
//!   (`[{ "item", "value" }]`), `trials` (`[{ "at_ms", "answers" }]`), `series` (`runs` and `taps`) or `grid`
//!   (`[{ "row", "column", "grade", "from_cycle" }]`).
//! - `showings` (optional): what was shown on a screen during the task: the program with its settings, each a `number` with
//!   its `unit` or a `word`, for how many `seconds`, and the `screen` with its frames.
//! - `sheets` (optional): what was signed off and given to take home, as the `text` of its link; `logs` (optional): what came
//!   back of an earlier sheet, as the text of a log or six numbers.
//! - `made`: `tapped`, `paced` or `paced_then_tapped`. Absent fields are absent answers, never zero.
//!
//! - `changed` of a person or a routine: when the entry was last changed. Of two entries the later prevails.
//! - `sha256` of a closed visit: the SHA-256 of the visit's own JSON object without this member, in canonical form
//!   (RFC 8785), written without absent, empty and null members as this program writes it ([`digest`]). A closed visit is
//!   never changed; what is corrected later is an addendum. The same visit id stands twice only for two closings that
//!   differ. Files of before this member have none and are as good.
//! - Members of the whole that are empty are left out, but `people` and `visits`.
//!
//! A stored single record is `{"format":"sidelight-visit","version":1,"visit":{…}}`, and likewise for every other thing
//! that is kept by itself (see the functions in [`single`]).
//! New optional fields, tasks and answer kinds do not raise the version; anything that changes the meaning of a field
//! above does.

mod digest;
mod error;
mod fields;
mod node;
mod schema;
pub mod single;
mod v1;

pub use digest::{addendum_digest, closed, digest, intact};
pub use error::{ArchiveError, Fault};
pub use schema::schema;
pub use single::{
    Kept, read_addendum, read_entry, read_handed_over, read_join, read_person, read_receipt, read_routine,
    read_tombstone, read_visit, write_addendum, write_entry, write_handed_over, write_join, write_person,
    write_receipt, write_routine, write_tombstone, write_visit,
};

use crate::capture::addendum::Addendum;
use crate::capture::ledger::{Join, Receipt};
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;
use fields::{Fields, Place};
use node::Node;
use serde_json::value::RawValue;
use std::collections::{BTreeMap, BTreeSet};

/// The newest version this program reads, and the one it writes.
pub const VERSION: u64 = 1;

/// Largest file that is taken in, in bytes; checked before anything is read.
pub const MAX_BYTES: usize = 64 * 1024 * 1024;

/// Deepest nesting of lists and objects that is taken in. The form itself needs ten levels.
const MAX_DEPTH: usize = 64;

const ARCHIVE: &str = "sidelight-archive";

/// People, visits and what belongs to them in one file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Archive {
    /// The people.
    pub people: Vec<Person>,
    /// Their visits; each names one of the people.
    pub visits: Vec<Visit>,
    /// Corrections of closed visits; each names one of the people.
    pub addenda: Vec<Addendum>,
    /// Routines of the practice's own.
    pub routines: Vec<OwnRoutine>,
    /// Receipts for visits taken in.
    pub receipts: Vec<Receipt>,
    /// Entries that are the same person.
    pub joins: Vec<Join>,
    /// What a newer program wrote beside them.
    pub unread: Unread,
}

impl Archive {
    /// An archive of these people and visits.
    #[must_use]
    pub fn of(people: Vec<Person>, visits: Vec<Visit>) -> Archive {
        Archive { people, visits, ..Archive::default() }
    }
}

/// Reads an archive file: all of it or nothing.
///
/// # Errors
/// [`ArchiveError`] says what is wrong with the file and what to do.
pub fn read(bytes: &[u8]) -> Result<Archive, ArchiveError> {
    let root = Place::root();
    let mut fields = open(bytes, ARCHIVE, &root)?.shaped(&v1::shape::ARCHIVE);
    let archive = Archive {
        people: fields.list("people", v1::read::person)?,
        visits: fields.list("visits", v1::read::visit)?,
        addenda: fields.list("addenda", v1::read::addendum)?,
        routines: fields.list("routines", v1::read::routine)?,
        receipts: fields.list("receipts", v1::read::receipt)?,
        joins: fields.list("joins", v1::read::join)?,
        unread: fields.into_unread(),
    };
    check_ids(&archive)?;
    Ok(archive)
}

/// Writes an archive file, indented, one tap or trial a line.
#[must_use]
pub fn write(archive: &Archive) -> Vec<u8> {
    node(archive, |visit| visit).pretty()
}

/// Writes an archive file on one line, for handing over.
#[must_use]
pub fn write_compact(archive: &Archive) -> Vec<u8> {
    node(archive, Node::packed).compact()
}

fn node(archive: &Archive, kept: fn(Node) -> Node) -> Node {
    let mut node = header(ARCHIVE);
    node.push("people", Node::List(archive.people.iter().map(v1::write::person).collect()));
    node.push("visits", Node::List(archive.visits.iter().map(v1::write::visit).map(kept).collect()));
    node.push_list("addenda", archive.addenda.iter().map(v1::write::addendum).collect());
    node.push_list("routines", archive.routines.iter().map(v1::write::routine).collect());
    node.push_list("receipts", archive.receipts.iter().map(v1::write::receipt).collect());
    node.push_list("joins", archive.joins.iter().map(v1::write::join).collect());
    node.restore(&archive.unread);
    node
}

fn header(format: &str) -> Node {
    let mut node = Node::object();
    node.push("format", Node::text(format));
    node.push("version", Node::value(&VERSION));
    node
}

/// Looks at size, text, nesting, syntax, format and version, in this order, before any content is read.
fn open<'a, 'p>(bytes: &'a [u8], format: &str, root: &'p Place<'p>) -> Result<Fields<'a, 'p>, ArchiveError> {
    if bytes.len() > MAX_BYTES {
        return Err(ArchiveError::TooLarge { limit: MAX_BYTES });
    }
    let text = text(bytes)?;
    if text.trim().is_empty() {
        return Err(ArchiveError::Empty);
    }
    check_depth(text)?;
    let raw: &RawValue = serde_json::from_str(text).map_err(|error| syntax(text, &error))?;
    if !raw.get().starts_with('{') {
        return Err(ArchiveError::Foreign);
    }
    let mut fields = Fields::free(raw, root)?;
    if fields.raw("format").and_then(|raw| serde_json::from_str::<String>(raw.get()).ok()).as_deref() != Some(format) {
        return Err(ArchiveError::Foreign);
    }
    match fields.required::<u64>("version")? {
        0 => Err(root.field("version").broken(Fault::Impossible)),
        VERSION => Ok(fields),
        version => Err(ArchiveError::Newer { version }),
    }
}

fn text(bytes: &[u8]) -> Result<&str, ArchiveError> {
    // Some editors put a byte order mark in front of a text they save.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    std::str::from_utf8(bytes).map_err(|error| match error.error_len() {
        None => ArchiveError::Truncated { byte: error.valid_up_to() },
        Some(_) => ArchiveError::NotJson { byte: error.valid_up_to() },
    })
}

/// The parser skips unknown parts without a limit of its own, and whoever reads the file after us may not.
fn check_depth(text: &str) -> Result<(), ArchiveError> {
    let (mut depth, mut in_string, mut escaped) = (0_usize, false, false);
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if in_string => escaped = true,
            b'"' => in_string = !in_string,
            b'{' | b'[' if !in_string => depth += 1,
            b'}' | b']' if !in_string => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > MAX_DEPTH {
            return Err(ArchiveError::Broken { place: format!("byte {at}"), fault: Fault::TooDeep });
        }
    }
    Ok(())
}

fn syntax(text: &str, error: &serde_json::Error) -> ArchiveError {
    let before: usize = text.split_inclusive('\n').take(error.line().saturating_sub(1)).map(str::len).sum();
    let byte = (before + error.column()).min(text.len());
    if error.is_eof() { ArchiveError::Truncated { byte } } else { ArchiveError::NotJson { byte } }
}

/// Ids stand once, and what names a person names one of the file. A closed visit and an addendum may stand twice under one
/// id when they say different things, since neither may be lost.
fn check_ids(archive: &Archive) -> Result<(), ArchiveError> {
    let root = Place::root();
    let people = once(&root.field("people"), archive.people.iter().map(|person| person.id.as_str()))?;
    once(&root.field("routines"), archive.routines.iter().map(|routine| routine.id.as_str()))?;
    once(&root.field("receipts"), archive.receipts.iter().map(|receipt| receipt.id.as_str()))?;
    once(&root.field("joins"), archive.joins.iter().map(|join| join.id.as_str()))?;
    let visits = root.field("visits");
    let mut known: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, visit) in archive.visits.iter().enumerate() {
        let same = known.entry(&visit.id).or_default();
        let open = visit.closed.is_none() || same.iter().any(|other| archive.visits[*other].closed.is_none());
        let said_before = || same.iter().any(|other| digest(&archive.visits[*other]) == digest(visit));
        if !same.is_empty() && (open || said_before()) {
            return Err(visits.item(at).field("id").broken(Fault::Twice));
        }
        same.push(at);
        if !people.contains(visit.person.as_str()) {
            return Err(visits.item(at).field("person").broken(Fault::NoSuchPerson));
        }
    }
    let addenda = root.field("addenda");
    let mut known: BTreeMap<&str, Vec<&Addendum>> = BTreeMap::new();
    for (at, addendum) in archive.addenda.iter().enumerate() {
        let same = known.entry(&addendum.id).or_default();
        if same.contains(&addendum) {
            return Err(addenda.item(at).field("id").broken(Fault::Twice));
        }
        same.push(addendum);
        if !people.contains(addendum.person.as_str()) {
            return Err(addenda.item(at).field("person").broken(Fault::NoSuchPerson));
        }
    }
    Ok(())
}

fn once<'a>(list: &Place<'_>, ids: impl Iterator<Item = &'a str>) -> Result<BTreeSet<&'a str>, ArchiveError> {
    let mut known = BTreeSet::new();
    for (at, id) in ids.enumerate() {
        if !known.insert(id) {
            return Err(list.item(at).field("id").broken(Fault::Twice));
        }
    }
    Ok(known)
}

#[cfg(test)]
mod tests;
