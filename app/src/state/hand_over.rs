//! Handing over: where each visit stands, what a file holds, the log, and what leaves this device afterwards.

use std::collections::BTreeSet;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::entry::Entry;
use sidelight_core::capture::ledger::{HandedOver, Tombstone};
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::Person;
use sidelight_core::keeping::{self, Book, Counts, Erased, Selection, Shelf, Wanted};
use sidelight_core::merge::Joined;
use sidelight_core::receipt::{self, Said};
use sidelight_core::sorted;
use sidelight_core::{people, words as bits};

use super::{App, ELSEWHERE, Listed, ledger, now};
use crate::platform::ids;
use crate::storage::Change;
use crate::storage::sealed::Fate;
use crate::words;

/// What becomes a file, and the note of it.
#[derive(Clone)]
pub struct Packed {
    /// The archive's bytes.
    pub bytes: Vec<u8>,
    /// What the log will say.
    pub note: HandedOver,
    /// Visits that did not fit into one file.
    pub left: usize,
    /// Visits that cannot be read.
    pub damaged: usize,
}

/// What a receipt came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Confirmed {
    /// The hand overs it is for; none when it is for other visits.
    pub hand_overs: Vec<HandedOver>,
    /// Whether this was known before.
    pub known: bool,
}

fn counted(visits: usize) -> String {
    counted!(visits, "1 visit", "{count} visits")
}

/// What erasing leaves on the disk of this device.
fn left_behind(fate: Option<Fate>) -> &'static str {
    match fate {
        Some(Fate::ForGood) => say!("What the browser leaves on the disk is sealed, and the key to it was destroyed."),
        Some(Fate::UntilOverwritten) => {
            say!(
                "What the browser leaves on the disk until it overwrites it is sealed; this device cannot destroy a key for good, so the passphrase could still open it."
            )
        }
        Some(Fate::Unfinished) => {
            say!(
                "What the browser leaves on the disk is sealed; its key is destroyed when Sidelight is unlocked the next time."
            )
        }
        None => {
            say!("There is no passphrase here: until the browser overwrites it, a part may stay readable on the disk.")
        }
    }
}

impl App {
    /// How many visits stand where.
    #[must_use]
    pub fn counts(self) -> Counts {
        self.with_book(|entries, book| keeping::counts(entries, book))
    }

    /// What of the visits here would be handed over.
    #[must_use]
    pub fn selection(self, wanted: &Wanted) -> Selection {
        let people = |people: &BTreeSet<String>| sorted::set(people.iter().map(|id| self.stands(id)));
        let wanted = match wanted {
            Wanted::People(chosen) => &Wanted::People(people(chosen)),
            Wanted::New | Wanted::All | Wanted::Visit(_) => wanted,
        };
        self.with_book(|entries, book| keeping::select(wanted, entries, book))
    }

    /// What would go with this person, and with the entries joined to it.
    #[must_use]
    pub fn would_erase(self, person: &str) -> Erased {
        let people = self.entries_of(person);
        self.with_book(|entries, book| self.addenda.with(|addenda| keeping::erased(&people, entries, addenda, book)))
    }

    /// People whose code or name holds these words, the last seen first.
    #[must_use]
    pub fn people_seen(self, wanted: &str) -> Vec<people::Seen> {
        let seen = |all: &Vec<Person>, joined: &Joined, listed: &Vec<Listed>| {
            people::seen(all, joined, listed.iter().map(|one| &one.entry), wanted)
        };
        self.everyone.with(|all| self.joined.with(|joined| self.listed.with(|listed| seen(all, joined, listed))))
    }

    /// The visits of a selection as the bytes of an archive, and the note that the log will keep of it.
    pub async fn pack(self, selection: &Selection) -> Result<Packed, String> {
        let found = self.visits_at(&selection.visits).await?;
        if found.visits.is_empty() {
            return Err(say!("None of these visits can be read, so there is nothing to hand over.").to_string());
        }
        let packed = self.with_shelf(|shelf| keeping::pack_within(found.visits, shelf, archive::MAX_BYTES));
        let word = bits::word(ids::random_number());
        let note = keeping::note(&ids::uuid(), now(), word, &packed.archive);
        Ok(Packed { bytes: packed.bytes, note, left: packed.left, damaged: found.damaged })
    }

    /// Writes a hand over into the log and waits for the disk: what is noted can be lost on its way, what is not noted
    /// would be handed over twice and never be confirmed.
    pub async fn note_hand_over(self, note: HandedOver) -> Result<(), String> {
        self.keep_hand_overs(vec![note]).await
    }

    /// The same without waiting, for what cannot wait: a drag that has begun.
    pub fn note_hand_over_soon(self, note: HandedOver) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.write([ledger::put_handed(&note)]);
        self.flush();
        self.ledger.update(|ledger| ledger.keep_handed(note));
    }

    /// Takes a hand over back that did not arrive: its visits count as never handed over again.
    pub fn take_back(self, id: &str) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.write([ledger::delete_handed(id)]);
        self.flush();
        self.ledger.update(|ledger| ledger.handed.retain(|one| one.id != id));
    }

    /// Marks the hand overs that a receipt is for.
    pub async fn confirm(self, said: &Said) -> Result<Confirmed, String> {
        let found: Vec<HandedOver> =
            self.ledger.with_untracked(|ledger| receipt::matches(said, &ledger.handed).into_iter().cloned().collect());
        if found.iter().all(|one| one.confirmed.is_some()) {
            return Ok(Confirmed { known: !found.is_empty(), hand_overs: found });
        }
        let mark = |one: HandedOver| HandedOver { confirmed: one.confirmed.or(Some(now())), ..one };
        let marked: Vec<HandedOver> = found.into_iter().map(mark).collect();
        self.keep_hand_overs(marked.clone()).await?;
        Ok(Confirmed { hand_overs: marked, known: false })
    }

    /// Removes what the rule of this device says, and tells it in one line. Called once after the records were read.
    pub async fn remove_by_rule(self) {
        let Some(days) = self.settings.with_untracked(|settings| settings.remove_after) else { return };
        if self.elsewhere.get_untracked() {
            return;
        }
        let entries = untrack(|| self.entries());
        let removal = self.ledger.with_untracked(|ledger| {
            untrack(|| self.with_shelf(|shelf| keeping::removal(days, now(), &entries, &ledger.handed, shelf)))
        });
        if removal.visits.is_empty() {
            return;
        }
        match self.remove_with_corrections(&removal.visits, &removal.people, Vec::new()).await {
            Ok(_) => self.said.set(Some(keeping::told(&removal, days))),
            Err(why) => self.said.set(Some(why)),
        }
    }

    /// Erases a person with every visit, and notes that, so that no old file brings them back unasked.
    pub async fn erase(self, person: &str) -> Result<String, String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(ELSEWHERE).to_string());
        }
        let people = self.entries_of(person);
        let entries = untrack(|| self.entries());
        let places: Vec<usize> = (0..entries.len()).filter(|at| people.contains(&entries[*at].person)).collect();
        let tombstone =
            |person: &String| Tombstone { person: person.clone(), erased: now(), unread: Unread::default() };
        let tombstones: Vec<Tombstone> = people.iter().map(tombstone).collect();
        let gone: Vec<String> = people.iter().cloned().collect();
        let also = tombstones.iter().map(ledger::put_erased).collect();
        let fate = self.remove_with_corrections(&places, &gone, also).await?;
        self.ledger.update(|ledger| {
            ledger.erased.retain(|one| !people.contains(&one.person));
            ledger.erased.extend(tombstones);
        });
        Ok(say!(
            "Erased from this device with {visits}. {left}",
            visits = counted(places.len()),
            left = left_behind(fate)
        ))
    }

    /// This person's id and those of the entries joined to it.
    #[must_use]
    pub fn entries_of(self, person: &str) -> BTreeSet<String> {
        self.joined.with_untracked(|joined| sorted::set(joined.entries(person).into_iter().map(str::to_string)))
    }

    /// What was removed takes its corrections along, in memory too.
    async fn remove_with_corrections(
        self,
        places: &[usize],
        people: &[String],
        also: Vec<Change>,
    ) -> Result<Option<Fate>, String> {
        let (keys, ids): (BTreeSet<String>, BTreeSet<String>) = self.listed.with_untracked(|all| {
            let gone = places.iter().filter_map(|at| all.get(*at));
            gone.map(|one| (one.key.clone(), one.entry.id.clone())).unzip()
        });
        let fate = self.remove(&keys, people, also).await?;
        self.addenda.update(|all| {
            all.retain(|addendum| !ids.contains(&addendum.visit) && !people.contains(&addendum.person));
        });
        Ok(fate)
    }

    async fn keep_hand_overs(self, all: Vec<HandedOver>) -> Result<(), String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(ELSEWHERE).to_string());
        }
        let changes: Vec<Change> = all.iter().map(ledger::put_handed).collect();
        let writer = self.writer.get_value();
        writer.close(changes).await.map_err(|error| error.to_string())?;
        self.ledger.update(|ledger| all.into_iter().for_each(|one| ledger.keep_handed(one)));
        Ok(())
    }

    fn with_book<T>(self, ask: impl FnOnce(&[Entry], &Book<'_>) -> T) -> T {
        let entries = self.entries();
        self.ledger.with(|ledger| {
            self.addenda.with(|addenda| ask(&entries, &Book::of(&ledger.handed, &ledger.receipts, addenda)))
        })
    }

    fn with_shelf<T>(self, ask: impl FnOnce(&Shelf<'_>) -> T) -> T {
        self.everyone.with_untracked(|people| {
            self.addenda.with_untracked(|addenda| {
                self.routines.with_untracked(|routines| {
                    self.ledger.with_untracked(|ledger| ask(&Shelf { people, addenda, routines, joins: &ledger.joins }))
                })
            })
        })
    }
}
