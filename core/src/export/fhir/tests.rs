//! What the bundles of the demo say, element by element.

use serde_json::{Value, json};

use super::*;
use crate::calendar::Born;
use crate::capture::answer::Answer;
use crate::capture::record::{Record, State};
use crate::capture::visit::{Person, Visit};
use crate::demo;

const NOW: Moment = Moment { unix_ms: 1_772_500_000_000, offset_minutes: 60 };

/// The whole demo as a bundle.
pub fn demo_bundle(mode: Mode) -> Value {
    let (people, visits) = demo::people(NOW);
    bundle(&cases(&people, &visits), &options(mode))
}

fn options(mode: Mode) -> Options<'static> {
    Options { mode, written: NOW, program: "Sidelight 0.1.0", addenda: &[] }
}

fn cases<'a>(people: &'a [Person], visits: &'a [Visit]) -> Vec<Case<'a>> {
    let person = |visit: &Visit| people.iter().find(|person| person.id == visit.person).expect("known");
    visits.iter().map(|visit| Case { person: person(visit), visit }).collect()
}

fn resources<'a>(bundle: &'a Value, kind: &str) -> Vec<&'a Value> {
    let all = bundle["entry"].as_array().expect("entries").iter().map(|entry| &entry["resource"]);
    all.filter(|resource| resource["resourceType"] == kind).collect()
}

fn coded<'a>(bundle: &'a Value, code: &str) -> Vec<&'a Value> {
    let has = |resource: &&Value| resource["code"]["coding"][0]["code"] == code;
    resources(bundle, "Observation").into_iter().filter(has).collect()
}

fn one_visit(build: impl Fn(&mut Person, &mut Visit)) -> Value {
    let (mut people, mut visits) = demo::people(NOW);
    build(&mut people[0], &mut visits[0]);
    bundle(&cases(&people[..1], &visits[..1]), &options(Mode::Collection))
}

#[test]
fn every_entry_has_a_name_of_its_own_and_every_reference_leads_to_one() {
    let bundle = demo_bundle(Mode::Transaction);
    let entries = bundle["entry"].as_array().expect("entries");
    let names: BTreeSet<&str> = entries.iter().filter_map(|entry| entry["fullUrl"].as_str()).collect();
    assert_eq!(names.len(), entries.len());
    assert!(entries.len() > 200 && check::faults(&bundle).is_empty());
}

#[test]
fn only_a_transaction_asks_something_of_a_server_and_each_entry_is_known_by_something() {
    let (sent, kept) = (demo_bundle(Mode::Transaction), demo_bundle(Mode::Collection));
    assert!(kept["entry"].as_array().expect("entries").iter().all(|entry| entry.get("request").is_none()));
    for entry in sent["entry"].as_array().expect("entries") {
        let request = &entry["request"];
        assert_eq!(request["method"], "POST");
        assert_eq!(request["url"], entry["resource"]["resourceType"]);
        assert!(request["ifNoneExist"].as_str().is_some_and(|search| search.contains('=')), "{request}");
    }
}

#[test]
fn a_second_export_mints_nothing_new() {
    let later = Options { written: Moment { unix_ms: NOW.unix_ms + 1_000_000, ..NOW }, ..options(Mode::Transaction) };
    let (people, visits) = demo::people(NOW);
    let named = |bundle: &Value| -> Vec<Value> {
        let entries = bundle["entry"].as_array().expect("entries").iter();
        entries.map(|entry| json!([entry["fullUrl"], entry["request"]])).collect()
    };
    assert_eq!(named(&demo_bundle(Mode::Transaction)), named(&bundle(&cases(&people, &visits), &later)));
}

#[test]
fn bytes_are_the_same_bundle_an_entry_a_line() {
    let (people, visits) = demo::people(NOW);
    for mode in [Mode::Transaction, Mode::Collection] {
        let written = bytes(&cases(&people, &visits), &options(mode));
        let read: Value = serde_json::from_slice(&written).expect("it is JSON");
        assert_eq!(read, demo_bundle(mode));
        let lines = written.iter().filter(|byte| **byte == b'\n').count();
        assert_eq!(lines, read["entry"].as_array().expect("entries").len() + 2);
    }
}

#[test]
fn an_open_visit_is_kept_as_preliminary_and_never_sent() {
    let (people, mut visits) = demo::people(NOW);
    visits[0].closed = None;
    let cases = cases(&people[..1], &visits[..1]);
    let kept = bundle(&cases, &options(Mode::Collection));
    assert!(resources(&kept, "Observation").iter().all(|each| each["status"] == "preliminary"));
    assert_eq!(resources(&kept, "Encounter")[0]["status"], "in-progress");
    let sent = bundle(&cases, &options(Mode::Transaction));
    assert_eq!(resources(&sent, "Encounter").len() + resources(&sent, "Observation").len(), 0);
}

/// The demo's teenager: breaks at 8, 9.5 and 12 cm, mean 9.83 as printed; recoveries 10, 11.5 and 14.5.
#[test]
fn the_near_point_has_its_unit_its_trials_and_how_it_stands() {
    let bundle = one_visit(|_, _| {});
    let found = coded(&bundle, "near_point.break");
    let [near_point] = found[..] else { panic!("{} near points", found.len()) };
    assert_eq!(
        near_point["valueQuantity"],
        json!({ "value": 9.83, "unit": "cm", "system": "http://unitsofmeasure.org", "code": "cm" })
    );
    let trials: Vec<&Value> = near_point["component"]
        .as_array()
        .expect("components")
        .iter()
        .filter(|part| part["code"]["coding"][0]["code"] == "repetition")
        .map(|part| &part["valueQuantity"]["value"])
        .collect();
    assert_eq!(trials, [&json!(8), &json!(9.5), &json!(12)]);
    assert_eq!(near_point["interpretation"][0]["coding"][0]["code"], "H");
    assert_eq!(near_point["method"]["coding"][0]["code"], "method.near_point");
}

#[test]
fn ratings_are_scores_that_can_be_searched_and_an_unasked_one_is_no_zero() {
    let bundle = one_visit(|_, visit| {
        let record = visit.records.iter_mut().find(|record| record.slot == "symptoms.before").expect("rated");
        record.answers.set("now", Some(Answer::Ratings(vec![("headache".into(), 0), ("nausea".into(), 3)])));
    });
    let before = coded(&bundle, "symptoms")[0];
    let part = |code: &str| {
        let parts = before["component"].as_array().expect("components");
        parts.iter().find(|part| part["code"]["coding"][0]["code"] == code).expect("there")
    };
    assert_eq!(part("symptom.headache")["valueQuantity"]["value"], 0);
    assert_eq!(part("symptom.nausea")["valueQuantity"]["code"], "{score}");
    let dizziness = part("symptom.dizziness");
    assert_eq!(dizziness["dataAbsentReason"]["coding"][0]["code"], "not-asked");
    assert!(dizziness.get("valueQuantity").is_none());
}

#[test]
fn not_done_not_testable_and_normal_are_three_things() {
    let told = |state: State| {
        let bundle = one_visit(|_, visit| {
            let record = visit.records.iter_mut().find(|record| record.slot == "saccade").expect("recorded");
            record.state = state.clone();
        });
        let gap = coded(&bundle, "saccade");
        gap.first().map(|gap| (gap["dataAbsentReason"].clone(), gap.get("valueQuantity").is_some()))
    };
    let (not_done, value) = told(State::NotDone("too tired".into())).expect("a gap");
    assert!(!value && not_done["text"] == "too tired");
    assert_eq!(not_done["coding"][0]["code"], "not-performed");
    assert_eq!(not_done["coding"][1]["code"], "absent.not_done");
    let (not_testable, _) = told(State::NotTestable("crying".into())).expect("a gap");
    assert_eq!(not_testable["coding"][0]["code"], "unknown");
    assert_eq!(not_testable["coding"][1]["code"], "absent.not_testable");
    assert_eq!(told(State::Done), None);
}

#[test]
fn danger_and_an_emergency_cannot_be_overlooked() {
    // The second visit of the demo was stopped at neck pain.
    let (people, visits) = demo::people(NOW);
    let stopped = bundle(&cases(&people[1..2], &visits[1..2]), &options(Mode::Collection));
    let signs = coded(&stopped, "danger.neck");
    assert_eq!(signs.len(), 1);
    assert_eq!(
        (&signs[0]["valueBoolean"], &signs[0]["interpretation"][0]["coding"][0]["code"]),
        (&json!(true), &json!("AA"))
    );
    let report = resources(&stopped, "DiagnosticReport")[0];
    let conclusion = report["conclusion"].as_str().expect("words");
    assert!(conclusion.starts_with("URGENT: neck pain or tenderness."), "{conclusion}");
    assert!(conclusion.contains("The examination was stopped at an emergency sign."), "{conclusion}");
    // The first result is the sign.
    let entry = stopped["entry"].as_array().expect("entries").iter().find(|entry| entry["resource"] == *signs[0]);
    assert_eq!(report["result"][0]["reference"], entry.expect("there")["fullUrl"]);
}

#[test]
fn what_was_decided_is_a_plan_or_a_message_and_nothing_else_is() {
    let decided = |action: &str| {
        let bundle = one_visit(|_, visit| {
            let record = visit.records.iter_mut().find(|record| record.slot == "decision").expect("decided");
            record.answers.set("action", Some(Answer::One(action.into())));
            record.answers.set("retest_on", crate::calendar::parse_date("2026-03-20").map(Answer::Day));
        });
        let only = |kind: &str| resources(&bundle, kind).into_iter().next().cloned();
        (only("CarePlan"), only("CommunicationRequest"))
    };
    let (plan, message) = decided("refer");
    assert_eq!(plan.expect("a plan")["activity"][0]["detail"]["kind"], "ServiceRequest");
    assert!(message.is_none());
    let (plan, _) = decided("retest");
    assert_eq!(plan.expect("a plan")["activity"][0]["detail"]["scheduledPeriod"]["start"], "2026-03-20");
    let (plan, message) = decided("emergency");
    assert_eq!((plan, message.expect("a message")["priority"].clone()), (None, json!("stat")));
    assert_eq!(decided("something newer"), (None, None));
}

#[test]
fn a_birth_year_stays_a_year_and_what_is_not_known_is_not_there() {
    let born = |born: Option<Born>, label: &str| {
        let bundle = one_visit(|person, _| {
            person.born = born;
            person.label = label.to_string();
        });
        resources(&bundle, "Patient")[0].clone()
    };
    assert_eq!(born(Some(Born::Year(2012)), "R-21")["birthDate"], "2012");
    let unknown = born(None, " ");
    assert!(unknown.get("birthDate").is_none() && unknown.get("name").is_none(), "{unknown}");
}

#[test]
fn nothing_empty_is_written_whatever_was_typed() {
    fn empty(value: &Value) -> bool {
        match value {
            Value::Null => true,
            Value::String(text) => text.trim().is_empty(),
            Value::Array(all) => all.is_empty() || all.iter().any(empty),
            Value::Object(all) => all.is_empty() || all.values().any(empty),
            Value::Bool(_) | Value::Number(_) => false,
        }
    }
    let bundle = one_visit(|person, visit| {
        person.label = "\u{0} \u{feff}".into();
        visit.program = String::new();
        let mut record = Record::open("of_a_newer.kind", None);
        record.answers.set("x", Some(Answer::Text(" ".into())));
        record.answers.set("y", Some(Answer::Many(vec![])));
        record.answers.set(" ", Some(Answer::One(String::new())));
        record.answers.set("z", Some(Answer::Number(f64::NAN)));
        record.state = State::NotDone(String::new());
        visit.records.push(record);
    });
    assert!(!empty(&bundle));
    assert_eq!(check::faults(&bundle), []);
}

#[test]
fn the_report_carries_the_summary_as_text_and_as_a_narrative() {
    let bundle = one_visit(|person, _| person.label = "R-21 <b>&</b>".into());
    let report = resources(&bundle, "DiagnosticReport")[0];
    let narrative = report["text"]["div"].as_str().expect("a narrative");
    assert!(narrative.contains("&lt;b&gt;&amp;&lt;/b&gt;") && !narrative.contains("<b>"), "{narrative}");
    assert!(narrative.contains("WHAT STANDS OUT"), "{narrative}");
    // "R-21" alone in base64, wherever it begins in its group of three bytes.
    let form = &report["presentedForm"][0];
    assert_eq!(form["contentType"], "text/plain; charset=utf-8");
    let data = form["data"].as_str().expect("data");
    assert!(["Ui0yM", "SLTIx", "tMjE"].iter().any(|part| data.contains(part)), "{data}");
    assert_eq!(data.len() % 4, 0);
}

#[test]
fn an_addendum_amends_the_report_and_takes_the_place_of_the_earlier_one() {
    let (people, visits) = demo::people(NOW);
    let addendum = |id: &str, visit: &str, at: i64, text: &str| Addendum {
        id: id.into(),
        visit: visit.into(),
        person: people[0].id.clone(),
        written: Moment { unix_ms: NOW.unix_ms + at, ..NOW },
        text: text.into(),
        program: "Sidelight 0.1.0".into(),
        unread: crate::capture::unread::Unread::default(),
    };
    let addenda = [
        addendum("b", &visits[0].id, 2000, "It was the other eye."),
        addendum("a", &visits[0].id, 1000, "The mother called."),
        addendum("c", "another visit", 1000, "Not of this visit."),
    ];
    let options = Options { addenda: &addenda, ..options(Mode::Transaction) };
    let amended = bundle(&cases(&people[..1], &visits[..1]), &options);
    let told: Vec<&Value> = coded(&amended, "addendum").iter().map(|each| &each["valueString"]).collect();
    assert_eq!(told, ["The mother called.", "It was the other eye."]);
    let entries = amended["entry"].as_array().expect("entries");
    let report =
        entries.iter().find(|entry| entry["resource"]["resourceType"] == "DiagnosticReport").expect("a report");
    assert_eq!(report["resource"]["status"], "amended");
    assert_eq!(report["request"]["method"], "PUT");
    let url = report["request"]["url"].as_str().expect("an address");
    assert_eq!(
        url,
        format!("DiagnosticReport?identifier=urn:ietf:rfc:3986|{}", report["fullUrl"].as_str().expect("a name"))
    );
    assert!(report["resource"]["conclusion"].as_str().is_some_and(|words| words.contains("It was the other eye.")));
    assert_eq!(check::faults(&amended), []);
    // What was found is as it was: only the report changed.
    let of = |bundle: &Value| coded(bundle, "near_point.break").into_iter().cloned().collect::<Vec<_>>();
    assert_eq!(of(&amended), of(&one_visit(|_, _| {})));
}

#[test]
fn two_closings_of_one_visit_stand_side_by_side() {
    let (people, mut visits) = demo::people(NOW);
    visits.truncate(1);
    visits.push(visits[0].clone());
    visits[1].records.pop();
    let both = bundle(&cases(&people, &visits), &options(Mode::Transaction));
    assert_eq!(resources(&both, "Encounter").len(), 2);
    assert_eq!(resources(&both, "Patient").len(), 1);
    assert_eq!(check::faults(&both), []);
}

#[test]
fn the_command_on_the_screen_is_the_one_that_developers_are_told() {
    let told = include_str!("../../../../DEVELOPERS.md");
    assert!(told.contains(&post_command("records/fhir/transaction-001.json")));
}
