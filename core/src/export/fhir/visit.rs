//! All that one visit puts into a bundle, and the visit itself.

use serde_json::json;

use super::ids::Named;
use super::object::{Object, time};
use super::parts::{coding, own};
use super::scene::{Scene, chosen};
use super::{Entry, answers, danger, gaps, home, observation, plan, report, symptoms};
use crate::capture::frame;

const ACT: &str = "http://terminology.hl7.org/CodeSystem/v3-ActCode";

/// Every entry of the visit, what decides first.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let answers = answers::entries(scene);
    let mut observations = danger::entries(scene);
    observations.extend(observation::entries(scene));
    observations.extend(symptoms::entries(scene));
    observations.extend(gaps::entries(scene));
    observations.extend(report::addenda(scene));
    let report = report::entry(scene, &observations);
    let provenance = report::provenance(scene, &report, &answers);
    let plan = plan::entry(scene);
    let mut entries = vec![encounter(scene), report];
    entries.extend(plan);
    entries.extend(home::entries(scene));
    entries.extend(observations);
    entries.extend(answers);
    entries.extend(provenance);
    entries
}

fn encounter(scene: &Scene<'_>) -> Entry {
    let visit = scene.visit();
    let (code, display) = if visit.routine == "sideline" { ("FLD", "field") } else { ("AMB", "ambulatory") };
    let end = visit.closed.filter(|closed| closed.unix_ms >= visit.started.unix_ms).and_then(time);
    let period = Object::new().maybe("start", time(visit.started)).maybe("end", end).build();
    let period = Some(period).filter(|period| period.as_object().is_some_and(|members| !members.is_empty()));
    let reason = frame::reason(visit)
        .map(|id| (own(&super::codes::answer(frame::SLOT, "reason", id)), chosen(&frame::FORM, "reason", id)))
        .map(|(coding, words)| json!([{ "coding": [coding], "text": words }]));
    let resource = Object::of("Encounter")
        .put("identifier", json!([scene.name.identifier()]))
        .put("status", if visit.closed.is_some() { "finished" } else { "in-progress" })
        .put("class", coding(ACT, code, display))
        .put("subject", Named::of(&scene.case.person.id).reference())
        .maybe("period", period)
        .maybe("reasonCode", reason);
    Entry::new(scene.name, resource)
}
