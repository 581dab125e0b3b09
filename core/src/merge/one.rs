//! The one answer to whether two entries are one person.

use super::Join;
use super::join::joined;
use crate::capture::visit::Person;
use crate::sorted;
use std::collections::BTreeMap;

/// Who stands for whom. Everything that has to know whose a visit is asks here.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Joined {
    /// The entry that stands for each one that was joined, itself too.
    stands: BTreeMap<String, String>,
    /// All entries that each of these stands for, itself first.
    entries: BTreeMap<String, Vec<String>>,
}

impl Joined {
    /// By the joins that stand between these entries.
    #[must_use]
    pub fn of(people: &[Person], joins: &[Join]) -> Joined {
        if joins.iter().all(|join| join.undone.is_some()) {
            return Joined::default();
        }
        let mut entries: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for (id, one) in joined(people, joins) {
            let all = entries.entry(one).or_default();
            all.push(id);
        }
        entries.retain(|_, all| all.len() > 1);
        for (one, all) in &mut entries {
            sorted::by(all, |a, b| (a != one).cmp(&(b != one)).then_with(|| a.cmp(b)));
        }
        let of =
            |(one, all): (&String, &Vec<String>)| all.iter().map(|id| (id.clone(), one.clone())).collect::<Vec<_>>();
        Joined { stands: sorted::map(entries.iter().flat_map(of)), entries }
    }

    /// The entry that stands for this one; its own when it was not joined.
    #[must_use]
    pub fn stands<'a>(&'a self, id: &'a str) -> &'a str {
        self.stands.get(id).map_or(id, String::as_str)
    }

    /// Whether this entry stands for itself.
    #[must_use]
    pub fn is_standing(&self, id: &str) -> bool {
        self.stands(id) == id
    }

    /// All entries of the person that this one is of: first the one that stands for the others.
    #[must_use]
    pub fn entries<'a>(&'a self, id: &'a str) -> Vec<&'a str> {
        let all = self.entries.get(self.stands(id));
        all.map_or_else(|| vec![id], |all| all.iter().map(String::as_str).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::unread::Unread;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

    fn person(id: &str) -> Person {
        Person {
            id: id.into(),
            label: id.into(),
            born: None,
            invented: false,
            changed: None,
            unread: Unread::default(),
        }
    }

    fn join(keep: &str, other: &str) -> Join {
        let id = format!("{keep}-{other}");
        Join { id, keep: keep.into(), other: other.into(), made: NOW, undone: None, unread: Unread::default() }
    }

    #[test]
    fn an_entry_stands_for_itself_and_those_joined_with_it() {
        let people = ["a", "b", "c", "d"].map(person);
        let one = Joined::of(&people, &[join("c", "b"), join("c", "a")]);
        assert_eq!(["a", "b", "c", "d", "?"].map(|id| one.stands(id)), ["c", "c", "c", "d", "?"]);
        assert_eq!(one.entries("a"), ["c", "a", "b"]);
        assert_eq!(one.entries("d"), ["d"]);
        assert!(one.is_standing("c") && !one.is_standing("a"));
    }

    #[test]
    fn without_a_join_that_stands_everyone_is_themselves() {
        let people = ["a", "b"].map(person);
        let undone = Join { undone: Some(NOW), ..join("a", "b") };
        assert_eq!(Joined::of(&people, &[undone]), Joined::default());
        assert_eq!(Joined::of(&people, &[join("a", "gone")]), Joined::default(), "the other one is not here");
    }
}
