//! Visits: one in hand, an index of all, and whichever of the others a screen has asked for.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::entry::Entry;
use sidelight_core::capture::visit::Visit;
use sidelight_core::flow::{self, Step};
use sidelight_core::sorted;
use wasm_bindgen_futures::spawn_local;

use super::joins::told_of;
use super::{App, PROGRAM, now, plan, put_visit};
use crate::platform::ids;
use crate::route::Route;
use crate::storage::{Change, Held, Key, Kind};

/// Most visits kept in memory; beyond it those that no one looks at are let go.
const MOST_READ: usize = 2_000;

/// Visits read from the store together.
pub const AT_ONCE: usize = 200;

/// The index row of a visit, and the id it is stored under: its own, or a longer one when two phones closed it apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// The id within its kind.
    pub key: String,
    /// What lists need to know.
    pub entry: Entry,
}

impl Listed {
    /// Where the visit is stored.
    #[must_use]
    pub fn place(&self) -> Key {
        Key::new(if self.entry.closed.is_some() { Kind::Visit } else { Kind::Draft }, &self.key)
    }
}

/// A visit that was asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum Read {
    /// It was read.
    Visit(Arc<Visit>),
    /// It cannot be read, for this reason.
    Damaged(String),
}

impl Read {
    /// The visit, unless it is damaged.
    #[must_use]
    pub fn visit(&self) -> Option<&Visit> {
        match self {
            Read::Visit(visit) => Some(visit),
            Read::Damaged(_) => None,
        }
    }
}

/// Visits that were asked for together.
pub struct Found {
    /// Those that can be read, in the order asked for.
    pub visits: Vec<Visit>,
    /// How many cannot.
    pub damaged: usize,
}

impl App {
    /// The index of all visits, the latest first, open ones too, by the people as they stand.
    #[must_use]
    pub fn entries(self) -> Vec<Entry> {
        self.listed.with(|all| all.iter().map(|listed| listed.entry.clone()).collect())
    }

    /// A visit as it stands: the one in hand, or one that was read.
    #[must_use]
    pub fn read_of(self, key: &str) -> Option<Read> {
        if self.in_hand.with(|in_hand| in_hand.as_deref() == Some(key)) {
            return self.current.get().map(|visit| Read::Visit(Arc::new(visit)));
        }
        self.read.with(|read| read.get(key).cloned())
    }

    /// All visits of a person, the one in hand among them; `None` while some of them are being read. Damaged ones are
    /// left out, which is told apart. Each is told as of the entry that stands for the person.
    #[must_use]
    pub fn visits_of(self, person: &str) -> Option<Vec<Visit>> {
        let person = self.stands(person);
        let keys: Vec<String> = self.listed.with(|all| keys_of(all, &person));
        let in_hand = self.in_hand.get();
        let mut visits = Vec::new();
        for key in keys {
            if in_hand.as_ref() == Some(&key) {
                self.current.with(|visit| visits.extend(visit.as_ref().map(|visit| told_of(&person, visit))));
                continue;
            }
            let read = self.read.with(|read| read.get(&key).cloned())?;
            visits.extend(read.visit().map(|visit| told_of(&person, visit)));
        }
        Some(visits)
    }

    /// Reads all visits of a person that are not in memory yet.
    pub fn want_person(self, person: &str) {
        let person = untrack(|| self.stands(person));
        self.want(self.listed.with_untracked(|all| keys_of(all, &person)));
    }

    /// Reads these visits unless they are in memory. What was read shows by itself.
    pub fn want(self, keys: Vec<String>) {
        let missing: Vec<Key> = self.listed.with_untracked(|all| {
            self.read.with_untracked(|read| {
                self.asked.with_value(|asked| {
                    let wanted: BTreeSet<&String> = sorted::set(&keys);
                    let new = |listed: &&Listed| wanted.contains(&listed.key) && !read.contains_key(&listed.key);
                    let new = all.iter().filter(new).filter(|listed| !asked.contains(&listed.key));
                    new.map(Listed::place).collect()
                })
            })
        });
        if missing.is_empty() {
            return;
        }
        self.asked.update_value(|asked| asked.extend(missing.iter().map(|key| key.id.clone())));
        spawn_local(async move {
            for some in missing.chunks(AT_ONCE) {
                let read = self.fetch(some).await;
                if self.read.is_disposed() {
                    return;
                }
                self.asked.update_value(|asked| asked.retain(|key| !some.iter().any(|read| read.id == *key)));
                self.make_room(some.len());
                self.read.update(|all| all.extend(read));
            }
        });
    }

    /// The visits at these places of [`Self::entries`], from the store where they are not in memory.
    pub async fn visits_at(self, places: &[usize]) -> Result<Found, String> {
        let keys: Vec<Key> =
            self.listed.with_untracked(|all| places.iter().filter_map(|at| all.get(*at).map(Listed::place)).collect());
        let mut found = Found { visits: Vec::with_capacity(keys.len()), damaged: 0 };
        for some in keys.chunks(AT_ONCE) {
            let Some(mut read) = self.try_fetch(some).await? else { break };
            for key in some {
                let known = untrack(|| self.read_of(&key.id)).filter(|read| read.visit().is_some());
                match known.or_else(|| read.remove(&key.id)) {
                    Some(Read::Visit(visit)) => found.visits.push(Arc::unwrap_or_clone(visit)),
                    Some(Read::Damaged(_)) => found.damaged += 1,
                    None => {}
                }
            }
        }
        Ok(found)
    }

    /// Begins a visit by a routine's list of tasks and shows its first step. A visit that is open stays open in the list.
    pub fn begin(self, person: &str, routine: &str, plan: Vec<String>) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.put_away();
        let person = untrack(|| self.stands(person));
        let visit = Visit::begin(&ids::uuid(), &person, routine, now(), PROGRAM);
        self.in_hand.set(Some(visit.id.clone()));
        self.want_person(&person);
        self.commit(Visit { plan, ..visit });
        self.go(Step::Frame);
    }

    /// Takes a visit in hand again; an open one goes on at its step, a closed one shows its summary.
    pub fn open(self, key: &str) {
        if self.in_hand.with_untracked(|in_hand| in_hand.as_deref() == Some(key)) {
            return self.resume();
        }
        if let Some(read) = untrack(|| self.read_of(key)) {
            return self.take_in_hand(key, &read);
        }
        let place = self.listed.with_untracked(|all| all.iter().find(|one| one.key == key).map(Listed::place));
        let Some(place) = place else { return };
        spawn_local(async move {
            for (key, read) in self.fetch(&[place]).await {
                if self.read.is_disposed() {
                    return;
                }
                self.read.update(|all| {
                    all.insert(key.clone(), read.clone());
                });
                self.take_in_hand(&key, &read);
            }
        });
    }

    /// Closes the visit in hand: one strict commit, after which it stays as it is.
    pub async fn close(self) {
        let Some(open) = self.changeable().filter(|visit| visit.closed.is_none()) else { return };
        self.closing.set(true);
        let visit = archive::closed(open, now());
        let [put, entry] = put_visit(&visit);
        let writer = self.writer.get_value();
        // A plan that was begun and not signed off ends with the visit.
        let gone = [Key::new(Kind::Draft, &visit.id), plan::place(&visit.id)].map(Change::Delete);
        let closed = writer.close([put, entry].into_iter().chain(gone)).await;
        self.closing.set(false);
        match closed {
            Ok(()) => {
                self.undo.set(Vec::new());
                self.draft.set(None);
                self.list(&visit.id, &visit);
                self.current.set(Some(visit));
                self.show(Route::Step("summary".into()));
            }
            Err(error) => self.said.set(Some(error.to_string())),
        }
    }

    /// Puts the visit in hand back among the others.
    pub fn put_away(self) {
        let (Some(visit), Some(key)) = (self.current.get_untracked(), self.in_hand.get_untracked()) else { return };
        self.read.update(|all| {
            all.insert(key, Read::Visit(Arc::new(visit)));
        });
        self.in_hand.set(None);
        self.current.set(None);
        self.undo.set(Vec::new());
    }

    /// Brings the index up to date with a visit.
    pub(super) fn list(self, key: &str, visit: &Visit) {
        let entry = entry_of(visit);
        let known = self.rows.with_untracked(|all| all.iter().any(|one| one.key == key && one.entry == entry));
        if known {
            return;
        }
        self.rows.update(|all| {
            match all.iter_mut().find(|one| one.key == key) {
                Some(one) => one.entry = Entry { handed_over: one.entry.handed_over, ..entry },
                None => all.push(Listed { key: key.to_string(), entry }),
            }
            newest_first(all);
        });
    }

    /// Reads visits from the store. A damaged one is told, and left where it is.
    pub(super) async fn fetch(self, places: &[Key]) -> BTreeMap<String, Read> {
        match self.try_fetch(places).await {
            Ok(read) => read.unwrap_or_default(),
            Err(why) => {
                self.said.set(Some(why));
                BTreeMap::new()
            }
        }
    }

    /// The same; nothing when the page is gone before the store answers.
    async fn try_fetch(self, places: &[Key]) -> Result<Option<BTreeMap<String, Read>>, String> {
        let Some(store) = self.store.try_get_value() else { return Ok(None) };
        let held = store.get(places).await;
        if self.read.is_disposed() {
            return Ok(None);
        }
        let held = held.map_err(|error| error.to_string())?;
        let pairs = places.iter().zip(held);
        let read: BTreeMap<String, Read> =
            sorted::map(pairs.filter_map(|(place, held)| Some((place.id.clone(), read_visit(held?)))));
        for (place, read) in places.iter().filter_map(|place| Some((place, read.get(&place.id)?))) {
            if let Read::Damaged(why) = read {
                self.tell_damaged(place.clone(), why.clone());
            }
        }
        Ok(Some(read))
    }

    fn take_in_hand(self, key: &str, read: &Read) {
        match read {
            Read::Visit(visit) => {
                self.put_away();
                self.want_person(&visit.person);
                self.in_hand.set(Some(key.to_string()));
                self.current.set(Some(Visit::clone(visit)));
                self.resume();
            }
            Read::Damaged(why) => self.said.set(Some(why.clone())),
        }
    }

    fn resume(self) {
        let step: Option<Step> = untrack(|| self.with_context(flow::resume));
        match step {
            Some(_) if self.is_closed_now() => self.show(Route::Step("summary".into())),
            Some(step) => self.go(step),
            None => {}
        }
    }

    /// Lets closed visits go when there are too many in memory; they can be read again.
    fn make_room(self, more: usize) {
        if self.read.with_untracked(BTreeMap::len) + more > MOST_READ {
            self.read.update(|all| all.retain(|_, read| read.visit().is_some_and(|visit| visit.closed.is_none())));
        }
    }
}

/// The index row of a visit. A closed one carries the digest of what it says, also when an earlier version closed it.
#[must_use]
pub fn entry_of(visit: &Visit) -> Entry {
    let entry = Entry::of(visit);
    let digest = || visit.closed.map(|_| archive::digest(visit));
    Entry { sha256: visit.sha256.clone().or_else(digest), ..entry }
}

/// Reads what a row of a visit holds.
pub fn read_visit(held: Held) -> Read {
    let read = held.map_err(|error| error.to_string());
    let read = read.and_then(|bytes| {
        archive::read_visit(&bytes)
            .map_err(|error| say!("A stored visit cannot be read and was left as it is. {error}", error))
    });
    match read {
        Ok(visit) => Read::Visit(Arc::new(visit)),
        Err(why) => Read::Damaged(why),
    }
}

/// Puts the latest first.
pub fn newest_first(all: &mut Vec<Listed>) {
    sorted::by(all, |a, b| b.entry.started.cmp(&a.entry.started).then_with(|| a.key.cmp(&b.key)));
}

fn keys_of(all: &[Listed], person: &str) -> Vec<String> {
    all.iter().filter(|listed| listed.entry.person == person).map(|listed| listed.key.clone()).collect()
}
