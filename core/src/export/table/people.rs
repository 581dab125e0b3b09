//! People: one row a person; only in tables with names.

use super::Seen;
use super::column::{Cell, Kind, Table, column};
use crate::calendar::Born;

pub(super) fn table() -> Table {
    Table {
        name: "people",
        says: "One row a person.",
        columns: vec![
            column("person", Kind::Text, "Id of the person.").required(),
            column("label", Kind::Text, "Name or code, as the practice wrote it."),
            column("born_on", Kind::Day, "Day of birth, where it is known."),
            column("born_in", Kind::Whole(1, 9999), "Year of birth, where it is known."),
            column("born_missing", Kind::Word(vec!["not_known"]), "Why there is no birth."),
            column("invented", Kind::Yes, "Whether the person is made up, for trying things out.").required(),
        ],
        key: &["person"],
        refers: None,
    }
}

/// A person stands with their first visit.
pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    if seen.place.number != 1 {
        return;
    }
    let (on, missing) = match seen.person.born {
        Some(Born::On(day)) => (Cell::day(day), None),
        Some(Born::Year(_)) => (Cell::Empty, None),
        None => (Cell::Empty, Some("not_known")),
    };
    let year = seen.person.born.map(|born| i64::from(born.year())).filter(|year| (1..=9999).contains(year));
    let mut row = table.row();
    row.put("person", Cell::Text(seen.place.person.clone()))
        .put("label", Cell::text(Some(&seen.person.label)))
        .put("born_on", on)
        .put("born_in", year.map_or(Cell::Empty, Cell::Whole))
        .put("born_missing", Cell::word(missing))
        .put("invented", Cell::Yes(seen.person.invented));
    take(&row.cells);
}
