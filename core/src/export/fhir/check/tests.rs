//! Each check finds its one fault in a bundle that has none.

use serde_json::{Value, json};

use super::faults;
use crate::export::fhir::tests::demo_bundle;
use crate::export::fhir::{Mode, codes};

/// What is said of the demo's bundle after one change.
fn said(change: impl Fn(&mut Value)) -> Vec<String> {
    let mut bundle = demo_bundle(Mode::Collection);
    change(&mut bundle);
    faults(&bundle).iter().map(ToString::to_string).collect()
}

/// The first resource of this kind that has this member.
fn first<'a>(bundle: &'a mut Value, kind: &str, member: &str) -> &'a mut Value {
    let entries = bundle["entry"].as_array_mut().expect("entries");
    let found = entries
        .iter_mut()
        .find(|entry| entry["resource"]["resourceType"] == kind && entry["resource"].get(member).is_some());
    &mut found.unwrap_or_else(|| panic!("no {kind} with {member}"))["resource"]
}

#[test]
fn what_we_write_has_no_fault() {
    for mode in [Mode::Collection, Mode::Transaction] {
        assert_eq!(faults(&demo_bundle(mode)), []);
    }
}

#[test]
fn a_reference_that_leads_nowhere_is_found() {
    let lost = said(|bundle| {
        first(bundle, "Observation", "subject")["subject"] =
            json!({ "reference": "urn:uuid:00000000-0000-4000-8000-000000000000" });
    });
    assert_eq!(lost.len(), 1);
    assert!(lost[0].ends_with("urn:uuid:00000000-0000-4000-8000-000000000000 is not in the bundle"), "{lost:?}");
}

#[test]
fn a_reference_to_another_kind_of_resource_is_found() {
    let wrong = said(|bundle| {
        let device = first(bundle, "Observation", "device")["device"].clone();
        first(bundle, "Observation", "subject")["encounter"] = device;
    });
    assert_eq!(wrong.len(), 1);
    assert!(wrong[0].contains("a Device cannot stand at Observation.encounter"), "{wrong:?}");
    let unexpected = said(|bundle| {
        let person = first(bundle, "Observation", "subject")["subject"].clone();
        first(bundle, "Observation", "subject")["focus"] = json!([person]);
    });
    assert!(unexpected[0].contains("no reference is expected at Observation.focus"), "{unexpected:?}");
}

#[test]
fn a_day_that_does_not_exist_is_found() {
    let late = said(|bundle| first(bundle, "Observation", "subject")["effectiveDateTime"] = json!("2026-02-30"));
    assert_eq!(late.len(), 1);
    assert!(late[0].ends_with("effectiveDateTime: 2026-02-30 is no such time"), "{late:?}");
}

#[test]
fn a_unit_that_is_no_code_is_found() {
    let unit =
        said(|bundle| first(bundle, "Observation", "valueQuantity")["valueQuantity"]["code"] = json!("centimetres"));
    assert!(unit.len() == 1 && unit[0].contains("centimetres is no unit on our list"), "{unit:?}");
    let system = said(|bundle| {
        let quantity = &mut first(bundle, "Observation", "valueQuantity")["valueQuantity"];
        quantity.as_object_mut().expect("a quantity").remove("system");
    });
    assert!(system.len() == 1 && system[0].contains("does not say that it is one of"), "{system:?}");
}

#[test]
fn a_script_in_a_narrative_is_found() {
    let script = said(|bundle| {
        let div = "<div xmlns=\"http://www.w3.org/1999/xhtml\"><script>alert(1)</script></div>";
        first(bundle, "DiagnosticReport", "text")["text"]["div"] = json!(div);
    });
    assert!(script.len() == 1 && script[0].contains("<script> may not stand in a narrative"), "{script:?}");
}

#[test]
fn a_code_of_our_own_that_is_not_shipped_is_found() {
    let code =
        said(|bundle| first(bundle, "Observation", "code")["code"]["coding"][0]["code"] = json!("near_point.brake"));
    assert!(code.len() == 1 && code[0].contains("“near_point.brake” is not on the list"), "{code:?}");
    let words = said(|bundle| first(bundle, "Observation", "code")["code"]["coding"][0]["display"] = json!("else"));
    assert!(words.len() == 1 && words[0].contains("stands for"), "{words:?}");
    let all = said(|bundle| {
        bundle["entry"].as_array_mut().expect("entries").retain(|entry| entry["resource"]["url"] != codes::SYSTEM);
    });
    assert!(all.len() > 50, "{}", all.len());
}
