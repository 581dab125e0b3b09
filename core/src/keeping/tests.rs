//! Tests of safe keeping: where visits stand, what is selected, what is removed and what goes with a person.

use super::*;
use crate::archive;
use crate::demo;
use time::macros::date;

const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn days(days: i64) -> Moment {
    Moment { unix_ms: NOON.unix_ms + days * 86_400_000, ..NOON }
}

/// A closed visit begun so many days after noon.
fn visit(id: &str, person: &str, day: i64) -> Visit {
    archive::closed(Visit::begin(id, person, "sideline", days(day), "test"), days(day))
}

fn open(id: &str, person: &str, day: i64) -> Visit {
    Visit::begin(id, person, "sideline", days(day), "test")
}

fn entries(visits: &[Visit]) -> Vec<Entry> {
    visits.iter().map(Entry::of).collect()
}

fn person(id: &str) -> Person {
    Person { id: id.to_string(), label: id.to_string(), ..demo::people(NOON).0.remove(0) }
}

fn addendum(id: &str, of: &Visit, text: &str) -> Addendum {
    Addendum {
        id: id.to_string(),
        visit: of.id.clone(),
        person: of.person.clone(),
        written: NOON,
        text: text.to_string(),
        program: "test".to_string(),
        unread: crate::capture::unread::Unread::default(),
    }
}

fn handed(id: &str, day: i64, visits: &[Visit], addenda: &[Addendum], confirmed: Option<i64>) -> HandedOver {
    let shelf = Shelf { people: &[], addenda, routines: &[], joins: &[] };
    let made = note(id, days(day), "anchor", &pack(visits.to_vec(), &shelf));
    HandedOver { confirmed: confirmed.map(days), ..made }
}

fn stands(visits: &[Visit], log: &[HandedOver], addenda: &[Addendum]) -> Vec<Option<Stand>> {
    let book = Book::of(log, &[], addenda);
    entries(visits).iter().map(|entry| book.stand(entry)).collect()
}

#[test]
fn a_visit_is_never_waiting_or_confirmed_and_an_open_one_none_of_them() {
    let visits = [visit("a", "p", 0), visit("b", "p", 0), visit("c", "p", 0), open("d", "p", 0)];
    let log = [handed("1", 1, &visits[1..2], &[], None), handed("2", 1, &visits[2..3], &[], Some(2))];
    let expected = [Some(Stand::Never), Some(Stand::Waiting), Some(Stand::Confirmed(days(2))), None];
    assert_eq!(stands(&visits, &log, &[]), expected);
    let counted = counts(&entries(&visits), &Book::of(&log, &[], &[]));
    assert_eq!(counted, Counts { here: 4, open: 1, never: 1, taken_in: 0, waiting: 1, confirmed: 1 });
}

/// The clinic's computer need not be told to hand over what it took in, but a correction written there is new.
#[test]
fn what_was_taken_in_is_not_new_here_and_no_rule_removes_it() {
    let visits = [visit("a", "p", 0), visit("b", "p", 0)];
    let receipts = [Receipt::of("r", days(1), receipt::refs(&visits[..1]), Vec::new())];
    let stands = |log: &[HandedOver], addenda: &[Addendum]| {
        let book = Book::of(log, &receipts, addenda);
        entries(&visits).iter().map(|entry| book.stand(entry)).collect::<Vec<_>>()
    };
    assert_eq!(stands(&[], &[]), [Some(Stand::TakenIn), Some(Stand::Never)]);
    assert_eq!(stands(&[], &[addendum("x", &visits[0], "8 cm")]), [Some(Stand::Never), Some(Stand::Never)]);
    let log = [handed("1", 2, &visits[..1], &[], None)];
    assert_eq!(stands(&log, &[]), [Some(Stand::Waiting), Some(Stand::Never)], "handed on to another computer");
    let book = Book::of(&[], &receipts, &[]);
    let counted = counts(&entries(&visits), &book);
    assert_eq!((counted.never, counted.taken_in), (1, 1));
    assert_eq!(select(&Wanted::New, &entries(&visits), &book).visits, [1]);
    assert_eq!(select(&Wanted::All, &entries(&visits), &book).visits, [0, 1]);
}

#[test]
fn the_first_receipt_counts_and_a_later_hand_over_takes_nothing_back() {
    let visits = [visit("a", "p", 0)];
    let log = [
        handed("1", 1, &visits, &[], Some(5)),
        handed("2", 2, &visits, &[], Some(3)),
        handed("3", 9, &visits, &[], None),
    ];
    assert_eq!(stands(&visits, &log, &[]), [Some(Stand::Confirmed(days(3)))]);
}

#[test]
fn another_closing_of_the_same_visit_was_not_handed_over() {
    let (one, other) = (visit("a", "p", 0), visit("a", "p", 1));
    let log = [handed("1", 2, &[one], &[], Some(3))];
    assert_eq!(stands(std::slice::from_ref(&other), &log, &[]), [Some(Stand::Never)]);
    let older = Visit { sha256: None, ..other };
    assert_eq!(stands(&[older], &log, &[]), [Some(Stand::Confirmed(days(3)))], "there is but one without a digest");
}

#[test]
fn a_correction_is_handed_over_too_whatever_the_clock_said_when_it_was_written() {
    let visits = [visit("a", "p", 0)];
    let first = handed("1", 1, &visits, &[], Some(2));
    // Written "at noon", a day before the hand over, by a clock that was set back.
    let addenda = [addendum("x", &visits[0], "Left, not right.")];
    let log = [first.clone()];
    assert_eq!(stands(&visits, &log, &addenda), [Some(Stand::Never)]);
    let log = [first.clone(), handed("2", 3, &visits, &addenda, None)];
    assert_eq!(stands(&visits, &log, &addenda), [Some(Stand::Waiting)]);
    let log = [first, handed("2", 3, &visits, &addenda, Some(4))];
    assert_eq!(stands(&visits, &log, &addenda), [Some(Stand::Confirmed(days(4)))], "the later part decides");
    let other = [addendum("x", &visits[0], "Right after all.")];
    assert_eq!(stands(&visits, &log, &other), [Some(Stand::Never)], "other words are another addendum");
}

#[test]
fn what_was_asked_for_is_selected_and_what_is_open_is_counted() {
    let visits = [visit("b", "p", 0), visit("a", "q", 0), open("c", "p", 1), open("d", "q", 1), visit("e", "q", 2)];
    let log = [handed("1", 1, &visits[..1], &[], None)];
    let (entries, book) = (entries(&visits), Book::of(&log, &[], &[]));
    let of = |wanted: &Wanted| {
        let selection = select(wanted, &entries, &book);
        let visits: Vec<&str> = selection.visits.iter().map(|at| entries[*at].id.as_str()).collect();
        (visits.join(" "), selection.people.into_iter().collect::<Vec<_>>().join(" "), selection.open)
    };
    assert_eq!(of(&Wanted::New), ("a e".into(), "q".into(), 2));
    assert_eq!(of(&Wanted::All), ("b a e".into(), "p q".into(), 2));
    assert_eq!(of(&Wanted::People(["p".to_string()].into())), ("b".into(), "p".into(), 1));
    assert_eq!(of(&Wanted::People(BTreeSet::new())), (String::new(), String::new(), 0));
    assert_eq!(of(&Wanted::Visit("a".into())), ("a".into(), "q".into(), 0));
    assert_eq!(of(&Wanted::Visit("c".into())), (String::new(), String::new(), 1));
}

#[test]
fn a_hand_over_holds_what_belongs_to_its_visits_and_nothing_else() {
    let visits = [visit("a", "p", 0), visit("b", "q", 0)];
    let people = [person("p"), person("q"), person("r")];
    let addenda = [addendum("x", &visits[0], "one"), addendum("y", &visits[1], "two")];
    let join = |id: &str, keep: &str, other: &str| Join {
        id: id.into(),
        keep: keep.into(),
        other: other.into(),
        made: NOON,
        undone: None,
        unread: crate::capture::unread::Unread::default(),
    };
    let joins = [join("1", "r", "s")];
    let shelf = Shelf { people: &people, addenda: &addenda, routines: &[], joins: &joins };
    let one = pack(vec![visits[0].clone(), open("c", "r", 0)], &shelf);
    assert_eq!((one.people.len(), one.visits.len(), one.addenda.len(), one.joins.len()), (1, 1, 1, 0));
    assert_eq!((one.people[0].id.as_str(), one.addenda[0].id.as_str()), ("p", "x"));

    // Joined entries are one person there too, although no visit of the others is handed over.
    let joins = [join("1", "q", "p"), join("2", "p", "r"), Join { undone: Some(NOON), ..join("3", "p", "s") }];
    let shelf = Shelf { joins: &joins, ..shelf };
    let one = pack(visits[..1].to_vec(), &shelf);
    assert_eq!((one.people.len(), one.visits.len(), one.addenda.len(), one.joins.len()), (3, 1, 1, 3));
    let read = archive::read(&archive::write_compact(&one)).expect("is a whole archive");
    assert_eq!(crate::merge::cases(&read)[0].person.id, "q");

    // After a join was undone the other is not handed over, but that it was undone is.
    let joins = [Join { undone: Some(NOON), ..join("1", "q", "p") }];
    let one = pack(visits[..1].to_vec(), &Shelf { joins: &joins, ..shelf });
    assert_eq!((one.people.len(), one.joins.as_slice()), (1, &joins[..]));
    archive::read(&archive::write_compact(&one)).map(drop).expect("is a whole archive");
}

#[test]
fn what_goes_with_a_person_is_counted_with_what_was_never_handed_over() {
    let visits = [visit("a", "p", 0), visit("b", "p", 0), open("c", "p", 0), visit("d", "q", 0)];
    let addenda = [addendum("x", &visits[1], "one"), addendum("y", &visits[3], "two")];
    let log = [handed("1", 1, &visits, &[], Some(1))];
    let gone = erased(&["p".to_string()].into(), &entries(&visits), &addenda, &Book::of(&log, &[], &addenda));
    assert_eq!(gone.visits, Counts { here: 3, open: 1, never: 1, taken_in: 0, waiting: 0, confirmed: 1 });
    assert_eq!(gone.addenda, 1);
}

fn removed(days_after: u16, at: Moment, entries: &[Entry], log: &[HandedOver], joins: &[Join]) -> Removal {
    let people = [person("p"), person("q")];
    removal(days_after, at, entries, log, &Shelf { people: &people, addenda: &[], routines: &[], joins })
}

fn gone(visits: &[usize], people: &[&str]) -> Removal {
    Removal { visits: visits.to_vec(), people: people.iter().map(ToString::to_string).collect() }
}

#[test]
fn only_what_a_receipt_came_for_is_removed_and_only_after_the_days() {
    let visits = [visit("a", "p", 0), visit("b", "p", 0), visit("c", "p", 0), open("d", "p", 0), visit("e", "q", 0)];
    let entries = entries(&visits);
    let log = [
        handed("1", 1, &visits[..1], &[], Some(2)),
        handed("2", 1, &visits[1..2], &[], None),
        handed("3", 1, &visits[4..], &[], Some(2)),
    ];
    let almost = Moment { unix_ms: days(32).unix_ms - 1, ..NOON };
    assert_eq!(removed(30, almost, &entries, &log, &[]), Removal::default());
    assert_eq!(removed(30, days(32), &entries, &log, &[]), gone(&[0, 4], &["q"]));
    assert_eq!(removed(7, days(9), &entries, &log, &[]), gone(&[0, 4], &["q"]));
    assert_eq!(removed(7, days(9), &entries, &[], &[]), Removal::default(), "nothing was handed over");
}

#[test]
fn a_clock_that_stands_before_the_log_removes_nothing() {
    let visits = [visit("a", "p", 0), visit("b", "p", 0)];
    let log = [handed("1", 1, &visits[..1], &[], Some(2)), handed("2", 40, &visits[1..], &[], None)];
    assert_eq!(removed(7, days(-3650), &entries(&visits), &log, &[]), Removal::default());
    assert_eq!(removed(7, days(39), &entries(&visits), &log, &[]), Removal::default(), "the log knows day 40");
    assert_eq!(removed(7, days(40), &entries(&visits), &log, &[]), gone(&[0], &[]));
}

#[test]
fn a_visit_whose_re_test_is_awaited_stays_until_the_person_was_seen() {
    let visits = [visit("a", "p", 0), visit("b", "q", 0)];
    let mut entries = entries(&visits);
    entries[0].retest_on = Some(date!(2026 - 04 - 01));
    let log = [handed("1", 1, &visits, &[], Some(2))];
    assert_eq!(removed(30, days(60), &entries, &log, &[]), gone(&[1], &["q"]));
    entries.push(Entry::of(&open("c", "p", 50)));
    assert_eq!(removed(30, days(60), &entries, &log, &[]), gone(&[0, 1], &["q"]));
}

#[test]
fn entries_of_one_person_leave_together() {
    let visits = [visit("a", "p", 0), visit("b", "q", 0)];
    let join = Join {
        id: "1".into(),
        keep: "p".into(),
        other: "q".into(),
        made: NOON,
        undone: None,
        unread: crate::capture::unread::Unread::default(),
    };
    let log = [handed("1", 1, &visits[..1], &[], Some(2))];
    assert_eq!(
        removed(7, days(20), &entries(&visits), &log, std::slice::from_ref(&join)),
        gone(&[0], &[]),
        "q was not handed over"
    );
    let undone = Join { undone: Some(NOON), ..join };
    assert_eq!(removed(7, days(20), &entries(&visits), &log, &[undone]), gone(&[0], &["p"]));
}

#[test]
fn what_was_removed_is_told_in_one_line() {
    assert_eq!(told(&gone(&[0, 1, 2], &[]), 30), "3 visits were removed from this device, 30 days after a receipt.");
    assert_eq!(
        told(&gone(&[0], &["p"]), 7),
        "1 visit was removed from this device, 7 days after a receipt. Nothing is left here of 1 person."
    );
}

/// The numbers are those of an assertion, not of a clock: the log and the visits are each looked at once.
#[test]
fn ten_thousand_visits_are_looked_at_once_each() {
    let visits: Vec<Visit> = (0..10_000).map(|n| open(&format!("v{n:05}"), &format!("p{}", n % 900), n)).collect();
    let mut entries = entries(&visits);
    for entry in &mut entries {
        entry.closed = Some(NOON);
        entry.sha256 = Some("0".repeat(64));
    }
    let refs = entries.iter().map(|entry| VisitRef { id: entry.id.clone(), sha256: "0".repeat(64) }).collect();
    let log = [HandedOver { confirmed: Some(NOON), ..HandedOver::of("1", NOON, "anchor", refs, Vec::new()) }];
    assert_eq!(counts(&entries, &Book::of(&log, &[], &[])).confirmed, 10_000);
    let removal = removed(7, days(10_000), &entries, &log, &[]);
    assert_eq!((removal.visits.len(), removal.people.len()), (10_000, 0));
}
