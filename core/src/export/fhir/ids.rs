//! Names of entries: UUIDs made from stored ids alone, the same at every export.

use std::fmt;

use serde_json::{Value, json};
use uuid::Uuid;

/// The system of identifiers that are URIs.
pub const SYSTEM: &str = "urn:ietf:rfc:3986";

/// The system of tags that stand for an identifier.
pub const TAG: &str = "https://sidelight.invalid/fhir/id";

/// The namespace of names made from an id that is no UUID: UUID v5 of the address of our codes.
fn namespace() -> Uuid {
    Uuid::new_v5(&Uuid::NAMESPACE_URL, b"https://sidelight.invalid/fhir")
}

/// The name of one entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Named(Uuid);

impl Named {
    /// The name of a stored thing: its id when that is a UUID, else one made from it.
    pub fn of(id: &str) -> Named {
        Named(Uuid::try_parse(id).unwrap_or_else(|_| Uuid::new_v5(&namespace(), id.as_bytes())))
    }

    /// The name of something that has no stored id, by what it is: "device/Sidelight 0.1.0".
    pub fn made(what: &str) -> Named {
        Named(Uuid::new_v5(&namespace(), what.as_bytes()))
    }

    /// The name of a part of this thing.
    pub fn part(self, what: &str) -> Named {
        Named(Uuid::new_v5(&self.0, what.as_bytes()))
    }

    /// As it stands in `fullUrl`, references and identifiers.
    pub fn urn(self) -> String {
        format!("urn:uuid:{self}")
    }

    /// A reference to it.
    pub fn reference(self) -> Value {
        json!({ "reference": self.urn() })
    }

    /// It as an identifier.
    pub fn identifier(self) -> Value {
        json!({ "system": SYSTEM, "value": self.urn() })
    }
}

impl fmt::Display for Named {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0.hyphenated())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stored_uuid_is_the_name_itself_in_small_letters() {
        let name = Named::of("0D9F2A6E-6C1B-4E7C-9C11-2B7C5E3F1A00");
        assert_eq!(name.urn(), "urn:uuid:0d9f2a6e-6c1b-4e7c-9c11-2b7c5e3f1a00");
    }

    /// Computed with Python: uuid5(uuid5(NAMESPACE_URL, "https://sidelight.invalid/fhir"), "demo-visit-1") and its part.
    #[test]
    fn other_ids_are_hashed_the_same_everywhere() {
        let name = Named::of("demo-visit-1");
        assert_eq!(name.to_string(), "cbd1528b-e9ee-5258-8bf0-1d99ed60588d");
        assert_eq!(name.part("report").to_string(), "9e58fdd3-131f-5161-b851-a13cceca736d");
        assert_ne!(Named::of("demo-visit-2"), name);
    }
}
