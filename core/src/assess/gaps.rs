//! What is missing from a visit, with its reason: tasks, answers of the frame, the safety check and the decision, and
//! parts written by a newer program.

use super::TaskReading;
use crate::capture::form::{Form, Need};
use crate::capture::safety::{self, DANGERS};
use crate::capture::visit::{Person, Unread, Visit};
use crate::capture::{decision, frame};
use crate::finding::{Gap, Why};
use crate::flow;
use crate::provocation::Provocation;
use crate::task::{self, Context, Task};

/// Gaps of the frame and safety check, then of tasks in exam order, symptoms, the decision, and unreadable parts.
pub fn of(person: &Person, context: &Context<'_>, tasks: &[TaskReading], symptoms: &Provocation) -> Vec<Gap> {
    let visit = context.visit;
    let mut gaps =
        form_gaps(visit, &frame::FORM, "the frame of the visit (reason, consent, glasses, cautions)", FRAME_WORDS);
    gaps.extend(safety_gaps(visit));
    for task in tasks {
        if task.done {
            gaps.extend(task.reading.gaps.iter().cloned());
        } else {
            gaps.push(gap(task.task.id, &task.task.title.to_lowercase(), why_missing(context, task.task)));
        }
    }
    gaps.extend(symptoms.gaps.iter().cloned());
    gaps.extend(form_gaps(visit, &decision::FORM, "the decision", DECISION_WORDS));
    gaps.extend(unread(person, visit));
    gaps
}

/// What the examiner or an emergency stop left out has their reason; only then comes the examination's own.
fn why_missing(context: &Context<'_>, task: &Task) -> Why {
    let why = Why::missing(context.visit, task.id);
    match (flow::barred(context, task), &why) {
        (Some(reason), Why::NotRecorded) => Why::Dropped(reason.to_string()),
        (Some(_) | None, _) => why,
    }
}

const FRAME_WORDS: &[(&str, &str)] = &[
    ("reason", "reason for the visit"),
    ("since", "time since it began"),
    ("consent", "consent"),
    ("glasses", "glasses"),
    ("influences", "what else can change eye movements today"),
    ("cautions", "cautions"),
];

const DECISION_WORDS: &[(&str, &str)] = &[
    ("action", "what happens now"),
    ("refer_to", "where to refer to"),
    ("refer_soon", "how soon to refer"),
    ("retest_on", "day of the re-test"),
    ("play", "whether removed from sport"),
    ("told", "who was told"),
];

/// One gap for a form that was not filled in at all, otherwise one for each question that applies and has no answer.
fn form_gaps(visit: &Visit, form: &'static Form, whole: &str, words: &[(&str, &str)]) -> Vec<Gap> {
    let Some(record) = visit.filled(form.id).filter(|record| !record.answers.is_empty()) else {
        return vec![gap(form.id, whole, Why::missing(visit, form.id))];
    };
    let unanswered = form
        .shown(&record.answers)
        .filter(|field| field.need == Need::Asked)
        .filter(|field| !record.answers.get(field.key).is_some_and(|answer| field.accepts(answer)));
    let word = |key: &str, ask: &'static str| {
        words.iter().find(|(known, _)| *known == key).map_or(ask.to_string(), |(_, word)| (*word).to_string())
    };
    unanswered.map(|field| gap(form.id, &word(field.key, field.ask), Why::NotRecorded)).collect()
}

fn safety_gaps(visit: &Visit) -> Vec<Gap> {
    let mut gaps = match visit.record(safety::SLOT) {
        Some(record) if record.skipped() => {
            return vec![gap(safety::SLOT, "the whole safety check", Why::missing(visit, safety::SLOT))];
        }
        Some(record) if !record.answers.is_empty() => {
            let answered = |key| matches!(record.answers.one(key), Some("yes" | "no"));
            let unasked = DANGERS.iter().filter(|danger| !answered(danger.key));
            unasked.map(|danger| gap(safety::SLOT, danger.seen, Why::NotRecorded)).collect()
        }
        Some(_) | None => vec![gap(safety::SLOT, "the whole safety check", Why::NotRecorded)],
    };
    let answers = visit.record(safety::SLOT).map(|record| &record.answers);
    let foreign = answers.is_some_and(|a| a.iter().any(|(key, _)| safety::FORM.field(key).is_none()));
    if foreign {
        gaps.push(gap(safety::SLOT, "a danger sign this version does not know", Why::Unread));
    }
    gaps
}

fn unread(person: &Person, visit: &Visit) -> Vec<Gap> {
    let none = Unread::default();
    let mut gaps = Vec::new();
    for record in &visit.records {
        if flow::form_of(&record.slot).is_none() {
            let name: String = record.slot.chars().filter(|c| !c.is_control()).take(40).collect();
            gaps.push(gap(&record.slot, &format!("a part called “{name}”"), Why::Unread));
        } else if record.unread != none {
            gaps.push(gap(&record.slot, "some details of what was recorded", Why::Unread));
        }
    }
    let planned = visit.plan.iter().filter(|id| task::by_id(id).is_none() && visit.record(id).is_none());
    gaps.extend(planned.map(|id| gap(id, &format!("a task called “{id}”"), Why::Unread)));
    if visit.unread != none || person.unread != none {
        gaps.push(gap("visit", "some details of the visit or the person", Why::Unread));
    }
    gaps
}

fn gap(slot: &str, what: &str, why: Why) -> Gap {
    Gap { slot: slot.to_string(), what: what.to_string(), why }
}
