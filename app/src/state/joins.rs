//! Entries of people that are the same person. Screens see one person with all visits; what is kept stays as it is, so
//! that a join can be undone.

use std::collections::BTreeMap;

use leptos::prelude::*;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::ledger::Join;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::merge::{self, Joined};
use sidelight_core::sorted;

use super::{App, ELSEWHERE, Ledger, Listed, Read, ledger, now};
use crate::memo::memo;
use crate::platform::base_letters::base_letters;
use crate::platform::ids;
use crate::words;

/// What tells two entries apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    /// The person.
    pub person: Person,
    /// When each of the visits was begun, the latest first.
    pub visits: Vec<Moment>,
}

impl App {
    /// The id of the entry that stands for this one: its own unless it was joined.
    #[must_use]
    pub fn stands(self, id: &str) -> String {
        self.joined.with(|joined| joined.stands(id).to_string())
    }

    /// The person that this entry is of.
    #[must_use]
    pub fn whose(self, id: &str) -> Option<Person> {
        self.people.with(|people| self.joined.with(|joined| whose(people, joined, id).cloned()))
    }

    /// All names of each person, in lower case and one a line, by the id of the entry that stands.
    #[must_use]
    pub fn names(self) -> BTreeMap<String, String> {
        let mut names: BTreeMap<String, String> = BTreeMap::new();
        self.everyone.with(|all| {
            self.joined.with(|joined| {
                for person in all {
                    let known = names.entry(joined.stands(&person.id).to_string()).or_default();
                    known.push_str(&person.label.to_lowercase());
                    known.push('\n');
                }
            });
        });
        names
    }

    /// The pairs that may be the same person, the first ones, each with its visits.
    #[must_use]
    pub fn likely_pairs(self, most: usize) -> Vec<(Side, Side)> {
        let pairs: Vec<(String, String)> = self.likely.with(|pairs| pairs.iter().take(most).cloned().collect());
        let pairs: Vec<(Person, Person)> =
            pairs.iter().filter_map(|(one, other)| Some((self.whose(one)?, self.whose(other)?))).collect();
        let visits = self.listed.with(|all| begun(all, pairs.iter().flat_map(|(one, other)| [&one.id, &other.id])));
        let side = |person: Person| Side { visits: visits.get(&person.id).cloned().unwrap_or_default(), person };
        pairs.into_iter().map(|(one, other)| (side(one), side(other))).collect()
    }

    /// The entries that are this person, each as it is kept: the one that stands first. One when nothing was joined.
    #[must_use]
    pub fn entries_as_kept(self, id: &str) -> Vec<Side> {
        let ids: Vec<String> = self.joined.with(|joined| joined.entries(id).into_iter().map(str::to_string).collect());
        let visits = self.rows.with(|all| begun(all, &ids));
        let person = |id: &String| self.everyone.with(|all| all.iter().find(|person| person.id == *id).cloned());
        let side =
            |id: &String| Some(Side { person: person(id)?, visits: visits.get(id).cloned().unwrap_or_default() });
        ids.iter().filter_map(side).collect()
    }

    /// People that this one was said not to be.
    #[must_use]
    pub fn apart_from(self, id: &str) -> Vec<Side> {
        let ids = self.everyone.with(|all| self.ledger.with(|ledger| merge::apart(all, &ledger.joins, id)));
        let visits = self.listed.with(|all| begun(all, &ids));
        let side =
            |id: &String| Some(Side { person: self.whose(id)?, visits: visits.get(id).cloned().unwrap_or_default() });
        ids.iter().filter_map(side).collect()
    }

    /// Joins two people and says who stands for both.
    pub fn join(self, one: &str, other: &str) -> Result<Person, String> {
        let (one, other) = self.both(one, other)?;
        let join = merge::join(ids::uuid(), &one, &other, now());
        let stands = if join.keep == one.id { one } else { other };
        self.keep_joins(vec![join])?;
        Ok(stands)
    }

    /// Notes that two people are not the same, so that nobody is asked again.
    pub fn keep_apart(self, one: &str, other: &str) -> Result<(), String> {
        let (one, other) = self.both(one, other)?;
        let join = merge::join(ids::uuid(), &one, &other, now());
        self.keep_joins(vec![Join { undone: Some(join.made), ..join }])
    }

    /// Takes an entry out of the person it was joined to.
    pub fn undo_join(self, entry: &str) -> Result<(), String> {
        let parted = self.everyone.with_untracked(|all| {
            self.ledger.with_untracked(|ledger| merge::parted(all, &ledger.joins, entry, now(), ids::uuid))
        });
        self.keep_joins(parted)
    }

    fn both(self, one: &str, other: &str) -> Result<(Person, Person), String> {
        let both = untrack(|| Some((self.whose(one)?, self.whose(other)?)));
        both.ok_or_else(|| say!("One of the two is not kept on this device any more.").to_string())
    }

    fn keep_joins(self, joins: Vec<Join>) -> Result<(), String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(ELSEWHERE).to_string());
        }
        self.write(joins.iter().map(ledger::put_join));
        self.flush();
        self.ledger.update(|ledger| {
            for join in joins {
                ledger.joins.retain(|known| known.id != join.id);
                ledger.joins.push(join);
            }
        });
        // Visits of the other entry are compared with from now on.
        let in_hand = self.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.person.clone()));
        if let Some(person) = in_hand {
            self.want_person(&person);
        }
        Ok(())
    }
}

/// Who stands for whom, asked anew when a person or a join changes.
pub(super) fn joined(everyone: RwSignal<Vec<Person>>, ledger: RwSignal<Ledger>) -> Memo<Joined> {
    memo(move |_| everyone.with(|all| ledger.with(|ledger| Joined::of(all, &ledger.joins))))
}

/// Everyone who stands for themselves.
pub(super) fn people(everyone: RwSignal<Vec<Person>>, joined: Memo<Joined>) -> Memo<Vec<Person>> {
    memo(move |_| {
        joined.with(|joined| {
            everyone.with(|all| all.iter().filter(|person| joined.is_standing(&person.id)).cloned().collect())
        })
    })
}

/// The index by the entries that stand.
pub(super) fn listed(rows: RwSignal<Vec<Listed>>, joined: Memo<Joined>) -> Memo<Vec<Listed>> {
    memo(move |_| {
        joined.with(|joined| {
            let mut all = rows.get();
            for one in &mut all {
                if !joined.is_standing(&one.entry.person) {
                    one.entry.person = joined.stands(&one.entry.person).to_string();
                }
            }
            all
        })
    })
}

/// Pairs that nobody has decided on.
pub(super) fn likely(everyone: RwSignal<Vec<Person>>, ledger: RwSignal<Ledger>) -> Memo<Vec<(String, String)>> {
    memo(move |_| everyone.with(|all| ledger.with(|ledger| merge::likely_same_by(base_letters, all, &ledger.joins))))
}

/// The person that an entry is of.
pub(super) fn whose<'a>(people: &'a [Person], joined: &Joined, id: &str) -> Option<&'a Person> {
    let one = joined.stands(id);
    people.iter().find(|person| person.id == one)
}

/// A visit told as of this person, whichever of the joined entries it is kept with. It is for reading only: what is kept
/// and handed over names its own entry.
pub(super) fn told_of(person: &str, visit: &Visit) -> Visit {
    Visit { person: person.to_string(), ..visit.clone() }
}

/// The other visits of the person in hand, as far as they were read, told as of the entry in hand.
pub(super) fn earlier(
    current: RwSignal<Option<Visit>>,
    joined: Memo<Joined>,
    listed: Memo<Vec<Listed>>,
    read: RwSignal<BTreeMap<String, Read>>,
) -> Memo<Vec<Visit>> {
    let person = memo(move |_| current.with(|visit| visit.as_ref().map(|visit| visit.person.clone())));
    memo(move |_| {
        let Some(person) = person.get() else { return Vec::new() };
        let one = joined.with(|joined| joined.stands(&person).to_string());
        let own = |all: &Vec<Listed>| -> Vec<String> {
            all.iter().filter(|listed| listed.entry.person == one).map(|listed| listed.key.clone()).collect()
        };
        let keys = listed.with(own);
        read.with(|read| keys.iter().filter_map(|key| Some(told_of(&person, read.get(key)?.visit()?))).collect())
    })
}

/// When the visits of each of these were begun.
fn begun<'a>(all: &[Listed], ids: impl IntoIterator<Item = &'a String>) -> BTreeMap<String, Vec<Moment>> {
    let mut begun: BTreeMap<String, Vec<Moment>> = sorted::map(ids.into_iter().map(|id| (id.clone(), Vec::new())));
    for one in all {
        if let Some(own) = begun.get_mut(&one.entry.person) {
            own.push(one.entry.started);
        }
    }
    begun
}
