//! The programs of the stage: each says what is shown at a time, as a function of that time alone.
//!
//! Nothing is added up from frame to frame, so a late frame shows where the target is by then and no error grows.

mod antisaccade;
mod following;
mod head_turns;
mod jumps;
mod near_far;
mod still;
mod stripes;
#[cfg(test)]
mod tests;

use super::colour::Srgb;
use super::screen::{At, Axis};
use super::target::Target;
use crate::anatomy::Direction;
use crate::quantity::{Quantity, Refused};

pub use antisaccade::Antisaccade;
pub use following::{Following, Pace, Path};
pub use head_turns::HeadTurns;
pub use jumps::{Jumps, Timing};
pub use near_far::NearFar;
pub use still::Still;
pub use stripes::{Shown, Stripes};

/// A program with its parameters. They are free here; [`super::safety::check`] lets through what may be drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Program {
    /// A target that is followed.
    Following(Following),
    /// A target that jumps between two places.
    Jumps(Jumps),
    /// A target to look away from.
    Antisaccade(Antisaccade),
    /// Prompts to look near and far.
    NearFar(NearFar),
    /// Moving stripes.
    Stripes(Stripes),
    /// A target that stays where it is.
    Still(Still),
    /// Head turns to a beat, with a target that stays where it is.
    HeadTurns(HeadTurns),
}

/// Size across of the mark in the middle, in degrees: a bull's eye with a cross held eyes best of seven shapes (Thaler et
/// al. 2013, Vision Research 76:31, sciencedirect.com/science/article/pii/S0042698912003380; 0.6° as open code of
/// laboratories gives it from there).
pub const FIXATION: f64 = 0.6;

/// What the screen shows at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scene {
    /// The ground alone.
    Ground,
    /// The mark to look at, in the middle.
    Fixation,
    /// The target, at a place.
    Target(At),
    /// Stripes.
    Stripes(Shown),
    /// The target in the middle, and beside it a mark that swings from 1 to -1 and back.
    Beat {
        /// Where the mark is.
        swing: f64,
    },
}

/// Something that begins at a time: what is heard or felt, or what a tap of the examiner belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cue {
    /// Seconds from the start.
    pub seconds: f64,
    /// What begins.
    pub what: What,
}

/// What begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// The target stands on this side now.
    Target(Direction),
    /// Look near.
    Near,
    /// Look far.
    Far,
    /// Stripes move this way now.
    Stripes(Direction),
    /// Still ground.
    Rest,
    /// A beat.
    Beat,
}

impl Program {
    /// How long it runs.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.part().seconds()
    }

    /// What is shown so many seconds after the start. Before it the first picture stands still; after the end there is
    /// nothing but ground.
    #[must_use]
    pub fn at(&self, seconds: f64) -> Scene {
        let seconds = seconds.max(0.0);
        if seconds >= self.seconds() { Scene::Ground } else { self.part().at(seconds) }
    }

    /// Everything that begins, in order.
    #[must_use]
    pub fn cues(&self) -> Vec<Cue> {
        self.part().cues()
    }

    /// The target; stripes have none.
    #[must_use]
    pub fn target(&self) -> Option<&Target> {
        match self {
            Program::Following(Following { target, .. })
            | Program::Jumps(Jumps { target, .. })
            | Program::Antisaccade(Antisaccade { target, .. })
            | Program::NearFar(NearFar { target, .. })
            | Program::Still(Still { target, .. })
            | Program::HeadTurns(HeadTurns { target, .. }) => Some(target),
            Program::Stripes(_) => None,
        }
    }

    pub(super) fn target_mut(&mut self) -> Option<&mut Target> {
        match self {
            Program::Following(Following { target, .. })
            | Program::Jumps(Jumps { target, .. })
            | Program::Antisaccade(Antisaccade { target, .. })
            | Program::NearFar(NearFar { target, .. })
            | Program::Still(Still { target, .. })
            | Program::HeadTurns(HeadTurns { target, .. }) => Some(target),
            Program::Stripes(_) => None,
        }
    }

    /// What is drawn on: the ground of the target, or the still grey between stripes.
    #[must_use]
    pub fn ground(&self) -> Srgb {
        match (self, self.target()) {
            (Program::Stripes(stripes), _) => stripes.ground(),
            (_, Some(target)) => target.ground(),
            (_, None) => Srgb::WHITE,
        }
    }

    /// Whether it gives off less light than a grey half way between black and white looks, so that what stands beside it
    /// should be dark too (CIE lightness of 50: a luminance of 0.184, from memory).
    #[must_use]
    pub fn is_dim(&self) -> bool {
        self.ground().luminance() < 0.184
    }

    /// From the middle to the outermost edge of what is drawn along an axis, in degrees. Stripes fill what there is.
    #[must_use]
    pub fn extent(&self, axis: Axis) -> f64 {
        self.part().extent(axis)
    }

    /// Lets the parameters through when each can be.
    ///
    /// # Errors
    /// [`Refused`] with the first that cannot.
    pub fn check(&self) -> Result<(), Refused> {
        let mut copy = self.clone();
        for parameter in copy.part_mut().parameters() {
            match parameter {
                Parameter::Real(quantity, value) => quantity.check(*value)?,
                Parameter::Count(quantity, value) => quantity.check(f64::from(*value))?,
            };
        }
        self.part().follows().iter().try_for_each(|(quantity, value)| quantity.check(*value).map(|_| ()))
    }

    /// The same program with each parameter at the nearest that can be.
    pub(super) fn within_bounds(&self) -> Program {
        let mut copy = self.clone();
        for parameter in copy.part_mut().parameters() {
            match parameter {
                Parameter::Real(quantity, value) if value.is_nan() => *value = quantity.min,
                Parameter::Real(quantity, value) => *value = value.clamp(quantity.min, quantity.max),
                Parameter::Count(quantity, value) => *value = (*value).clamp(quantity.min as u32, quantity.max as u32),
            }
        }
        copy
    }

    fn part(&self) -> &dyn Part {
        match self {
            Program::Following(part) => part,
            Program::Jumps(part) => part,
            Program::Antisaccade(part) => part,
            Program::NearFar(part) => part,
            Program::Stripes(part) => part,
            Program::Still(part) => part,
            Program::HeadTurns(part) => part,
        }
    }

    fn part_mut(&mut self) -> &mut dyn Part {
        match self {
            Program::Following(part) => part,
            Program::Jumps(part) => part,
            Program::Antisaccade(part) => part,
            Program::NearFar(part) => part,
            Program::Stripes(part) => part,
            Program::Still(part) => part,
            Program::HeadTurns(part) => part,
        }
    }
}

/// What each program can say of itself.
trait Part {
    /// Its parameters with their bounds.
    fn parameters(&mut self) -> Vec<Parameter<'_>>;

    /// What follows from its parameters and has bounds as well.
    fn follows(&self) -> Vec<(&'static Quantity, f64)> {
        Vec::new()
    }

    /// How long it runs.
    fn seconds(&self) -> f64;

    /// What is shown, between the start and the end.
    fn at(&self, seconds: f64) -> Scene;

    /// Everything that begins, in order.
    fn cues(&self) -> Vec<Cue> {
        Vec::new()
    }

    /// From the middle to the outermost edge of what is drawn.
    fn extent(&self, axis: Axis) -> f64;
}

/// A parameter with its bounds.
enum Parameter<'a> {
    /// A number.
    Real(&'static Quantity, &'a mut f64),
    /// A whole number.
    Count(&'static Quantity, &'a mut u32),
}

/// From the middle to the edge of a target that goes so far along an axis, for one that goes out along `along`.
fn reach(along: Axis, goes: f64, target: &Target, axis: Axis) -> f64 {
    let radius = target.size().0 / 2.0;
    if along == axis { goes + radius } else { radius }
}

/// The direction to the right or up, or its opposite.
fn direction(along: Axis, positive: bool) -> Direction {
    match (along, positive) {
        (Axis::Horizontal, true) => Direction::Right,
        (Axis::Horizontal, false) => Direction::Left,
        (Axis::Vertical, true) => Direction::Up,
        (Axis::Vertical, false) => Direction::Down,
    }
}

/// Whole milliseconds as seconds.
fn seconds(milliseconds: u32) -> f64 {
    f64::from(milliseconds) / 1000.0
}
