//! Units as other programs name them: the codes of UCUM (ucum.org) for the units that are printed here.

/// What is printed, and its code.
const CODES: &[(&str, &str)] = &[
    ("", "1"),
    ("%", "%"),
    ("cm", "cm"),
    ("mm", "mm"),
    ("s", "s"),
    ("/s", "/s"),
    ("°", "deg"),
    ("°/s", "deg/s"),
    ("D", "[diop]"),
    ("PD", "[p'diop]"),
    ("PD/D", "[p'diop]/[diop]"),
];

/// The UCUM code of a printed unit; "1" for a count or a share. `None` for a unit that no task has.
#[must_use]
pub fn ucum(printed: &str) -> Option<&'static str> {
    CODES.iter().find(|(unit, _)| *unit == printed).map(|(_, code)| *code)
}

/// Every code there is.
pub fn all() -> impl Iterator<Item = &'static str> {
    CODES.iter().map(|(_, code)| *code)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::capture::form::{Field, Kind};
    use crate::task;

    fn units(fields: &[Field]) -> Vec<&'static str> {
        let of = |field: &Field| match &field.kind {
            Kind::Number(quantity) => vec![quantity.unit],
            Kind::Trials(form) => units(form.fields),
            Kind::One(_) | Kind::Many { .. } | Kind::Text { .. } | Kind::Day => vec![],
            Kind::Ratings(_) | Kind::Series(_) | Kind::Grid(_) => vec![],
        };
        fields.iter().flat_map(of).collect()
    }

    #[test]
    fn every_unit_a_form_asks_in_has_a_code() {
        let asked = task::ALL.iter().flat_map(|task| units(task.form.fields));
        let of_norms = task::ALL.iter().flat_map(|task| task.norms.iter().map(|norm| norm.unit));
        let without: Vec<&str> = asked.chain(of_norms).filter(|unit| ucum(unit).is_none()).collect();
        assert_eq!(without, [""; 0]);
        assert_eq!((ucum("°/s"), ucum("furlong")), (Some("deg/s"), None));
    }
}
