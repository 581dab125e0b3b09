//! What was decided, where something is to follow: a referral, a re-test, advice, emergency care. Nothing is proposed here.

use serde_json::{Value, json};

use super::Entry;
use super::object::{Object, day, time};
use super::parts::concept;
use super::scene::Scene;
use crate::capture::decision;

/// The plan or the message that the decision asks for.
pub fn entry(scene: &Scene<'_>) -> Option<Entry> {
    let (action, words) = scene.decided("action")?;
    match action {
        "refer" => Some(care_plan(scene, "Referral", "ServiceRequest", "refer", None)),
        "retest" => {
            let on = scene.visit().filled(decision::SLOT).and_then(|record| record.answers.day("retest_on"));
            let period = on.and_then(day).map(|on| json!({ "start": on, "end": on }));
            Some(care_plan(scene, "Re-test", "Appointment", "retest", period))
        }
        "advice" => Some(message(scene, words, "advice", "routine")),
        "emergency" => Some(message(scene, words, "emergency", "stat")),
        // A decision of a newer program stands in the filled form and in the report.
        _ => None,
    }
}

/// "Refer: eye clinic, within days. Note of the examiner", the decision in one line.
pub fn says(scene: &Scene<'_>) -> Option<String> {
    let (_, action) = scene.decided("action")?;
    let to = scene.decided_text("refer_to").map(|to| format!(": {to}")).unwrap_or_default();
    let soon = scene.decided("refer_soon").map(|(_, soon)| format!(", {}", soon.to_lowercase())).unwrap_or_default();
    let on = scene.visit().filled(decision::SLOT).and_then(|record| record.answers.day("retest_on"));
    let on = on.and_then(day).map(|on| format!(", {on}")).unwrap_or_default();
    Some(format!("{action}{to}{soon}{on}"))
}

fn care_plan(scene: &Scene<'_>, title: &str, kind: &str, code: &str, period: Option<Value>) -> Entry {
    let name = scene.name.part("plan");
    let detail = Object::new()
        .put("kind", kind)
        .put("code", concept(code))
        .put("status", "not-started")
        .maybe("scheduledPeriod", period)
        .text("description", &says(scene).unwrap_or_default())
        .build();
    let note = scene.decided_text("note").and_then(super::object::clean).map(|text| json!({ "text": text }));
    let resource = scene
        .resource("CarePlan", name)
        .put("status", if scene.visit().closed.is_some() { "active" } else { "draft" })
        .put("intent", "plan")
        .put("title", title)
        .maybe("created", time(scene.at(decision::SLOT)))
        .put("activity", json!([{ "detail": detail }]))
        .list("note", note.into_iter().collect());
    Entry::new(name, resource)
}

fn message(scene: &Scene<'_>, words: &str, code: &str, priority: &str) -> Entry {
    let name = scene.name.part("plan");
    let said = [Some(says(scene).unwrap_or_else(|| words.to_string())), scene.decided_text("note").map(String::from)];
    let payload = said.into_iter().flatten().filter_map(|text| super::object::clean(&text));
    let resource = scene
        .resource("CommunicationRequest", name)
        .put("status", if scene.visit().closed.is_some() { "active" } else { "draft" })
        .put("priority", priority)
        .put("category", json!([concept(code)]))
        .maybe("authoredOn", time(scene.at(decision::SLOT)))
        .list("payload", payload.map(|text| json!({ "contentString": text })).collect());
    Entry::new(name, resource)
}
