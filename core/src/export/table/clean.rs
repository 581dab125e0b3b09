//! A visit as tables may hold it: only slots, fields and choices that the forms know, and without names nothing typed.
//!
//! What may not be shown is taken away before the visit is read, so no later sentence can bring it back.

use super::Who;
use super::order::Placed;
use crate::capture::answer::{Answer, Answers, Run, Series, Trial};
use crate::capture::form::{Form, Kind};
use crate::capture::record::{Record, State};
use crate::capture::safety;
use crate::capture::showing::Showing;
use crate::capture::stop;
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::flow::{self, Step};
use crate::task;

/// The person; without names only what the reading rules need.
pub(super) fn person(person: &Person, place: &Placed, who: Who<'_>) -> Person {
    match who {
        Who::Named => person.clone(),
        Who::Coded(_) => {
            let code = place.person.clone();
            Person { id: code.clone(), label: code, unread: Unread::default(), ..person.clone() }
        }
    }
}

/// The visit, and how many of its parts were left out because no form here knows them.
pub(super) fn visit(visit: &Visit, who: Who<'_>) -> (Visit, u32) {
    let mut left_out = visit.unread.0.len();
    let mut records: Vec<Record> = Vec::with_capacity(visit.records.len());
    for record in &visit.records {
        left_out += record.unread.0.len();
        match form_of(&record.slot).filter(|_| records.iter().all(|other| other.slot != record.slot)) {
            Some(form) => records.push(self::record(record, form, who, &mut left_out)),
            None => left_out += 1,
        }
    }
    let known = |id: &&String| task::by_id(id).is_some();
    let mut cleaned = Visit {
        plan: visit.plan.iter().filter(known).cloned().collect(),
        records,
        unread: Unread::default(),
        ..visit.clone()
    };
    if let Who::Coded(_) = who {
        cleaned.id = String::new();
        cleaned.person = String::new();
        cleaned.program = String::new();
        cleaned.sha256 = None;
        for given in &mut cleaned.sheets {
            given.by.clear();
            given.despite.iter_mut().for_each(|despite| despite.why.clear());
        }
        cleaned.at = Step::from_slot(&visit.at).map_or(String::new(), |step| step.slot());
    }
    (cleaned, u32::try_from(left_out).unwrap_or(u32::MAX))
}

/// The form of a slot that a visit can have; a stop is numbered and nothing else.
fn form_of(slot: &str) -> Option<&'static Form> {
    match slot.split_once('.') {
        Some((stop::ID, number)) => {
            let plain = (1..=4).contains(&number.len()) && number.bytes().all(|b| b.is_ascii_digit());
            plain.then_some(&stop::FORM)
        }
        Some(_) | None => Step::from_slot(slot)?.form(),
    }
}

fn record(record: &Record, form: &Form, who: Who<'_>, left_out: &mut usize) -> Record {
    let mut answers = Answers::default();
    for (key, answer) in record.answers.iter() {
        match form.field(key).filter(|field| field.accepts(answer)) {
            Some(field) => {
                let kept = self::answer(answer, &field.kind, (&record.slot, key), who, left_out);
                answers.set(key, Some(kept));
            }
            None => *left_out += 1,
        }
    }
    let state = match (&record.state, who) {
        (State::NotDone(_), Who::Coded(_)) => State::NotDone(String::new()),
        (State::NotTestable(_), Who::Coded(_)) => State::NotTestable(String::new()),
        (state, Who::Named) | (state @ (State::Open | State::Done), Who::Coded(_)) => state.clone(),
    };
    let mut showings = record.showings.clone();
    showings.retain(Showing::known);
    *left_out += record.showings.len() - showings.len();
    for showing in &mut showings {
        *left_out += std::mem::take(&mut showing.unread).0.len();
        if let Who::Coded(_) = who {
            showing.instruction.clear();
        }
    }
    Record { answers, state, showings, unread: Unread::default(), ..record.clone() }
}

fn answer(answer: &Answer, kind: &Kind, at: (&str, &str), who: Who<'_>, left_out: &mut usize) -> Answer {
    match (answer, kind) {
        (Answer::Text(text), _) => match who {
            Who::Named => answer.clone(),
            Who::Coded(_) => Answer::Text(untyped(text, at)),
        },
        (Answer::Series(series), Kind::Series(form)) => {
            let known = |run: &&Run| run.pad.is_empty() || form.pads.iter().any(|pad| pad.id == run.pad);
            let runs: Vec<Run> = series.runs.iter().filter(known).map(tidy).collect();
            *left_out += series.runs.len() - runs.len();
            Answer::Series(Series { runs, taps: series.taps.clone() })
        }
        (Answer::Trials(trials), Kind::Trials(_)) => {
            let keep = |(key, answer): (&str, &Answer)| match (answer, who) {
                (Answer::Text(text), Who::Coded(_)) => (key.to_string(), Answer::Text(untyped(text, at))),
                (answer, _) => (key.to_string(), answer.clone()),
            };
            let trial = |t: &Trial| Trial { at_ms: t.at_ms, answers: t.answers.iter().map(keep).collect() };
            Answer::Trials(trials.iter().map(trial).collect())
        }
        _ => answer.clone(),
    }
}

/// A pace that is no number is none.
fn tidy(run: &Run) -> Run {
    Run { bpm: run.bpm.filter(|bpm| bpm.is_finite() && *bpm >= 0.0), ..run.clone() }
}

/// What text means without what was typed: that there was some, and which signs a stop answers. No column shows it.
fn untyped(text: &str, (slot, key): (&str, &str)) -> String {
    if key == "seen" && flow::form_of(slot).is_some_and(|form| form.id == stop::ID) {
        let of_task = |id: &str| id.split_once('.').is_some_and(|(task, _)| task::by_id(task).is_some());
        let known = |id: &&str| safety::danger_of(id).is_some() || of_task(id);
        return text.split_whitespace().filter(known).collect::<Vec<_>>().join(" ");
    }
    if text.trim().is_empty() { String::new() } else { "left out".to_string() }
}
