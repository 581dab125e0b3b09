//! What is missing from a visit, with its reason: tasks, answers of the frame, the safety check and the decision, and
//! parts written by a newer program.

use super::TaskReading;
use crate::capture::answer::Answer;
use crate::capture::form::{Field, Form, Kind, Need};
use crate::capture::record::Record;
use crate::capture::safety::{self, DANGERS};
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::capture::{decision, frame, symptoms};
use crate::finding::{Gap, Why};
use crate::flow;
use crate::provocation::Provocation;
use crate::task::{self, Context, Task};

/// Gaps of the frame and safety check, then of tasks in exam order, symptoms, the decision, and unreadable parts.
pub fn of(person: &Person, context: &Context<'_>, tasks: &[TaskReading], symptoms: &Provocation) -> Vec<Gap> {
    let visit = context.visit;
    let mut gaps = form_gaps(
        visit,
        &frame::FORM,
        "why the person came (reason, consent, glasses, what to take care with)",
        FRAME_WORDS,
    );
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
    let unread = unread(person, visit, &gaps);
    gaps.extend(unread);
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

fn unread(person: &Person, visit: &Visit, so_far: &[Gap]) -> Vec<Gap> {
    let said = |slot: &str| so_far.iter().any(|gap| gap.slot == slot && gap.why == Why::Unread);
    let none = Unread::default();
    let mut gaps = Vec::new();
    for record in &visit.records {
        let Some(form) = flow::form_of(&record.slot) else {
            let name: String = record.slot.chars().filter(|c| !c.is_control()).take(40).collect();
            gaps.push(gap(&record.slot, &format!("a part called “{name}”"), Why::Unread));
            continue;
        };
        if record.unread != none || (unknown(form, record) && !said(&record.slot)) {
            gaps.push(gap(&record.slot, &format!("a detail of {}", part(record)), Why::Unread));
        }
    }
    let planned = visit.plan.iter().filter(|id| task::by_id(id).is_none() && visit.record(id).is_none());
    gaps.extend(planned.map(|id| gap(id, &format!("a task called “{id}”"), Why::Unread)));
    if visit.unread != none || person.unread != none {
        gaps.push(gap("visit", "some details of the visit or the person", Why::Unread));
    }
    gaps
}

/// Whether the record holds an answer that its form does not know: another key, choice, mark, row or a value beyond its
/// bounds. It stays in the file and no rule reads it.
fn unknown(form: &'static Form, record: &Record) -> bool {
    // A text is told as it stands, however long.
    let told = |field: &Field, answer: &Answer| {
        matches!((&field.kind, answer), (Kind::Text { .. }, Answer::Text(_))) || field.accepts(answer)
    };
    record.answers.iter().any(|(key, answer)| !form.field(key).is_some_and(|field| told(field, answer)))
}

/// What the record is of, in words: "jumps", "the symptoms after jumps".
fn part(record: &Record) -> String {
    let title = |id: &str| task::by_id(id).map(|task| task.title.to_lowercase());
    match record.form() {
        id if id == symptoms::FORM.id => match title(record.occasion()) {
            Some(after) => format!("the symptoms after {after}"),
            None => "the symptoms before the tasks".to_string(),
        },
        frame::SLOT => "why the person came".to_string(),
        safety::SLOT => "the safety check".to_string(),
        decision::SLOT => "the decision".to_string(),
        id => title(id).unwrap_or_else(|| "the emergency stop".to_string()),
    }
}

fn gap(slot: &str, what: &str, why: Why) -> Gap {
    Gap { slot: slot.to_string(), what: what.to_string(), why }
}
