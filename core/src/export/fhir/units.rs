//! Units as FHIR shows them, with their codes of UCUM.

use super::super::unit;

/// The system of unit codes.
pub const UCUM: &str = "http://unitsofmeasure.org";

/// The unit of ratings, steps and sums of them.
pub const SCORE: &str = "score";

/// Units that no number on a form has: as it stands here, and its code. Each was tried with an outside library.
const MORE: &[(&str, &str)] = &[
    ("ms", "ms"),
    ("/min", "/min"),
    ("years", "a"),
    (SCORE, "{score}"),
    // UCUM divides neither a tangent nor what the outside library makes of a dioptre; so it is a number with a remark.
    ("PD/D", "{PD/D}"),
];

/// What is shown and the code; `None` for a unit nobody listed.
pub fn of(printed: &'static str) -> Option<(&'static str, &'static str)> {
    let more = MORE.iter().find(|(known, _)| *known == printed).map(|(_, code)| *code);
    let code = more.or_else(|| unit::ucum(printed))?;
    Some((if printed.is_empty() { "1" } else { printed }, code))
}

/// Whether this code is one we write.
pub fn is_code(code: &str) -> bool {
    unit::all().any(|known| known == code) || MORE.iter().any(|(_, known)| *known == code)
}
