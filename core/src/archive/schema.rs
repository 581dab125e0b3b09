//! The JSON Schema (draft 2020-12) of version 1, written from the shapes the reader uses.
//!
//! It says less than the reader in a few places, since JSON Schema has no words for them: ids and slots that stand once,
//! people who must be in the file, names twice in one object, size and nesting, and days and moments that the calendar
//! does not have. A whole number written as `5.0` it takes, and the reader refuses.

use super::v1::shape::{self, Kind, Shape};
use serde_json::{Map, Value, json};

/// What names a version of the schema; it is no address.
const ID: &str = "urn:sidelight:archive:1";

/// The schema as JSON text.
#[must_use]
pub fn schema() -> String {
    let mut shapes = Vec::new();
    collect(&shape::ARCHIVE, &mut shapes);
    let mut definitions = Map::new();
    for shape in shapes {
        definitions.insert(shape.name.to_string(), object(shape));
    }
    let whole = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": ID,
        "title": "Sidelight archive, version 1",
        "description": "Members that are not named here are kept as they are. null counts as absent.",
        "$ref": "#/$defs/archive",
        "$defs": definitions,
    });
    format!("{whole:#}\n")
}

/// A shape and all it leads to, each once.
fn collect(shape: &'static Shape, known: &mut Vec<&'static Shape>) {
    if known.iter().any(|other| other.name == shape.name) {
        return;
    }
    known.push(shape);
    for member in shape.members {
        match member.kind {
            Kind::List(inner) | Kind::Object(inner) => collect(inner, known),
            Kind::Answers => collect(&shape::ANSWER, known),
            Kind::Exactly(_)
            | Kind::Version
            | Kind::Text
            | Kind::Id
            | Kind::Digest
            | Kind::Moment
            | Kind::Day
            | Kind::Born
            | Kind::Flag
            | Kind::Whole(_)
            | Kind::Number
            | Kind::Word(_)
            | Kind::Texts
            | Kind::Ids(_) => {}
        }
    }
}

fn object(shape: &Shape) -> Value {
    let is_answer = shape.name == shape::ANSWER.name;
    let mut properties = Map::new();
    for member in shape.members {
        let mut says = kind(member.kind);
        let unless_absent = !member.must && !is_answer;
        if unless_absent {
            says = json!({ "anyOf": [says, { "type": "null" }] });
        }
        says["description"] = json!(member.says);
        properties.insert(member.name.to_string(), says);
    }
    let required: Vec<&str> = shape.members.iter().filter(|member| member.must).map(|member| member.name).collect();
    let mut object = json!({ "description": shape.says, "type": "object", "properties": properties });
    if !required.is_empty() {
        object["required"] = json!(required);
    }
    if is_answer {
        object["oneOf"] = one_kind_at_most(shape);
    }
    if shape.name == shape::RECORD.name {
        let reason = object["properties"]["reason"].take();
        object["properties"]["reason"] = json!({ "description": reason["description"] });
        object["if"] = json!({ "properties": { "state": { "enum": shape::WITH_REASON } } });
        object["then"] = json!({ "properties": { "reason": { "anyOf": reason["anyOf"] } } });
    }
    if shape.name == shape::VISIT.name {
        object["if"] = json!({ "properties": { "sha256": { "type": "string" } }, "required": ["sha256"] });
        object["then"] = json!({ "properties": { "closed": { "type": "string" } }, "required": ["closed"] });
    }
    object
}

fn one_kind_at_most(shape: &Shape) -> Value {
    let has = |name: &str| json!({ "required": [name] });
    let kinds: Vec<Value> = shape.members.iter().map(|member| has(member.name)).collect();
    let none = json!({ "not": { "anyOf": kinds } });
    Value::Array(kinds.into_iter().chain([none]).collect())
}

fn kind(kind: Kind) -> Value {
    // Rust's and ECMA's regular expressions mean the same by these.
    const DAY: &str = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
    match kind {
        Kind::Exactly(word) => json!({ "const": word }),
        Kind::Version => json!({ "const": super::VERSION }),
        Kind::Text => json!({ "type": "string" }),
        Kind::Id => json!({ "type": "string", "pattern": "^[A-Za-z0-9_-]{1,64}$" }),
        Kind::Digest => json!({ "type": "string", "pattern": "^[0-9a-f]{64}$" }),
        Kind::Moment => json!({ "type": "string", "format": "date-time" }),
        Kind::Day => json!({ "type": "string", "format": "date", "pattern": DAY }),
        Kind::Born => {
            json!({ "type": "string", "anyOf": [{ "pattern": "^[0-9]{4}$" }, { "format": "date", "pattern": DAY }] })
        }
        Kind::Flag => json!({ "type": "boolean" }),
        Kind::Whole(most) => json!({ "type": "integer", "minimum": 0, "maximum": most }),
        Kind::Number => json!({ "type": "number" }),
        Kind::Word(words) => json!({ "enum": words }),
        Kind::Texts => json!({ "type": "array", "items": { "type": "string" } }),
        Kind::Ids(most) => json!({
            "type": "array", "items": { "type": "string", "pattern": "^[A-Za-z0-9_-]{1,64}$" },
            "maxItems": most, "uniqueItems": true,
        }),
        Kind::List(shape) => json!({ "type": "array", "items": reference(shape) }),
        Kind::Object(shape) => reference(shape),
        Kind::Answers => json!({ "type": "object", "additionalProperties": reference(&shape::ANSWER) }),
    }
}

fn reference(shape: &Shape) -> Value {
    json!({ "$ref": format!("#/$defs/{}", shape.name) })
}
