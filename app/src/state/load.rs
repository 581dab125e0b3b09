//! Reading at the start: people, routines, open visits and the index. Closed visits are read when they are asked for.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use futures_util::future::{LocalBoxFuture, join, join5, try_join};
use leptos::prelude::*;
use sidelight_core::archive::{self, ArchiveError};
use sidelight_core::capture::entry::Entry;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::sorted;

use super::visits::{AT_ONCE, Listed, Read, entry_of, newest_first, read_visit};
use super::{App, ROUTINE_KEY, by_name, ledger, put_entry};
use crate::storage::{Change, Held, Key, Kind, Owner, StorageError, Store};
use crate::words;

impl App {
    /// Reads everything lists need. A record that cannot be read is named and left as it is.
    pub async fn load(self) {
        self.unreadable.set(Vec::new());
        self.damaged.set(BTreeSet::new());
        // All are asked for at once: the start waits for the slowest answer instead of for each in turn.
        let lists = join5(
            self.read_all(Kind::Person, |_, bytes| archive::read_person(bytes).map(Some)),
            self.read_all(Kind::Setting, routine),
            self.read_all(Kind::Addendum, |_, bytes| archive::read_addendum(bytes).map(Some)),
            self.read_all(Kind::Ledger, ledger::read),
            self.public_key(),
        );
        let visits = join(
            self.read_all(Kind::Draft, |id, bytes| Ok(Some((id.to_string(), archive::read_visit(bytes)?)))),
            self.index_rows(),
        );
        let ((people, routines, addenda, ledger, clinic_key), (drafts, index)) = join(lists, visits).await;
        let listed = self.read_index(&drafts, index).await;
        let people = self.with_stand_ins(people, &listed);
        let mut drafts: BTreeMap<String, Visit> = sorted::map(drafts);
        let open = listed.iter().find(|one| one.entry.closed.is_none() && drafts.contains_key(&one.key));
        let open = open.map(|one| one.key.clone());
        let current = open.as_ref().and_then(|key| drafts.remove(key));
        self.everyone.set(people);
        self.routines.set(by_name(routines));
        self.addenda.set(addenda);
        self.ledger.set(ledger.into_iter().collect());
        self.clinic_key.set(clinic_key);
        self.rows.set(listed);
        self.read.set(drafts.into_iter().map(|(key, visit)| (key, Read::Visit(Arc::new(visit)))).collect());
        if let Some(visit) = &current {
            self.want_person(&visit.person);
        }
        self.in_hand.set(open.filter(|_| current.is_some()));
        self.current.set(current);
        self.ready.set(true);
        self.remove_by_rule().await;
    }

    /// Notes a record that cannot be read, and says why once.
    pub(super) fn tell_damaged(self, place: Key, why: String) {
        self.damaged.update(|all| {
            all.insert(place);
        });
        self.tell(why);
    }

    fn tell(self, why: String) {
        if !self.unreadable.with_untracked(|all| all.contains(&why)) {
            self.unreadable.update(|all| all.push(why));
        }
    }

    async fn read_all<T>(self, kind: Kind, read: impl Fn(&str, &[u8]) -> Result<Option<T>, ArchiveError>) -> Vec<T> {
        let mut all = Vec::new();
        for (id, bytes) in self.rows_of(kind).await {
            match bytes.and_then(|bytes| read(&id, &bytes).map_err(|error| unread(&error))) {
                Ok(one) => all.extend(one),
                Err(why) => self.tell_damaged(Key::new(kind, id), why),
            }
        }
        all
    }

    /// Every row of a kind, as one piece of code for all kinds.
    fn rows_of(self, kind: Kind) -> LocalBoxFuture<'static, Rows> {
        Box::pin(async move {
            match self.store.get_value().list(kind).await {
                Ok(rows) => rows.into_iter().map(|(id, held)| (id, held.map_err(|error| error.to_string()))).collect(),
                Err(error) => {
                    self.tell(error.to_string());
                    Vec::new()
                }
            }
        })
    }

    /// The rows of the index, and the keys of the closed visits that it should name.
    fn index_rows(self) -> LocalBoxFuture<'static, Result<Index, StorageError>> {
        Box::pin(async move {
            let store = self.store.get_value();
            try_join(store.list(Kind::Entry), store.ids(Kind::Visit)).await
        })
    }

    /// Someone whose own row cannot be read, or is missing, is stood in for, so that their visits can be seen. Stand-ins are
    /// never written.
    fn with_stand_ins(self, mut people: Vec<Person>, listed: &[Listed]) -> Vec<Person> {
        let mut known: BTreeSet<String> = sorted::set(people.iter().map(|person| person.id.clone()));
        for id in listed.iter().map(|one| &one.entry.person) {
            if known.insert(id.clone()) {
                let place = Key::new(Kind::Person, id);
                if !self.damaged.with_untracked(|all| all.contains(&place)) {
                    self.tell_damaged(place, words::of(NO_PERSON).to_string());
                }
                people.push(stand_in(id));
            }
        }
        people
    }

    /// Reads the index, and makes anew what of it is missing or damaged: it says nothing that the visits do not say.
    async fn read_index(self, drafts: &[(String, Visit)], found: Result<Index, StorageError>) -> Vec<Listed> {
        let store = self.store.get_value();
        let (rows, ids) = match found {
            Ok(found) => found,
            Err(error) => {
                self.tell(error.to_string());
                return Vec::new();
            }
        };
        let unread = |key: &str| self.damaged.with_untracked(|all| all.contains(&Key::new(Kind::Draft, key)));
        let closed: BTreeSet<&String> = sorted::set(&ids);
        let mut entries: BTreeMap<String, Entry> = BTreeMap::new();
        let mut changes = Vec::new();
        for (key, held) in rows {
            let entry = held.ok().and_then(|bytes| archive::read_entry(&bytes).ok());
            match entry {
                Some(entry) if entry.closed.is_some() && closed.contains(&key) => {
                    entries.insert(key, entry);
                }
                // All that is known of an open visit that cannot be read.
                Some(entry) if entry.closed.is_none() && unread(&key) => {
                    entries.insert(key, entry);
                }
                // Of open visits it is made from the visit, which is read in any case.
                _ if closed.contains(&key) || unread(&key) || drafts.iter().any(|(draft, _)| *draft == key) => {}
                _ => changes.push(Change::Delete(Key::new(Kind::Entry, key))),
            }
        }
        for (key, visit) in drafts {
            entries.entry(key.clone()).or_insert_with(|| entry_of(visit));
        }
        let missing: Vec<Key> =
            ids.iter().filter(|id| !entries.contains_key(*id)).map(|id| Key::new(Kind::Visit, id)).collect();
        for (key, entry) in self.index_anew(&*store, &missing).await {
            changes.push(put_entry(&key, &entry));
            entries.insert(key, entry);
        }
        if !changes.is_empty() && !self.elsewhere.get_untracked() {
            self.write(changes);
        }
        let mut listed: Vec<Listed> = entries.into_iter().map(|(key, entry)| Listed { key, entry }).collect();
        newest_first(&mut listed);
        listed
    }

    async fn index_anew(self, store: &dyn Store, missing: &[Key]) -> Vec<(String, Entry)> {
        let mut made = Vec::with_capacity(missing.len());
        for some in missing.chunks(AT_ONCE) {
            let held = match store.get(some).await {
                Ok(held) => held,
                Err(error) => {
                    self.tell(error.to_string());
                    return made;
                }
            };
            for (place, held) in some.iter().zip(held) {
                match held.map(read_visit) {
                    Some(Read::Visit(visit)) => made.push((place.id.clone(), entry_of(&visit))),
                    Some(Read::Damaged(why)) => self.tell_damaged(place.clone(), why),
                    None => {}
                }
            }
        }
        made
    }
}

/// Rows of the index by their key, and keys of closed visits.
type Index = (Vec<(String, Held)>, Vec<String>);

/// Rows by their key; why one cannot be had where it cannot.
type Rows = Vec<(String, Result<Vec<u8>, String>)>;

/// What is said when visits name someone of whom there is no row.
const NO_PERSON: &str =
    text!("The name and the birth of someone who was seen are missing. Their visits stand under “name not readable”.");

fn unread(error: &ArchiveError) -> String {
    say!("A stored record cannot be read and was left as it is. {error}", error)
}

fn stand_in(id: &str) -> Person {
    let label = say!("name not readable").to_string();
    Person { id: id.to_string(), label, born: None, invented: false, changed: None, unread: Unread::default() }
}

/// Whom a record in clear is about; used when the first passphrase seals what is there.
#[must_use]
pub fn owner_of(key: &Key, bytes: &[u8]) -> Owner {
    let person = match key.kind {
        Kind::Person => Some(key.id.clone()),
        Kind::Visit | Kind::Draft => archive::read_visit(bytes).ok().map(|visit| visit.person),
        Kind::Entry => archive::read_entry(bytes).ok().map(|entry| entry.person),
        Kind::Addendum => archive::read_addendum(bytes).ok().map(|addendum| addendum.person),
        Kind::Setting | Kind::Meta | Kind::Key | Kind::Ledger => None,
    };
    person.map_or(Owner::Practice, Owner::Person)
}

fn routine(id: &str, bytes: &[u8]) -> Result<Option<sidelight_core::routine::own::OwnRoutine>, ArchiveError> {
    if !id.starts_with(ROUTINE_KEY) {
        return Ok(None);
    }
    archive::read_routine(bytes).map(Some)
}
