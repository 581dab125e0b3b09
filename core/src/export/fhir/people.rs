//! Who was examined, and the program it was recorded with.

use serde_json::json;

use super::ids::Named;
use super::object::{Object, day};
use super::{Entry, parts};
use crate::calendar::Born;
use crate::capture::visit::Person;

/// The person. A server that knows the identifier keeps what it has: the clinic's record of a person is not overwritten.
pub fn patient(person: &Person) -> Entry {
    let name = Named::of(&person.id);
    let born = person.born.and_then(|born| match born {
        Born::Year(year) => (1..=9999).contains(&year).then(|| format!("{year:04}")),
        Born::On(date) => day(date),
    });
    let label = super::object::clean(&person.label).map(|text| json!([{ "text": text }]));
    let resource = Object::of("Patient")
        .maybe("meta", person.invented.then(|| json!({ "tag": [parts::own("invented")] })))
        .put("identifier", json!([name.identifier()]))
        .maybe("name", label)
        .maybe("birthDate", born);
    Entry::new(name, resource)
}

/// The name of a program's entry.
pub fn program_name(program: &str) -> Named {
    Named::made(&format!("device/{program}"))
}

/// A program, by name and version: "Sidelight 0.1.0".
pub fn program(program: &str) -> Entry {
    let name = program_name(program);
    let (title, version) = match program.rsplit_once(' ') {
        Some((title, version)) if version.starts_with(|c: char| c.is_ascii_digit()) => (title, version),
        _ => (program, ""),
    };
    let called = super::object::clean(title).map(|text| json!([{ "name": text, "type": "user-friendly-name" }]));
    let version = super::object::clean(version).map(|text| json!([{ "value": text }]));
    let resource = Object::of("Device")
        .put("identifier", json!([name.identifier()]))
        .maybe("deviceName", called)
        .maybe("version", version);
    Entry::new(name, resource)
}
