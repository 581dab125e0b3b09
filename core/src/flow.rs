//! The order of a visit's steps, worked out from the visit itself: nothing about it is remembered elsewhere.

use crate::capture::form::Form;
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::routine;
use crate::task::{self, Context, Task};

/// One step of a visit.
#[derive(Debug, Clone, Copy)]
pub enum Step {
    /// The frame: reason, consent, glasses, influences, cautions.
    Frame,
    /// The safety check.
    Safety,
    /// Symptoms before the first task.
    Before,
    /// A task.
    Task(&'static Task),
    /// Symptoms after a provoking task.
    After(&'static Task),
    /// What stands out.
    Findings,
    /// What the practitioner decides.
    Decision,
    /// The summary.
    Summary,
}

impl PartialEq for Step {
    fn eq(&self, other: &Step) -> bool {
        self.slot() == other.slot()
    }
}

impl Step {
    /// The slot of its record; "findings" and "summary" have none but use the same word.
    #[must_use]
    pub fn slot(&self) -> String {
        match self {
            Step::Frame => frame::SLOT.to_string(),
            Step::Safety => safety::SLOT.to_string(),
            Step::Before => symptoms::BEFORE.to_string(),
            Step::Task(task) => task.id.to_string(),
            Step::After(task) => symptoms::after(task.id),
            Step::Findings => "findings".to_string(),
            Step::Decision => decision::SLOT.to_string(),
            Step::Summary => "summary".to_string(),
        }
    }

    /// Reads a slot back; `None` for one that is no step.
    #[must_use]
    pub fn from_slot(slot: &str) -> Option<Step> {
        Some(match slot {
            frame::SLOT => Step::Frame,
            safety::SLOT => Step::Safety,
            symptoms::BEFORE => Step::Before,
            "findings" => Step::Findings,
            decision::SLOT => Step::Decision,
            "summary" => Step::Summary,
            _ => match slot.strip_prefix("symptoms.") {
                Some(id) => Step::After(task::by_id(id)?),
                None => Step::Task(task::by_id(slot)?),
            },
        })
    }

    /// The form it fills, if it fills one.
    #[must_use]
    pub fn form(&self) -> Option<&'static Form> {
        match self {
            Step::Frame => Some(&frame::FORM),
            Step::Safety => Some(&safety::FORM),
            Step::Before | Step::After(_) => Some(&symptoms::FORM),
            Step::Task(task) => Some(task.form),
            Step::Decision => Some(&decision::FORM),
            Step::Findings | Step::Summary => None,
        }
    }

    /// Its title on the screen.
    #[must_use]
    pub fn title(&self) -> &'static str {
        match self {
            Step::Frame => "Before you begin",
            Step::Safety => "Danger signs first",
            Step::Before => "How they feel",
            Step::Task(task) => task.title,
            Step::After(_) => "How they feel",
            Step::Findings => "What stands out",
            Step::Decision => "Your decision",
            Step::Summary => "Summary",
        }
    }
}

/// The form of any slot, including emergency stops.
#[must_use]
pub fn form_of(slot: &str) -> Option<&'static Form> {
    if slot.split('.').next() == Some(stop::ID) {
        return Some(&stop::FORM);
    }
    Step::from_slot(slot)?.form()
}

/// A task that an answer of this visit leaves out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dropped {
    /// The task.
    pub task: &'static Task,
    /// Why, as the task says it: "neck pain: no quick head turns".
    pub reason: &'static str,
}

/// All steps of this visit, in order. After an emergency stop without a reason to go on, no task is left.
#[must_use]
pub fn steps(context: &Context<'_>) -> Vec<Step> {
    every(context.visit).into_iter().filter(|step| applies(context, step)).collect()
}

/// The step behind this one; the last step stays.
#[must_use]
pub fn next(context: &Context<'_>, from: &Step) -> Step {
    let every = every(context.visit);
    match every.iter().position(|step| step == from) {
        Some(at) => every[at + 1..].iter().copied().find(|step| applies(context, step)).unwrap_or(Step::Summary),
        // The step is no longer part of the visit: an emergency stop ended the tasks.
        None => Step::Findings,
    }
}

/// The step before this one; `None` at the first.
#[must_use]
pub fn previous(context: &Context<'_>, from: &Step) -> Option<Step> {
    let every = every(context.visit);
    let at = every.iter().position(|step| step == from)?;
    every[..at].iter().copied().rfind(|step| applies(context, step))
}

/// Where to go on after a restart: the step that was in sight last, else the first that is not ended.
#[must_use]
pub fn resume(context: &Context<'_>) -> Step {
    let steps = steps(context);
    let last = Step::from_slot(&context.visit.at).filter(|step| steps.contains(step));
    let open = |step: &Step| step.form().is_some() && !context.visit.ended(&step.slot());
    last.or_else(|| steps.iter().copied().find(open)).unwrap_or(Step::Findings)
}

/// Position among the tasks, counted from 1, and their number; for "3 / 8".
#[must_use]
pub fn progress(context: &Context<'_>, at: &Step) -> Option<(usize, usize)> {
    let tasks = tasks(context);
    let of = match at {
        Step::Task(task) | Step::After(task) => *task,
        Step::Frame | Step::Safety | Step::Before | Step::Findings | Step::Decision | Step::Summary => return None,
    };
    tasks.iter().position(|task| *task == of).map(|index| (index + 1, tasks.len()))
}

/// Tasks ended as done, and tasks of the visit that no answer leaves out.
#[must_use]
pub fn done(context: &Context<'_>) -> (usize, usize) {
    let tasks = tasks(context);
    let done = |task: &&&Task| context.visit.record(task.id).is_some_and(|record| record.state == State::Done);
    (tasks.iter().filter(done).count(), tasks.len())
}

/// Tasks of the visit that its answers leave out, in the visit's order.
#[must_use]
pub fn dropped(context: &Context<'_>) -> Vec<Dropped> {
    let reason = |task| barred(context, task).map(|reason| Dropped { task, reason });
    routine::planned(context.visit).into_iter().filter_map(reason).collect()
}

/// Why a task is left out of this visit; `None` when it is not, or when something was recorded for it all the same.
#[must_use]
pub fn barred(context: &Context<'_>, task: &Task) -> Option<&'static str> {
    (task.barred)(context).filter(|_| context.visit.record(task.id).is_none())
}

/// Tasks that can be added to this visit, in exam order; none after an emergency stop.
#[must_use]
pub fn addable(context: &Context<'_>) -> Vec<&'static Task> {
    if stop::ended(context.visit) {
        return Vec::new();
    }
    let planned = routine::planned(context.visit);
    let free = |task: &&Task| context.visit.record(task.id).is_none() && barred(context, task).is_none();
    task::ALL.iter().copied().filter(|task| !planned.contains(task)).filter(free).collect()
}

fn tasks(context: &Context<'_>) -> Vec<&'static Task> {
    let task = |step| match step {
        Step::Task(task) => Some(task),
        Step::Frame | Step::Safety | Step::Before | Step::After(_) => None,
        Step::Findings | Step::Decision | Step::Summary => None,
    };
    steps(context).into_iter().filter_map(task).collect()
}

/// Every step the visit could have, those left out by an answer too: from them, too, one can go on.
fn every(visit: &Visit) -> Vec<Step> {
    let mut steps = vec![Step::Frame, Step::Safety];
    if !stop::ended(visit) {
        steps.push(Step::Before);
        for task in planned_and_added(visit) {
            steps.push(Step::Task(task));
            if task.provokes {
                steps.push(Step::After(task));
            }
        }
    }
    steps.extend([Step::Findings, Step::Decision, Step::Summary]);
    steps
}

fn applies(context: &Context<'_>, step: &Step) -> bool {
    let skipped = |task: &Task| context.visit.record(task.id).is_some_and(|record| record.skipped());
    match step {
        Step::Task(task) => barred(context, task).is_none(),
        Step::After(task) => barred(context, task).is_none() && !skipped(task),
        Step::Frame | Step::Safety | Step::Before | Step::Findings | Step::Decision | Step::Summary => true,
    }
}

/// The visit's tasks, then those added to it: recorded, or in sight and about to be.
fn planned_and_added(visit: &Visit) -> Vec<&'static Task> {
    let mut tasks = routine::planned(visit);
    let recorded = visit.records.iter().filter_map(|record| task::by_id(&record.slot));
    let in_sight = match Step::from_slot(&visit.at) {
        Some(Step::Task(task) | Step::After(task)) => Some(task),
        Some(Step::Frame | Step::Safety | Step::Before | Step::Findings | Step::Decision | Step::Summary) | None => {
            None
        }
    };
    for task in recorded.chain(in_sight) {
        if !tasks.contains(&task) {
            tasks.push(task);
        }
    }
    tasks
}

#[cfg(test)]
mod tests;
