//! The archive form: round trips, what a newer program adds, and each way a file can be refused.

use super::*;
use crate::calendar::{Born, Moment};
use crate::capture::answer::{Answer, Answers, Cell, Made, Run, Series, Tap, Trial};
use crate::capture::record::State;
use serde_json::Value;
use time::macros::date;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

fn person() -> Person {
    let born = Some(Born::On(date!(2012 - 05 - 31)));
    Person { id: "p-1".into(), label: "R-21".into(), born, invented: true, changed: None, unread: Unread::default() }
}

/// One answer of every kind.
fn visit() -> Visit {
    let mut visit = Visit::begin("v-1", "p-1", "sideline", NOW, "Sidelight 0.1.0");
    visit.closed = Some(Moment { unix_ms: NOW.unix_ms + 60_000, ..NOW });
    visit.at = "decision".into();
    let trial = |at_ms, cm| Trial { at_ms, answers: [("break".into(), Answer::Number(cm))].into_iter().collect() };
    let tap =
        Tap { at_ms: 1500, pad: "right".into(), mark: "short".into(), also: vec!["late".into()], made: Made::Paced };
    let taps = vec![tap.clone(), Tap { made: Made::PacedThenTapped, also: vec![], ..tap.clone() }, tap];
    let run = Run { pad: String::new(), from_ms: 0, to_ms: Some(30_000), bpm: Some(42.5) };
    let cell = Cell { row: "right".into(), column: "slow".into(), grade: "smooth".into(), from_cycle: Some(3) };
    let answers: Answers = [
        ("one", Answer::One("double".into())),
        ("many", Answer::Many(vec![])),
        ("number", Answer::Number(8.3)),
        ("text", Answer::Text("says “it tires”\n<b>😀 שלום".into())),
        ("day", Answer::Day(date!(2026 - 03 - 02))),
        ("ratings", Answer::Ratings(vec![("headache".into(), 0), ("nausea".into(), 10)])),
        ("trials", Answer::Trials(vec![trial(0, 6.0), trial(900, 0.1 + 0.2)])),
        ("series", Answer::Series(Series { runs: vec![run], taps })),
        ("grid", Answer::Grid(vec![cell])),
    ]
    .map(|(key, answer)| (key.to_string(), answer))
    .into_iter()
    .collect();
    visit.record_mut("near_point", NOW).answers = answers;
    visit.record_mut("near_point", NOW).state = State::Done;
    visit.record_mut("saccade", NOW).state = State::NotDone("too tired".into());
    visit.record_mut("pursuit", NOW).state = State::NotTestable(String::new());
    visit.record_mut("symptoms.near_point", NOW).started = None;
    visit
}

#[test]
fn every_kind_of_answer_comes_back_the_same() {
    let archive = Archive::of(vec![person()], vec![visit()]);
    let bytes = write(&archive);
    assert_eq!(read(&bytes), Ok(archive), "{}", String::from_utf8_lossy(&bytes));
    assert_eq!(read_visit(&write_visit(&visit())), Ok(visit()));
    assert_eq!(read_person(&write_person(&person())), Ok(person()));
    assert!(!write_visit(&visit()).contains(&b'\n'), "stored records stand on one line");
}

#[test]
fn a_tap_takes_one_line() {
    let text = String::from_utf8(write(&Archive::of(vec![person()], vec![visit()]))).expect("text");
    let tap = r#"{"at_ms":1500,"pad":"right","mark":"short","also":["late"],"made":"paced"}"#;
    assert!(text.lines().any(|line| line.trim().trim_end_matches(',') == tap), "{text}");
}

const FROM_A_NEWER_PROGRAM: &str = r#"{"format":"sidelight-archive","version":1,"mood":1.10,
"people":[{"id":"p1","label":"Q","hand":{"left":true}}],
"visits":[{"id":"v1","person":"p1","routine":"new_one","started":"2026-03-02T15:52:08.000+01:00","place":[1,2],
 "records":[
  {"slot":"head_turn.2","state":"done","light":"dim","answers":{
    "wave":{"samples":[1.250,2e3]},"turns":{"number":12,"guess":true},
    "t/~":{"trials":[{"at_ms":1,"answers":{"x":{"sound":"ah"}},"note":"n"}]},
    "jumps":{"series":{"runs":[{"pad":"","from_ms":0,"lamp":1}],
      "taps":[{"at_ms":2,"pad":"left","mark":"on","made":"tapped"},
              {"at_ms":5,"pad":"left","mark":"on","made":"tapped","speed":412.50}],"angle":10}},
    "grid":{"grid":[{"row":"a","column":"b","grade":"c","sure":0.5}]},
    "now":{"ratings":[{"item":"fog","value":3,"asked_by":"x"}]}}}]}]}"#;

#[test]
fn what_a_newer_program_added_survives_at_every_level() {
    let archive = read(FROM_A_NEWER_PROGRAM.as_bytes()).expect("readable");
    let record = &archive.visits[0].records[0];
    assert!(record.answers.get("wave").is_none(), "an unknown kind is no answer");
    let names: Vec<_> = record.unread.0.iter().map(|(name, _)| name.as_str()).collect();
    for name in ["/light", "/answers/wave", "/answers/jumps/series/taps/1/speed", "/answers/t~1~0/trials/0/answers/x"] {
        assert!(names.contains(&name), "{name} is not among {names:?}");
    }
    let written = write(&archive);
    let before: Value = serde_json::from_str(FROM_A_NEWER_PROGRAM).expect("json");
    let after: Value = serde_json::from_slice(&written).expect("json");
    assert_eq!(before, after);
    assert!(String::from_utf8_lossy(&written).contains("412.50"), "unread parts are kept to the letter");
    assert_eq!(write(&read(&written).expect("readable")), written, "writing again changes nothing");
    let stored = read_visit(&write_visit(&archive.visits[0])).expect("readable");
    assert_eq!(stored, archive.visits[0]);
}

#[test]
fn unread_parts_of_what_was_taken_away_go_with_it() {
    let mut visit = read(FROM_A_NEWER_PROGRAM.as_bytes()).expect("readable").visits.remove(0);
    visit.records[0].answers.set("jumps", None);
    visit.records[0].answers.set("wave", Some(Answer::Number(1.0)));
    let again = read_visit(&write_visit(&visit)).expect("still readable");
    assert_eq!(again.records[0].answers.get("wave"), Some(&Answer::Number(1.0)), "what was recorded last stands");
    assert!(again.records[0].answers.get("jumps").is_none());
}

/// Each text with the error it must give.
#[test]
fn files_are_refused_each_for_its_own_reason() {
    let whole = String::from_utf8(write(&Archive::of(vec![person()], vec![visit()]))).expect("text");
    let broken = |place: &str, fault| ArchiveError::Broken { place: place.into(), fault };
    let cases = [
        (String::new(), ArchiveError::Empty),
        (" \n".into(), ArchiveError::Empty),
        ("PK\u{3}\u{4}".into(), ArchiveError::NotJson { byte: 1 }),
        (
            whole.replace("\"people\"", "people"),
            ArchiveError::NotJson { byte: whole.find("\"people\"").expect("there") + 1 },
        ),
        (whole[..200].into(), ArchiveError::Truncated { byte: 200 }),
        ("[1, 2]".into(), ArchiveError::Foreign),
        (r#"{"resourceType":"Bundle"}"#.into(), ArchiveError::Foreign),
        (r#"{"format":7}"#.into(), ArchiveError::Foreign),
        (whole.replace("\"version\": 1", "\"version\": 2"), ArchiveError::Newer { version: 2 }),
        (whole.replace("\"version\": 1", "\"version\": -1"), broken("version", Fault::WrongKind)),
        (whole.replace("\"version\": 1,", ""), broken("version", Fault::Missing)),
        (whole.replace("\"value\":10", "\"value\":11"), ratings_broken(Fault::Impossible)),
        (whole.replace("\"value\":10", "\"value\":-1"), ratings_broken(Fault::WrongKind)),
        (whole.replace("8.3", "1e999"), broken("visits[0].records[0].answers.number.number", Fault::Impossible)),
        (whole.replace("\"saccade\"", "\"pursuit\""), broken("visits[0].records[2].slot", Fault::Twice)),
        (whole.replace("\"not_done\"", "\"normal\""), broken("visits[0].records[1].state", Fault::Impossible)),
        (
            whole.replace("\"p-1\",\n      \"label\"", "\"p-2\", \"label\""),
            broken("visits[0].person", Fault::NoSuchPerson),
        ),
        (whole.replace("2012-05-31", "2012-31-05"), broken("people[0].born", Fault::Impossible)),
        (whole.replace("\"label\"", "\"id\""), broken("people[0].id", Fault::Twice)),
        (whole.replace("\"v-1\"", "\"../v\""), broken("visits[0].id", Fault::Impossible)),
    ];
    for (text, expected) in cases {
        assert_eq!(read(text.as_bytes()), Err(expected), "{text}");
    }
    fn ratings_broken(fault: Fault) -> ArchiveError {
        ArchiveError::Broken { place: "visits[0].records[0].answers.ratings.ratings[1].value".into(), fault }
    }
}

#[test]
fn the_same_person_or_visit_twice_is_refused() {
    let people = Archive::of(vec![person(), person()], vec![]);
    let visits = Archive::of(vec![person()], vec![visit(), visit()]);
    for (archive, place) in [(people, "people[1].id"), (visits, "visits[1].id")] {
        let expected = ArchiveError::Broken { place: place.into(), fault: Fault::Twice };
        assert_eq!(read(&write(&archive)), Err(expected));
    }
}

#[test]
fn size_and_nesting_are_bounded() {
    let huge = vec![b' '; MAX_BYTES + 1];
    assert_eq!(read(&huge), Err(ArchiveError::TooLarge { limit: MAX_BYTES }));
    let deep = format!(r#"{{"format":"sidelight-archive","version":1,"x":{}"#, "[".repeat(1_000_000));
    let refused = read(deep.as_bytes()).expect_err("too deep");
    assert!(matches!(refused, ArchiveError::Broken { fault: Fault::TooDeep, .. }), "{refused}");
    let in_text = format!(r#"{{"format":"sidelight-archive","version":1,"x":"\"{}"}}"#, "[".repeat(1000));
    assert!(read(in_text.as_bytes()).is_ok(), "brackets within a text are no nesting");
}

#[test]
fn no_prefix_of_a_file_is_taken_for_the_whole() {
    let whole = write(&Archive::of(vec![person()], vec![visit()]));
    let end = whole.len() - 1; // The last byte is a line break and may be missing.
    for at in 0..end {
        assert!(read(&whole[..at]).is_err(), "{at} of {end} bytes");
    }
    assert!(read(&whole[..end]).is_ok());
    let with_mark = [b"\xef\xbb\xbf".as_slice(), &whole].concat();
    assert!(read(&with_mark).is_ok(), "a byte order mark is no fault");
}

#[test]
fn no_error_repeats_text_of_the_file() {
    let file = r#"{"format":"sidelight-archive","version":1,"people":[{"id":"p1","label":"x","Anna Example":1,
        "Anna Example":2}]}"#;
    let said = read(file.as_bytes()).expect_err("twice").to_string();
    assert!(said.contains("people[0].?") && !said.contains("Anna"), "{said}");
    let said = read(br#"{"format":"sidelight-archive","version":1,"people":[{"id":"Anna Example"}]}"#)
        .expect_err("no id")
        .to_string();
    assert!(said.contains("people[0].id") && !said.contains("Anna"), "{said}");
}

#[test]
fn each_error_says_what_happened_and_what_to_do() {
    let errors = [
        ArchiveError::Empty,
        ArchiveError::TooLarge { limit: MAX_BYTES },
        ArchiveError::NotJson { byte: 3 },
        ArchiveError::Truncated { byte: 3 },
        ArchiveError::Foreign,
        ArchiveError::Newer { version: 2 },
        ArchiveError::Broken { place: "version".into(), fault: Fault::Missing },
    ];
    for error in errors {
        let said = error.to_string();
        assert!(
            said.ends_with('.') && (said.contains("Choose") || said.contains("Ask") || said.contains("Update")),
            "{said}"
        );
    }
}

fn own_routine() -> OwnRoutine {
    let tasks = vec!["saccade".into(), "of_a_newer_program".into(), "near_point".into()];
    OwnRoutine { id: "r-1".into(), title: "Montag „früh“".into(), tasks, changed: None, unread: Unread::default() }
}

#[test]
fn a_plan_and_a_routine_come_back_the_same() {
    let planned = Visit { plan: own_routine().tasks, ..visit() };
    assert_eq!(read_visit(&write_visit(&planned)).as_ref(), Ok(&planned));
    let whole = Archive::of(vec![person()], vec![planned]);
    let text = String::from_utf8(write(&whole)).expect("text");
    assert!(text.contains(r#""plan": ["saccade","of_a_newer_program","near_point"]"#), "{text}");
    assert_eq!(read(text.as_bytes()), Ok(whole));
    assert_eq!(read_routine(&write_routine(&own_routine())), Ok(own_routine()));
    let newer = String::from_utf8(write_routine(&own_routine())).expect("text").replace("}}", r#","colour":[1.50]}}"#);
    let again = read_routine(newer.as_bytes()).expect("readable");
    assert_eq!(String::from_utf8(write_routine(&again)), Ok(newer), "what a newer program added is kept");
}

#[test]
fn a_plan_that_cannot_be_true_is_refused() {
    let whole = String::from_utf8(write_visit(&Visit { plan: own_routine().tasks, ..visit() })).expect("text");
    let long: String = (0..201).map(|n| format!("\"t{n}\",")).collect();
    let cases = [
        (r#""near_point"],"#, r#""saccade"],"#, "visit.plan[2]", Fault::Twice),
        (r#"["saccade","#, r#"["a b","#, "visit.plan[0]", Fault::Impossible),
        (r#"["saccade","#, "[7,", "visit.plan[0]", Fault::WrongKind),
        (r#""plan":["#, r#""plan":{},"x":["#, "visit.plan", Fault::WrongKind),
        (r#"["saccade","#, &format!("[{long}"), "visit.plan", Fault::Impossible),
    ];
    for (from, to, place, fault) in cases {
        let expected = ArchiveError::Broken { place: place.into(), fault };
        assert_eq!(read_visit(whole.replacen(from, to, 1).as_bytes()), Err(expected), "{to}");
    }
}
