//! Likely the same, and who stands for whom.

use super::*;
use crate::calendar::Moment;
use crate::capture::unread::Unread;
use time::macros::date;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

fn person(id: &str, label: &str, born: Option<Born>) -> Person {
    Person { id: id.into(), label: label.into(), born, invented: false, changed: None, unread: Unread::default() }
}

fn people(ids: &[&str]) -> Vec<Person> {
    ids.iter().map(|id| person(id, id, None)).collect()
}

fn join(keep: &str, other: &str) -> Join {
    let id = format!("{keep}-{other}");
    Join { id, keep: keep.into(), other: other.into(), made: NOW, undone: None, unread: Unread::default() }
}

fn stands(people: &[Person], joins: &[Join], id: &str) -> String {
    joined(people, joins).remove(id).expect("every person is named")
}

#[test]
fn same_name_and_birth_are_offered_and_nothing_less() {
    let day = Some(Born::On(date!(2012 - 05 - 31)));
    let people = [
        person("a", "Zoë  Example", day),
        person("b", "zoe example", day),
        person("c", " ZOE\u{308} EXAMPLE ", Some(Born::Year(2012))),
        person("d", "Zoë Example", Some(Born::On(date!(2012 - 06 - 01)))),
        person("e", "Zoë Example", Some(Born::Year(2013))),
        person("f", "Zoë Example", None),
        person("g", "", day),
        person("h", " ", day),
        Person { invented: true, ..person("i", "Zoë Example", day) },
        person("j", "דנה", day),
    ];
    let expected = [("a", "b"), ("a", "c"), ("c", "d")].map(|(a, b)| (a.to_string(), b.to_string()));
    assert_eq!(likely_same(&people, &[]), expected);
}

#[test]
fn what_was_decided_is_not_offered_again() {
    let day = Some(Born::Year(2012));
    let people = [person("a", "R-21", day), person("b", "R-21", day)];
    assert_eq!(likely_same(&people, &[]).len(), 1);
    assert!(likely_same(&people, &[join("b", "a")]).is_empty(), "joined");
    let apart = Join { undone: Some(NOW), ..join("b", "a") };
    assert!(likely_same(&people, &[apart]).is_empty(), "said to be two");
    let through_another = [join("a", "x"), join("x", "b")];
    assert!(likely_same(&people, &through_another).is_empty(), "joined by way of another");
}

#[test]
fn who_is_not_the_first_of_the_name_may_still_be_another() {
    let day = Some(Born::Year(2012));
    let people = [person("a", "R-21", day), person("b", "R-21", day), person("c", "R-21", day)];
    let apart = Join { undone: Some(NOW), ..join("a", "c") };
    let expected = [("a", "b"), ("b", "c")].map(|(a, b)| (a.to_string(), b.to_string()));
    assert_eq!(likely_same(&people, std::slice::from_ref(&apart)), expected);
    assert!(likely_same(&people, &[apart, join("a", "b")]).is_empty(), "c is not a, and so not who is joined with a");
}

#[test]
fn ten_thousand_of_one_name_give_no_more_pairs_than_people() {
    let all: Vec<Person> = (0..10_000).map(|n| person(&format!("p{n}"), "R-21", Some(Born::Year(2012)))).collect();
    assert_eq!(likely_same(&all, &[]).len(), 9_999);
}

#[test]
fn the_kept_entry_stands_for_all_it_was_joined_with() {
    let all = people(&["a", "b", "c", "d", "e"]);
    let joins = [join("c", "b"), join("b", "a"), join("d", "d")];
    for (id, one) in [("a", "c"), ("b", "c"), ("c", "c"), ("d", "d"), ("e", "e")] {
        assert_eq!(stands(&all, &joins, id), one, "{id}");
    }
    let reversed: Vec<Join> = joins.into_iter().rev().collect();
    assert_eq!(joined(&all, &reversed), joined(&all, &[join("c", "b"), join("b", "a")]), "the order does not matter");
}

#[test]
fn a_join_that_was_undone_joins_nothing() {
    let all = people(&["a", "b"]);
    let undone = Join { undone: Some(NOW), ..join("b", "a") };
    assert_eq!(stands(&all, std::slice::from_ref(&undone), "a"), "a");
    let again = Join { id: "again".into(), ..join("b", "a") };
    assert_eq!(stands(&all, &[undone, again], "a"), "b", "joined again by another join");
}

#[test]
fn where_joins_contradict_each_other_the_smallest_id_stands() {
    let all = people(&["a", "b", "c"]);
    assert_eq!(stands(&all, &[join("a", "b"), join("b", "a")], "b"), "a", "in a circle");
    assert_eq!(stands(&all, &[join("b", "c"), join("a", "c")], "c"), "a", "two were kept");
}

#[test]
fn someone_who_is_not_here_stands_for_nobody_and_still_connects() {
    let all = people(&["b", "c"]);
    let joins = [join("gone", "c"), join("gone", "b")];
    assert_eq!(stands(&all, &joins, "c"), "b");
    assert_eq!(joined(&all, &joins).len(), 2);
}
