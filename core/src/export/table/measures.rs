//! Measures: one row a measured value, and one for each thing that is missing, with why.

use super::column::{Cell, Kind, Table, column};
use super::{Seen, words};
use crate::anatomy::{Direction, Place};
use crate::assess::Assessment;
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::evidence::Norm;
use crate::export::unit;
use crate::finding::{Gap, Grade};
use crate::measure::{Amount, Better, Measure};
use crate::task;
use crate::{score, side_by_side};

const COUNT: Kind = Kind::Whole(0, u32::MAX as i64);

/// What is no task and can lack something, or have a measure.
const OTHERS: [&str; 6] = [symptoms::FORM.id, frame::SLOT, safety::SLOT, decision::SLOT, stop::ID, "other"];

pub(super) fn table() -> Table {
    let parts: Vec<&str> = words::tasks().chain(OTHERS).collect();
    let directions = Direction::ALL.iter().map(|direction| direction.word()).collect();
    let sides = || Kind::Word(vec!["right", "left"]);
    Table {
        name: "measures",
        says: "One row a measured value, and one row for each thing that is missing.",
        columns: vec![
            column("visit", Kind::Text, "Key of the visit.").required(),
            column("row", Kind::Whole(1, i64::MAX), "Number of the row within the visit.").required(),
            column("task", Kind::Word(parts), "The task, or the part of the visit.").required(),
            column("occasion", Kind::Word(words::occasions()), "Of missing symptoms: before, or after which task."),
            column(
                "measure",
                Kind::Id,
                "Stable name of the measure, the same in every visit; empty for what is missing.",
            ),
            column("what", Kind::Text, "What was measured or is missing, in words.").required(),
            column("direction", Kind::Word(directions), "Movements this way, as the examined person has it."),
            column("eye", sides(), "The person's eye."),
            column("body_side", sides(), "The side of the person's body."),
            column(
                "kind",
                Kind::Word(vec!["number", "share", "step"]),
                "A number, a share of repetitions, or a step of grades.",
            ),
            column(
                "value",
                Kind::Number(None),
                "The number; of a share from 0 to 1; of steps 0 for the best. Empty when missing.",
            ),
            column("unit", Kind::Word(unit::all().collect()), "Unit of the value, as its UCUM code."),
            column("events", COUNT, "Of a share: how often it happened."),
            column("repetitions", COUNT, "Of a share: how often it could have."),
            column("step_word", Kind::Text, "Of a step: its words."),
            column("worst_step", COUNT, "Of a step: the worst there is."),
            column("better", Kind::Word(vec!["lower", "higher", "neither"]), "Which way is better."),
            column("grade", Kind::Word(words::GRADES.to_vec()), "How the value stands to the published range."),
            column("norm", Kind::Id, "The published range it was graded by; empty when there is none."),
            column("method", Kind::Text, "How it was measured, as far as it was noted."),
            column("missing", Kind::Word(words::MISSING.to_vec()), "Why there is no value."),
            column("missing_note", Kind::Text, "The reason as it was given.").named(),
        ],
        key: &["visit", "row"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    let assessment = seen.assessment;
    let mut number = 0;
    for measure in assessment.measures() {
        number += 1;
        let mut row = table.row();
        row.put("visit", seen.key()).put("row", Cell::Whole(number));
        for (name, cell) in measured(measure, assessment) {
            row.put(name, cell);
        }
        take(&row.cells);
    }
    for gap in &assessment.gaps {
        number += 1;
        let mut row = table.row();
        row.put("visit", seen.key()).put("row", Cell::Whole(number));
        for (name, cell) in missing(gap) {
            row.put(name, cell);
        }
        take(&row.cells);
    }
}

fn measured(measure: &Measure, assessment: &Assessment) -> Vec<(&'static str, Cell)> {
    let method: Vec<String> = measure.method.iter().map(|(name, words)| format!("{name}: {words}")).collect();
    let (grade, norm) = graded(measure, assessment);
    let better = match measure.better {
        Better::Lower => "lower",
        Better::Higher => "higher",
        Better::Neither => "neither",
    };
    let mut cells = vec![
        ("task", Cell::word(Some(measure.task))),
        ("measure", Cell::word(Some(measure.key.as_str()))),
        ("what", Cell::text(Some(&measure.what))),
        ("better", Cell::word(Some(better))),
        ("grade", Cell::word(Some(words::grade(grade)))),
        ("norm", Cell::word(norm.map(|norm| norm.id))),
        ("method", Cell::text(Some(method.join("; ")))),
    ];
    cells.extend(place(measure.place));
    cells.extend(amount(&measure.amount));
    cells
}

/// By the finding of the same name, which says it in print; else by the range the measure itself carries.
fn graded(measure: &Measure, assessment: &Assessment) -> (Grade, Option<&'static Norm>) {
    if let Some(finding) = assessment.findings().find(|finding| finding.key == measure.key) {
        return (finding.grade, finding.norm);
    }
    let grade = match (&measure.amount, measure.norm) {
        (Amount::Number { value, unit }, Some(norm)) if *unit == norm.unit => score::grade(*value, norm),
        (Amount::Share(share), Some(norm)) => side_by_side::grade_share(*share, norm),
        (Amount::Number { .. } | Amount::Share(_) | Amount::Step { .. }, _) => Grade::NoRange,
    };
    (grade, measure.norm)
}

fn place(place: Place) -> Option<(&'static str, Cell)> {
    match place {
        Place::Both => None,
        Place::Toward(direction) => Some(("direction", Cell::word(Some(direction.word())))),
        Place::In(eye) => Some(("eye", Cell::word(Some(eye.word())))),
        Place::On(side) => Some(("body_side", Cell::word(Some(side.word())))),
    }
}

fn amount(amount: &Amount) -> Vec<(&'static str, Cell)> {
    let kind = |kind| ("kind", Cell::word(Some(kind)));
    match amount {
        Amount::Number { value, unit } => {
            vec![kind("number"), ("value", Cell::measured(*value)), ("unit", Cell::word(unit::ucum(unit)))]
        }
        Amount::Share(share) => vec![
            kind("share"),
            ("value", share.rate().map_or(Cell::Empty, Cell::measured)),
            ("unit", Cell::word(unit::ucum(""))),
            ("events", Cell::Whole(i64::from(share.events()))),
            ("repetitions", Cell::Whole(i64::from(share.n()))),
        ],
        Amount::Step { step, words } => vec![
            kind("step"),
            ("value", Cell::measured(f64::from(*step))),
            ("unit", Cell::word(unit::ucum(""))),
            ("step_word", Cell::text(words.get(usize::from(*step)).copied())),
            ("worst_step", Cell::count(words.len().saturating_sub(1))),
        ],
    }
}

fn missing(gap: &Gap) -> Vec<(&'static str, Cell)> {
    let (part, occasion) = gap.slot.split_once('.').unwrap_or((&gap.slot, ""));
    let known = task::by_id(part).is_some() || OTHERS.contains(&part);
    let rated = part == symptoms::FORM.id && words::occasions().contains(&occasion);
    let (why, reason) = words::missing(&gap.why);
    vec![
        ("task", Cell::word(Some(if known { part } else { "other" }))),
        ("occasion", Cell::word(Some(occasion).filter(|_| rated))),
        ("what", Cell::text(Some(&gap.what))),
        ("missing", Cell::word(Some(why))),
        ("missing_note", Cell::text(reason)),
    ]
}
