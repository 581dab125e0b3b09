//! What a device keeps about its records beside them: hand overs, receipts, joins, and who was erased.

use sidelight_core::archive::{self, ArchiveError};
use sidelight_core::capture::ledger::{HandedOver, Join, Receipt, Tombstone};

use crate::storage::{Change, Key, Kind};

/// All of it. A row's id begins with what it is.
#[derive(Clone, Debug, Default)]
pub struct Ledger {
    /// What this device handed over.
    pub handed: Vec<HandedOver>,
    /// What it gave receipts for.
    pub receipts: Vec<Receipt>,
    /// Who is the same person.
    pub joins: Vec<Join>,
    /// Who was erased here.
    pub erased: Vec<Tombstone>,
}

/// One row of it.
pub enum Row {
    /// A hand over.
    Handed(HandedOver),
    /// A receipt.
    Receipt(Receipt),
    /// A join.
    Join(Join),
    /// Somebody erased.
    Erased(Tombstone),
}

/// Reads one stored row. Rows of a later program are left alone.
pub fn read(id: &str, bytes: &[u8]) -> Result<Option<Row>, ArchiveError> {
    Ok(match id.split_once('-') {
        Some(("handed", _)) => Some(Row::Handed(archive::read_handed_over(bytes)?)),
        Some(("receipt", _)) => Some(Row::Receipt(archive::read_receipt(bytes)?)),
        Some(("join", _)) => Some(Row::Join(archive::read_join(bytes)?)),
        Some(("erased", _)) => Some(Row::Erased(archive::read_tombstone(bytes)?)),
        Some(_) | None => None,
    })
}

impl FromIterator<Row> for Ledger {
    fn from_iter<T: IntoIterator<Item = Row>>(rows: T) -> Ledger {
        let mut ledger = Ledger::default();
        for row in rows {
            match row {
                Row::Handed(one) => ledger.handed.push(one),
                Row::Receipt(one) => ledger.receipts.push(one),
                Row::Join(one) => ledger.joins.push(one),
                Row::Erased(one) => ledger.erased.push(one),
            }
        }
        ledger
    }
}

impl Ledger {
    /// Adds a hand over, or what became of it.
    pub fn keep_handed(&mut self, one: HandedOver) {
        match self.handed.iter_mut().find(|known| known.id == one.id) {
            Some(known) => *known = one,
            None => self.handed.push(one),
        }
    }
}

/// Writes a hand over.
pub fn put_handed(one: &HandedOver) -> Change {
    Change::put(handed_key(&one.id), archive::write_handed_over(one))
}

/// Takes a hand over back.
pub fn delete_handed(id: &str) -> Change {
    Change::Delete(handed_key(id))
}

/// Writes what was said of two entries.
pub fn put_join(one: &Join) -> Change {
    Change::put(join_key(&one.id), archive::write_join(one))
}

/// Notes that somebody was erased.
pub fn put_erased(one: &Tombstone) -> Change {
    Change::put(erased_key(&one.person), archive::write_tombstone(one))
}

/// Where it stands that somebody was erased.
pub fn erased_key(person: &str) -> Key {
    Key::new(Kind::Ledger, format!("erased-{person}"))
}

/// Where a receipt given here stands.
pub fn receipt_key(id: &str) -> Key {
    Key::new(Kind::Ledger, format!("receipt-{id}"))
}

/// Where a join stands.
pub fn join_key(id: &str) -> Key {
    Key::new(Kind::Ledger, format!("join-{id}"))
}

fn handed_key(id: &str) -> Key {
    Key::new(Kind::Ledger, format!("handed-{id}"))
}
