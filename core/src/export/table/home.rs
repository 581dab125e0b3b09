//! Practice at home: one row an exercise that was given, and one row a log that came back.

use super::Seen;
use super::column::{Cell, Kind, Table, column};
use crate::capture::home::{How, Returned};
use crate::exercise::{self, Amount};
use crate::home_practice::told;
use crate::sheet::Sheet;

/// Doses are small whole numbers; their own bounds are narrower.
const DOSE: Kind = Kind::Whole(0, u16::MAX as i64);

pub(super) fn given_table() -> Table {
    let ids = exercise::ALL.iter().map(|exercise| exercise.id).collect();
    let columns = vec![
        column("visit", Kind::Text, "Key of the visit at which it was given.").required(),
        column("sheet", Kind::Whole(1, i64::MAX), "Which sheet of the visit, counted from 1.").required(),
        column("order", Kind::Whole(1, i64::MAX), "Which exercise of the sheet, counted from 1.").required(),
        column("exercise", Kind::Word(ids), "The exercise.").required(),
        column("amount_seconds", DOSE, "How long, of one that is timed.").unit("s"),
        column("amount_times", DOSE, "How often, of one that is counted."),
        column("sets", DOSE, "How many sets.").required(),
        column("rest", DOSE, "Rest between sets.").unit("s").required(),
        column("a_day", DOSE, "Rounds a day.").required(),
        column("a_week", DOSE, "Days a week.").required(),
        column("weeks", DOSE, "Weeks.").required(),
        column("beat", DOSE, "Beat it is done to; 0 for none.").unit("/min").required(),
        column("despite", Kind::Yes, "Whether it was given although something speaks against it.").required(),
        column("signed_by", Kind::Text, "Who signed it off.").named(),
    ];
    Table {
        name: "given",
        says: "One row an exercise that was given to take home.",
        columns,
        key: &["visit", "sheet", "order"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn given(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for (which, given) in (1..).zip(&seen.visit.sheets) {
        let Ok(sheet) = Sheet::decode(&given.text) else { continue };
        for (order, entry) in (1..).zip(&sheet.entries) {
            let dose = entry.dose;
            let (seconds, times) = match dose.amount {
                Amount::Seconds(seconds) => (whole(seconds), Cell::Empty),
                Amount::Times(times) => (Cell::Empty, whole(times)),
            };
            let despite = given.despite.iter().any(|despite| despite.exercise == entry.exercise.id);
            let mut row = table.row();
            row.put("visit", seen.key())
                .put("sheet", Cell::Whole(which))
                .put("order", Cell::Whole(order))
                .put("exercise", Cell::word(Some(entry.exercise.id)))
                .put("amount_seconds", seconds)
                .put("amount_times", times)
                .put("sets", whole(dose.sets))
                .put("rest", whole(dose.rest))
                .put("a_day", whole(dose.a_day))
                .put("a_week", whole(dose.a_week))
                .put("weeks", whole(dose.weeks))
                .put("beat", whole(dose.beat))
                .put("despite", Cell::Yes(despite))
                .put("signed_by", Cell::text(Some(given.by.as_str())));
            take(&row.cells);
        }
    }
}

pub(super) fn practised_table() -> Table {
    let days = || Kind::Whole(0, i64::from(u8::MAX));
    let felt = || Kind::Number(Some((0.0, 10.0)));
    let columns = vec![
        column("visit", Kind::Text, "Key of the visit at which it came back.").required(),
        column("order", Kind::Whole(1, i64::MAX), "Which log of the visit, counted from 1.").required(),
        column("how", Kind::Word(vec!["code", "file", "message", "numbers"]), "How it came back.").required(),
        column("days", days(), "The last day with exercises, counted from the first; 0 for none."),
        column("active", days(), "Days with exercises."),
        column("share", days(), "Of numbers read aloud: rounds done of those planned; 99 for all.").unit("%"),
        column("before", felt(), "Mean worst symptom before, 0 to 10; empty when not rated."),
        column("after", felt(), "The same after."),
        column("early", days(), "Days that were ended early."),
    ];
    Table {
        name: "practised",
        says: "One row a log of practice at home that came back; its figures are empty where it cannot be read.",
        columns,
        key: &["visit", "order"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn practised(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for (order, returned) in (1..).zip(&seen.visit.logs) {
        let mut row = table.row();
        row.put("visit", seen.key()).put("order", Cell::Whole(order)).put("how", Cell::word(Some(how(returned))));
        if let Some(spoken) = told(returned) {
            let felt = |halves: Option<u8>| halves.map_or(Cell::Empty, |halves| Cell::Number(f64::from(halves) / 2.0));
            row.put("days", whole(spoken.days))
                .put("active", whole(spoken.active))
                .put("before", felt(spoken.before))
                .put("after", felt(spoken.after))
                .put("early", whole(spoken.early));
            if returned.how == How::Numbers {
                row.put("share", whole(spoken.share));
            }
        }
        take(&row.cells);
    }
}

fn how(returned: &Returned) -> &'static str {
    match returned.how {
        How::Code => "code",
        How::File => "file",
        How::Message => "message",
        How::Numbers => "numbers",
    }
}

fn whole(number: impl Into<i64>) -> Cell {
    Cell::Whole(number.into())
}
