//! People and routines: kept, taken in, removed, and everything that can be read as one archive.

use std::collections::BTreeSet;
use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::archive::{self, Archive};
use sidelight_core::capture::visit::{Person, Visit, edited};
use sidelight_core::routine::own::OwnRoutine;
use sidelight_core::sorted;

use super::visits::{AT_ONCE, Listed, entry_of, newest_first};
use super::{App, by_name, now, plan, put_visit, routine_key};
use crate::storage::sealed::{Fate, SealedStore};
use crate::storage::{Change, Key, Kind};

impl App {
    /// Adds or changes a person.
    pub fn keep_person(self, person: Person) {
        if self.elsewhere.get_untracked() {
            return;
        }
        let person = Person { changed: Some(edited(person.changed, now())), ..person };
        let bytes = archive::write_person(&person);
        let place = Key::new(Kind::Person, &person.id);
        self.damaged.update(|all| {
            all.remove(&place);
        });
        self.write([Change::put_of(&person.id, place, bytes)]);
        self.everyone.update(|people| match people.iter_mut().find(|known| known.id == person.id) {
            Some(known) => *known = person,
            None => people.push(person),
        });
    }

    /// Adds or changes a routine of the practice's own.
    pub fn keep_routine(self, routine: OwnRoutine) {
        if self.elsewhere.get_untracked() {
            return;
        }
        let routine = OwnRoutine { changed: Some(edited(routine.changed, now())), ..routine };
        self.write([Change::put(routine_key(&routine.id), archive::write_routine(&routine))]);
        self.flush();
        self.routines.update(|all| {
            all.retain(|known| known.id != routine.id);
            all.push(routine);
            *all = by_name(std::mem::take(all));
        });
    }

    /// Takes a routine away; visits made with it keep their own list of tasks.
    pub fn delete_routine(self, id: &str) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.write([Change::Delete(routine_key(id))]);
        self.flush();
        self.routines.update(|all| all.retain(|known| known.id != id));
    }

    /// Takes people and visits in, all or none, and only those not known here.
    pub async fn take_in(self, people: Vec<Person>, visits: Vec<Visit>) -> Result<(usize, usize), String> {
        if self.elsewhere.get_untracked() {
            return Err(
                say!("Sidelight is recording in another tab. Close that tab, then choose the file again.").to_string()
            );
        }
        let new_people: Vec<Person> = self.everyone.with_untracked(|known| not_known(people, known, |p| &p.id));
        let known: BTreeSet<String> =
            self.rows.with_untracked(|all| sorted::set(all.iter().map(|one| one.entry.id.clone())));
        let new_visits: Vec<Visit> = visits.into_iter().filter(|visit| !known.contains(&visit.id)).collect();
        let person = |p: &Person| Change::put_of(&p.id, Key::new(Kind::Person, &p.id), archive::write_person(p));
        let changes: Vec<Change> = new_people.iter().map(person).chain(new_visits.iter().flat_map(put_visit)).collect();
        let counts = (new_people.len(), new_visits.len());
        let writer = self.writer.get_value();
        writer.close(changes).await.map_err(|error| error.to_string())?;
        self.everyone.update(|known| known.extend(new_people));
        self.rows.update(|all| {
            all.extend(new_visits.iter().map(|visit| Listed { key: visit.id.clone(), entry: entry_of(visit) }));
            newest_first(all);
        });
        Ok(counts)
    }

    /// Says which sealed store the records are in, so that erasing a person erases a key.
    pub fn use_sealed(self, sealed: Rc<SealedStore>) {
        self.sealed.set_value(Some(sealed));
    }

    /// Removes visits, by their keys, and people with everything about them; `also` is written with it. Says what became
    /// of the keys of the people, when there were any.
    pub async fn remove(
        self,
        visits: &BTreeSet<String>,
        people: &[String],
        also: Vec<Change>,
    ) -> Result<Option<Fate>, String> {
        let goes = |one: &Listed| visits.contains(&one.key) || people.contains(&one.entry.person);
        if self.in_hand.with_untracked(|key| {
            self.rows.with_untracked(|all| all.iter().any(|one| Some(&one.key) == key.as_ref() && goes(one)))
        }) {
            self.put_away();
        }
        let gone: Vec<Listed> = self.rows.with_untracked(|all| all.iter().filter(|one| goes(one)).cloned().collect());
        let mut changes: Vec<Change> = gone
            .iter()
            .flat_map(|one| [one.place(), Key::new(Kind::Entry, &one.key), plan::place(&one.entry.id)])
            .map(Change::Delete)
            .chain(people.iter().map(|person| Change::Delete(Key::new(Kind::Person, person))))
            .collect();
        changes.extend(self.addenda_going(&gone, people).await?);
        changes.extend(also);
        // What waits is written first: written later, it would come back under a new key.
        let writer = self.writer.get_value();
        writer.close([]).await.map_err(|error| error.to_string())?;
        let fate = match (self.sealed.get_value(), people.split_last()) {
            (Some(sealed), Some((last, rest))) => {
                for person in rest {
                    sealed.forget(person, &[]).await.map_err(|error| error.to_string())?;
                }
                Some(sealed.forget(last, &changes).await.map_err(|error| error.to_string())?.fate)
            }
            _ => {
                writer.close(changes).await.map_err(|error| error.to_string())?;
                None
            }
        };
        let keys: BTreeSet<&String> = sorted::set(gone.iter().map(|one| &one.key));
        self.rows.update(|all| all.retain(|one| !keys.contains(&one.key)));
        self.read.update(|all| all.retain(|key, _| !keys.contains(key)));
        self.everyone.update(|all| all.retain(|person| !people.contains(&person.id)));
        Ok(fate)
    }

    /// Everything that can be read, as one archive. What is damaged is left out, and stays where it is.
    pub async fn everything(self) -> Archive {
        let places: Vec<usize> = (0..self.rows.with_untracked(Vec::len)).collect();
        // When the store itself does not answer, which is told, there is what is in memory.
        let visits = self.visits_at(&places).await.map(|found| found.visits).unwrap_or_default();
        let people = self.everyone.get_untracked();
        let known: BTreeSet<&str> = sorted::set(people.iter().map(|person| person.id.as_str()));
        let mut addenda = self.addenda.get_untracked();
        addenda.retain(|addendum| known.contains(addendum.person.as_str()));
        let (receipts, joins) = self.ledger.with_untracked(|ledger| (ledger.receipts.clone(), ledger.joins.clone()));
        Archive { routines: self.routines.get_untracked(), addenda, receipts, joins, ..Archive::of(people, visits) }
    }

    /// Reads every record, so that what is damaged is told before anyone needs it. Gives how many visits can be read.
    pub async fn check(self) -> usize {
        let places: Vec<Key> = self.rows.with_untracked(|all| all.iter().map(Listed::place).collect());
        let mut readable = 0;
        for some in places.chunks(AT_ONCE) {
            readable += self.fetch(some).await.values().filter(|read| read.visit().is_some()).count();
        }
        readable
    }

    async fn addenda_going(self, visits: &[Listed], people: &[String]) -> Result<Vec<Change>, String> {
        let rows = self.store.get_value().list(Kind::Addendum).await.map_err(|error| error.to_string())?;
        let going = rows.into_iter().filter(|(_, held)| {
            let read = held.as_ref().ok().and_then(|bytes| archive::read_addendum(bytes).ok());
            read.is_some_and(|addendum| {
                people.contains(&addendum.person) || visits.iter().any(|one| one.entry.id == addendum.visit)
            })
        });
        Ok(going.map(|(id, _)| Change::Delete(Key::new(Kind::Addendum, id))).collect())
    }
}

fn not_known<T>(given: Vec<T>, known: &[T], id: impl Fn(&T) -> &String) -> Vec<T> {
    given.into_iter().filter(|new| !known.iter().any(|old| id(old) == id(new))).collect()
}
