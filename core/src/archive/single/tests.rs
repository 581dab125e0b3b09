//! Single stored things: each comes back the same, keeps what it does not know, and is no other kind.

use super::*;
use crate::calendar::Moment;
use crate::capture::ledger::VisitRef;
use crate::capture::unread::Unread;
use std::fmt::Debug;
use time::macros::date;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: -210 };

fn some_ref() -> VisitRef {
    VisitRef { id: "v-1".into(), sha256: "0123456789abcdef".repeat(4) }
}

fn none() -> Unread {
    Unread::default()
}

/// Reads back what was written, also with a member of a newer program in it.
fn comes_back<T: Debug + PartialEq>(
    thing: &T,
    write: fn(&T) -> Vec<u8>,
    read: fn(&[u8]) -> Result<T, ArchiveError>,
) -> String {
    let text = String::from_utf8(write(thing)).expect("text");
    assert_eq!(read(text.as_bytes()).as_ref(), Ok(thing), "{text}");
    let newer = format!("{},\"mood\":[1.50]}}}}", &text[..text.len() - 2]);
    let kept = read(newer.as_bytes()).unwrap_or_else(|error| panic!("{newer}: {error}"));
    assert_eq!(String::from_utf8(write(&kept)), Ok(newer), "what a newer program added is kept");
    assert!(!text.contains('\n'));
    text
}

#[test]
fn every_kind_comes_back_the_same_and_is_no_other() {
    let (a, p, v) = ("a-1".to_string(), "p-1".to_string(), "v-1".to_string());
    let addendum = Addendum {
        id: a.clone(),
        visit: v.clone(),
        person: p.clone(),
        written: NOW,
        text: "Links, nicht rechts.\n“😀”".into(),
        program: "Sidelight 0.1.0".into(),
        unread: none(),
    };
    let person =
        Person { id: p.clone(), label: String::new(), born: None, invented: false, changed: Some(NOW), unread: none() };
    let tasks = vec!["saccade".into()];
    let routine = OwnRoutine { id: a.clone(), title: "Monday".into(), tasks, changed: Some(NOW), unread: none() };
    let receipt = Receipt {
        id: a.clone(),
        issued: NOW,
        visits: vec![some_ref(), some_ref()],
        addenda: vec![some_ref()],
        unread: none(),
    };
    let join =
        Join { id: a.clone(), keep: p.clone(), other: "p-2".into(), made: NOW, undone: Some(NOW), unread: none() };
    let handed = HandedOver {
        id: a.clone(),
        made: NOW,
        word: "walnut".into(),
        visits: vec![some_ref()],
        addenda: vec![some_ref()],
        confirmed: Some(NOW),
        unread: none(),
    };
    let tombstone = Tombstone { person: p.clone(), erased: NOW, unread: none() };
    let entry = Entry {
        id: v,
        person: p,
        started: NOW,
        closed: Some(NOW),
        routine: "sideline".into(),
        retest_on: Some(date!(2026 - 05 - 31)),
        sha256: Some("ab".repeat(32)),
        handed_over: true,
        unread: none(),
    };
    let texts = [
        comes_back(&person, write_person, read_person),
        comes_back(&addendum, write_addendum, read_addendum),
        comes_back(&routine, write_routine, read_routine),
        comes_back(&receipt, write_receipt, read_receipt),
        comes_back(&join, write_join, read_join),
        comes_back(&handed, write_handed_over, read_handed_over),
        comes_back(&tombstone, write_tombstone, read_tombstone),
        comes_back(&entry, write_entry, read_entry),
    ];
    let read_by_all = |text: &str| {
        let bytes = text.as_bytes();
        [
            read_person(bytes).is_ok(),
            read_addendum(bytes).is_ok(),
            read_routine(bytes).is_ok(),
            read_receipt(bytes).is_ok(),
            read_join(bytes).is_ok(),
            read_handed_over(bytes).is_ok(),
            read_tombstone(bytes).is_ok(),
            read_entry(bytes).is_ok(),
            read_visit(bytes).is_ok(),
        ]
    };
    for text in texts {
        assert_eq!(read_by_all(&text).into_iter().filter(|read| *read).count(), 1, "{text}");
    }
}

#[test]
fn what_a_newer_program_noted_of_a_visit_in_a_receipt_is_kept() {
    let text = concat!(
        r#"{"format":"sidelight-receipt","version":1,"receipt":{"id":"a","issued":"2026-03-02T15:52:08.007+01:00","#,
        r#""visits":[{"id":"v-1","sha256":"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa","pages":2.50}]}}"#
    );
    let receipt = read_receipt(text.as_bytes()).expect("readable");
    assert_eq!(receipt.unread.0, [("/visits/0/pages".to_string(), "2.50".to_string())]);
    assert_eq!(String::from_utf8(write_receipt(&receipt)).as_deref(), Ok(text));
}

#[test]
fn a_digest_that_is_none_is_refused() {
    let whole = String::from_utf8(write_receipt(&Receipt {
        id: "a".into(),
        issued: NOW,
        visits: vec![some_ref()],
        addenda: vec![some_ref()],
        unread: none(),
    }))
    .expect("text");
    let digest = some_ref().sha256;
    for wrong in ["", "0123", &digest.to_uppercase(), &digest.replace('a', "g"), &format!("{digest}0")] {
        let refused = read_receipt(whole.replace(&digest, wrong).as_bytes()).expect_err(wrong);
        let place = "receipt.visits[0].sha256".to_string();
        assert_eq!(refused, ArchiveError::Broken { place, fault: Fault::Impossible }, "{wrong}");
    }
}

#[test]
fn the_order_of_things_tells_all_that_differ_apart() {
    let person = |label: &str, unread: &str| Person {
        id: "p".into(),
        label: label.into(),
        born: None,
        invented: false,
        changed: None,
        unread: Unread(vec![("/x".into(), unread.into())]),
    };
    let orders = [person("a", "1").order(), person("a", "1.0").order(), person("b", "1").order()];
    assert_ne!(orders[0], orders[1], "canonically the same, but written otherwise");
    assert!(orders[0] < orders[2] && orders[1] < orders[2]);
}
