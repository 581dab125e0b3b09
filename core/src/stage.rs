//! What each task can show on a screen: its program with a few settings to choose, what the person is told, what is asked
//! before, and how a run ends.

pub mod asked;
mod build;
pub mod ended;
mod kept;
mod offers;
#[cfg(test)]
mod tests;

use crate::anatomy::Direction;
use crate::capture::form::Choice;
use crate::drawing::face::Face;
use crate::stimulus::program::Program;
use crate::stimulus::safety::WHOLE_REST;
use crate::stimulus::screen::{Axis, Screen};

pub use offers::ALL;

/// Seconds of rest before the next run can begin, after stripes and after anything else (design choice).
const REST: (u32, u32) = (WHOLE_REST as u32, 3);

/// What one task can show.
#[derive(Debug)]
pub struct Offer {
    /// The task's id.
    pub task: &'static str,
    /// What is shown, as a title.
    pub title: &'static str,
    /// What can be chosen; the first of each is the default.
    pub dials: &'static [Dial],
    /// The field of the task's form that is tapped meanwhile; none when it is filled in afterwards.
    pub taps: Option<&'static str>,
    /// Whether it goes from side to side, so that a screen on its side shows more.
    pub goes_sideways: bool,
    /// What is to be known before it is shown without a visit; empty for nothing.
    pub care: &'static str,
    /// What a screen cannot be instead; empty for nothing.
    pub limits: &'static str,
    build: fn(&Wanted, Option<&Screen>, u64) -> Program,
    tells: fn(&Wanted) -> String,
}

/// One setting with what can be chosen.
#[derive(Debug, PartialEq)]
pub struct Dial {
    /// Stable key.
    pub key: &'static str,
    /// What it is.
    pub ask: &'static str,
    /// What can be chosen.
    pub options: &'static [Choice],
}

/// An offer is known by its task.
impl PartialEq for Offer {
    fn eq(&self, other: &Offer) -> bool {
        self.task == other.task
    }
}

/// What was chosen of an offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// The offer.
    pub offer: &'static Offer,
    chosen: Vec<&'static str>,
}

/// What a task can show; none for most.
#[must_use]
pub fn of_task(id: &str) -> Option<&'static Offer> {
    ALL.iter().copied().find(|offer| offer.task == id)
}

impl Wanted {
    /// The offer as it is usual.
    #[must_use]
    pub fn usual(offer: &'static Offer) -> Wanted {
        let first = |dial: &Dial| dial.options.first().map_or("", |option| option.id);
        Wanted { offer, chosen: offer.dials.iter().map(first).collect() }
    }

    /// What is chosen of a setting; empty when the offer has no such setting.
    #[must_use]
    pub fn of(&self, key: &str) -> &'static str {
        let dials = self.offer.dials.iter().zip(&self.chosen);
        dials.into_iter().find(|(dial, _)| dial.key == key).map_or("", |(_, chosen)| chosen)
    }

    /// The same with another choice; what the setting does not offer changes nothing.
    #[must_use]
    pub fn with(mut self, key: &str, id: &str) -> Wanted {
        for (dial, chosen) in self.offer.dials.iter().zip(&mut self.chosen) {
            if let Some(option) = dial.options.iter().find(|option| dial.key == key && option.id == id) {
                *chosen = option.id;
            }
        }
        self
    }

    /// The program for this screen. What is left to chance is drawn from the seed.
    #[must_use]
    pub fn program(&self, screen: &Screen, seed: u64) -> Program {
        (self.offer.build)(self, Some(screen), seed)
    }

    /// The program as another device would show it, whose screen is not known here.
    #[must_use]
    pub fn program_elsewhere(&self, seed: u64) -> Program {
        (self.offer.build)(self, None, seed)
    }

    /// Whether it goes as far as the screen shows, so that no width is known of another device's.
    #[must_use]
    pub fn as_far_as_fits(&self) -> bool {
        self.of(build::FAR) == build::FITS
    }

    /// The beat that is heard with this program: beats a minute and how many; none for silence.
    #[must_use]
    pub fn beat(program: &Program) -> Option<(f64, u32)> {
        match program {
            Program::NearFar(near_far) => Some((60.0 / near_far.every, near_far.count)),
            Program::HeadTurns(turns) => Some((turns.beat.per_minute(), turns.beats)),
            Program::Following(_)
            | Program::Jumps(_)
            | Program::Antisaccade(_)
            | Program::Stripes(_)
            | Program::Still(_) => None,
        }
    }

    /// The directions that a run tells of, for a table of grades; and the column they stand in.
    #[must_use]
    pub fn graded(program: &Program) -> Option<(&'static str, [Direction; 2])> {
        let column = build::speed_column(program)?;
        let Program::Following(following) = program else { return None };
        match following.path.line()? {
            Axis::Horizontal => Some((column, [Direction::Right, Direction::Left])),
            Axis::Vertical => Some((column, [Direction::Up, Direction::Down])),
        }
    }

    /// The face that is looked at; none for a letter, a dot and stripes.
    #[must_use]
    pub fn face(&self) -> Option<&'static Face> {
        Face::by_id(self.of(build::TARGET))
    }

    /// What is looked at, in a sentence to the person.
    fn target(&self) -> &'static str {
        match self.of(build::TARGET) {
            "child" => "face",
            target => target,
        }
    }

    /// Whether something moves.
    #[must_use]
    pub fn moves(&self) -> bool {
        !matches!(self.offer.task, "resting_gaze" | "vergence")
    }

    /// What the person is told, to be read out.
    #[must_use]
    pub fn tells(&self) -> String {
        (self.offer.tells)(self)
    }

    /// What the person is told, as it is kept: the id of the choice where there is one, the words elsewhere.
    #[must_use]
    pub fn told(&self) -> String {
        match self.of(build::TOLD) {
            "" => self.tells(),
            id => id.to_string(),
        }
    }

    /// Seconds of rest after it.
    #[must_use]
    pub fn rest(&self) -> u32 {
        if self.offer.task == "optokinetic" { REST.0 } else { REST.1 }
    }
}

#[cfg(test)]
pub(crate) fn all_choices(offer: &'static Offer) -> Vec<Wanted> {
    let mut all = vec![Wanted::usual(offer)];
    for dial in offer.dials {
        let with =
            |wanted: &Wanted| dial.options.iter().map(|o| wanted.clone().with(dial.key, o.id)).collect::<Vec<_>>();
        all = all.iter().flat_map(with).collect();
    }
    all
}
