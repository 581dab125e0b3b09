//! Trials: one row a tap, a run of taps, or a trial, in the order in which they were made.

use super::column::{Cell, Column, Kind, Table, column};
use super::{Seen, words};
use crate::capture::answer::{Answer, Made, Run, Series, Tap, Trial};
use crate::capture::form::{self, Field};
use crate::export::unit;

const MS: Kind = Kind::Whole(0, u32::MAX as i64);

pub(super) fn table() -> Table {
    let kinds = || words::fields().map(|(_, field)| &field.kind);
    let repeated = |(_, field): &(&str, &Field)| is_repeated(&field.kind);
    let (mut pads, mut marks, mut also) = (Vec::new(), Vec::new(), Vec::new());
    for kind in kinds() {
        if let form::Kind::Series(form) = kind {
            pads.extend(words::ids(form.pads));
            marks.extend(form.marks.iter().map(|mark| mark.choice.id));
            also.extend(words::ids(form.also));
        }
    }
    let keys = words::once(words::fields().filter(repeated).map(|(_, field)| field.key));
    let tasks = words::once(words::fields().filter(repeated).map(|(task, _)| task));
    let mut columns = vec![
        column("visit", Kind::Text, "Key of the visit.").required(),
        column("task", Kind::Word(tasks), "The task.").required(),
        column("field", Kind::Word(keys), "What was repeated.").required(),
        column("kind", Kind::Word(vec!["run", "tap", "trial"]), "A stretch of time, a tap in it, or a trial.")
            .required(),
        column("order", Kind::Whole(1, i64::MAX), "Which run, tap or trial it is, counted from 1.").required(),
        column("at", MS, "After the task was opened.").unit("ms").required(),
        column("until", MS, "Of a run that was ended: its end.").unit("ms"),
        column("pace", Kind::Number(Some((0.0, 1e12))), "Of a run: the beat the program gave.").unit("/min"),
        column("pad", Kind::Word(words::once(pads)), "What was tapped on: a direction or a stance."),
        column("mark", Kind::Word(words::once(marks)), "Of a tap: what was seen."),
        column("also", Kind::Words(words::once(also)), "Of a tap: what was seen besides."),
        column("made", Kind::Word(vec!["tapped", "paced", "paced_then_tapped"]), "Of a tap: how it came about."),
    ];
    columns.extend(of_trials());
    Table {
        name: "trials",
        says: "One row a tap, a run of taps, or a trial.",
        columns,
        key: &["visit", "task", "field", "kind", "order"],
        refers: Some(("visit", "visits")),
    }
}

fn is_repeated(kind: &form::Kind) -> bool {
    match kind {
        form::Kind::Trials(_) | form::Kind::Series(_) => true,
        form::Kind::One(_) | form::Kind::Many { .. } | form::Kind::Number(_) | form::Kind::Text { .. } => false,
        form::Kind::Day | form::Kind::Ratings(_) | form::Kind::Grid(_) => false,
    }
}

/// A column for every field of every trial: "near_point_break".
fn of_trials() -> Vec<Column> {
    let mut columns = Vec::new();
    for (task, field) in words::fields() {
        if let form::Kind::Trials(trials) = &field.kind {
            columns.extend(trials.fields.iter().filter_map(|field| of_field(task, field)));
        }
    }
    columns
}

fn of_field(task: &str, field: &Field) -> Option<Column> {
    let (kind, unit) = match &field.kind {
        form::Kind::Number(quantity) => {
            (Kind::Number(Some((quantity.min, quantity.max))), unit::ucum(quantity.unit).unwrap_or_default())
        }
        form::Kind::One(choices) => (Kind::Word(words::ids(choices)), ""),
        form::Kind::Many { choices, .. } => (Kind::Words(words::ids(choices)), ""),
        form::Kind::Text { .. } => (Kind::Text, ""),
        form::Kind::Day | form::Kind::Ratings(_) | form::Kind::Trials(_) => return None,
        form::Kind::Series(_) | form::Kind::Grid(_) => return None,
    };
    let column = column(name(task, field.key), kind, format!("Of a trial: {}.", field.ask)).unit(unit);
    Some(if matches!(field.kind, form::Kind::Text { .. }) { column.named() } else { column })
}

fn name(task: &str, key: &str) -> String {
    format!("{task}_{key}")
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for (task, field) in words::fields() {
        let Some(record) = seen.visit.record(task) else { continue };
        let mut put = |kind: &str, at: usize, cells: Vec<(&str, Cell)>| {
            let mut row = table.row();
            row.put("visit", seen.key())
                .put("task", Cell::word(Some(task)))
                .put("field", Cell::word(Some(field.key)))
                .put("kind", Cell::word(Some(kind)))
                .put("order", Cell::count(at + 1));
            for (name, cell) in cells {
                row.put(name, cell);
            }
            take(&row.cells);
        };
        match record.answers.get(field.key) {
            Some(Answer::Series(Series { runs, taps })) => {
                let has_also = matches!(&field.kind, form::Kind::Series(form) if !form.also.is_empty());
                runs.iter().enumerate().for_each(|(at, each)| put("run", at, run(each)));
                taps.iter().enumerate().for_each(|(at, each)| put("tap", at, tap(each, has_also)));
            }
            Some(Answer::Trials(trials)) => {
                for (at, trial) in trials.iter().enumerate() {
                    let names: Vec<(String, Cell)> = trial_cells(task, trial);
                    put("trial", at, names.iter().map(|(name, cell)| (name.as_str(), cell.clone())).collect());
                }
            }
            _ => {}
        }
    }
}

fn at(ms: u32) -> Cell {
    Cell::Whole(i64::from(ms))
}

fn run(run: &Run) -> Vec<(&'static str, Cell)> {
    vec![
        ("at", at(run.from_ms)),
        ("until", run.to_ms.map_or(Cell::Empty, at)),
        ("pace", run.bpm.map_or(Cell::Empty, Cell::Number)),
        ("pad", Cell::word(Some(run.pad.as_str()).filter(|pad| !pad.is_empty()))),
    ]
}

fn tap(tap: &Tap, has_also: bool) -> Vec<(&'static str, Cell)> {
    let made = match tap.made {
        Made::Tapped => "tapped",
        Made::Paced => "paced",
        Made::PacedThenTapped => "paced_then_tapped",
    };
    vec![
        ("at", at(tap.at_ms)),
        ("pad", Cell::word(Some(tap.pad.as_str()))),
        ("mark", Cell::word(Some(tap.mark.as_str()))),
        // A task that has nothing to add was not asked for it.
        ("also", if has_also { Cell::Words(tap.also.clone()) } else { Cell::Empty }),
        ("made", Cell::word(Some(made))),
    ]
}

fn trial_cells(task: &str, trial: &Trial) -> Vec<(String, Cell)> {
    let cell = |(key, answer): (&str, &Answer)| {
        let cell = match answer {
            Answer::Number(value) => Cell::Number(*value),
            Answer::One(id) => Cell::Word(id.clone()),
            Answer::Many(ids) => Cell::Words(ids.clone()),
            Answer::Text(text) => Cell::text(Some(text)),
            Answer::Day(_) | Answer::Ratings(_) | Answer::Trials(_) => Cell::Empty,
            Answer::Series(_) | Answer::Grid(_) => Cell::Empty,
        };
        (name(task, key), cell)
    };
    let mut cells: Vec<(String, Cell)> = trial.answers.iter().map(cell).collect();
    cells.push(("at".to_string(), at(trial.at_ms)));
    cells
}
