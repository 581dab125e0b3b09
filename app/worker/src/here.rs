//! What is on this device, as bytes for the second module: a letter for what it is and the thing as it is stored, a line each.

use sidelight_core::archive::{self, ArchiveError};
use sidelight_core::capture::ledger::VisitRef;
use sidelight_core::merge::Here;

/// Writes it.
#[must_use]
pub fn write(here: &Here) -> Vec<u8> {
    let mut lines = Lines(Vec::new());
    here.people.iter().for_each(|one| lines.add(b'P', &archive::write_person(one)));
    here.routines.iter().for_each(|one| lines.add(b'R', &archive::write_routine(one)));
    here.addenda.iter().for_each(|one| lines.add(b'A', &archive::write_addendum(one)));
    here.receipts.iter().for_each(|one| lines.add(b'Q', &archive::write_receipt(one)));
    here.joins.iter().for_each(|one| lines.add(b'J', &archive::write_join(one)));
    here.tombstones.iter().for_each(|one| lines.add(b'T', &archive::write_tombstone(one)));
    here.open.iter().for_each(|one| lines.add(b'V', &archive::write_visit(one)));
    here.closed.iter().for_each(|one| lines.add(b'C', format!("{} {}", one.sha256, one.id).as_bytes()));
    lines.0
}

/// Reads it back.
///
/// # Errors
/// [`ArchiveError`] says what cannot be read; nothing of it is, unless a page of another version wrote it.
pub fn read(bytes: &[u8]) -> Result<Here, ArchiveError> {
    let mut here = Here::default();
    for line in bytes.split(|byte| *byte == b'\n') {
        let Some((what, thing)) = line.split_first() else { continue };
        match what {
            b'P' => here.people.push(archive::read_person(thing)?),
            b'R' => here.routines.push(archive::read_routine(thing)?),
            b'A' => here.addenda.push(archive::read_addendum(thing)?),
            b'Q' => here.receipts.push(archive::read_receipt(thing)?),
            b'J' => here.joins.push(archive::read_join(thing)?),
            b'T' => here.tombstones.push(archive::read_tombstone(thing)?),
            b'V' => here.open.push(archive::read_visit(thing)?),
            b'C' => here.closed.push(closed(thing).ok_or(ArchiveError::Foreign)?),
            _ => return Err(ArchiveError::Foreign),
        }
    }
    Ok(here)
}

fn closed(line: &[u8]) -> Option<VisitRef> {
    let (sha256, id) = std::str::from_utf8(line).ok()?.split_once(' ')?;
    Some(VisitRef { id: id.to_owned(), sha256: sha256.to_owned() })
}

struct Lines(Vec<u8>);

impl Lines {
    /// Stored things stand on one line each.
    fn add(&mut self, what: u8, thing: &[u8]) {
        self.0.push(what);
        self.0.extend_from_slice(thing);
        self.0.push(b'\n');
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sidelight_core::archive::Archive;
    use sidelight_core::calendar::Moment;
    use sidelight_core::capture::addendum::Addendum;
    use sidelight_core::capture::ledger::{Join, Receipt, Tombstone};
    use sidelight_core::capture::unread::Unread;
    use sidelight_core::demo;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    #[test]
    fn everything_comes_back_as_it_was() {
        let (people, mut visits) = demo::people(NOW);
        (visits[0].closed, visits[0].sha256) = (None, None);
        let addendum = Addendum {
            id: "a".into(),
            visit: visits[1].id.clone(),
            person: visits[1].person.clone(),
            written: NOW,
            text: "Left,\nnot right.".into(),
            program: "test".into(),
            unread: Unread::default(),
        };
        let join = Join {
            id: "j".into(),
            keep: people[0].id.clone(),
            other: people[1].id.clone(),
            made: NOW,
            undone: None,
            unread: Unread::default(),
        };
        let stone = Tombstone { person: "gone".into(), erased: NOW, unread: Unread::default() };
        let archive = Archive {
            addenda: vec![addendum],
            receipts: vec![Receipt::of("q", NOW, Vec::new(), Vec::new())],
            joins: vec![join],
            ..Archive::of(people, visits)
        };
        let here = Here::of(archive, vec![stone]);
        assert!(!here.closed.is_empty() && here.open.len() == 1);
        assert!(read(&write(&here)).is_ok_and(|read| read == here));
    }

    #[test]
    fn what_another_version_wrote_is_an_error() {
        assert!(read(b"Zwhat\n").is_err());
        assert!(read(b"Cno-blank\n").is_err());
        assert_eq!(read(b""), Ok(Here::default()));
    }
}
