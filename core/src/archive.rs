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
//!   ]
//! }
//! ```
//!
//! - `plan` (optional): ids of the visit's tasks in order, each once; absent for the routine's own list.
//! - `born`: a year or a date. `invented`: written only when true. Moments are local time with its offset from UTC.
//! - `state`: `open`, `done`, `not_done` or `not_testable`; the last two carry a `reason`.
//! - An answer is an object with one field that names its kind: `one`, `many`, `number`, `text`, `day`, `ratings`
//!   (`[{ "item", "value" }]`), `trials` (`[{ "at_ms", "answers" }]`), `series` (`runs` and `taps`) or `grid`
//!   (`[{ "row", "column", "grade", "from_cycle" }]`).
//! - `made`: `tapped`, `paced` or `paced_then_tapped`. Absent fields are absent answers, never zero.
//!
//! A stored single record is `{"format":"sidelight-visit","version":1,"visit":{…}}`, and likewise for a person
//! and for a routine of the practice's own (`{ "id", "title", "tasks" }`).
//! New optional fields, tasks and answer kinds do not raise the version; anything that changes the meaning of a field
//! above does.

mod error;
mod fields;
mod node;
mod v1;

pub use error::{ArchiveError, Fault};

use crate::capture::visit::{Person, Unread, Visit};
use crate::routine::own::OwnRoutine;
use fields::{Fields, Place};
use node::Node;
use serde_json::value::RawValue;

/// The newest version this program reads, and the one it writes.
pub const VERSION: u64 = 1;

/// Largest file that is taken in, in bytes; checked before anything is read.
pub const MAX_BYTES: usize = 20 * 1024 * 1024;

/// Deepest nesting of lists and objects that is taken in. The form itself needs ten levels.
const MAX_DEPTH: usize = 64;

const ARCHIVE: &str = "sidelight-archive";
const VISIT: &str = "sidelight-visit";
const PERSON: &str = "sidelight-person";
const ROUTINE: &str = "sidelight-routine";

/// People and visits in one file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Archive {
    /// The people.
    pub people: Vec<Person>,
    /// Their visits; each names one of the people.
    pub visits: Vec<Visit>,
    /// What a newer program wrote beside them.
    pub unread: Unread,
}

impl Archive {
    /// An archive of these people and visits.
    #[must_use]
    pub fn of(people: Vec<Person>, visits: Vec<Visit>) -> Archive {
        Archive { people, visits, unread: Unread::default() }
    }
}

/// Reads an archive file: all of it or nothing.
///
/// # Errors
/// [`ArchiveError`] says what is wrong with the file and what to do.
pub fn read(bytes: &[u8]) -> Result<Archive, ArchiveError> {
    let root = Place::root();
    let mut fields = open(bytes, ARCHIVE, &root)?;
    let people = fields.list("people", v1::read::person)?;
    let visits = fields.list("visits", v1::read::visit)?;
    check_ids(&people, &visits)?;
    Ok(Archive { people, visits, unread: fields.into_unread() })
}

/// Writes an archive file, indented, one tap or trial a line.
#[must_use]
pub fn write(archive: &Archive) -> Vec<u8> {
    let people = archive.people.iter().map(v1::write::person).collect();
    let visits = archive.visits.iter().map(v1::write::visit).collect();
    let mut node = header(ARCHIVE);
    node.push("people", Node::List(people));
    node.push("visits", Node::List(visits));
    node.restore(&archive.unread);
    node.pretty()
}

/// Reads one stored visit.
///
/// # Errors
/// [`ArchiveError`] says what is wrong.
pub fn read_visit(bytes: &[u8]) -> Result<Visit, ArchiveError> {
    read_single(bytes, VISIT, "visit", v1::read::visit)
}

/// Writes one visit for storage, on one line.
#[must_use]
pub fn write_visit(visit: &Visit) -> Vec<u8> {
    let mut node = header(VISIT);
    node.push("visit", v1::write::visit(visit));
    node.compact()
}

/// Reads one stored person.
///
/// # Errors
/// [`ArchiveError`] says what is wrong.
pub fn read_person(bytes: &[u8]) -> Result<Person, ArchiveError> {
    read_single(bytes, PERSON, "person", v1::read::person)
}

/// Writes one person for storage, on one line.
#[must_use]
pub fn write_person(person: &Person) -> Vec<u8> {
    let mut node = header(PERSON);
    node.push("person", v1::write::person(person));
    node.compact()
}

/// Reads one stored routine.
///
/// # Errors
/// [`ArchiveError`] says what is wrong.
pub fn read_routine(bytes: &[u8]) -> Result<OwnRoutine, ArchiveError> {
    read_single(bytes, ROUTINE, "routine", v1::read::routine)
}

/// Writes one routine for storage, on one line.
#[must_use]
pub fn write_routine(routine: &OwnRoutine) -> Vec<u8> {
    let mut node = header(ROUTINE);
    node.push("routine", v1::write::routine(routine));
    node.compact()
}

fn read_single<T>(
    bytes: &[u8],
    format: &str,
    name: &str,
    read: fn(&RawValue, &Place<'_>) -> Result<T, ArchiveError>,
) -> Result<T, ArchiveError> {
    let root = Place::root();
    let mut fields = open(bytes, format, &root)?;
    let place = root.field(name);
    let raw = fields.raw(name).ok_or_else(|| place.broken(Fault::Missing))?;
    read(raw, &place)
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
    let mut fields = Fields::of(raw, root)?;
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

fn check_ids(people: &[Person], visits: &[Visit]) -> Result<(), ArchiveError> {
    let root = Place::root();
    let mut known = std::collections::BTreeSet::new();
    for (at, person) in people.iter().enumerate() {
        if !known.insert(person.id.as_str()) {
            return Err(root.field("people").item(at).field("id").broken(Fault::Twice));
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    for (at, visit) in visits.iter().enumerate() {
        if !seen.insert(visit.id.as_str()) {
            return Err(root.field("visits").item(at).field("id").broken(Fault::Twice));
        }
        if !known.contains(visit.person.as_str()) {
            return Err(root.field("visits").item(at).field("person").broken(Fault::NoSuchPerson));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
