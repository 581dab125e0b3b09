//! Answers: every other answer as it was recorded, one row each, so that nothing depends on how we read it.

use super::column::{Cell, DAYS, Kind, Table, column};
use super::{Seen, words};
use crate::capture::answer::Answer;
use crate::capture::form::{self, Field};
use crate::capture::record::Record;
use crate::capture::symptoms;
use crate::export::unit;
use crate::flow;

const KINDS: [&str; 7] = ["one", "many", "number", "text", "day", "rating", "grade"];

pub(super) fn table() -> Table {
    Table {
        name: "answers",
        says: "One row an answer that is no trial, tap or rating of symptoms.",
        columns: vec![
            column("visit", Kind::Text, "Key of the visit.").required(),
            column("row", Kind::Whole(1, i64::MAX), "Number of the row within the visit.").required(),
            column("form", Kind::Id, "The form, or the task; an emergency stop with its number.").required(),
            column("form_state", Kind::Word(words::STATES.to_vec()), "How far the form came.").required(),
            column("field", Kind::Id, "The question.").required(),
            column("part", Kind::Id, "Of a table of grades its line, of ratings the item."),
            column("part_column", Kind::Id, "Of a table of grades: its column."),
            column("kind", Kind::Word(KINDS.to_vec()), "What kind of answer it is.").required(),
            column("chosen", Kind::Ids, "What was chosen; none_of_these when asked and nothing of the list applied."),
            column("number", Kind::Number(None), "The number."),
            column("unit", Kind::Word(unit::all().collect()), "Its unit, as its UCUM code."),
            column("from_cycle", Kind::Whole(0, 255), "Of a grade: the repetition from which on it was seen."),
            column("text", Kind::Text, "What was typed.").named(),
            column("date", Kind::Day, "The day.").named(),
            column("day", DAYS, "The day, from the first visit.").unit("d").coded(),
        ],
        key: &["visit", "row"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    let mut number = 0;
    for record in seen.visit.records.iter().filter(|record| record.form() != symptoms::FORM.id) {
        let fields = flow::form_of(&record.slot).map_or(&[][..], |form| form.fields);
        for (key, answer) in record.answers.iter() {
            let field = fields.iter().find(|field| field.key == key);
            for cells in rows(seen, answer, field) {
                number += 1;
                let mut row = table.row();
                row.put("row", Cell::Whole(number)).put("field", Cell::word(Some(key)));
                head(seen, record).into_iter().chain(cells).for_each(|(name, cell)| {
                    row.put(name, cell);
                });
                take(&row.cells);
            }
        }
    }
}

type Cells = Vec<(&'static str, Cell)>;

fn head(seen: &Seen<'_>, record: &Record) -> Cells {
    vec![
        ("visit", seen.key()),
        ("form", Cell::word(Some(record.slot.as_str()))),
        ("form_state", words::state(Some(record))),
    ]
}

fn rows(seen: &Seen<'_>, answer: &Answer, field: Option<&'static Field>) -> Vec<Cells> {
    let kind = |kind: &str| ("kind", Cell::word(Some(kind)));
    let unit = match field.map(|field| &field.kind) {
        Some(form::Kind::Number(quantity)) => unit::ucum(quantity.unit),
        _ => None,
    };
    let one = |id: &String| ("chosen", Cell::Words(vec![id.clone()]));
    match answer {
        Answer::One(id) => vec![vec![kind("one"), one(id)]],
        Answer::Many(ids) => vec![vec![kind("many"), ("chosen", Cell::Words(ids.clone()))]],
        Answer::Number(value) => {
            vec![vec![kind("number"), ("number", Cell::Number(*value)), ("unit", Cell::word(unit))]]
        }
        Answer::Text(text) => match seen.who {
            super::Who::Named => vec![vec![kind("text"), ("text", Cell::text(Some(text)))]],
            super::Who::Coded(_) => Vec::new(),
        },
        Answer::Day(day) => vec![vec![kind("day"), ("date", Cell::day(*day)), ("day", seen.days_to(*day))]],
        Answer::Ratings(ratings) => {
            let row = |(id, value): &(String, u8)| {
                let value = Cell::Number(f64::from(*value));
                vec![kind("rating"), ("part", Cell::word(Some(id.as_str()))), ("number", value)]
            };
            ratings.iter().map(row).collect()
        }
        Answer::Grid(cells) => {
            let row = |cell: &crate::capture::answer::Cell| {
                vec![
                    kind("grade"),
                    ("part", Cell::word(Some(cell.row.as_str()))),
                    ("part_column", Cell::word(Some(cell.column.as_str()))),
                    one(&cell.grade),
                    ("from_cycle", cell.from_cycle.map_or(Cell::Empty, |cycle| Cell::Whole(i64::from(cycle)))),
                ]
            };
            cells.iter().map(row).collect()
        }
        Answer::Trials(_) | Answer::Series(_) => Vec::new(),
    }
}
