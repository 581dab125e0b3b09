//! The four symptoms as rated: one observation for each occasion, one component for each symptom.

use serde_json::Value;

use super::Entry;
use super::parts::{absent, category, component, concept, concept_saying, quantity};
use super::scene::Scene;
use super::units::SCORE;
use crate::capture::symptoms::{BEFORE, ITEMS, after};
use crate::provocation::Ratings;

/// The ratings of the visit.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let told = &scene.assessment.symptoms;
    let before = told.before.iter().map(|ratings| rated(scene, BEFORE, "before", ratings));
    let after = told.after.iter().map(|each| rated(scene, &after(each.task.id), each.task.id, &each.ratings));
    before.chain(after).collect()
}

fn rated(scene: &Scene<'_>, slot: &str, occasion: &str, ratings: &Ratings) -> Entry {
    let name = scene.name.part(&format!("ratings/{slot}"));
    let mut components = vec![component(&concept("occasion"), "valueCodeableConcept", concept(occasion))];
    components.extend(ITEMS.iter().zip(&ratings.0).filter_map(|(item, rating)| {
        let code = concept_saying(&format!("symptom.{}", item.id), item.label);
        rating_of(&code, *rating)
    }));
    let text = super::codes::display(occasion).unwrap_or(occasion);
    let text = if slot == BEFORE { format!("symptoms {text}") } else { format!("symptoms after {text}") };
    let resource = scene
        .observation(name, scene.at(slot))
        .put("category", category("survey"))
        .put("code", concept_saying("symptoms", &text))
        .list("derivedFrom", vec![scene.answers(slot).reference()])
        .list("component", components);
    Entry::new(name, resource)
}

fn rating_of(code: &Value, rating: Option<u8>) -> Option<Value> {
    match rating {
        Some(rating) => Some(component(code, "valueQuantity", quantity(f64::from(rating), SCORE)?)),
        None => Some(component(code, "dataAbsentReason", absent(("not-asked", "Not Asked"), "absent.not_rated", None))),
    }
}
