//! References: each leads to an entry of the bundle, and to a kind of resource that may stand there.

use std::collections::BTreeMap;

use serde_json::Value;

use super::Say;

/// Which resources stand where in a bundle of ours; none for any. Each is among those that R4 allows there.
static TARGETS: &[(&str, &[&str])] = &[
    ("CarePlan.encounter", &["Encounter"]),
    ("CarePlan.subject", &["Patient"]),
    ("CommunicationRequest.encounter", &["Encounter"]),
    ("CommunicationRequest.subject", &["Patient"]),
    ("DiagnosticReport.encounter", &["Encounter"]),
    ("DiagnosticReport.result", &["Observation"]),
    ("DiagnosticReport.subject", &["Patient"]),
    ("Encounter.subject", &["Patient"]),
    ("Observation.derivedFrom", &["QuestionnaireResponse"]),
    ("Observation.device", &["Device"]),
    ("Observation.encounter", &["Encounter"]),
    ("Observation.subject", &["Patient"]),
    ("Provenance.agent.who", &["Device"]),
    ("Provenance.target", &[]),
    ("QuestionnaireResponse.author", &["Device"]),
    ("QuestionnaireResponse.encounter", &["Encounter"]),
    ("QuestionnaireResponse.subject", &["Patient"]),
];

/// Checks every reference of every entry.
pub fn check(bundle: &Value, say: &mut Say<'_>) {
    let entries: Vec<&Value> = bundle["entry"].as_array().into_iter().flatten().collect();
    let kind = |entry: &Value| entry["resource"]["resourceType"].as_str().unwrap_or_default().to_string();
    let kinds: BTreeMap<&str, String> =
        entries.iter().filter_map(|entry| Some((entry["fullUrl"].as_str()?, kind(entry)))).collect();
    for (index, entry) in entries.iter().enumerate() {
        let resource = kind(entry);
        super::each(&entry["resource"], &resource, &mut |at, name, value| {
            let Some(url) = value.as_str().filter(|_| name == "reference") else { return };
            let at_entry = format!("entry[{index}].{at}");
            let Some(found) = kinds.get(url) else {
                return say(&at_entry, format!("{url} is not in the bundle"));
            };
            let place = place(at);
            match TARGETS.iter().find(|(known, _)| *known == place) {
                None => say(&at_entry, format!("no reference is expected at {place}")),
                Some((_, may)) if !may.is_empty() && !may.contains(&found.as_str()) => {
                    say(&at_entry, format!("a {found} cannot stand at {place}"));
                }
                Some(_) => {}
            }
        });
    }
}

/// "Observation.derivedFrom[0].reference" as "Observation.derivedFrom".
fn place(at: &str) -> String {
    let parts = at.strip_suffix(".reference").unwrap_or(at).split('.');
    parts.map(|part| part.split('[').next().unwrap_or(part)).collect::<Vec<_>>().join(".")
}
