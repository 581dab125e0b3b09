//! What leaves a device by rule: closed visits some time after their receipt, and nothing else.

use super::{Book, Shelf, Stand};
use crate::calendar::Moment;
use crate::capture::entry::Entry;
use crate::capture::ledger::HandedOver;
use crate::capture::visit::Person;
use crate::merge::Joined;
use crate::sorted;
use std::collections::{BTreeMap, BTreeSet};

/// Days after a receipt that can be chosen; common practice.
pub const DAYS: [u16; 3] = [7, 30, 90];

const DAY_MS: i64 = 86_400_000;

/// What is removed. Nobody is marked as erased by it: a file brings them back without a question.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Removal {
    /// Places of the visits in the list that was given.
    pub visits: Vec<usize>,
    /// Ids of people of whom nothing is left.
    pub people: Vec<String>,
}

/// What is removed so many days after a receipt. A visit whose re-test nobody has seen yet stays. Nothing goes while the
/// device's clock stands before anything in its own log, since then it says nothing about days.
#[must_use]
pub fn removal(days: u16, now: Moment, entries: &[Entry], handed: &[HandedOver], shelf: &Shelf<'_>) -> Removal {
    let noted = handed.iter().flat_map(|one| [Some(one.made), one.confirmed]).flatten();
    if noted.map(|moment| moment.unix_ms).max().is_none_or(|latest| now.unix_ms < latest) {
        return Removal::default();
    }
    // What came from elsewhere has no receipt of its own, so that no rule removes it.
    let book = Book::of(handed, &[], shelf.addenda);
    let joined = Joined::of(shelf.people, shelf.joins);
    let mut last_seen: BTreeMap<&str, Moment> = BTreeMap::new();
    for entry in entries {
        let last = last_seen.entry(joined.stands(&entry.person)).or_insert(entry.started);
        *last = entry.started.max(*last);
    }
    let awaited = |entry: &Entry| {
        entry.retest_on.is_some()
            && last_seen.get(joined.stands(&entry.person)).is_none_or(|last| *last <= entry.started)
    };
    let goes = |entry: &Entry| match book.stand(entry) {
        Some(Stand::Confirmed(since)) => now.unix_ms - since.unix_ms >= i64::from(days) * DAY_MS && !awaited(entry),
        Some(Stand::Never | Stand::TakenIn | Stand::Waiting) | None => false,
    };
    let (gone, stays): (Vec<usize>, Vec<usize>) = (0..entries.len()).partition(|at| goes(&entries[*at]));
    let of = |places: &[usize]| -> BTreeSet<&str> {
        sorted::set(places.iter().map(|at| joined.stands(&entries[*at].person)))
    };
    let (seen, still_seen) = (of(&gone), of(&stays));
    let left = |person: &&Person| {
        let one = joined.stands(&person.id);
        seen.contains(one) && !still_seen.contains(one)
    };
    Removal { people: shelf.people.iter().filter(left).map(|person| person.id.clone()).collect(), visits: gone }
}

/// What was removed, in one line.
#[must_use]
pub fn told(removal: &Removal, days: u16) -> String {
    let visits = match removal.visits.len() {
        1 => "1 visit was".to_string(),
        count => format!("{count} visits were"),
    };
    let people = match removal.people.len() {
        0 => String::new(),
        1 => " Nothing is left here of 1 person.".to_string(),
        count => format!(" Nothing is left here of {count} people."),
    };
    format!("{visits} removed from this device, {days} days after a receipt.{people}")
}
