//! Two entries of one person: which may be, and which were said to be. Nothing is joined unasked, and a join changes no
//! record: it says who stands for whom, so that it can be undone.

use super::{Join, Joined};
use crate::calendar::{Born, Date};
use crate::capture::visit::Person;
use crate::sorted;
use std::collections::{BTreeMap, BTreeSet};
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Pairs of entries with the same name and birth of which nobody has said yet whether they are one person, by their ids.
/// Names are the same whatever their case, accents and blanks; a birth year fits any day of that year. Without both there
/// is no pair.
#[must_use]
pub fn likely_same(people: &[Person], joins: &[Join]) -> Vec<(String, String)> {
    likely_same_by(base_letters, people, joins)
}

/// The same where names are taken to their [`base_letters`] in another way: the tables for it are large, and every browser
/// has them.
#[must_use]
pub fn likely_same_by(base: fn(&str) -> String, people: &[Person], joins: &[Join]) -> Vec<(String, String)> {
    let joined = Joined::of(people, joins);
    // What was said of one entry holds for all that are joined with it.
    let undone = joins.iter().filter(|join| join.undone.is_some());
    let apart: BTreeSet<(&str, &str)> =
        sorted::set(undone.map(|join| pair(joined.stands(&join.keep), joined.stands(&join.other))));
    let mut alike: BTreeMap<(String, i32, bool), BTreeMap<&str, Born>> = BTreeMap::new();
    for person in people {
        let name = folded(&base(&person.label));
        if let Some(born) = person.born.filter(|_| !name.is_empty()) {
            alike.entry((name, born.year(), person.invented)).or_default().insert(&person.id, born);
        }
    }
    let is_apart = |a: &str, b: &str| apart.contains(&pair(joined.stands(a), joined.stands(b)));
    let mut pairs = Vec::new();
    for group in alike.values() {
        for (first, second) in neighbours(group, is_apart) {
            if joined.stands(first) != joined.stands(second) {
                pairs.push((first.to_string(), second.to_string()));
            }
        }
    }
    sorted::by(&mut pairs, Ord::cmp);
    pairs
}

/// Each entry with one before it that it fits and was not said to be apart from, by id: enough to lead from any of them
/// to all, and no more pairs than entries.
fn neighbours<'p>(group: &BTreeMap<&'p str, Born>, is_apart: impl Fn(&str, &str) -> bool) -> Vec<(&'p str, &'p str)> {
    let mut pairs = Vec::new();
    let mut on: BTreeMap<Date, Vec<&str>> = BTreeMap::new();
    let (mut all, mut year_only): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    for (&id, born) in group {
        let before = match born {
            Born::On(date) => on.get(date).into_iter().flatten().chain(&year_only).find(|one| !is_apart(one, id)),
            Born::Year(_) => all.iter().find(|one| !is_apart(one, id)),
        };
        pairs.extend(before.map(|before| (*before, id)));
        match born {
            Born::On(date) => on.entry(*date).or_default().push(id),
            Born::Year(_) => year_only.push(id),
        }
        all.push(id);
    }
    pairs
}

/// Who stands for whom: each of these people's ids, and the id of the entry that stands for it, often its own.
///
/// Joins that stand are followed from one to the next. Of those joined, the entry stands that was kept in every join it is
/// in; when that is none or several of them, the one with the smallest id.
#[must_use]
pub(super) fn joined(people: &[Person], joins: &[Join]) -> BTreeMap<String, String> {
    let standing: Vec<&Join> = joins.iter().filter(|join| join.undone.is_none() && join.keep != join.other).collect();
    let mut groups = Groups::default();
    for join in &standing {
        groups.unite(&join.keep, &join.other);
    }
    let given_up = sorted::set(standing.iter().map(|join| join.other.as_str()));
    let mut stands: BTreeMap<usize, (bool, &str)> = BTreeMap::new();
    let with_group: Vec<(&str, Option<usize>)> =
        people.iter().map(|person| (person.id.as_str(), groups.of(&person.id))).collect();
    for (id, group) in &with_group {
        let Some(group) = group else { continue };
        let mine = (given_up.contains(id), *id);
        let best = stands.entry(*group).or_insert(mine);
        *best = mine.min(*best);
    }
    sorted::map(with_group.into_iter().map(|(id, group)| {
        let one = group.and_then(|group| stands.get(&group)).map_or(id, |(_, one)| *one);
        (id.to_string(), one.to_string())
    }))
}

/// Sets of ids that were united (union-find with halved paths).
#[derive(Default)]
struct Groups<'j> {
    places: BTreeMap<&'j str, usize>,
    above: Vec<usize>,
}

impl<'j> Groups<'j> {
    fn unite(&mut self, a: &'j str, b: &'j str) {
        let (a, b) = (self.place(a), self.place(b));
        let (a, b) = (self.root(a), self.root(b));
        self.above[a.max(b)] = a.min(b);
    }

    fn of(&mut self, id: &str) -> Option<usize> {
        let at = *self.places.get(id)?;
        Some(self.root(at))
    }

    fn place(&mut self, id: &'j str) -> usize {
        let next = self.above.len();
        let place = *self.places.entry(id).or_insert(next);
        if place == next {
            self.above.push(next);
        }
        place
    }

    fn root(&mut self, mut at: usize) -> usize {
        while self.above[at] != at {
            self.above[at] = self.above[self.above[at]];
            at = self.above[at];
        }
        at
    }
}

fn pair<'a>(a: &'a str, b: &'a str) -> (&'a str, &'a str) {
    if a < b { (a, b) } else { (b, a) }
}

/// A text without accents: compatibility decomposition (Unicode Standard Annex 15, form NFKD), without marks.
#[must_use]
pub fn base_letters(text: &str) -> String {
    text.nfkd().filter(|c| !is_combining_mark(*c)).collect()
}

/// Base letters without case and superfluous blanks.
fn folded(letters: &str) -> String {
    letters.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests;
