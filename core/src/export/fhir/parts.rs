//! Elements that many resources share: codings, quantities, components.

use serde_json::{Value, json};

use super::codes;
use super::object::{Object, decimal};
use super::units::{self, UCUM};

/// The system of why a value is absent.
pub const ABSENT: &str = "http://terminology.hl7.org/CodeSystem/data-absent-reason";
/// The system of kinds of observation.
const CATEGORY: &str = "http://terminology.hl7.org/CodeSystem/observation-category";
/// The system of interpretations.
pub const INTERPRETATION: &str = "http://terminology.hl7.org/CodeSystem/v3-ObservationInterpretation";
/// One coding.
pub fn coding(system: &str, code: &str, display: &str) -> Value {
    json!({ "system": system, "code": code, "display": display })
}

/// One of our own codes with its display. What the list does not hold stands for itself as the code of anything.
pub fn own(code: &str) -> Value {
    match codes::display(code) {
        Some(display) => coding(codes::SYSTEM, code, display),
        None => coding(codes::SYSTEM, codes::ANYTHING, codes::display(codes::ANYTHING).unwrap_or_default()),
    }
}

/// One of our own codes as a concept; its text is its display.
pub fn concept(code: &str) -> Value {
    match codes::display(code) {
        Some(display) => json!({ "coding": [own(code)], "text": display }),
        None => json!({ "coding": [own(code)], "text": code }),
    }
}

/// One of our own codes with words of its own.
pub fn concept_saying(code: &str, text: &str) -> Value {
    Object::new().put("coding", json!([own(code)])).text("text", text).build()
}

/// The kind of observation: `exam` for what was examined, `survey` for what the person rated.
pub fn category(code: &str) -> Value {
    let display = if code == "survey" { "Survey" } else { "Exam" };
    json!([{ "coding": [coding(CATEGORY, code, display)] }])
}

/// A number with its unit; `None` for what is no number.
pub fn quantity(value: f64, unit: &'static str) -> Option<Value> {
    let number = Object::new().put("value", decimal(value)?);
    Some(match units::of(unit) {
        Some((shown, code)) => number.put("unit", shown).put("system", UCUM).put("code", code).build(),
        None => number.text("unit", unit).build(),
    })
}

/// A component that holds a value.
pub fn component(code: &Value, name: &str, value: impl Into<Value>) -> Value {
    Object::new().put("code", code.clone()).put(name, value).build()
}

/// A component that holds a number.
pub fn component_quantity(code: &Value, value: f64, unit: &'static str) -> Option<Value> {
    Some(component(code, "valueQuantity", quantity(value, unit)?))
}

/// Why a value is absent: the public code and our own.
pub fn absent(public: (&str, &str), own_code: &str, reason: Option<&str>) -> Value {
    let codings = json!([coding(ABSENT, public.0, public.1), own(own_code)]);
    Object::new().put("coding", codings).text("text", reason.unwrap_or_default()).build()
}
