//! Random ids. Version 7 sorts by time and tells nothing about a person.

/// A new id.
#[must_use]
pub fn uuid() -> String {
    uuid::Uuid::now_v7().to_string()
}
