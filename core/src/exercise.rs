//! Home exercises as a list. One exercise is one file: what it is for, published doses, what trials found, what takes it
//! away, and the keys of the words a family reads. Adding one is that file and one line here.
//!
//! Everything here but the keys is for the practitioner, who chooses from a plan.

use crate::evidence::{Citation, Status};
use crate::finding::Grade;
use crate::sign::What;

mod dose;
pub mod evidence;

#[cfg(test)]
mod tests;

pub use dose::{Amount, Dose, Part};

/// One home exercise.
#[derive(Debug)]
pub struct Exercise {
    /// Stable id: the file name.
    pub id: &'static str,
    /// Its number in a sheet. A published number is never given to another exercise.
    pub number: u8,
    /// Title for the practitioner.
    pub title: &'static str,
    /// What it is meant to train, in one sentence.
    pub aim: &'static str,
    /// What kind of work it is.
    pub group: Group,
    /// Distance, angle, pace and what is needed.
    pub setup: &'static str,
    /// What a plan starts from; the practitioner changes it.
    pub start: Dose,
    /// Where that comes from: a source, "from memory" or "common practice".
    pub start_from: &'static str,
    /// Published doses, which often disagree.
    pub doses: &'static [Published],
    /// What trials, reviews and guidelines found, also when they found nothing.
    pub evidence: &'static [Study],
    /// How well it is supported for what it is proposed for.
    pub support: Support,
    /// What of a visit may lead a practitioner to consider it; empty when it is only a next step.
    pub leads: &'static [Lead],
    /// The exercise it is a next step of.
    pub follows: Option<&'static str>,
    /// What takes it out of a plan.
    pub bars: &'static [Bar],
    /// What to mind otherwise.
    pub cautions: &'static [&'static str],
    /// Who starts it and who looks after it.
    pub supervision: &'static str,
    /// The next, harder step.
    pub harder: &'static str,
    /// The easier step to go back to.
    pub easier: &'static str,
    /// When to stop it, beyond what stops every exercise.
    pub stop: &'static str,
    /// Keys of what a family reads.
    pub family: Family,
}

/// An exercise is known by its id.
impl PartialEq for Exercise {
    fn eq(&self, other: &Exercise) -> bool {
        self.id == other.id
    }
}

/// Kinds of exercises; some rules hold for a whole kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Both eyes turning in together, and focusing.
    Teaming,
    /// Following and jumping with the head still.
    EyesAlone,
    /// Eyes on a target while the head or the body moves.
    HeadMoves,
    /// Standing and walking.
    Balance,
    /// Getting used to movements or scenes.
    GettingUsed,
    /// Moving so that the heart beats faster.
    Aerobic,
}

/// A published dose.
#[derive(Debug)]
pub struct Published {
    /// The dose and who it was for.
    pub says: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
    /// How sure the figure is.
    pub status: Status,
}

/// What one source found.
#[derive(Debug)]
pub struct Study {
    /// Which way it points.
    pub shows: Shows,
    /// What was found in whom.
    pub says: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
    /// How sure the figure is.
    pub status: Status,
}

impl Published {
    /// The dose with its source, as it is printed: "… (source, place; from memory)".
    #[must_use]
    pub fn in_words(&self) -> String {
        sourced(self.says, self.source, self.status)
    }
}

impl Study {
    /// What was found with its source, as it is printed: "No clear benefit: … (source, place)".
    #[must_use]
    pub fn in_words(&self) -> String {
        format!("{}: {}", self.shows.word(), sourced(self.says, self.source, self.status))
    }
}

fn sourced(says: &str, source: &Citation, status: Status) -> String {
    let remark = status.remark().map(|remark| format!("; {remark}")).unwrap_or_default();
    format!("{says} ({}, {}{remark})", source.short, source.place)
}

/// Which way a source points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shows {
    /// Better than the comparison.
    Benefit,
    /// Compared and not better, or not clearly.
    NoBenefit,
    /// A guideline says it should not be offered for this aim.
    AdvisedAgainst,
    /// Seen without a comparison, or indirectly.
    Uncontrolled,
}

impl Shows {
    /// The word in front of a source.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Shows::Benefit => "Benefit",
            Shows::NoBenefit => "No clear benefit",
            Shows::AdvisedAgainst => "Advised against",
            Shows::Uncontrolled => "Without comparison",
        }
    }
}

/// How well an exercise is supported: our own judgement of the sources beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Support {
    /// A guideline or controlled trials support it in the population named beside it.
    A,
    /// Some controlled support.
    B,
    /// Leaflets, experts or consensus only.
    C,
    /// Controlled trials found it no better than a placebo.
    D,
}

impl Support {
    /// What the letter means.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Support::A => "a guideline or controlled trials support it in the people named",
            Support::B => "some controlled support",
            Support::C => "leaflets, experts or consensus only",
            Support::D => "no better than a placebo in controlled trials",
        }
    }
}

/// What may lead to an exercise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lead {
    /// The finding with this key, at this grade or graver.
    Finding(&'static str, Grade),
    /// The sum of the four symptoms rose by so much with this task.
    Rise(&'static str, i32),
    /// This pattern was read.
    Pattern(&'static str),
    /// This sign was seen.
    Sign(What),
    /// The person came for this reason.
    Reason(&'static str),
}

/// What takes an exercise out of a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bar {
    /// A caution of the visit's frame. Not asked is not "none": then it is left out too, until somebody asks.
    Caution(&'static str, &'static str),
    /// One of these signs was seen.
    Signs(&'static [What], &'static str),
    /// Younger than so many years, or of unknown age.
    Younger(u8, &'static str),
}

/// Keys of the catalogue.
#[derive(Debug)]
pub struct Family {
    /// Its name.
    pub title: &'static str,
    /// What it is for, with an honest word on how sure that is.
    pub why: &'static str,
    /// What is needed.
    pub need: &'static str,
    /// The steps in order.
    pub steps: &'static [&'static str],
    /// The easier step.
    pub easier: &'static str,
    /// When to stop this one.
    pub stop: &'static str,
}

impl Family {
    /// All keys in reading order.
    pub fn keys(&self) -> impl Iterator<Item = &'static str> + '_ {
        let before = [self.title, self.why, self.need];
        before.into_iter().chain(self.steps.iter().copied()).chain([self.easier, self.stop])
    }
}

/// The keys of an exercise: `family!("id", "step1", "step2")`.
macro_rules! family {
    ($id:literal, $($step:literal),+ $(,)?) => {
        crate::exercise::Family {
            title: concat!("exercise.", $id, ".title"),
            why: concat!("exercise.", $id, ".why"),
            need: concat!("exercise.", $id, ".need"),
            steps: &[$(concat!("exercise.", $id, ".", $step)),+],
            easier: concat!("exercise.", $id, ".easier"),
            stop: concat!("exercise.", $id, ".stop"),
        }
    };
}

macro_rules! exercises {
    ($($name:ident),+ $(,)?) => {
        $(mod $name;)+
        /// Every exercise, in the order it is offered.
        pub static ALL: &[&Exercise] = &[$(&$name::EXERCISE),+];
    };
}

exercises! {
    near_point_practice,
    bead_string,
    near_far_jumps,
    slow_following,
    two_target_jumps,
    eyes_then_head,
    head_turn_seated,
    head_turn_standing,
    whole_body_turn,
    stance_steps,
    heel_to_toe_walk,
    familiar_movements,
    busy_scenes,
    steady_walk,
}

/// An exercise by its id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Exercise> {
    ALL.iter().copied().find(|exercise| exercise.id == id)
}

/// An exercise by its number in a sheet.
#[must_use]
pub fn by_number(number: u8) -> Option<&'static Exercise> {
    ALL.iter().copied().find(|exercise| exercise.number == number)
}
