//! Practice at home: a plan for each sheet that was given, and a filled form for each log that came back.

use serde_json::{Value, json};

use super::Entry;
use super::object::{Object, clean, time};
use super::scene::Scene;
use crate::capture::home::{Given, Returned};
use crate::home_practice::{self, Practised};
use crate::sheet::Sheet;
use crate::summary;

/// Every sheet and every log of the visit.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let visit = scene.visit();
    let sheets = (1..).zip(&visit.sheets).filter_map(|(which, given)| plan(scene, which, given));
    let practised = home_practice::practised(visit, scene.before);
    sheets.chain((1..).zip(&practised).map(|(which, practised)| log(scene, which, practised))).collect()
}

fn plan(scene: &Scene<'_>, which: u32, given: &Given) -> Option<Entry> {
    let name = scene.name.part(&format!("sheet/{which}"));
    let sheet = Sheet::decode(&given.text).ok()?;
    let activity = |line: String| {
        let detail = Object::new().put("kind", "ServiceRequest").put("status", "not-started");
        json!({ "detail": detail.text("description", &line).build() })
    };
    let activities: Vec<Value> = summary::sheet_lines(given, &sheet).into_iter().map(activity).collect();
    let signed = clean(&given.by).map(|by| json!({ "text": format!("Signed off by {by}.") }));
    let resource = scene
        .resource("CarePlan", name)
        .put("status", if scene.visit().closed.is_some() { "active" } else { "draft" })
        .put("intent", "plan")
        .put("title", "Exercises at home")
        .maybe("created", time(given.at))
        .list("activity", activities)
        .list("note", signed.into_iter().collect());
    Some(Entry::new(name, resource))
}

fn log(scene: &Scene<'_>, which: u32, practised: &Practised<'_>) -> Entry {
    let name = scene.name.part(&format!("log/{which}"));
    let Returned { at, .. } = practised.returned;
    let lines = practised.lines().into_iter().filter_map(|line| clean(&line));
    let answers: Vec<Value> = lines.map(|line| json!({ "valueString": line })).collect();
    let item = Object::new().put("linkId", "home.log").text("text", &practised.title()).list("answer", answers).build();
    let resource = scene
        .resource("QuestionnaireResponse", name)
        .put("identifier", name.identifier())
        .put("status", "completed")
        .maybe("authored", time(*at))
        .put("author", super::people::program_name(&scene.visit().program).reference())
        .list("item", vec![item]);
    Entry::new(name, resource)
}
