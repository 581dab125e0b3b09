//! Changes to an open visit, each one small, checked and undoable.

use super::answer::{Answer, Cell, Made, Run, Series, Tap, Trial};
use super::form::{Field, Form, Kind};
use super::record::{Record, State};
use super::showing::{self, Showing};
use super::visit::Visit;
use crate::calendar::Moment;
use std::fmt;

/// One change to the record in a slot.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Sets or takes away an answer.
    Answer(String, Option<Answer>),
    /// Gives the answers of "all as expected".
    Usual,
    /// Ends or re-opens the record.
    State(State),
    /// Starts a run on a pad (empty for all pads), with the pace the app gives, if any.
    StartRun(String, String, Option<f64>),
    /// Ends the open run.
    StopRun(String),
    /// A tap on a pad: field key, pad, mark.
    Tap(String, String, String),
    /// A beat has called a movement on this pad and nothing was tapped yet: field key, pad.
    Beat(String, String),
    /// The examiner saw something else at the last beat: field key, mark.
    Except(String, String),
    /// Adds or takes away a remark on the last tap: field key, remark.
    Also(String, String),
    /// Takes away the last tap.
    UndoTap(String),
    /// Adds an empty trial.
    AddTrial(String),
    /// Sets an answer in a trial: field key, index, trial key.
    TrialAnswer(String, usize, String, Option<Answer>),
    /// Takes away the last trial.
    RemoveTrial(String),
    /// Grades a cell: field key, row, column; the same grade again clears it.
    Grade(String, String, String, String),
    /// Notes the cycle from which the cell's grade was seen: field key, row, column.
    FromCycle(String, String, String, Option<u8>),
    /// Something was shown on a screen; what the form takes from it is answered by it.
    Shown(Showing),
}

/// What an undo needs: the record as it was.
#[derive(Debug, Clone, PartialEq)]
pub struct Undo {
    slot: String,
    before: Option<Record>,
    typing: bool,
}

impl Undo {
    /// Marks the change as one of several strokes of typing, which are undone together.
    #[must_use]
    pub fn typed(self, typing: bool) -> Undo {
        Undo { typing, ..self }
    }

    /// Whether the change was a stroke of typing.
    #[must_use]
    pub fn was_typing(&self) -> bool {
        self.typing
    }
}

/// Why a change was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EditRefused {
    /// The visit is closed.
    Closed,
    /// The form has no such field, or the field cannot take this answer.
    NotAccepted,
    /// No more trials or taps are kept.
    Full,
}

impl fmt::Display for EditRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            EditRefused::Closed => "This visit is closed and stays as it is. Start a new visit to record more.",
            EditRefused::NotAccepted => "That answer does not fit this question. Choose one of the answers shown.",
            EditRefused::Full => "No more can be kept here. Undo one first, or go on to the next task.",
        })
    }
}

impl std::error::Error for EditRefused {}

/// Applies a change and says how to undo it. On refusal the visit is as it was.
///
/// # Errors
/// [`EditRefused`] says why.
pub fn apply(visit: &mut Visit, form: &'static Form, slot: &str, edit: Edit, now: Moment) -> Result<Undo, EditRefused> {
    if visit.closed.is_some() {
        return Err(EditRefused::Closed);
    }
    let before = visit.record(slot).cloned();
    let undo = Undo { slot: slot.to_string(), before, typing: false };
    let record = visit.record_mut(slot, now);
    match change(record, form, edit, now) {
        Ok(()) => Ok(undo),
        Err(refused) => {
            take_back(visit, undo);
            Err(refused)
        }
    }
}

/// Puts the record back as it was before the change; a closed visit stays as it is.
pub fn take_back(visit: &mut Visit, undo: Undo) {
    if visit.closed.is_some() {
        return;
    }
    let at = visit.records.iter().position(|record| record.slot == undo.slot);
    match (at, undo.before) {
        (Some(at), Some(before)) => visit.records[at] = before,
        (Some(at), None) => {
            visit.records.remove(at);
        }
        (None, Some(before)) => visit.records.push(before),
        (None, None) => {}
    }
}

fn change(record: &mut Record, form: &'static Form, edit: Edit, now: Moment) -> Result<(), EditRefused> {
    let at_ms = record.started.map_or(0, |started| now.ms_since(started));
    match edit {
        Edit::Answer(key, None) => {
            record.answers.set(&key, None);
        }
        Edit::Answer(key, Some(answer)) => {
            let field = form.field(&key).filter(|field| field.accepts(&answer)).ok_or(EditRefused::NotAccepted)?;
            record.answers.set(field.key, Some(answer));
        }
        Edit::Usual => {
            for (key, answer) in form.usual_answers() {
                record.answers.set(key, Some(answer));
            }
        }
        Edit::State(state) => {
            record.ended = (state != State::Open).then_some(now);
            record.state = state;
        }
        Edit::StartRun(key, pad, bpm) => with_series(record, form, &key, |series| {
            end_open_run(series, at_ms);
            series.runs.push(Run { pad, from_ms: at_ms, to_ms: None, bpm });
            Ok(())
        })?,
        Edit::StopRun(key) => with_series(record, form, &key, |series| {
            end_open_run(series, at_ms);
            Ok(())
        })?,
        Edit::Tap(key, pad, mark) => {
            add_tap(record, form, &key, Tap { at_ms, pad, mark, also: vec![], made: Made::Tapped })?;
        }
        Edit::Beat(key, pad) => {
            let mark = expected_mark(form, &key).ok_or(EditRefused::NotAccepted)?;
            add_tap(record, form, &key, Tap { at_ms, pad, mark: mark.into(), also: vec![], made: Made::Paced })?;
        }
        Edit::Except(key, mark) => with_series(record, form, &key, |series| {
            let last = series.taps.last_mut().ok_or(EditRefused::NotAccepted)?;
            last.mark = mark;
            if last.made == Made::Paced {
                last.made = Made::PacedThenTapped;
            }
            Ok(())
        })?,
        Edit::Also(key, remark) => with_series(record, form, &key, |series| {
            let last = series.taps.last_mut().ok_or(EditRefused::NotAccepted)?;
            match last.also.iter().position(|id| *id == remark) {
                Some(at) => {
                    last.also.remove(at);
                }
                None => last.also.push(remark),
            }
            Ok(())
        })?,
        Edit::UndoTap(key) => with_series(record, form, &key, |series| {
            series.taps.pop();
            Ok(())
        })?,
        Edit::AddTrial(key) => {
            let Some(Kind::Trials(trial_form)) = form.field(&key).map(|field| &field.kind) else {
                return Err(EditRefused::NotAccepted);
            };
            let mut trials = record.answers.trials(&key).to_vec();
            if trials.len() >= trial_form.most {
                return Err(EditRefused::Full);
            }
            trials.push(Trial { at_ms, ..Trial::default() });
            record.answers.set(&key, Some(Answer::Trials(trials)));
        }
        Edit::TrialAnswer(key, index, trial_key, answer) => {
            let Some(Kind::Trials(trial_form)) = form.field(&key).map(|field| &field.kind) else {
                return Err(EditRefused::NotAccepted);
            };
            let mut trials = record.answers.trials(&key).to_vec();
            let trial = trials.get_mut(index).ok_or(EditRefused::NotAccepted)?;
            trial.answers.set(&trial_key, answer);
            if !trial_form.accepts(trial) {
                return Err(EditRefused::NotAccepted);
            }
            record.answers.set(&key, Some(Answer::Trials(trials)));
        }
        Edit::RemoveTrial(key) => {
            let mut trials = record.answers.trials(&key).to_vec();
            trials.pop();
            record.answers.set(&key, (!trials.is_empty()).then_some(Answer::Trials(trials)));
        }
        Edit::Grade(key, row, column, grade) => with_grid(record, form, &key, |cells| {
            let at = cells.iter().position(|cell| cell.row == row && cell.column == column);
            match at {
                Some(at) if cells[at].grade == grade => {
                    cells.remove(at);
                }
                Some(at) => cells[at] = Cell { row, column, grade, from_cycle: None },
                None => cells.push(Cell { row, column, grade, from_cycle: None }),
            }
        })?,
        Edit::FromCycle(key, row, column, cycle) => with_grid(record, form, &key, |cells| {
            if let Some(cell) = cells.iter_mut().find(|cell| cell.row == row && cell.column == column) {
                cell.from_cycle = cycle;
            }
        })?,
        Edit::Shown(showing) => {
            if record.showings.len() >= showing::MOST {
                return Err(EditRefused::Full);
            }
            record.showings.push(showing);
            for (key, answer) in (form.fills)(&record.showings) {
                // What the form cannot hold is left open: what was typed before is not true of what was shown.
                let fits = answer.filter(|answer| form.field(key).is_some_and(|field| field.accepts(answer)));
                record.answers.set(key, fits);
            }
        }
    }
    Ok(())
}

fn add_tap(record: &mut Record, form: &'static Form, key: &str, tap: Tap) -> Result<(), EditRefused> {
    let Some(Kind::Series(series_form)) = form.field(key).map(|field| &field.kind) else {
        return Err(EditRefused::NotAccepted);
    };
    with_series(record, form, key, |series| {
        if series.taps.len() >= series_form.most {
            return Err(EditRefused::Full);
        }
        series.taps.push(tap);
        Ok(())
    })
}

fn with_series(
    record: &mut Record,
    form: &'static Form,
    key: &str,
    change: impl FnOnce(&mut Series) -> Result<(), EditRefused>,
) -> Result<(), EditRefused> {
    let field = form.field(key).ok_or(EditRefused::NotAccepted)?;
    let mut series = record.answers.series(key).cloned().unwrap_or_default();
    change(&mut series)?;
    let empty = series == Series::default();
    set_checked(record, field, Answer::Series(series), empty)
}

fn with_grid(
    record: &mut Record,
    form: &'static Form,
    key: &str,
    change: impl FnOnce(&mut Vec<Cell>),
) -> Result<(), EditRefused> {
    let field = form.field(key).ok_or(EditRefused::NotAccepted)?;
    let mut cells = match record.answers.get(key) {
        Some(Answer::Grid(cells)) => cells.clone(),
        _ => Vec::new(),
    };
    change(&mut cells);
    let empty = cells.is_empty();
    set_checked(record, field, Answer::Grid(cells), empty)
}

fn set_checked(record: &mut Record, field: &'static Field, answer: Answer, empty: bool) -> Result<(), EditRefused> {
    if !field.accepts(&answer) {
        return Err(EditRefused::NotAccepted);
    }
    record.answers.set(field.key, (!empty).then_some(answer));
    Ok(())
}

fn expected_mark(form: &'static Form, key: &str) -> Option<&'static str> {
    let Kind::Series(series_form) = &form.field(key)?.kind else { return None };
    Some(series_form.marks.first()?.choice.id)
}

fn end_open_run(series: &mut Series, at_ms: u32) {
    if let Some(run) = series.runs.iter_mut().rfind(|run| run.to_ms.is_none()) {
        run.to_ms = Some(at_ms);
    }
}

#[cfg(test)]
mod tests {
    use super::super::form::{
        Choice, GridForm, MarkChoice, SeriesForm, Shape, TrialForm, Usual, UsualAnswer, asked, choice,
    };
    use super::*;
    use crate::quantity::Quantity;

    static LENGTH: Quantity = Quantity { name: "length", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };
    static SIDES: &[Choice] = &[choice("right", "right"), choice("left", "left")];
    static GRADES: &[Choice] = &[choice("good", "good"), choice("bad", "bad")];
    static MARKS: &[MarkChoice] = &[
        MarkChoice { choice: choice("on", "on"), shape: Shape::Disc },
        MarkChoice { choice: choice("short", "short"), shape: Shape::Wedge },
    ];
    static SERIES: SeriesForm = SeriesForm {
        pads: SIDES,
        marks: MARKS,
        also: &[choice("late", "late")],
        run_by_pad: true,
        pace: None,
        wanted: 2,
        most: 3,
    };
    static TRIALS: TrialForm = TrialForm { fields: &[asked("cm", "cm", Kind::Number(&LENGTH))], wanted: 2, most: 2 };
    static GRID: GridForm = GridForm { rows: SIDES, columns: &[choice("slow", "slow")], grades: GRADES, cycles: 3 };
    static FORM: Form = Form {
        id: "test",
        fields: &[
            asked("taps", "taps", Kind::Series(&SERIES)),
            asked("trials", "trials", Kind::Trials(&TRIALS)),
            asked("grid", "grid", Kind::Grid(&GRID)),
            asked("side", "side", Kind::One(SIDES)),
        ],
        usual: &[Usual { key: "grid", answer: UsualAnswer::BestGrade }],
        usual_label: "usual",
        fills,
    };

    fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
        let said = showings.last().map(|showing| showing.instruction.clone());
        said.map(|id| ("side", Some(Answer::One(id)))).into_iter().collect()
    }

    fn shown(instruction: &str) -> Edit {
        Edit::Shown(Showing {
            at: at(0),
            program: "following".into(),
            settings: vec![],
            instruction: instruction.into(),
            seconds: 20.0,
            stopped: false,
            elsewhere: true,
            screen: None,
            unread: Default::default(),
        })
    }

    fn at(ms: i64) -> Moment {
        Moment { unix_ms: 1_772_463_128_000 + ms, offset_minutes: 60 }
    }

    fn visit() -> Visit {
        Visit::begin("v", "p", "sideline", at(0), "test")
    }

    fn every_edit() -> Vec<Edit> {
        let (taps, trials, grid) = (|| "taps".to_string(), || "trials".to_string(), || "grid".to_string());
        vec![
            Edit::StartRun(taps(), "right".into(), Some(60.0)),
            Edit::Tap(taps(), "right".into(), "on".into()),
            Edit::Also(taps(), "late".into()),
            Edit::Beat(taps(), "left".into()),
            Edit::Except(taps(), "short".into()),
            Edit::StopRun(taps()),
            Edit::UndoTap(taps()),
            Edit::AddTrial(trials()),
            Edit::TrialAnswer(trials(), 0, "cm".into(), Some(Answer::Number(8.5))),
            Edit::Grade(grid(), "right".into(), "slow".into(), "bad".into()),
            Edit::FromCycle(grid(), "right".into(), "slow".into(), Some(2)),
            Edit::Usual,
            Edit::Answer("side".into(), Some(Answer::One("left".into()))),
            Edit::State(State::NotTestable("crying".into())),
            Edit::RemoveTrial(trials()),
            shown("right"),
            shown("nowhere"),
        ]
    }

    #[test]
    fn every_edit_is_taken_back_whole() {
        let mut visit = visit();
        let mut undos = Vec::new();
        let mut before = Vec::new();
        for (index, edit) in every_edit().into_iter().enumerate() {
            before.push(visit.clone());
            let said = format!("{edit:?}");
            let now = at(1000 * i64::try_from(index).expect("few edits"));
            undos.push(apply(&mut visit, &FORM, "test", edit, now).unwrap_or_else(|no| panic!("{said}: {no}")));
        }
        for (undo, before) in undos.into_iter().rev().zip(before.into_iter().rev()) {
            take_back(&mut visit, undo);
            assert_eq!(visit, before);
        }
    }

    #[test]
    fn a_beat_stands_as_expected_until_an_exception_is_tapped() {
        let mut visit = visit();
        for (ms, edit) in [
            (0, Edit::Beat("taps".into(), "right".into())),
            (1500, Edit::Beat("taps".into(), "left".into())),
            (1900, Edit::Except("taps".into(), "short".into())),
        ] {
            apply(&mut visit, &FORM, "test", edit, at(ms)).expect("accepted");
        }
        let series = visit.record("test").and_then(|r| r.answers.series("taps")).expect("taps");
        let told: Vec<_> = series.taps.iter().map(|t| (t.at_ms, t.pad.as_str(), t.mark.as_str(), t.made)).collect();
        let expected = [(0, "right", "on", Made::Paced), (1500, "left", "short", Made::PacedThenTapped)];
        assert_eq!(told, expected);
    }

    #[test]
    fn what_does_not_fit_is_refused_and_leaves_the_visit_as_it_was() {
        let mut visit = visit();
        let untouched = visit.clone();
        for edit in [
            Edit::Tap("taps".into(), "up".into(), "on".into()),
            Edit::Tap("taps".into(), "right".into(), "sideways".into()),
            Edit::Tap("side".into(), "right".into(), "on".into()),
            Edit::Except("taps".into(), "short".into()),
            Edit::Answer("side".into(), Some(Answer::One("up".into()))),
            Edit::Answer("nothing".into(), Some(Answer::Number(1.0))),
            Edit::TrialAnswer("trials".into(), 0, "cm".into(), Some(Answer::Number(1.0))),
            Edit::Grade("grid".into(), "right".into(), "fast".into(), "good".into()),
        ] {
            let said = format!("{edit:?}");
            assert_eq!(apply(&mut visit, &FORM, "test", edit, at(0)), Err(EditRefused::NotAccepted), "{said}");
            assert_eq!(visit, untouched, "{said}");
        }
        apply(&mut visit, &FORM, "test", Edit::AddTrial("trials".into()), at(0)).expect("accepted");
        let far = Edit::TrialAnswer("trials".into(), 0, "cm".into(), Some(Answer::Number(400.0)));
        assert_eq!(apply(&mut visit, &FORM, "test", far, at(0)), Err(EditRefused::NotAccepted));
    }

    #[test]
    fn what_was_shown_answers_what_the_form_takes_from_it() {
        let mut visit = visit();
        let mut show = |instruction| apply(&mut visit, &FORM, "test", shown(instruction), at(0)).map(|_| visit.clone());
        let side = |visit: &Visit| visit.record("test").and_then(|record| record.answers.one("side").map(String::from));
        let first = show("right").expect("accepted");
        assert_eq!(side(&first).as_deref(), Some("right"));
        let second = show("nowhere").expect("accepted");
        assert_eq!(side(&second), None, "what the form cannot hold is left open");
        assert_eq!(second.record("test").map(|record| record.showings.len()), Some(2));
        for _ in 2..showing::MOST {
            show("left").expect("accepted");
        }
        assert_eq!(show("left").err(), Some(EditRefused::Full));
    }

    #[test]
    fn no_more_than_the_form_keeps() {
        let mut visit = visit();
        let tap = || Edit::Tap("taps".into(), "right".into(), "on".into());
        for _ in 0..3 {
            apply(&mut visit, &FORM, "test", tap(), at(0)).expect("accepted");
        }
        assert_eq!(apply(&mut visit, &FORM, "test", tap(), at(0)), Err(EditRefused::Full));
        for _ in 0..2 {
            apply(&mut visit, &FORM, "test", Edit::AddTrial("trials".into()), at(0)).expect("accepted");
        }
        let more = apply(&mut visit, &FORM, "test", Edit::AddTrial("trials".into()), at(0));
        assert_eq!(more, Err(EditRefused::Full));
    }

    #[test]
    fn a_closed_visit_stays_as_it_is() {
        let mut visit = visit();
        let undo = apply(&mut visit, &FORM, "test", Edit::Usual, at(0)).expect("accepted");
        visit.closed = Some(at(10));
        let closed = visit.clone();
        for edit in every_edit() {
            assert_eq!(apply(&mut visit, &FORM, "test", edit, at(20)), Err(EditRefused::Closed));
        }
        take_back(&mut visit, undo);
        assert_eq!(visit, closed);
    }
}
