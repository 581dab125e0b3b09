//! Merging: files of several devices become one set of records, the same whatever their order and however often each is
//! taken in.
//!
//! Every thing has an id, and for each id there is one rule that looks only at what the things say:
//!
//! - A closed visit is never changed and never lost. Two closings that say the same are one; two that differ both stay.
//! - An open visit gives way to any closing of it. Of two open ones that with the later last entry stays.
//! - An addendum is never changed and never lost.
//! - Of two entries of a person or a routine the one changed later stays, of the same moment the one whose canonical bytes
//!   are greater. A device whose clock is wrong can so make its edits of a name prevail, or lose, against edits it has not
//!   seen; those it has seen it always follows ([`crate::capture::visit::edited`]), and no visit depends on a clock.
//! - A join that was undone stays undone. A receipt stays; of two with one id the later.
//!
//! "The greater of two" in a fixed order, and "all of them": both are the same twice, in any order and grouped in any way,
//! and so is [`merge`] (`tests/src/merge_law.rs`).

mod cases;
mod closing;
mod decided;
mod join;
mod one;
mod plan;
mod told;

pub use crate::capture::ledger::{Join, Tombstone};
pub use cases::cases;
pub use decided::{apart, join, parted};
pub use join::{base_letters, likely_same, likely_same_by};
pub use one::Joined;
pub use plan::{Choice, Here, Line, Plan, Row, Standing, What, plan};
pub use told::{Told, told};

use crate::archive::{Archive, Kept};
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::ledger::Receipt;
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;
use closing::Closings;
use std::collections::BTreeMap;

/// Both archives as one, in normal form: each list by id, each thing once.
#[must_use]
pub fn merge(a: Archive, b: Archive) -> Archive {
    let mut people = Latest::default();
    let mut routines = Latest::default();
    let mut receipts = Latest::default();
    let mut joins = Latest::default();
    let mut addenda = All::default();
    let mut visits = Closings::default();
    let mut unread = BTreeMap::new();
    for archive in [a, b] {
        archive.people.into_iter().for_each(|person| people.take(person));
        archive.routines.into_iter().for_each(|routine| routines.take(routine));
        archive.receipts.into_iter().for_each(|receipt| receipts.take(receipt));
        archive.joins.into_iter().for_each(|join| joins.take(join));
        archive.addenda.into_iter().for_each(|addendum| addenda.take(addendum));
        archive.visits.into_iter().for_each(|visit| visits.take(visit));
        for (name, text) in archive.unread.0 {
            let known = unread.entry(name).or_insert_with(|| text.clone());
            if *known < text {
                *known = text;
            }
        }
    }
    Archive {
        people: people.all(),
        visits: visits.all(),
        addenda: addenda.all(),
        routines: routines.all(),
        receipts: receipts.all(),
        joins: joins.all(),
        unread: Unread(unread.into_iter().collect()),
    }
}

/// A thing of which the later one stays.
trait Dated: Kept {
    fn id(&self) -> &str;
    fn date(&self) -> Option<Moment>;

    /// Whether this one stays rather than the other.
    fn prevails(&self, other: &Self) -> bool {
        match self.date().cmp(&other.date()) {
            std::cmp::Ordering::Greater => true,
            std::cmp::Ordering::Less => false,
            std::cmp::Ordering::Equal => self.order() > other.order(),
        }
    }
}

impl Dated for Person {
    fn id(&self) -> &str {
        &self.id
    }

    fn date(&self) -> Option<Moment> {
        self.changed
    }
}

impl Dated for OwnRoutine {
    fn id(&self) -> &str {
        &self.id
    }

    fn date(&self) -> Option<Moment> {
        self.changed
    }
}

impl Dated for Receipt {
    fn id(&self) -> &str {
        &self.id
    }

    fn date(&self) -> Option<Moment> {
        Some(self.issued)
    }
}

impl Dated for Join {
    fn id(&self) -> &str {
        &self.id
    }

    /// None while it stands, so that what was undone prevails.
    fn date(&self) -> Option<Moment> {
        self.undone
    }
}

/// Things by id, the later one of each.
struct Latest<T>(BTreeMap<String, T>);

impl<T> Default for Latest<T> {
    fn default() -> Latest<T> {
        Latest(BTreeMap::new())
    }
}

impl<T: Dated + PartialEq> Latest<T> {
    fn take(&mut self, thing: T) {
        match self.0.get_mut(thing.id()) {
            Some(known) if *known == thing => {}
            Some(known) if thing.prevails(known) => *known = thing,
            Some(_) => {}
            None => {
                self.0.insert(thing.id().to_string(), thing);
            }
        }
    }

    fn all(self) -> Vec<T> {
        self.0.into_values().collect()
    }
}

/// Addenda by id, and under one id each that says something else.
#[derive(Default)]
struct All(BTreeMap<String, Vec<Addendum>>);

impl All {
    fn take(&mut self, addendum: Addendum) {
        let same = self.0.entry(addendum.id.clone()).or_default();
        if !same.contains(&addendum) {
            same.push(addendum);
        }
    }

    fn all(self) -> Vec<Addendum> {
        self.0.into_values().flat_map(in_order).collect()
    }
}

fn in_order(mut same: Vec<Addendum>) -> Vec<Addendum> {
    same.sort_by_cached_key(Kept::order);
    same
}

/// The visits of an archive that were changed after they were closed, taken out of it.
#[must_use]
pub fn without_damaged(archive: Archive) -> (Archive, Vec<Visit>) {
    let (visits, damaged) = archive.visits.into_iter().partition(crate::archive::intact);
    (Archive { visits, ..archive }, damaged)
}
