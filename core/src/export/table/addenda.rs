//! Addenda: one row a correction of a closed visit, or addition to it; without names only that there was one, and when.

use super::Seen;
use super::column::{Cell, DAYS, Kind, Table, column};

pub(super) fn table() -> Table {
    Table {
        name: "addenda",
        says: "One row a correction of a closed visit, or an addition to it.",
        columns: vec![
            column("visit", Kind::Text, "Key of the visit.").required(),
            column("row", Kind::Whole(1, i64::MAX), "Number of the row within the visit, in time.").required(),
            column("day", DAYS, "When it was written, in days from the person's first visit.").unit("d").required(),
            column("written", Kind::Moment, "When it was written.").named(),
            column("text", Kind::Text, "Its words.").named(),
            column("program", Kind::Text, "Name and version of the program that wrote it.").named(),
        ],
        key: &["visit", "row"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for (addendum, number) in seen.addenda.iter().zip(1..) {
        let mut row = table.row();
        row.put("visit", seen.key())
            .put("row", Cell::Whole(number))
            .put("day", seen.days_to(addendum.written.date()))
            .put("written", Cell::moment(addendum.written))
            .put("text", Cell::text(Some(&addendum.text)))
            .put("program", Cell::text(Some(&addendum.program)));
        take(&row.cells);
    }
}
