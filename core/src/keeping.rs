//! Safe keeping: which visits were handed over and which of them a receipt came for, what the next hand over holds, and
//! what may leave a device.
//!
//! A visit stands where the least safe part of it stands: its addenda count with it, so that a correction written after
//! a hand over is handed over too before anything is removed. Only the log decides, never a clock.

mod removal;
mod within;

pub use removal::{DAYS, Removal, removal, told};
pub use within::{Packed, pack_within};

use crate::archive::Archive;
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::entry::Entry;
use crate::capture::ledger::{HandedOver, Join, Receipt, VisitRef};
use crate::capture::visit::{Person, Visit};
use crate::merge::Joined;
use crate::receipt;
use crate::routine::own::OwnRoutine;
use crate::sorted;
use std::collections::{BTreeMap, BTreeSet};

/// How safe a closed visit is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stand {
    /// It was recorded here and never handed over.
    Never,
    /// It came from another device and is on a receipt that was given for it; it may lie here alone by now.
    TakenIn,
    /// It was handed over, and no receipt came yet.
    Waiting,
    /// A receipt says that the clinic has it, since this moment.
    Confirmed(Moment),
}

/// What the log of a device says of each visit.
pub struct Book<'a> {
    visits: BTreeMap<&'a str, Vec<(&'a str, Stand)>>,
    addenda: BTreeMap<&'a str, Stand>,
}

impl<'a> Book<'a> {
    /// From the hand overs of the device, the receipts and the addenda that are kept on it.
    #[must_use]
    pub fn of(handed: &'a [HandedOver], receipts: &'a [Receipt], addenda: &'a [Addendum]) -> Book<'a> {
        let mut visits: BTreeMap<&str, Vec<(&str, Stand)>> = BTreeMap::new();
        let mut corrections: BTreeMap<&VisitRef, Stand> = BTreeMap::new();
        let stand = |one: &HandedOver| one.confirmed.map_or(Stand::Waiting, Stand::Confirmed);
        let given = handed.iter().map(|one| (&one.visits, &one.addenda, stand(one)));
        let taken = receipts.iter().map(|one| (&one.visits, &one.addenda, Stand::TakenIn));
        for (of_visits, of_addenda, stand) in given.chain(taken) {
            for visit in of_visits {
                let closings = visits.entry(&visit.id).or_default();
                match closings.iter_mut().find(|(sha256, _)| *sha256 == visit.sha256) {
                    Some((_, known)) => *known = safer(*known, stand),
                    None => closings.push((&visit.sha256, stand)),
                }
            }
            for addendum in of_addenda {
                corrections.entry(addendum).and_modify(|known| *known = safer(*known, stand)).or_insert(stand);
            }
        }
        let mut of_visit = BTreeMap::new();
        for (addendum, its) in addenda.iter().zip(receipt::addendum_refs(addenda)) {
            let stand = corrections.get(&its).copied().unwrap_or(Stand::Never);
            of_visit
                .entry(addendum.visit.as_str())
                .and_modify(|known: &mut Stand| *known = least(*known, stand))
                .or_insert(stand);
        }
        Book { visits, addenda: of_visit }
    }

    /// Where a visit stands; `None` while it is open.
    #[must_use]
    pub fn stand(&self, entry: &Entry) -> Option<Stand> {
        entry.closed?;
        let closings = self.visits.get(entry.id.as_str()).map(Vec::as_slice).unwrap_or_default();
        let same = closings.iter().filter(|(sha256, _)| {
            // A visit closed before digests were noted was closed once only, so that its id suffices.
            entry.sha256.as_deref().is_none_or(|own| own == *sha256)
        });
        let stand = same.map(|(_, stand)| *stand).reduce(safer).unwrap_or(Stand::Never);
        let corrected = self.addenda.get(entry.id.as_str()).copied();
        Some(corrected.map_or(stand, |corrected| least(corrected, stand)))
    }
}

/// The better of two hand overs of the same thing; of two receipts the first.
fn safer(a: Stand, b: Stand) -> Stand {
    match (a, b) {
        (Stand::Confirmed(a), Stand::Confirmed(b)) => Stand::Confirmed(a.min(b)),
        (a, b) => a.max(b),
    }
}

/// Where a thing stands by two of its parts; of two receipts the one that came last.
fn least(a: Stand, b: Stand) -> Stand {
    match (a, b) {
        (Stand::Confirmed(a), Stand::Confirmed(b)) => Stand::Confirmed(a.max(b)),
        (a, b) => a.min(b),
    }
}

/// Visits on a device by how safe they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// All of them.
    pub here: usize,
    /// Not closed yet.
    pub open: usize,
    /// Closed here and never handed over.
    pub never: usize,
    /// From other devices, with a receipt given for them, and not handed on.
    pub taken_in: usize,
    /// Handed over, without a receipt.
    pub waiting: usize,
    /// With a receipt.
    pub confirmed: usize,
}

/// Counts these visits.
#[must_use]
pub fn counts<'e>(entries: impl IntoIterator<Item = &'e Entry>, book: &Book<'_>) -> Counts {
    let mut counts = Counts::default();
    for entry in entries {
        counts.here += 1;
        match book.stand(entry) {
            None => counts.open += 1,
            Some(Stand::Never) => counts.never += 1,
            Some(Stand::TakenIn) => counts.taken_in += 1,
            Some(Stand::Waiting) => counts.waiting += 1,
            Some(Stand::Confirmed(_)) => counts.confirmed += 1,
        }
    }
    counts
}

/// What is to be handed over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wanted {
    /// Everything that was recorded here and never handed over.
    New,
    /// Every visit of these people.
    People(BTreeSet<String>),
    /// Everything.
    All,
    /// One visit.
    Visit(String),
}

/// The visits of a hand over.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Selection {
    /// Places of closed visits in the list that was given: one visit may have been closed twice under one id.
    pub visits: Vec<usize>,
    /// Ids of their people.
    pub people: BTreeSet<String>,
    /// How many were left out because they are open.
    pub open: usize,
}

/// What of these visits is handed over.
#[must_use]
pub fn select(wanted: &Wanted, entries: &[Entry], book: &Book<'_>) -> Selection {
    let mut selection = Selection::default();
    for (at, entry) in entries.iter().enumerate() {
        let stand = book.stand(entry);
        let asked_for = match wanted {
            Wanted::New => stand.is_none_or(|stand| stand == Stand::Never),
            Wanted::People(people) => people.contains(&entry.person),
            Wanted::All => true,
            Wanted::Visit(id) => *id == entry.id,
        };
        match (asked_for, stand) {
            (true, Some(_)) => {
                selection.visits.push(at);
                selection.people.insert(entry.person.clone());
            }
            (true, None) => selection.open += 1,
            (false, _) => {}
        }
    }
    selection
}

/// What a hand over is made from.
#[derive(Debug, Clone, Copy)]
pub struct Shelf<'a> {
    /// Everyone known.
    pub people: &'a [Person],
    /// Every addendum.
    pub addenda: &'a [Addendum],
    /// Every routine of the practice's own.
    pub routines: &'a [OwnRoutine],
    /// Every join.
    pub joins: &'a [Join],
}

/// These closed visits with all that belongs to them and nothing else. To their people belong the entries joined with
/// them, and what was said of who is the same: the side that takes in must see one person too, and two again after a join
/// was undone.
#[must_use]
pub fn pack(visits: Vec<Visit>, shelf: &Shelf<'_>) -> Archive {
    let visits: Vec<Visit> = visits.into_iter().filter(|visit| visit.closed.is_some()).collect();
    let of = |named: fn(&Visit) -> &String| sorted::set(visits.iter().map(named));
    let (ids, named, routines) = (of(|visit| &visit.id), of(|visit| &visit.person), of(|visit| &visit.routine));
    let joined = Joined::of(shelf.people, shelf.joins);
    let people: BTreeSet<&str> = sorted::set(named.into_iter().flat_map(|id| joined.entries(id)));
    let goes = |id: &String| people.contains(id.as_str());
    let addenda = shelf.addenda.iter().filter(|addendum| ids.contains(&addendum.visit));
    let joins = shelf.joins.iter().filter(|join| goes(&join.keep) || goes(&join.other));
    Archive {
        people: shelf.people.iter().filter(|person| goes(&person.id)).cloned().collect(),
        addenda: addenda.cloned().collect(),
        routines: shelf.routines.iter().filter(|routine| routines.contains(&routine.id)).cloned().collect(),
        joins: joins.cloned().collect(),
        visits,
        ..Archive::default()
    }
}

/// The note of a hand over of this archive.
#[must_use]
pub fn note(id: &str, made: Moment, word: &str, archive: &Archive) -> HandedOver {
    HandedOver::of(id, made, word, receipt::refs(&archive.visits), receipt::addendum_refs(&archive.addenda))
}

/// What goes when people are erased.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Erased {
    /// Their visits.
    pub visits: Counts,
    /// Corrections of these visits.
    pub addenda: usize,
}

/// What of a device goes with these people; joined ones go together.
#[must_use]
pub fn erased(people: &BTreeSet<String>, entries: &[Entry], addenda: &[Addendum], book: &Book<'_>) -> Erased {
    let own = entries.iter().filter(|entry| people.contains(&entry.person));
    Erased {
        visits: counts(own, book),
        addenda: addenda.iter().filter(|addendum| people.contains(&addendum.person)).count(),
    }
}

#[cfg(test)]
mod tests;
