//! The code list: every code of our own with its words, made from the forms, the tasks and a table of what is found.
//!
//! It is shipped whole in each bundle. Its version ends in a digest of its content, so that a changed word is a new
//! version without anybody remembering to say so.
//!
//! - `near_point.break`: what was found or measured, named as in an assessment; `near_point` alone is the task.
//! - `answer.<form>.<field>.<choice>`: what a form lets the examiner choose.
//! - `danger.*`, `grade.*`, `absent.*`, `symptom.*`, `method.*` and some plain words: the rest.

mod found;

use std::collections::BTreeMap;
use std::fmt::Write;
use std::sync::LazyLock;

use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use super::ids::Named;
use super::object::Object;
use super::{Entry, KnownBy};
use crate::capture::form::{Choice, Field, Form, Kind};
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::task::{self, Task};
pub use found::ANYTHING;

/// SNOMED CT.
pub const SNOMED: &str = "http://snomed.info/sct";

/// The address of the code list: a name, not a link.
pub const SYSTEM: &str = "https://sidelight.invalid/fhir/CodeSystem/eye-movement-examination";

/// Raised when a code changes its meaning; the digest behind it follows the words.
const EDITION: &str = "1";

const COPYRIGHT: &str = "The codes and words of this list are part of Sidelight and under its licence (MIT). Codes named \
    in properties, and codes that stand beside these in an export, belong to others. LOINC (http://loinc.org) is \
    copyright Regenstrief Institute, Inc. and the Logical Observation Identifiers Names and Codes (LOINC) Committee and \
    is available at no cost under the licence at http://loinc.org/license. SNOMED CT is copyright the International \
    Health Terminology Standards Development Organisation; its use needs a licence outside its member countries.";

/// One code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Concept {
    /// Its words.
    pub display: String,
    /// What it stands for in more words.
    pub definition: Option<String>,
    /// The SNOMED CT code of the symptom that is rated.
    symptom: Option<&'static str>,
}

static LIST: LazyLock<BTreeMap<String, Concept>> = LazyLock::new(collect);

static VERSION: LazyLock<String> = LazyLock::new(|| {
    let digest = Sha256::digest(Value::Array(concepts()).to_string());
    let short = digest.iter().take(4).fold(String::new(), |mut hex, byte| {
        let _ = write!(hex, "{byte:02x}");
        hex
    });
    format!("{EDITION}-{short}")
});

/// Every code in order.
#[must_use]
pub fn all() -> &'static BTreeMap<String, Concept> {
    &LIST
}

/// The words of a code; `None` for one that is not on the list.
#[must_use]
pub fn display(code: &str) -> Option<&'static str> {
    LIST.get(code).map(|concept| concept.display.as_str())
}

/// The version of the list.
#[must_use]
pub fn version() -> &'static str {
    &VERSION
}

/// The list as an entry.
pub(super) fn entry() -> Entry {
    let name = Named::made(&format!("codes/{}", version()));
    let concepts = concepts();
    let resource = Object::of("CodeSystem")
        .put("url", SYSTEM)
        .put("identifier", json!([name.identifier()]))
        .put("version", version())
        .put("name", "EyeMovementExamination")
        .put("title", "Eye-movement examination at the bedside")
        .put("status", "active")
        .put("experimental", false)
        .put("description", "Codes for what is asked, seen and measured in an eye-movement examination at the bedside.")
        .put("copyright", COPYRIGHT)
        .put("caseSensitive", true)
        .put("content", "complete")
        .put("count", concepts.len())
        .put(
            "property",
            json!([{
                "code": "symptom",
                "description": "The symptom whose strength is rated",
                "type": "Coding",
            }]),
        )
        .put("concept", concepts);
    Entry::new(name, resource).known_by(KnownBy::Version)
}

fn concepts() -> Vec<Value> {
    let concept = |(code, concept): (&String, &Concept)| {
        let property = concept
            .symptom
            .map(|code| json!([{ "code": "symptom", "valueCoding": { "system": SNOMED, "code": code } }]));
        Object::new()
            .put("code", code.as_str())
            .put("display", concept.display.as_str())
            .maybe("definition", concept.definition.clone())
            .maybe("property", property)
            .build()
    };
    LIST.iter().map(concept).collect()
}

fn collect() -> BTreeMap<String, Concept> {
    let mut list = BTreeMap::new();
    let mut add = |code: String, display: &str, definition: Option<String>| {
        list.insert(code, Concept { display: display.to_string(), definition, symptom: None });
    };
    for (code, display) in found::ALL {
        add((*code).to_string(), display, None);
    }
    for task in task::ALL {
        add(task.id.to_string(), task.term, None);
        add(format!("method.{}", task.id), &format!("{}, the way it is done", task.term), Some(how(task)));
        add(format!("symptoms.sum.{}", task.id), &format!("sum of the four symptoms after {}", task.term), None);
        add(format!("symptoms.rise.{}", task.id), &format!("rise of the four symptoms with {}", task.term), None);
    }
    for danger in safety::DANGERS {
        add(format!("danger.{}", danger.key), danger.seen, None);
    }
    let forms = [&frame::FORM, &safety::FORM, &symptoms::FORM, &stop::FORM, &decision::FORM];
    for form in forms.into_iter().chain(task::ALL.iter().map(|task| task.form)) {
        for (code, display) in answers(form) {
            add(code, display, None);
        }
    }
    for item in symptoms::ITEMS {
        let display = format!("{}, 0 none to 10 the worst", item.label);
        let symptom = found::SYMPTOMS.iter().find(|(id, _)| *id == item.id).map(|(_, code)| *code);
        list.insert(format!("symptom.{}", item.id), Concept { display, definition: None, symptom });
    }
    list
}

/// How a task is done, in one paragraph.
fn how(task: &Task) -> String {
    let setup = &task.setup;
    [setup.position, setup.target, setup.motion].map(|part| part.trim_end_matches('.')).join(". ") + "."
}

/// The code of a choice of a form, and of "none of these".
pub fn answer(form: &str, field: &str, choice: &str) -> String {
    format!("answer.{form}.{field}.{choice}")
}

/// The choice that stands for "none of these".
pub const NONE: &str = "none_of_these";

fn answers(form: &'static Form) -> Vec<(String, &'static str)> {
    form.fields.iter().flat_map(|field| of_field(form.id, field)).collect()
}

fn of_field(form: &str, field: &'static Field) -> Vec<(String, &'static str)> {
    let code = |choice: &'static Choice| (answer(form, field.key, choice.id), choice.label);
    match &field.kind {
        Kind::One(choices) => choices.iter().map(code).collect(),
        Kind::Many { choices, none } => {
            choices.iter().map(code).chain([(answer(form, field.key, NONE), *none)]).collect()
        }
        Kind::Series(series) => {
            let marks = series.marks.iter().map(|mark| &mark.choice);
            marks.chain(series.also).map(code).collect()
        }
        Kind::Grid(grid) => grid.grades.iter().map(code).collect(),
        Kind::Trials(trials) => {
            let within = format!("{form}.{}", field.key);
            trials.fields.iter().flat_map(|part| of_field(&within, part)).collect()
        }
        Kind::Number(_) | Kind::Text { .. } | Kind::Day | Kind::Ratings(_) => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_has_words_and_no_blank() {
        assert!(all().len() > 400, "{} codes", all().len());
        for (code, concept) in all() {
            assert!(!code.is_empty() && !code.contains(|c: char| c.is_whitespace() || "|,$\\".contains(c)), "{code}");
            assert!(!concept.display.trim().is_empty(), "{code} has no words");
        }
    }

    #[test]
    fn the_four_symptoms_are_there_and_three_have_a_public_code() {
        let symptom = |id: &str| all().get(&format!("symptom.{id}")).and_then(|concept| concept.symptom);
        assert_eq!(symptom("headache"), Some("25064002"));
        assert_eq!(symptom("fogginess"), None);
        assert_eq!(symptoms::ITEMS.iter().filter(|item| symptom(item.id).is_some()).count(), 3);
    }

    #[test]
    fn the_version_follows_the_content() {
        assert!(version().starts_with("1-") && version().len() == 10, "{}", version());
        assert_eq!(entry().resource["count"], json!(all().len()));
    }
}
