//! Danger signs: each an observation of its own that nobody overlooks.

use serde_json::json;

use super::Entry;
use super::observation::interpretation;
use super::parts::{category, concept_saying};
use super::scene::Scene;
use crate::capture::safety;
use crate::finding::Grade;

/// The danger signs of the visit.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let flags = &scene.assessment.flags;
    let entry = |flag: &crate::finding::Flag| {
        let code = format!("danger.{}", flag.id);
        let code = if super::codes::display(&code).is_some() { code } else { "danger".to_string() };
        // A sign of a task is named after it: "resting_gaze.double".
        let slot = flag.id.split_once('.').map_or(safety::SLOT, |(task, _)| task);
        let name = scene.name.part(&format!("danger/{}", flag.id));
        let source = format!("Danger sign ({}).", flag.source.short);
        let resource = scene
            .observation(name, scene.at(slot))
            .put("category", category("exam"))
            .put("code", concept_saying(&code, &flag.seen))
            .put("valueBoolean", true)
            .maybe("interpretation", interpretation(Grade::Urgent, None))
            .put("note", json!([{ "text": source }]));
        Entry::new(name, resource)
    };
    flags.iter().map(entry).collect()
}
