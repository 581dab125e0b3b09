//! What outside validators overlook: that references lead somewhere and to the right kind of resource, that days exist, that
//! units are ones we know, that a narrative holds nothing but text; besides, that our own codes are on the shipped list and
//! that a plan's activity is of a kind there is.
//!
//! These checks are for bundles of our own making, before they are handed on; structure and the standard's own rules are
//! left to outside validators (`tests/peers/fhir`).

mod narrative;
mod references;
mod times;

use std::collections::BTreeMap;
use std::fmt;

use serde_json::Value;

use super::codes;
use super::units::{self, UCUM};

/// Something that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Where: `entry[3].Observation.valueQuantity`.
    pub at: String,
    /// What.
    pub what: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.at, self.what)
    }
}

/// Everything that is wrong with a bundle; nothing when it is fine.
#[must_use]
pub fn faults(bundle: &Value) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut say = |at: &str, what: String| faults.push(Fault { at: at.to_string(), what });
    references::check(bundle, &mut say);
    let own = own_codes(bundle);
    each(bundle, "Bundle", &mut |at, name, value| {
        times::check(at, name, value, &mut say);
        narrative::check(at, name, value, &mut say);
        check_unit(at, value, &mut say);
        check_own_code(at, value, &own, &mut say);
        check_kind(at, name, value, &mut say);
    });
    faults
}

type Say<'a> = dyn FnMut(&str, String) + 'a;

/// Visits every member with its path and its name; members of a list have the list's name.
fn each(value: &Value, at: &str, visit: &mut dyn FnMut(&str, &str, &Value)) {
    match value {
        Value::Object(members) => {
            for (name, member) in members {
                let at = format!("{at}.{name}");
                visit(&at, name, member);
                each(member, &at, visit);
            }
        }
        Value::Array(members) => {
            let name = at.rsplit('.').next().unwrap_or(at).to_string();
            for (index, member) in members.iter().enumerate() {
                let at = format!("{at}[{index}]");
                visit(&at, &name, member);
                each(member, &at, visit);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

/// A coded unit is one of UCUM and one of ours.
fn check_unit(at: &str, value: &Value, say: &mut Say<'_>) {
    let Some(members) = value.as_object().filter(|members| members.contains_key("value")) else { return };
    let Some(code) = members.get("code").and_then(Value::as_str) else { return };
    if members.get("system").and_then(Value::as_str) != Some(UCUM) {
        say(at, format!("the unit {code} does not say that it is one of {UCUM}"));
    } else if !units::is_code(code) {
        say(at, format!("{code} is no unit on our list"));
    }
}

/// What a plan's activity can be, by R4; the outside validators do not look.
static KINDS: &[&str] = &["Appointment", "CommunicationRequest", "ServiceRequest", "Task"];

fn check_kind(at: &str, name: &str, value: &Value, say: &mut Say<'_>) {
    let Some(kind) = value.as_str().filter(|_| name == "kind" && at.ends_with(".detail.kind")) else { return };
    if !KINDS.contains(&kind) {
        say(at, format!("an activity of a plan cannot be a {kind}"));
    }
}

/// Code and words of the code list that the bundle brings.
fn own_codes(bundle: &Value) -> BTreeMap<&str, &str> {
    let resources = bundle["entry"].as_array().into_iter().flatten().map(|entry| &entry["resource"]);
    let lists =
        resources.filter(|resource| resource["resourceType"] == "CodeSystem" && resource["url"] == codes::SYSTEM);
    let concepts = lists.filter_map(|list| list["concept"].as_array()).flatten();
    concepts.filter_map(|concept| Some((concept["code"].as_str()?, concept["display"].as_str()?))).collect()
}

fn check_own_code(at: &str, value: &Value, own: &BTreeMap<&str, &str>, say: &mut Say<'_>) {
    if value["system"] != codes::SYSTEM {
        return;
    }
    let code = value["code"].as_str().unwrap_or_default();
    match own.get(code) {
        None => say(at, format!("the code “{code}” is not on the list that the bundle brings")),
        Some(display) if value["display"] != **display => {
            say(at, format!("the code “{code}” stands for “{display}”, not for {}", value["display"]));
        }
        Some(_) => {}
    }
}

#[cfg(test)]
mod tests;
