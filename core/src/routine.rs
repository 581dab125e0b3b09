//! Routines: ordered lists of tasks. A visit keeps its own list, so it reads the same after a routine was changed.

pub mod own;

use crate::capture::visit::Visit;
use crate::task::{self, Task};

/// A named order of tasks.
#[derive(Debug)]
pub struct Routine {
    /// Stable id.
    pub id: &'static str,
    /// Title.
    pub title: &'static str,
    /// What it is for.
    pub about: &'static str,
    /// Ids of its tasks, in order.
    pub tasks: &'static [&'static str],
}

/// Every routine that comes with the program. The first one's list is part of stored visits and stays as it is.
pub static ALL: &[Routine] = &[
    Routine {
        id: "sideline",
        title: "Sideline",
        about: "Minutes after a knock, or wherever there is little time.",
        tasks: &["resting_gaze", "near_point", "pursuit", "saccade", "optokinetic"],
    },
    Routine {
        id: "school",
        title: "School desk",
        about: "Reading or school work that tires: near, following, jumps.",
        tasks: &["resting_gaze", "near_point", "vergence", "pursuit", "saccade", "antisaccade"],
    },
    // Extra readings from instruments that few carry are left out; any task can be added to any visit.
    Routine {
        id: "full",
        title: "Full",
        about: "Everything, in the usual order.",
        tasks: &[
            "resting_gaze",
            "gaze_range",
            "near_point",
            "vergence",
            "pursuit",
            "saccade",
            "antisaccade",
            "optokinetic",
            "head_turn_gaze",
            "whole_body_turn",
            "head_impulse",
            "balance",
            "body_sides",
        ],
    },
];

/// A routine by id; a visit whose routine this program does not know is read by the first one.
#[must_use]
pub fn by_id(id: &str) -> &'static Routine {
    known(id).unwrap_or(&ALL[0])
}

/// The tasks this visit is made of, in its order: its own list, or its routine's where it has none.
#[must_use]
pub fn planned(visit: &Visit) -> Vec<&'static Task> {
    if visit.plan.is_empty() {
        return by_id(&visit.routine).tasks().collect();
    }
    visit.plan.iter().filter_map(|id| task::by_id(id)).collect()
}

/// The routine's title for print: its own, or "Own" for one that the practice made.
#[must_use]
pub fn title_of(visit: &Visit) -> &'static str {
    match known(&visit.routine) {
        Some(routine) => routine.title,
        None if visit.plan.is_empty() => ALL[0].title,
        None => "Own",
    }
}

/// Expected time for these tasks in whole minutes, at least one.
pub fn minutes(tasks: impl Iterator<Item = &'static Task>) -> u32 {
    tasks.map(|task| u32::from(task.seconds)).sum::<u32>().div_ceil(60).max(1)
}

impl Routine {
    /// Its tasks.
    pub fn tasks(&self) -> impl Iterator<Item = &'static Task> {
        self.tasks.iter().filter_map(|id| task::by_id(id))
    }

    /// Its tasks as the list that a visit keeps.
    #[must_use]
    pub fn plan(&self) -> Vec<String> {
        self.tasks.iter().map(|id| (*id).to_string()).collect()
    }

    /// Expected time in whole minutes, at least one.
    #[must_use]
    pub fn minutes(&self) -> u32 {
        minutes(self.tasks())
    }
}

fn known(id: &str) -> Option<&'static Routine> {
    ALL.iter().find(|routine| routine.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;

    fn visit(routine: &str, plan: &[&str]) -> Visit {
        let mut visit = Visit::begin("v", "p", routine, Moment { unix_ms: 0, offset_minutes: 0 }, "test");
        visit.plan = plan.iter().map(|id| (*id).to_string()).collect();
        visit
    }

    fn ids(visit: &Visit) -> Vec<&'static str> {
        planned(visit).iter().map(|task| task.id).collect()
    }

    #[test]
    fn a_visit_goes_by_its_own_list_and_by_its_routine_without_one() {
        assert_eq!(ids(&visit("sideline", &["saccade", "pursuit"])), ["saccade", "pursuit"]);
        assert_eq!(ids(&visit("sideline", &[])), ALL[0].tasks);
        assert_eq!(ids(&visit("of_a_newer_program", &[])), ALL[0].tasks);
    }

    #[test]
    fn an_own_routine_is_called_so_and_a_known_one_by_its_name() {
        assert_eq!(title_of(&visit("7f3a", &["saccade"])), "Own");
        assert_eq!(title_of(&visit("school", &["saccade"])), "School desk");
        assert_eq!(title_of(&visit("of_a_newer_program", &[])), "Sideline");
    }

    #[test]
    fn the_sideline_routine_takes_about_three_minutes() {
        assert!((3..=4).contains(&by_id("sideline").minutes()), "{}", by_id("sideline").minutes());
    }

    #[test]
    fn minutes_are_rounded_up_and_never_none() {
        assert_eq!(minutes(std::iter::empty()), 1);
        let pursuit = || task::by_id("pursuit").into_iter();
        let twice = u32::from(task::by_id("pursuit").expect("a task").seconds) * 2;
        assert_eq!(minutes(pursuit().chain(pursuit())), twice.div_ceil(60));
    }
}
