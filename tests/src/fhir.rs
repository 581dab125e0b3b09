//! What FHIR bundles hold, whatever the visit: only codes that the list defines, nothing that our own checks refuse.

use std::collections::BTreeSet;

use serde_json::Value;
use sidelight_core::archive::Archive;
use sidelight_core::assess::assess;
use sidelight_core::export::fhir::{Mode, check, codes};

use crate::fhir_bundles;
use crate::fhir_mutants;
use crate::odd_visit::{Oddness, odd};

#[test]
fn golden_visits_have_no_fault_in_either_kind_of_bundle() {
    for (name, archive) in fhir_bundles::visits() {
        for mode in [Mode::Transaction, Mode::Collection] {
            let faults = check::faults(&fhir_bundles::of(&archive, mode));
            assert_eq!(faults, [], "{name} {mode:?}");
        }
    }
}

#[test]
fn whatever_was_recorded_is_written_without_a_fault() {
    for seed in 0..80 {
        let (person, visit) = odd(seed, if seed % 2 == 0 { Oddness::Valid } else { Oddness::Anything });
        let bundle = fhir_bundles::of(&Archive::of(vec![person], vec![visit]), Mode::Collection);
        assert_eq!(check::faults(&bundle), [], "visit {seed}");
        assert_eq!(odd_values(&bundle), Vec::<String>::new(), "visit {seed}");
    }
}

/// Empty values, which FHIR forbids, and two values of one observation.
fn odd_values(value: &Value) -> Vec<String> {
    match value {
        Value::Null => vec!["null".into()],
        Value::String(text) if text.trim().is_empty() => vec!["blank text".into()],
        Value::Array(all) if all.is_empty() => vec!["an empty list".into()],
        Value::Array(all) => all.iter().flat_map(odd_values).collect(),
        Value::Object(all) if all.is_empty() => vec!["an empty object".into()],
        Value::Object(all) => {
            let values: Vec<&String> =
                all.keys().filter(|key| key.starts_with("value") && key.len() > 5 && *key != "valueSet").collect();
            let absent = all.contains_key("dataAbsentReason") && !values.is_empty();
            let twice = (values.len() > 1 || absent).then(|| format!("{values:?} together"));
            all.values().flat_map(odd_values).chain(twice).collect()
        }
        Value::Bool(_) | Value::Number(_) | Value::String(_) => Vec::new(),
    }
}

/// A finding whose code is missing would still be written, as something a newer program recorded.
#[test]
fn every_finding_measure_and_danger_sign_has_its_code() {
    let mut without = BTreeSet::new();
    for seed in 0..800 {
        let (person, visit) = odd(seed, Oddness::Valid);
        let assessment = assess(&person, &visit);
        let findings = assessment.findings().map(|finding| finding.key.clone());
        let measures = assessment.measures().map(|measure| measure.key.clone());
        let flags = assessment.flags.iter().map(|flag| format!("danger.{}", flag.id));
        without.extend(findings.chain(measures).chain(flags).filter(|code| codes::display(code).is_none()));
    }
    assert_eq!(without, BTreeSet::new(), "add these to core/src/export/fhir/codes/found.rs");
}

#[test]
fn every_mutant_differs_from_a_bundle_without_fault() {
    let base = fhir_mutants::base();
    for bundle in &base {
        assert_eq!(check::faults(bundle), []);
    }
    let mutants = fhir_mutants::all();
    assert!(mutants.len() >= 45, "{}", mutants.len());
    let names: BTreeSet<&str> = mutants.iter().map(|mutant| mutant.name).collect();
    assert_eq!(names.len(), mutants.len());
    for mutant in &mutants {
        assert!(base.iter().all(|bundle| *bundle != mutant.bundle), "{} changes nothing", mutant.name);
    }
}
