//! Routines: ordered lists of tasks.

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

/// Every routine.
pub static ALL: &[Routine] = &[Routine {
    id: "sideline",
    title: "Sideline",
    about: "Minutes after a knock, or wherever there is little time.",
    tasks: &["resting_gaze", "near_point", "pursuit", "saccade", "optokinetic"],
}];

/// A routine by id; a visit whose routine this program does not know is read by the first one.
#[must_use]
pub fn by_id(id: &str) -> &'static Routine {
    ALL.iter().find(|routine| routine.id == id).unwrap_or(&ALL[0])
}

impl Routine {
    /// Its tasks.
    pub fn tasks(&self) -> impl Iterator<Item = &'static Task> {
        self.tasks.iter().filter_map(|id| task::by_id(id))
    }

    /// Expected time in whole minutes, at least one.
    #[must_use]
    pub fn minutes(&self) -> u16 {
        self.tasks().map(|task| task.seconds).sum::<u16>().div_ceil(60).max(1)
    }
}
