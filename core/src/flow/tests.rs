//! The order of steps: by the visit's own list, without what is left out, with what was added.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::Answer;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn visit() -> Visit {
    Visit::begin("v", "p", "sideline", NOW, "test")
}

fn planned(plan: &[&str]) -> Visit {
    Visit { plan: plan.iter().map(|id| (*id).to_string()).collect(), ..visit() }
}

fn of(visit: &Visit) -> Context<'_> {
    Context { visit, age: None }
}

fn step(slot: &str) -> Step {
    Step::from_slot(slot).expect("a step")
}

fn slots(visit: &Visit) -> Vec<String> {
    steps(&of(visit)).iter().map(Step::slot).collect()
}

/// A task for these tests alone: a neck pain leaves it out.
fn barred_by_the_neck() -> &'static Task {
    static STILL: Task = Task { barred, ..copy(&crate::task::saccade::TASK) };
    const fn copy(task: &Task) -> Task {
        Task {
            id: task.id,
            title: task.title,
            term: task.term,
            setup: crate::task::Setup { position: "", target: "", motion: "", say: "", watch: "" },
            form: task.form,
            provokes: task.provokes,
            pace: None,
            seconds: task.seconds,
            barred: task.barred,
            cautions: task.cautions,
            norms: task.norms,
            read: task.read,
        }
    }
    fn barred(context: &Context<'_>) -> Option<&'static str> {
        frame::has_caution(context.visit, &["neck"]).then_some("neck pain")
    }
    &STILL
}

#[test]
fn every_step_reads_back_from_its_slot() {
    for step in steps(&of(&visit())) {
        assert_eq!(Step::from_slot(&step.slot()), Some(step));
    }
    assert_eq!(Step::from_slot("a_task_of_a_newer_program"), None);
}

#[test]
fn steps_follow_the_visits_own_list() {
    let slots = slots(&planned(&["saccade", "of_a_newer_program", "resting_gaze"]));
    let expected = ["frame", "safety", "symptoms.before", "saccade", "symptoms.saccade", "resting_gaze", "findings"];
    assert_eq!(slots[..expected.len()], expected);
}

#[test]
fn a_recorded_task_outside_the_list_is_a_step_too() {
    let mut visit = planned(&["pursuit"]);
    visit.record_mut("saccade", NOW).state = State::Done;
    assert_eq!(slots(&visit)[3..7], ["pursuit", "symptoms.pursuit", "saccade", "symptoms.saccade"]);
    assert_eq!(progress(&of(&visit), &step("saccade")), Some((2, 2)));
    assert_eq!(done(&of(&visit)), (1, 2));
}

#[test]
fn a_task_that_is_being_added_leads_back_to_the_findings() {
    let mut visit = planned(&["pursuit"]);
    let offered: Vec<&str> = addable(&of(&visit)).iter().map(|task| task.id).collect();
    assert!(offered.contains(&"saccade") && !offered.contains(&"pursuit"), "{offered:?}");
    visit.at = "saccade".into();
    assert_eq!(next(&of(&visit), &step("saccade")).slot(), "symptoms.saccade");
    assert_eq!(next(&of(&visit), &step("symptoms.saccade")), Step::Findings);
    assert_eq!(previous(&of(&visit), &step("saccade")).map(|step| step.slot()), Some("symptoms.pursuit".into()));
    visit.at = "findings".into();
    assert!(!slots(&visit).contains(&"saccade".to_string()), "nothing was recorded, so nothing was added");
}

#[test]
fn a_task_is_barred_by_an_answer_until_something_is_recorded_for_it() {
    let mut visit = planned(&["saccade"]);
    let task = barred_by_the_neck();
    assert_eq!(barred(&of(&visit), task), None);
    visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(Answer::Many(vec!["neck".into()])));
    assert_eq!(barred(&of(&visit), task), Some("neck pain"));
    assert!(!applies(&of(&visit), &Step::Task(task)) && !applies(&of(&visit), &Step::After(task)));
    visit.record_mut("saccade", NOW);
    assert_eq!(barred(&of(&visit), task), None);
    assert!(applies(&of(&visit), &Step::Task(task)) && applies(&of(&visit), &Step::After(task)));
}

#[test]
fn symptoms_are_asked_after_provoking_tasks_that_were_not_skipped() {
    let mut visit = visit();
    assert_eq!(next(&of(&visit), &step("near_point")).slot(), "symptoms.near_point");
    visit.record_mut("near_point", NOW).state = State::NotDone("no target".into());
    assert_eq!(next(&of(&visit), &step("near_point")).slot(), "pursuit");
}

#[test]
fn a_stop_without_a_reason_leaves_no_task() {
    let mut visit = visit();
    let seen = Answer::Text("neck".into());
    visit.record_mut("stop.1", NOW).answers.set("seen", Some(seen));
    assert!(!steps(&of(&visit)).iter().any(|step| matches!(step, Step::Task(_))));
    assert_eq!(next(&of(&visit), &Step::Safety), Step::Findings);
    assert!(addable(&of(&visit)).is_empty());
    let reason = Answer::Text("seen and cleared by the team doctor".into());
    visit.record_mut("stop.1", NOW).answers.set("go_on", Some(reason));
    assert!(steps(&of(&visit)).iter().any(|step| matches!(step, Step::Task(_))));
}

#[test]
fn a_restart_goes_back_to_the_step_in_sight() {
    let mut visit = visit();
    assert_eq!(resume(&of(&visit)), Step::Frame);
    visit.at = "saccade".into();
    assert_eq!(resume(&of(&visit)).slot(), "saccade");
    visit.at = "of_a_newer_program".into();
    assert_eq!(resume(&of(&visit)), Step::Frame);
}
