//! What is missing, each with its reason: neither a zero nor a normal finding.

use super::Entry;
use super::observation::Distinct;
use super::parts::{absent, category, concept_saying};
use super::scene::Scene;
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::finding::{Gap, Why};

/// The gaps of the visit.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let mut distinct = Distinct::default();
    let entry = |gap: &Gap| {
        let name = scene.name.part(&distinct.name(&format!("gap/{}/{}", gap.slot, gap.what)));
        let resource = scene
            .observation(name, scene.at(&gap.slot))
            .put("category", category(if form(&gap.slot) == symptoms::FORM.id { "survey" } else { "exam" }))
            .put("code", concept_saying(&code(&gap.slot), &gap.what))
            .put("dataAbsentReason", why(&gap.why));
        Entry::new(name, resource)
    };
    scene.assessment.gaps.iter().map(entry).collect()
}

fn form(slot: &str) -> &str {
    slot.split('.').next().unwrap_or(slot)
}

fn code(slot: &str) -> String {
    let form = form(slot);
    if [frame::SLOT, safety::SLOT, decision::SLOT, stop::ID].contains(&form) {
        return format!("form.{form}");
    }
    form.to_string()
}

/// The public code says whether it was tried, ours says what kept it.
fn why(why: &Why) -> serde_json::Value {
    const NOT_PERFORMED: (&str, &str) = ("not-performed", "Not Performed");
    const NOT_ASKED: (&str, &str) = ("not-asked", "Not Asked");
    const UNKNOWN: (&str, &str) = ("unknown", "Unknown");
    match why {
        Why::NotDone(reason) => absent(NOT_PERFORMED, "absent.not_done", Some(reason)),
        Why::NotTestable(reason) => absent(UNKNOWN, "absent.not_testable", Some(reason)),
        Why::Dropped(reason) => absent(NOT_PERFORMED, "absent.left_out", Some(reason)),
        Why::NotRecorded => absent(NOT_ASKED, "absent.not_recorded", None),
        Why::TooFew => absent(UNKNOWN, "absent.too_few", None),
        Why::Unread => absent(UNKNOWN, "absent.unreadable", None),
    }
}
