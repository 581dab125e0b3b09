//! A routine that the practice made: a name and an order of tasks.

use super::minutes;
use crate::calendar::Moment;
use crate::capture::unread::Unread;
use crate::task::{self, Task};
use std::fmt;

/// Longest name in characters.
pub const LONGEST: usize = 40;

/// A routine of the practice's own.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnRoutine {
    /// Random id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// Ids of its tasks, in order; those of a newer program are kept.
    pub tasks: Vec<String>,
    /// When it was last changed, by the clock of the device.
    pub changed: Option<Moment>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// Why a routine cannot be kept. Its text says what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refused {
    /// It has no name.
    NoName,
    /// Its name is too long.
    LongName,
    /// Another routine has this name.
    SameName,
    /// It has no task.
    NoTask,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refused::NoName => f.write_str("Give the routine a name, so that it can be found at the start of a visit."),
            Refused::LongName => write!(f, "Choose a shorter name, of at most {LONGEST} letters."),
            Refused::SameName => f.write_str("Another routine has this name. Choose a different one."),
            Refused::NoTask => f.write_str("Add at least one task."),
        }
    }
}

impl std::error::Error for Refused {}

impl OwnRoutine {
    /// Its tasks as far as this program knows them.
    pub fn known(&self) -> impl Iterator<Item = &'static Task> {
        self.tasks.iter().filter_map(|id| task::by_id(id))
    }

    /// Expected time in whole minutes, at least one.
    #[must_use]
    pub fn minutes(&self) -> u32 {
        minutes(self.known())
    }

    /// The routine as it is kept: its name without blanks around it.
    ///
    /// # Errors
    /// [`Refused`] says what is missing.
    pub fn checked(self, others: &[OwnRoutine]) -> Result<OwnRoutine, Refused> {
        let title = self.title.split_whitespace().collect::<Vec<_>>().join(" ");
        if title.is_empty() {
            return Err(Refused::NoName);
        }
        if title.chars().count() > LONGEST {
            return Err(Refused::LongName);
        }
        let wanted = title.to_lowercase();
        let builtin = super::ALL.iter().any(|routine| routine.title.to_lowercase() == wanted);
        let same = |other: &OwnRoutine| other.id != self.id && other.title.to_lowercase() == wanted;
        if builtin || others.iter().any(same) {
            return Err(Refused::SameName);
        }
        if self.known().next().is_none() {
            return Err(Refused::NoTask);
        }
        Ok(OwnRoutine { title, ..self })
    }

    /// Tasks that are not in it, in exam order.
    pub fn addable(&self) -> impl Iterator<Item = &'static Task> {
        task::ALL.iter().copied().filter(|task| !self.has(task.id))
    }

    /// Puts a task at the end, once.
    pub fn add(&mut self, id: &str) {
        if !self.has(id) {
            self.tasks.push(id.to_string());
        }
    }

    /// Takes a task out.
    pub fn remove(&mut self, id: &str) {
        self.tasks.retain(|task| task != id);
    }

    /// Moves a task one place up; the first one stays.
    pub fn up(&mut self, id: &str) {
        if let Some(at @ 1..) = self.tasks.iter().position(|task| task == id) {
            self.tasks.swap(at - 1, at);
        }
    }

    /// Moves a task one place down; the last one stays.
    pub fn down(&mut self, id: &str) {
        let at = self.tasks.iter().position(|task| task == id);
        if let Some(at) = at.filter(|at| at + 1 < self.tasks.len()) {
            self.tasks.swap(at, at + 1);
        }
    }

    fn has(&self, id: &str) -> bool {
        self.tasks.iter().any(|task| task == id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(id: &str, title: &str, tasks: &[&str]) -> OwnRoutine {
        let tasks = tasks.iter().map(|id| (*id).to_string()).collect();
        OwnRoutine { id: id.into(), title: title.into(), tasks, changed: None, unread: Unread::default() }
    }

    #[test]
    fn what_cannot_be_kept_says_why() {
        let others = [own("a", "Monday", &["saccade"])];
        let refused = |title: &str, tasks: &[&str]| own("b", title, tasks).checked(&others).err();
        assert_eq!(refused("  ", &["saccade"]), Some(Refused::NoName));
        assert_eq!(refused(&"x".repeat(41), &["saccade"]), Some(Refused::LongName));
        assert_eq!(refused("monday ", &["saccade"]), Some(Refused::SameName));
        assert_eq!(refused("Sideline", &["saccade"]), Some(Refused::SameName));
        assert_eq!(refused("Tuesday", &[]), Some(Refused::NoTask));
        assert_eq!(refused("Tuesday", &["of_a_newer_program"]), Some(Refused::NoTask));
        assert_eq!(refused("Tuesday", &["saccade"]), None);
    }

    #[test]
    fn a_routine_may_keep_its_own_name_and_loses_blanks_around_it() {
        let all = [own("a", "Monday", &["saccade"])];
        let kept = own("a", "  Monday   early ", &["saccade"]).checked(&all).expect("it can be kept");
        assert_eq!(kept.title, "Monday early");
        assert!(own("a", "monday", &["saccade"]).checked(&all).is_ok());
    }

    #[test]
    fn tasks_move_by_one_place_and_stop_at_the_ends() {
        let mut routine = own("a", "x", &["near_point", "pursuit"]);
        routine.add("saccade");
        routine.add("saccade");
        routine.up("saccade");
        assert_eq!(routine.tasks, ["near_point", "saccade", "pursuit"]);
        routine.up("near_point");
        routine.down("pursuit");
        assert_eq!(routine.tasks, ["near_point", "saccade", "pursuit"]);
        routine.down("near_point");
        assert_eq!(routine.tasks, ["saccade", "near_point", "pursuit"]);
        routine.remove("near_point");
        assert_eq!(routine.tasks, ["saccade", "pursuit"]);
        assert!(routine.addable().all(|task| !["saccade", "pursuit"].contains(&task.id)));
        assert!(routine.addable().any(|task| task.id == "near_point"));
    }
}
