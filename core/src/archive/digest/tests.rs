//! Digests of closed visits: fixed for ever, the same on every device, another one for any change.

use super::*;
use crate::archive::{read_visit, write_visit};
use crate::canonical::{canonical, sha256_hex};
use crate::capture::answer::Answer;
use crate::capture::record::State;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

fn open() -> Visit {
    let mut visit = Visit::begin("v-1", "p-1", "sideline", NOW, "Sidelight 0.1.0");
    let record = visit.record_mut("near_point", NOW);
    record.answers.set("break", Some(Answer::Number(8.5)));
    record.state = State::Done;
    visit.at = "decision".into();
    visit
}

fn later(ms: i64) -> Moment {
    Moment { unix_ms: NOW.unix_ms + ms, ..NOW }
}

/// The canonical text written by hand; its digest from a program of its own (`sha256sum`).
#[test]
fn the_digest_is_that_of_the_canonical_text() {
    let visit = closed(open(), later(60_000));
    let text = concat!(
        r#"{"closed":"2026-03-02T15:53:08.007+01:00","id":"v-1","person":"p-1","program":"Sidelight 0.1.0","#,
        r#""records":[{"answers":{"break":{"number":8.5}},"slot":"near_point","#,
        r#""started":"2026-03-02T15:52:08.007+01:00","state":"done"}],"#,
        r#""routine":"sideline","started":"2026-03-02T15:52:08.007+01:00"}"#
    );
    assert_eq!(canonical(text).as_deref(), Ok(text.as_bytes()), "it is canonical");
    assert_eq!(sha256_hex(text.as_bytes()), SHA256SUM);
    assert_eq!(visit.sha256.as_deref(), Some(SHA256SUM));
}

const SHA256SUM: &str = "bb0874e010d7024d398587821317a3301ae35711c9e5d18a41d25ff4129318e7";

#[test]
fn closing_notes_the_moment_and_the_digest_and_nothing_else() {
    let visit = closed(open(), later(60_000));
    assert_eq!(visit.closed, Some(later(60_000)));
    let reopened = Visit { closed: None, sha256: None, at: "decision".into(), ..visit.clone() };
    assert_eq!(reopened, open());
    assert!(intact(&visit) && intact(&open()));
    let stored = read_visit(&write_visit(&visit)).expect("readable");
    assert_eq!(stored, visit);
    assert_eq!(digest(&stored), digest(&visit));
}

#[test]
fn any_change_gives_another_digest_and_shows() {
    let visit = closed(open(), later(60_000));
    let mut changed = [(); 6].map(|()| visit.clone());
    changed[0].closed = Some(later(60_001));
    changed[1].person = "p-2".into();
    changed[2].records[0].answers.set("break", Some(Answer::Number(8.500_000_000_000_002)));
    changed[3].records[0].state = State::NotDone(String::new());
    changed[4].unread.0.push(("/mood".into(), "null".into()));
    changed[5].records.clear();
    for other in changed {
        assert_ne!(digest(&other), digest(&visit), "{other:?}");
        assert!(!intact(&other), "{other:?}");
    }
}

#[test]
fn the_order_of_names_in_the_file_does_not_matter_and_older_visits_are_as_good() {
    let with = |unread: &[(&str, &str)]| {
        let mut visit = open();
        visit.unread.0 = unread.iter().map(|(name, text)| ((*name).into(), (*text).into())).collect();
        closed(visit, later(1)).sha256
    };
    assert_eq!(with(&[("/a", "1"), ("/b", "[ 2 ]")]), with(&[("/b", "[2.0]"), ("/a", "1e0")]));
    let older = Visit { closed: Some(later(1)), ..open() };
    assert!(older.sha256.is_none() && intact(&older));
}

/// What RFC 8785 has no form for still has a digest, and its own.
#[test]
fn unread_parts_without_a_canonical_form_are_told_apart() {
    let digests: Vec<String> = ["1e999", "1e998", r#"{"a":1,"a":2}"#, r#"{"a":2,"a":1}"#, r#""\ud800""#]
        .into_iter()
        .map(|text| {
            let mut visit = open();
            visit.unread.0.push(("/odd".into(), text.into()));
            digest(&visit)
        })
        .collect();
    for (at, digest) in digests.iter().enumerate() {
        assert_eq!(digests.iter().filter(|other| *other == digest).count(), 1, "{at}");
    }
}
