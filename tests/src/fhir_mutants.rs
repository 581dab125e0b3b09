//! Bundles with one fault each, made from a golden visit: what outside validators and our own checks must notice.

use std::collections::BTreeSet;

use serde_json::{Value, json};
use sidelight_core::export::fhir::Mode;

use crate::fhir_bundles;

/// A bundle with one fault.
pub struct Mutant {
    /// What was done, in a few words joined by hyphens.
    pub name: &'static str,
    /// The bundle.
    pub bundle: Value,
}

/// What is done, and how.
type Change = (&'static str, fn(&mut Value));

/// The visit the mutants are made from: it has findings, ratings and a referral.
const VISIT: &str = "teenager-after-a-knock";

/// The bundles without fault that the mutants are made from: collection and transaction, short but whole.
pub fn base() -> [Value; 2] {
    let visits = fhir_bundles::visits();
    let (_, archive) = visits.iter().find(|(name, _)| name == VISIT).expect("the visit is there");
    [Mode::Collection, Mode::Transaction].map(|mode| shortened(fhir_bundles::of(archive, mode)))
}

/// Every mutant.
pub fn all() -> Vec<Mutant> {
    let [collection, transaction] = base();
    let of = |from: &Value, list: &[Change]| -> Vec<Mutant> {
        let made = |(name, change): &Change| {
            let mut bundle = from.clone();
            change(&mut bundle);
            Mutant { name, bundle }
        };
        list.iter().map(made).collect()
    };
    let mut all = of(&collection, IN_A_FILE);
    all.extend(of(&transaction, FOR_A_SERVER));
    all
}

/// Every kind of resource stays, with the codes it uses; most observations and forms go.
fn shortened(mut bundle: Value) -> Value {
    const CODES: [&str; 6] = [
        "near_point.break",
        "resting_gaze.as_expected",
        "symptoms",
        "saccade.off_target.left",
        "form.frame",
        "saccade",
    ];
    let mut kept = BTreeSet::new();
    if let Some(entries) = bundle["entry"].as_array_mut() {
        entries.retain(|entry| {
            let resource = &entry["resource"];
            let keep = match resource["resourceType"].as_str().unwrap_or_default() {
                "Observation" => CODES.iter().any(|code| resource["code"]["coding"][0]["code"] == *code),
                _ => true,
            };
            if keep {
                kept.extend(entry["fullUrl"].as_str().map(String::from));
            }
            keep
        });
        for entry in entries.iter_mut() {
            for list in ["result", "derivedFrom"] {
                if let Some(references) = entry["resource"].get_mut(list).and_then(Value::as_array_mut) {
                    references.retain(|each| each["reference"].as_str().is_some_and(|url| kept.contains(url)));
                }
            }
        }
    }
    let used = used_codes(&bundle);
    let list = resource(&mut bundle, "CodeSystem", "concept");
    if let Some(concepts) = list["concept"].as_array_mut() {
        concepts.retain(|concept| concept["code"].as_str().is_some_and(|code| used.contains(code)));
    }
    list["count"] = json!(list["concept"].as_array().map_or(0, Vec::len));
    bundle
}

fn used_codes(value: &Value) -> BTreeSet<String> {
    match value {
        Value::Array(all) => all.iter().flat_map(used_codes).collect(),
        Value::Object(all) => {
            let own = all.get("system").is_some().then(|| all.get("code")?.as_str().map(String::from)).flatten();
            all.values().flat_map(used_codes).chain(own).collect()
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => BTreeSet::new(),
    }
}

/// The first resource of a kind that has a member.
fn resource<'a>(bundle: &'a mut Value, kind: &str, member: &str) -> &'a mut Value {
    &mut entry(bundle, kind, member)["resource"]
}

fn entry<'a>(bundle: &'a mut Value, kind: &str, member: &str) -> &'a mut Value {
    let entries = bundle["entry"].as_array_mut().expect("a bundle has entries");
    let wanted =
        |entry: &&mut Value| entry["resource"]["resourceType"] == kind && entry["resource"].get(member).is_some();
    entries.iter_mut().find(wanted).unwrap_or_else(|| panic!("no {kind} with {member}"))
}

fn take(value: &mut Value, member: &str) {
    value.as_object_mut().expect("an object").remove(member).unwrap_or_else(|| panic!("no {member}"));
}

fn measured(bundle: &mut Value) -> &mut Value {
    resource(bundle, "Observation", "valueQuantity")
}

const NOWHERE: &str = "urn:uuid:00000000-0000-4000-8000-000000000000";

static IN_A_FILE: &[Change] = &[
    ("bundle-without-type", |b| take(b, "type")),
    ("bundle-of-an-unknown-type", |b| b["type"] = json!("heap")),
    ("request-in-a-collection", |b| b["entry"][1]["request"] = json!({ "method": "POST", "url": "Device" })),
    ("full-url-twice", |b| b["entry"][2]["fullUrl"] = b["entry"][1]["fullUrl"].clone()),
    ("full-url-of-one-version", |b| {
        entry(b, "Provenance", "target")["fullUrl"] = json!("https://sidelight.invalid/Provenance/1/_history/2");
    }),
    ("timestamp-without-time", |b| b["timestamp"] = json!("2026-06-01")),
    ("unknown-kind-of-resource", |b| entry(b, "Device", "version")["resource"] = json!({ "resourceType": "Gadget" })),
    ("observation-without-status", |b| take(measured(b), "status")),
    ("observation-without-code", |b| take(measured(b), "code")),
    ("status-that-is-no-code", |b| measured(b)["status"] = json!("done")),
    ("day-that-does-not-exist", |b| measured(b)["effectiveDateTime"] = json!("2026-02-30")),
    ("month-that-does-not-exist", |b| resource(b, "Patient", "birthDate")["birthDate"] = json!("2012-13")),
    ("time-without-zone", |b| measured(b)["effectiveDateTime"] = json!("2026-03-02T15:52:08")),
    ("zone-that-does-not-exist", |b| measured(b)["effectiveDateTime"] = json!("2026-03-02T15:52:08+15:00")),
    ("number-as-text", |b| measured(b)["valueQuantity"]["value"] = json!("9.83")),
    ("two-values", |b| measured(b)["valueString"] = json!("9.83 cm")),
    ("value-and-reason-why-there-is-none", |b| {
        let code = "http://terminology.hl7.org/CodeSystem/data-absent-reason";
        let reason = json!({ "coding": [{ "system": code, "code": "not-performed" }] });
        measured(b)["dataAbsentReason"] = reason;
    }),
    ("component-that-repeats-the-code", |b| {
        let code = measured(b)["code"].clone();
        measured(b)["component"][0]["code"] = code;
    }),
    ("component-without-code", |b| take(&mut measured(b)["component"][0], "code")),
    ("range-that-says-nothing", |b| {
        measured(b)["referenceRange"] = json!([{ "appliesTo": [{ "text": "anybody" }] }]);
    }),
    ("unknown-member", |b| measured(b)["colour"] = json!("saffron")),
    ("member-of-newer-fhir", |b| measured(b)["triggeredBy"] = json!([{ "type": "reflex" }])),
    ("empty-list", |b| measured(b)["note"] = json!([])),
    ("empty-text", |b| resource(b, "CarePlan", "title")["title"] = json!("")),
    ("null", |b| measured(b)["issued"] = Value::Null),
    ("id-with-a-blank", |b| measured(b)["id"] = json!("a b")),
    ("object-for-a-list", |b| {
        let first = measured(b)["identifier"][0].clone();
        measured(b)["identifier"] = first;
    }),
    ("list-for-an-object", |b| {
        let code = measured(b)["code"].clone();
        measured(b)["code"] = json!([code]);
    }),
    ("truth-as-text", |b| resource(b, "CodeSystem", "caseSensitive")["caseSensitive"] = json!("true")),
    ("unit-that-is-no-code", |b| measured(b)["valueQuantity"]["code"] = json!("centimetres")),
    ("unit-without-system", |b| take(&mut measured(b)["valueQuantity"], "system")),
    ("reference-to-nothing", |b| measured(b)["subject"]["reference"] = json!(NOWHERE)),
    ("reference-in-capitals", |b| {
        let url = measured(b)["encounter"]["reference"].as_str().unwrap_or_default().to_uppercase();
        measured(b)["encounter"]["reference"] = json!(url.replace("URN:UUID", "urn:uuid"));
    }),
    ("person-for-a-visit", |b| {
        let person = measured(b)["subject"].clone();
        measured(b)["encounter"] = person;
    }),
    ("device-for-a-person", |b| {
        let device = measured(b)["device"].clone();
        resource(b, "DiagnosticReport", "subject")["subject"] = device;
    }),
    ("code-that-is-on-no-list", |b| measured(b)["code"]["coding"][0]["code"] = json!("near_point.brake")),
    ("code-under-another-name", |b| measured(b)["code"]["coding"][0]["display"] = json!("far point")),
    ("list-with-a-code-twice", |b| {
        let first = resource(b, "CodeSystem", "concept")["concept"][0].clone();
        if let Some(concepts) = resource(b, "CodeSystem", "concept")["concept"].as_array_mut() {
            concepts.push(first);
        }
    }),
    ("list-that-does-not-say-how-complete", |b| take(resource(b, "CodeSystem", "content"), "content")),
    ("visit-without-class", |b| take(resource(b, "Encounter", "class"), "class")),
    ("visit-that-ends-before-it-begins", |b| {
        resource(b, "Encounter", "period")["period"]["end"] = json!("2025-01-01T10:00:00+01:00");
    }),
    ("visit-with-an-unknown-status", |b| resource(b, "Encounter", "status")["status"] = json!("over")),
    ("plan-without-intent", |b| take(resource(b, "CarePlan", "intent"), "intent")),
    ("plan-for-an-exercise", |b| {
        resource(b, "CarePlan", "activity")["activity"][0]["detail"]["kind"] = json!("Exercise");
    }),
    ("plan-with-detail-and-reference", |b| {
        let person = resource(b, "CarePlan", "subject")["subject"].clone();
        resource(b, "CarePlan", "activity")["activity"][0]["reference"] = person;
    }),
    ("report-without-code", |b| take(resource(b, "DiagnosticReport", "code"), "code")),
    ("report-that-is-no-base64", |b| {
        resource(b, "DiagnosticReport", "presentedForm")["presentedForm"][0]["data"] = json!("plain words, no base64!");
    }),
    ("script-in-a-narrative", |b| {
        resource(b, "DiagnosticReport", "text")["text"]["div"] =
            json!("<div xmlns=\"http://www.w3.org/1999/xhtml\"><script>alert(1)</script></div>");
    }),
    ("handler-in-a-narrative", |b| {
        resource(b, "DiagnosticReport", "text")["text"]["div"] =
            json!("<div xmlns=\"http://www.w3.org/1999/xhtml\"><p onclick=\"x()\">x</p></div>");
    }),
    ("narrative-without-status", |b| take(&mut resource(b, "DiagnosticReport", "text")["text"], "status")),
    ("maker-unknown", |b| take(resource(b, "Provenance", "agent"), "agent")),
    ("made-on-a-day-only", |b| resource(b, "Provenance", "recorded")["recorded"] = json!("2026-06-01")),
    ("answer-to-no-question", |b| take(&mut resource(b, "QuestionnaireResponse", "item")["item"][0], "linkId")),
    ("answer-twice-over", |b| {
        let answer = &mut resource(b, "QuestionnaireResponse", "item")["item"][0]["answer"][0];
        answer["valueString"] = json!("and also");
        answer["valueBoolean"] = json!(true);
    }),
    ("identifiers-for-an-identifier", |b| {
        let one = resource(b, "QuestionnaireResponse", "identifier")["identifier"].clone();
        resource(b, "QuestionnaireResponse", "identifier")["identifier"] = json!([one]);
    }),
    ("device-name-without-type", |b| take(&mut resource(b, "Device", "deviceName")["deviceName"][0], "type")),
];

static FOR_A_SERVER: &[Change] = &[
    ("transaction-entry-without-request", |b| take(&mut b["entry"][2], "request")),
    ("request-without-method", |b| take(&mut b["entry"][2]["request"], "method")),
    ("request-without-address", |b| take(&mut b["entry"][2]["request"], "url")),
    ("request-by-an-unknown-method", |b| b["entry"][2]["request"]["method"] = json!("SEND")),
];
