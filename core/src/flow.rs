//! The order of a visit's steps, worked out from the visit itself: nothing about it is remembered elsewhere.

use crate::capture::form::Form;
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::routine;
use crate::task::{self, Task};

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
            Step::After(_) => "And now?",
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

/// All steps of this visit, in order. After an emergency stop without a reason to go on, no task is left.
#[must_use]
pub fn steps(visit: &Visit) -> Vec<Step> {
    let mut steps = vec![Step::Frame, Step::Safety];
    if !stop::ended(visit) {
        steps.push(Step::Before);
        for task in routine::by_id(&visit.routine).tasks() {
            steps.push(Step::Task(task));
            if task.provokes && !visit.record(task.id).is_some_and(|record| record.skipped()) {
                steps.push(Step::After(task));
            }
        }
    }
    steps.extend([Step::Findings, Step::Decision, Step::Summary]);
    steps
}

/// The step behind this one; the last step stays.
#[must_use]
pub fn next(visit: &Visit, from: &Step) -> Step {
    let steps = steps(visit);
    let at = steps.iter().position(|step| step == from);
    match at {
        Some(at) => *steps.get(at + 1).unwrap_or(&Step::Summary),
        // The step is no longer part of the visit: an emergency stop ended the tasks.
        None => Step::Findings,
    }
}

/// The step before this one; `None` at the first.
#[must_use]
pub fn previous(visit: &Visit, from: &Step) -> Option<Step> {
    let steps = steps(visit);
    let at = steps.iter().position(|step| step == from)?;
    at.checked_sub(1).map(|before| steps[before])
}

/// Where to go on after a restart: the step that was in sight last, else the first that is not ended.
#[must_use]
pub fn resume(visit: &Visit) -> Step {
    let steps = steps(visit);
    let last = Step::from_slot(&visit.at).filter(|step| steps.contains(step));
    let first_open = || steps.iter().copied().find(|step| step.form().is_some() && !visit.ended(&step.slot()));
    last.or_else(first_open).unwrap_or(Step::Findings)
}

/// Position among the steps that fill a form, counted from 1, and their number; for "3 / 8".
#[must_use]
pub fn progress(visit: &Visit, at: &Step) -> Option<(usize, usize)> {
    let tasks: Vec<Step> = steps(visit).into_iter().filter(|step| matches!(step, Step::Task(_))).collect();
    let of = match at {
        Step::Task(task) | Step::After(task) => Step::Task(task),
        Step::Frame | Step::Safety | Step::Before | Step::Findings | Step::Decision | Step::Summary => return None,
    };
    tasks.iter().position(|step| *step == of).map(|index| (index + 1, tasks.len()))
}

/// Tasks ended as done, and tasks in the routine.
#[must_use]
pub fn done(visit: &Visit) -> (usize, usize) {
    let tasks: Vec<&Task> = routine::by_id(&visit.routine).tasks().collect();
    let done = |task: &&&Task| visit.record(task.id).is_some_and(|record| record.state == State::Done);
    (tasks.iter().filter(done).count(), tasks.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn visit() -> Visit {
        Visit::begin("v", "p", "sideline", NOW, "test")
    }

    #[test]
    fn every_step_reads_back_from_its_slot() {
        for step in steps(&visit()) {
            assert_eq!(Step::from_slot(&step.slot()), Some(step));
        }
        assert_eq!(Step::from_slot("a_task_of_a_newer_program"), None);
    }

    #[test]
    fn symptoms_are_asked_after_provoking_tasks_that_were_not_skipped() {
        let mut visit = visit();
        assert_eq!(next(&visit, &Step::from_slot("near_point").expect("a task")).slot(), "symptoms.near_point");
        visit.record_mut("near_point", NOW).state = State::NotDone("no target".into());
        assert_eq!(next(&visit, &Step::from_slot("near_point").expect("a task")).slot(), "pursuit");
    }

    #[test]
    fn a_stop_without_a_reason_leaves_no_task() {
        let mut visit = visit();
        let seen = Answer::Text("neck".into());
        visit.record_mut("stop.1", NOW).answers.set("seen", Some(seen));
        assert!(!steps(&visit).iter().any(|step| matches!(step, Step::Task(_))));
        assert_eq!(next(&visit, &Step::Safety), Step::Findings);
        let reason = Answer::Text("seen and cleared by the team doctor".into());
        visit.record_mut("stop.1", NOW).answers.set("go_on", Some(reason));
        assert!(steps(&visit).iter().any(|step| matches!(step, Step::Task(_))));
    }

    #[test]
    fn a_restart_goes_back_to_the_step_in_sight() {
        let mut visit = visit();
        assert_eq!(resume(&visit), Step::Frame);
        visit.at = "saccade".into();
        assert_eq!(resume(&visit).slot(), "saccade");
        visit.at = "of_a_newer_program".into();
        assert_eq!(resume(&visit), Step::Frame);
    }
}
