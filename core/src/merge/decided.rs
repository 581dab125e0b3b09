//! What somebody said of two entries: that they are one person, that they are two, or that a join was a mistake. Each is
//! a join to be kept, so that it reaches other devices and is not asked again.

use super::{Join, Joined};
use crate::calendar::{Born, Moment};
use crate::capture::unread::Unread;
use crate::capture::visit::Person;
use crate::sorted;
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// These two are the same person. The entry that knows the birth better stands for both, then the one changed later.
#[must_use]
pub fn join(id: String, a: &Person, b: &Person, made: Moment) -> Join {
    let knows = |person: &Person| match person.born {
        None => 0,
        Some(Born::Year(_)) => 1,
        Some(Born::On(_)) => 2,
    };
    let order = |person: &Person| (Reverse((knows(person), person.changed)), person.id.clone());
    let (keep, other) = if order(a) <= order(b) { (a, b) } else { (b, a) };
    Join { id, keep: keep.id.clone(), other: other.id.clone(), made, undone: None, unread: Unread::default() }
}

/// The joins that take this entry out of the person it was joined to, changed ones and new ones: the others stay together
/// even when it was this one that led from one to the other.
#[must_use]
pub fn parted(
    people: &[Person],
    joins: &[Join],
    entry: &str,
    now: Moment,
    mut new_id: impl FnMut() -> String,
) -> Vec<Join> {
    let before = Joined::of(people, joins);
    let touches = |join: &&Join| join.undone.is_none() && (join.keep == entry || join.other == entry);
    let mut changed: Vec<Join> =
        joins.iter().filter(touches).map(|join| Join { undone: Some(now), ..join.clone() }).collect();
    let mut after: Vec<Join> = joins.iter().filter(|join| !touches(join)).cloned().collect();
    let rest: Vec<&str> = before.entries(entry).into_iter().filter(|id| *id != entry).collect();
    let Some((first, others)) = rest.split_first() else { return changed };
    for other in others {
        let is_one = {
            let now_joined = Joined::of(people, &after);
            now_joined.stands(first) == now_joined.stands(other)
        };
        if !is_one {
            let (keep, other) = ((*first).to_string(), (*other).to_string());
            let again = Join { id: new_id(), keep, other, made: now, undone: None, unread: Unread::default() };
            after.push(again.clone());
            changed.push(again);
        }
    }
    changed
}

/// The people that this one was said not to be, or is no longer, each by the entry that stands for them.
#[must_use]
pub fn apart(people: &[Person], joins: &[Join], person: &str) -> Vec<String> {
    let joined = Joined::of(people, joins);
    let own = joined.stands(person);
    let known: BTreeSet<&str> = sorted::set(people.iter().map(|person| person.id.as_str()));
    let sides = joins.iter().filter(|join| join.undone.is_some()).flat_map(|join| {
        let (keep, other) = (joined.stands(&join.keep), joined.stands(&join.other));
        [(keep, other), (other, keep)]
    });
    let others = sides.filter(|(one, other)| *one == own && *other != own && known.contains(other));
    sorted::set(others.map(|(_, other)| other)).into_iter().map(str::to_string).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::merge::likely_same;
    use time::macros::date;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };
    const LATER: Moment = Moment { unix_ms: NOW.unix_ms + 1, ..NOW };

    fn person(id: &str) -> Person {
        let born = Some(Born::Year(2012));
        Person {
            id: id.into(),
            label: "Zoë".into(),
            born,
            invented: false,
            changed: Some(NOW),
            unread: Unread::default(),
        }
    }

    fn joins(pairs: &[(&str, &str)]) -> Vec<Join> {
        let one = |(keep, other): &(&str, &str)| Join {
            id: format!("{keep}-{other}"),
            keep: (*keep).into(),
            other: (*other).into(),
            made: NOW,
            undone: None,
            unread: Unread::default(),
        };
        pairs.iter().map(one).collect()
    }

    /// Those joins as they stand after these were kept.
    fn kept(mut joins: Vec<Join>, changed: Vec<Join>) -> Vec<Join> {
        for one in changed {
            joins.retain(|known| known.id != one.id);
            joins.push(one);
        }
        joins
    }

    fn part(people: &[Person], joins: &[Join], entry: &str) -> Vec<Join> {
        let mut ids = 0;
        let new_id = || {
            ids += 1;
            format!("new-{ids}")
        };
        kept(joins.to_vec(), parted(people, joins, entry, LATER, new_id))
    }

    #[test]
    fn the_entry_that_says_more_of_the_birth_stands_then_the_later_then_the_smaller_id() {
        let kept = |a: &Person, b: &Person| {
            let (one, other) = (join("j".into(), a, b, NOW), join("j".into(), b, a, NOW));
            assert_eq!(one, other, "whichever is named first");
            one.keep
        };
        let (a, b) = (person("a"), person("b"));
        assert_eq!(kept(&a, &b), "a");
        assert_eq!(kept(&a, &Person { changed: Some(LATER), ..b.clone() }), "b");
        let day = Person { born: Some(Born::On(date!(2012 - 05 - 31))), changed: None, ..b };
        assert_eq!(kept(&a, &day), "b");
        assert_eq!(kept(&Person { born: None, ..a }, &day), "b");
    }

    #[test]
    fn taken_out_of_two_they_are_two_again_and_not_asked_about() {
        let people = ["a", "b"].map(person);
        let twice = kept(joins(&[("a", "b")]), joins(&[("b", "a")]));
        let after = part(&people, &twice, "b");
        assert!(
            after.len() == 2 && after.iter().all(|join| join.undone == Some(LATER)),
            "both phones' joins: {after:?}"
        );
        assert_eq!(Joined::of(&people, &after), Joined::default());
        assert!(likely_same(&people, &after).is_empty());
        assert_eq!(apart(&people, &after, "a"), ["b"]);
        assert_eq!(apart(&people, &after, "b"), ["a"]);
        let again = kept(after, vec![join("again".into(), &people[0], &people[1], LATER)]);
        assert_eq!(Joined::of(&people, &again).entries("b"), ["a", "b"]);
        assert!(apart(&people, &again, "a").is_empty(), "they are one");
    }

    #[test]
    fn the_one_that_led_from_one_to_the_other_goes_alone() {
        let people = ["a", "b", "c", "d"].map(person);
        let after = part(&people, &joins(&[("a", "b"), ("b", "c"), ("b", "d")]), "b");
        let joined = Joined::of(&people, &after);
        assert_eq!(joined.entries("d"), ["a", "c", "d"]);
        assert_eq!(joined.entries("b"), ["b"]);
        assert!(likely_same(&people, &after).is_empty(), "what was said of one holds for those joined with it");
        assert_eq!(apart(&people, &after, "d"), ["b"]);
        assert_eq!(apart(&people, &after, "b"), ["a"], "one person, by the entry that stands");
    }

    #[test]
    fn the_one_that_stood_can_go_too() {
        let people = ["a", "b", "c"].map(person);
        let joined = Joined::of(&people, &part(&people, &joins(&[("a", "b"), ("a", "c")]), "a"));
        assert_eq!((joined.entries("c"), joined.entries("a")), (vec!["b", "c"], vec!["a"]));
    }

    #[test]
    fn nobody_joined_leaves_nothing_to_part_and_who_is_gone_is_not_kept_apart() {
        let people = ["a", "b"].map(person);
        assert!(parted(&people, &[], "a", NOW, String::new).is_empty());
        let undone = Join { undone: Some(NOW), ..joins(&[("a", "gone")]).remove(0) };
        assert!(apart(&people, &[undone], "a").is_empty());
    }
}
