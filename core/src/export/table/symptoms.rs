//! Symptoms: one row each time the four were asked.

use super::column::{Cell, Kind, Table, column};
use super::{Seen, words};
use crate::capture::symptoms::{FORM, ITEMS, rating};

pub(super) fn table() -> Table {
    let mut columns = vec![
        column("visit", Kind::Text, "Key of the visit.").required(),
        column("occasion", Kind::Word(words::occasions()), "Before the tasks, or after which task.").required(),
        column(
            "state",
            Kind::Word(words::STATES.to_vec()),
            "How far the question came; a rating is empty when not given.",
        )
        .required(),
    ];
    let item = |id| column(id, Kind::Whole(0, 10), "0 none, 10 the worst.");
    columns.extend(words::ids(ITEMS).into_iter().map(item));
    columns.push(column("state_note", Kind::Text, "Why it was not done or not testable, as it was given.").named());
    Table {
        name: "symptoms",
        says: "One row each time symptoms were asked.",
        columns,
        key: &["visit", "occasion"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for record in seen.visit.records.iter().filter(|record| record.form() == FORM.id) {
        let ratings = record.answers.ratings("now").unwrap_or_default();
        let mut row = table.row();
        row.put("visit", seen.key())
            .put("occasion", Cell::word(Some(record.occasion())))
            .put("state", words::state(Some(record)))
            .put("state_note", words::reason(record));
        for item in ITEMS {
            row.put(item.id, rating(ratings, item.id).map_or(Cell::Empty, |value| Cell::Whole(i64::from(value))));
        }
        take(&row.cells);
    }
}
