//! The JSON Schema of the archive: checked in, true of every archive there is, and at one with the reader on what is wrong.

use std::fs;

use jsonschema::Validator;
use serde_json::{Value, json};
use sidelight_core::archive::{self, Archive};

use crate::merge_law::random;
use crate::odd_visit::{Oddness, odd};
use crate::repository::{files, root, text};

const PATH: &str = "tests/archives/v1/schema.json";

#[test]
fn the_schema_that_is_checked_in_is_that_of_the_code() {
    let made = archive::schema();
    if std::env::var_os("SIDELIGHT_BLESS").is_some() {
        fs::write(root().join(PATH), &made).expect("the schema can be written");
    }
    assert_eq!(text(PATH), made, "{PATH} differs; version 1 may only gain optional members, so read the difference");
    let schema: Value = serde_json::from_str(&made).expect("JSON");
    assert!(jsonschema::meta::is_valid(&schema), "it is no JSON Schema");
}

#[test]
fn every_archive_in_the_repository_is_valid() {
    let validator = validator();
    let archives = |path: &String| {
        (path.starts_with("tests/archives/v1/") || path.starts_with("tests/visits/"))
            && path.ends_with(".json")
            && path != PATH
            && !path.ends_with("/assessment.json")
            && !path.ends_with("/fhir.json")
    };
    let paths: Vec<String> = files().into_iter().filter(archives).collect();
    assert!(paths.len() >= 18, "only {} archives", paths.len());
    for path in paths {
        let value: Value = serde_json::from_str(&text(&path)).expect("JSON");
        assert_valid(&validator, &value, &path);
    }
}

#[test]
fn every_archive_that_can_be_written_is_valid() {
    let validator = validator();
    for seed in 0..10_000 {
        assert_valid(&validator, &value(&random(seed)), &format!("random archive {seed}"));
    }
    for seed in 0..150 {
        let (person, visit) = odd(seed, Oddness::Anything);
        assert_valid(&validator, &value(&Archive::of(vec![person], vec![visit])), &format!("odd visit {seed}"));
    }
}

/// Where the reader refuses more than the schema, and why: JSON Schema has no words for what only the whole file shows.
///
/// Besides, the reader alone refuses a name twice in one object (a validator sees only one), a whole number written with
/// a point (`5.0` is an integer to JSON Schema), and files that are too large or too deep; a validator that does not look at
/// formats takes days and moments that no calendar has.
const BY_THE_READER_ALONE: [(&str, &str); 4] = [
    ("/people", "visits and addenda name people who must be in the file"),
    ("/people/0/id", "the same"),
    ("/visits/0/person", "the same"),
    ("/addenda/0/person", "the same"),
];

/// Archives that together have one of each member.
const EVERY_MEMBER: [&str; 3] =
    ["tests/archives/v1/home-practice.json", "tests/archives/v1/every-member.json", "tests/archives/v1/showings.json"];

/// Every member of an archive that has one of each is replaced by values of every kind, or taken away: the reader and the
/// schema agree on each, but for ids that only the whole file shows to be wrong.
#[test]
fn reader_and_schema_refuse_the_same_faults() {
    let validator = validator();
    let (mut tried, mut refused, mut places) = (0, 0, 0);
    let mut differing = Vec::new();
    let each = EVERY_MEMBER.iter().flat_map(|path| {
        let whole: Value = serde_json::from_str(&text(path)).expect("JSON");
        assert!(read(&whole), "{path} is readable");
        let mut pointers = Vec::new();
        walk(&whole, "", &mut pointers);
        pointers.into_iter().map(move |pointer| (whole.clone(), pointer))
    });
    for (whole, pointer) in each {
        places += 1;
        let pointer = &pointer;
        for odd in odd_values() {
            let mut bent = whole.clone();
            let Some(place) = bent.pointer_mut(pointer) else { continue };
            *place = odd.clone();
            tried += 1;
            compare(&validator, &bent, pointer, &odd.to_string(), &mut refused, &mut differing);
        }
        let (above, name) = pointer.rsplit_once('/').expect("a pointer has a slash");
        let mut bent = whole.clone();
        if let Some(Value::Object(members)) = bent.pointer_mut(above) {
            members.remove(name);
            tried += 1;
            compare(&validator, &bent, pointer, "nothing", &mut refused, &mut differing);
        }
    }
    println!("{tried} faults at {places} places: both refused {refused}, both took {}", tried - refused);
    assert!(refused > 1_000, "only {refused} of {tried} were faults");
    assert!(differing.is_empty(), "{} differ:\n{}", differing.len(), differing.join("\n"));
}

#[test]
fn the_few_faults_that_only_the_reader_sees_are_refused_by_it() {
    let validator = validator();
    let whole = text("tests/archives/v1/every-member.json");
    let twice = whole.replacen("\"label\":", "\"id\": \"p2\", \"label\":", 1);
    assert!(archive::read(twice.as_bytes()).is_err(), "a name twice in one object");
    for (from, to) in [("\"at_ms\": 1500", "\"at_ms\": 1500.0"), ("\"person\": \"p1\"", "\"person\": \"p9\"")] {
        let bent = whole.replacen(from, to, 1);
        assert_ne!(bent, whole, "{from}");
        assert!(archive::read(bent.as_bytes()).is_err(), "{to}");
        assert!(validator.is_valid(&serde_json::from_str(&bent).expect("JSON")), "{to}");
    }
}

fn compare(
    validator: &Validator,
    bent: &Value,
    pointer: &str,
    odd: &str,
    refused: &mut usize,
    differing: &mut Vec<String>,
) {
    let (by_reader, by_schema) = (read(bent), validator.is_valid(bent));
    if by_reader == by_schema {
        *refused += usize::from(!by_reader);
        return;
    }
    let excused = !by_reader && BY_THE_READER_ALONE.iter().any(|(place, _)| *place == pointer);
    if !excused {
        differing.push(format!("{pointer} = {odd}: reader {by_reader}, schema {by_schema}"));
    }
}

fn read(value: &Value) -> bool {
    archive::read(value.to_string().as_bytes()).is_ok()
}

/// Values of every kind, some just inside and some just outside a limit.
fn odd_values() -> Vec<Value> {
    vec![
        json!(null),
        json!(true),
        json!(0),
        json!(-1),
        json!(1),
        json!(2),
        json!(10),
        json!(11),
        json!(255),
        json!(256),
        json!(4_294_967_295_u32),
        json!(4_294_967_296_u64),
        json!(1.5),
        json!(1e300),
        json!(""),
        json!("x"),
        json!("a b"),
        json!("open"),
        json!("not_done"),
        json!("tapped"),
        json!("2012"),
        json!("20122"),
        json!("2026-02-28"),
        json!("2026-13-01"),
        json!("2026-02-30"),
        json!("26-02-28"),
        json!("2026-03-02T15:52:08.000+01:00"),
        json!("2026-03-02T15:52:08Z"),
        json!("2026-03-02T25:52:08.000+01:00"),
        json!("2026-03-02 15:52"),
        json!("ab".repeat(32)),
        json!("AB".repeat(32)),
        json!("ab".repeat(33)),
        json!([]),
        json!([null]),
        json!(["saccade"]),
        json!(["saccade", "saccade"]),
        json!([1]),
        json!([{}]),
        json!({}),
        json!({ "one": "a", "many": [] }),
        json!({ "one": null }),
        json!({ "of_a_newer_program": 1 }),
        json!({ "x": { "one": 5 } }),
        json!({ "x": {} }),
        json!({ "x": [] }),
    ]
}

fn walk(value: &Value, pointer: &str, pointers: &mut Vec<String>) {
    if !pointer.is_empty() {
        pointers.push(pointer.to_string());
    }
    match value {
        Value::Object(members) => {
            members.iter().for_each(|(name, inner)| walk(inner, &format!("{pointer}/{name}"), pointers));
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(at, inner)| walk(inner, &format!("{pointer}/{at}"), pointers));
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

fn validator() -> Validator {
    let schema: Value = serde_json::from_str(&archive::schema()).expect("JSON");
    jsonschema::options().should_validate_formats(true).build(&schema).expect("a schema")
}

fn value(archive: &Archive) -> Value {
    // A validator cannot read a number beyond a double; the form keeps it among what it does not know.
    let text = String::from_utf8(archive::write(archive)).expect("text").replace(": 1e999", ": 1e99");
    serde_json::from_str(&text).expect("JSON")
}

fn assert_valid(validator: &Validator, value: &Value, name: &str) {
    let faults: Vec<String> =
        validator.iter_errors(value).map(|error| format!("{} at {}", error, error.instance_path())).collect();
    assert!(faults.is_empty(), "{name}: {}", faults.join("; "));
}
