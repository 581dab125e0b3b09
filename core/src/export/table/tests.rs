//! Tests of the tables: what a row says, what is left out without names, and what is refused.

use std::collections::BTreeMap;

use super::*;
use crate::calendar::{Born, parse_date};
use crate::capture::answer::{Answer, Made, Series, Tap};
use crate::capture::record::State;
use crate::capture::unread::Unread;

const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const DAY_MS: i64 = 86_400_000;

fn person(id: &str, label: &str, born: &str) -> Person {
    let born = parse_date(born).map(Born::On);
    Person { id: id.into(), label: label.into(), born, invented: true, changed: None, unread: Unread::default() }
}

fn visit(id: &str, person: &str, days: i64) -> Visit {
    let mut visit =
        Visit::begin(id, person, "sideline", Moment { unix_ms: NOON.unix_ms + days * DAY_MS, ..NOON }, "Sidelight 0");
    let tap =
        |at_ms, mark: &str| Tap { at_ms, pad: "right".into(), mark: mark.into(), also: vec![], made: Made::Tapped };
    let taps = vec![tap(1500, "on"), tap(3000, "short")];
    let record = visit.record_mut("saccade", NOON);
    record.answers.set("jumps", Some(Answer::Series(Series { runs: vec![], taps })));
    record.state = State::Done;
    visit
}

fn options(who: Who<'_>) -> Options<'_> {
    Options { who, addenda: &[], bom: false, program: "Sidelight 0", written: NOON }
}

fn codes(pairs: &[(&str, &str)]) -> BTreeMap<String, String> {
    pairs.iter().map(|(id, code)| ((*id).to_string(), (*code).to_string())).collect()
}

#[track_caller]
fn table_of(files: &[File], name: &str) -> Read {
    read(&files.iter().find(|file| file.name == name).expect("the file").bytes).expect("a table")
}

/// The cells of one column.
#[track_caller]
fn cells<'a>(table: &'a Read, name: &str) -> Vec<&'a str> {
    let at = table.header.iter().position(|column| column == name).expect("the column");
    table.rows.iter().map(|row| row[at].as_str()).collect()
}

#[test]
fn with_names_a_table_shows_who_and_when() {
    let person = person("p1", "=Ann, \"A\"", "2012-05-31");
    let visit = visit("v1", "p1", 0);
    let files = write(&[Case { person: &person, visit: &visit }], &options(Who::Named)).expect("written");
    let names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "people.csv",
            "visits.csv",
            "measures.csv",
            "trials.csv",
            "showings.csv",
            "symptoms.csv",
            "answers.csv",
            "given.csv",
            "practised.csv",
            "addenda.csv",
            "datapackage.json",
            "csv-metadata.json"
        ]
    );
    let people = String::from_utf8(files[0].bytes.clone()).expect("text");
    assert_eq!(
        people,
        "person,label,born_on,born_in,born_missing,invented\r\np1,\"'=Ann, \"\"A\"\"\",2012-05-31,2012,,true\r\n"
    );
    let visits = table_of(&files, "visits.csv");
    assert_eq!(cells(&visits, "started"), ["2026-03-02T15:52:08+01:00"]);
    assert_eq!((cells(&visits, "age"), cells(&visits, "day")), (vec!["13"], vec!["0"]));
    let trials = table_of(&files, "trials.csv");
    assert_eq!((cells(&trials, "at"), cells(&trials, "mark")), (vec!["1500", "3000"], vec!["on", "short"]));
    let measures = table_of(&files, "measures.csv");
    let at = cells(&measures, "measure").iter().position(|key| *key == "saccade.off_target.right").expect("measured");
    let row = |name| cells(&measures, name)[at];
    assert_eq!((row("value"), row("unit"), row("events"), row("repetitions")), ("0.5", "1", "1", "2"));
    assert_eq!((row("direction"), row("eye"), row("missing")), ("right", "", ""));
    let gap = cells(&measures, "task").iter().position(|task| *task == "optokinetic").expect("not done");
    let why = (cells(&measures, "value")[gap], cells(&measures, "missing")[gap]);
    assert_eq!(why, ("", "not_recorded"), "absent is never zero");
}

/// 45 CFR 164.514(b)(2): no dates but years, which days since the first visit take the place of; over 89 is 90+.
#[test]
fn without_names_dates_are_days_and_high_ages_are_one() {
    let (old, young) = (person("p1", "Ann", "1930-01-01"), person("p2", "Bea", "2020-01-01"));
    let mut visits = [visit("v2", "p1", 30), visit("v1", "p1", 0), visit("v3", "p2", 365)];
    visits[0].closed = Some(Moment { unix_ms: visits[0].started.unix_ms + 90_500, ..NOON });
    let on = parse_date("2026-04-15").expect("a day");
    visits[1].record_mut("decision", NOON).answers.set("retest_on", Some(Answer::Day(on)));
    let cases: Vec<Case<'_>> =
        visits.iter().map(|visit| Case { person: if visit.person == "p1" { &old } else { &young }, visit }).collect();
    let codes = codes(&[("p1", "X4KQ"), ("p2", "B7TM")]);
    let files = write(&cases, &options(Who::Coded(&codes))).expect("written");
    let visits = table_of(&files, "visits.csv");
    assert_eq!(cells(&visits, "visit"), ["B7TM-1", "X4KQ-1", "X4KQ-2"], "in the order of the codes, then in time");
    assert_eq!(cells(&visits, "day"), ["0", "0", "30"]);
    assert_eq!(cells(&visits, "age"), ["7", "90+", "90+"]);
    assert_eq!(cells(&visits, "lasted"), ["", "", "90"]);
    assert_eq!(cells(&visits, "retest_day"), ["", "44", ""], "2 March to 15 April");
    assert!(!visits.header.iter().any(|name| name == "started" || name == "reason_note"));
}

#[test]
fn a_code_must_be_there_once_and_tell_nothing() {
    let (one, two) = (person("p1", "Ann-X4KQ", "2012-05-31"), person("p2", "Bea", "2012-05-31"));
    let (first, second) = (visit("v1", "p1", 0), visit("v2", "p2", 0));
    let cases = [Case { person: &one, visit: &first }, Case { person: &two, visit: &second }];
    for (pairs, error) in [
        (&[("p1", "AAAA")][..], TableError::NoCode(1)),
        (&[("p1", "AAAA"), ("p2", "aaaa")], TableError::SameCode),
        (&[("p1", "AAAA"), ("p2", "=1+1")], TableError::BadCode),
        (&[("p1", "AAAA"), ("p2", "AAA")], TableError::BadCode),
        (&[("p1", "x4kq"), ("p2", "AAAA")], TableError::BadCode),
    ] {
        let codes = codes(pairs);
        assert_eq!(write(&cases, &options(Who::Coded(&codes))), Err(error.clone()), "{pairs:?}");
        assert!(!error.to_string().contains("Ann"));
    }
}

#[test]
fn the_same_visit_closed_twice_stands_twice() {
    let person = person("p1", "Ann", "2012-05-31");
    let (one, two) = (visit("v1", "p1", 0), visit("v1", "p1", 0));
    let cases = [Case { person: &person, visit: &one }, Case { person: &person, visit: &two }];
    let files = write(&cases, &options(Who::Named)).expect("written");
    assert_eq!(cells(&table_of(&files, "visits.csv"), "visit"), ["v1", "v1~2"]);
    assert_eq!(cells(&table_of(&files, "people.csv"), "person"), ["p1"]);
}

#[test]
fn a_byte_order_mark_is_asked_for_and_read_over() {
    let person = person("p1", "Ann", "2012-05-31");
    let visit = visit("v1", "p1", 0);
    let cases = [Case { person: &person, visit: &visit }];
    let plain = write(&cases, &options(Who::Named)).expect("written");
    let marked = write(&cases, &Options { bom: true, ..options(Who::Named) }).expect("written");
    assert!(marked[0].bytes.starts_with(b"\xEF\xBB\xBFperson,") && plain[0].bytes.starts_with(b"person,"));
    assert_eq!(read(&marked[0].bytes), read(&plain[0].bytes));
}

#[test]
fn what_is_no_table_is_refused_in_a_sentence() {
    assert_eq!(read(b""), Err(ReadError::Empty));
    assert_eq!(read(b"a,b\r\n1,2\r\n3\r\n"), Err(ReadError::Uneven(2)));
    assert_eq!(read(b"a,\xFF\r\n"), Err(ReadError::NotText));
    assert_eq!(read(&vec![b'a'; MAX_BYTES + 1]), Err(ReadError::TooLarge));
}

#[test]
fn a_cell_of_another_kind_is_not_read() {
    let column = |kind| column::column("c", kind, "");
    for (kind, good, bad) in [
        (Kind::Whole(0, 10), "10", "11"),
        (Kind::Number(Some((0.0, 1.0))), "0.5", "0,5"),
        (Kind::Word(vec!["right", "left"]), "left", "up"),
        (Kind::Words(vec!["a", "b"]), "a;b", "a;c"),
        (Kind::Day, "2026-10-26", "26/10/2026"),
        (Kind::Moment, "2026-03-02T15:52:08+01:00", "2026-03-02T15:52:08"),
        (Kind::Moment, "2026-03-02T11:22:08-03:30", "2026-02-30T11:22:08-03:30"),
        (Kind::Yes, "true", "1"),
        (Kind::Age, "90+", "91"),
        (Kind::Age, "0", "089"),
        (Kind::Id, "near_point.break", "Near point"),
    ] {
        let column = column(kind);
        assert_eq!(column.read(good).map(|cell| cell.print()), Some(good.to_string()));
        assert_eq!(column.read(bad), None, "{bad}");
    }
}

#[test]
fn no_choice_is_called_as_none_of_them() {
    let forms = crate::task::ALL.iter().map(|task| task.form);
    let asked = [&crate::capture::frame::FORM, &crate::capture::decision::FORM, &crate::capture::stop::FORM];
    let fields = forms.chain(asked).flat_map(|form| form.fields);
    let ids: Vec<&str> = fields.flat_map(|field| words::of_kind(&field.kind)).collect();
    assert!(ids.len() > 100 && !ids.contains(&column::NONE));
}

#[test]
fn an_addendum_is_told_with_its_words_and_without_names_with_its_day_only() {
    let person = person("p1", "Ann", "2012-05-31");
    let visits = [visit("v1", "p1", 0), visit("v2", "p1", 3)];
    let addendum = |id: &str, days: i64, text: &str| Addendum {
        id: id.into(),
        visit: "v2".into(),
        person: "p1".into(),
        written: Moment { unix_ms: NOON.unix_ms + days * DAY_MS, ..NOON },
        text: text.into(),
        program: "Sidelight 0".into(),
        unread: Unread::default(),
    };
    let addenda = [addendum("b", 9, "-2 was +2"), addendum("a", 4, "Ann's mother rang")];
    let cases: Vec<Case<'_>> = visits.iter().map(|visit| Case { person: &person, visit }).collect();
    let named = Options { addenda: &addenda, ..options(Who::Named) };
    let table = table_of(&write(&cases, &named).expect("written"), "addenda.csv");
    assert_eq!(cells(&table, "text"), ["Ann's mother rang", "'-2 was +2"]);
    assert_eq!(cells(&table, "visit"), ["v2", "v2"]);
    let codes = codes(&[("p1", "X4KQ")]);
    let coded = Options { addenda: &addenda, ..options(Who::Coded(&codes)) };
    let table = table_of(&write(&cases, &coded).expect("written"), "addenda.csv");
    assert_eq!(table.header, ["visit", "row", "day"]);
    assert_eq!(table.rows, [["X4KQ-2", "1", "4"], ["X4KQ-2", "2", "9"]]);
}
