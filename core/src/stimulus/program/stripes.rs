//! Moving stripes: one direction after another, each faded in from still grey and out to it, with a rest between.
//!
//! On a phone they are followed one by one; that is not the response to a whole moving field, and no word says so.

use super::{Cue, Parameter, Part, Scene, What};
use crate::anatomy::Direction;
use crate::quantity::{Degrees, Quantity};
use crate::stimulus::colour::Srgb;
use crate::stimulus::screen::Axis;

/// 10 to 30° a second suit a small screen; above them its stripes would have to be wider than it is (see the guard).
static SPEED: Quantity =
    Quantity { name: "speed of the stripes", unit: "°/s", min: 5.0, max: 30.0, step: 1.0, decimals: 1 };
/// A light and a dark stripe together.
static PERIOD: Quantity = Quantity {
    name: "width of a light and a dark stripe together",
    unit: "°",
    min: 1.0,
    max: 60.0,
    step: 0.1,
    decimals: 1,
};
/// Ten seconds each way are in use (rotary chair suite, pmc.ncbi.nlm.nih.gov/articles/PMC8513422), and twenty (vertical
/// stripes, iovs.arvojournals.org/article.aspx?articleid=2124240); how long is too long is the guard's to say.
static SECONDS: Quantity =
    Quantity { name: "seconds in each direction", unit: "s", min: 5.0, max: 60.0, step: 1.0, decimals: 0 };
/// Three seconds of rest in the first of these, ten in the second.
static REST: Quantity =
    Quantity { name: "seconds of rest between", unit: "s", min: 3.0, max: 60.0, step: 1.0, decimals: 0 };
static TURNS: Quantity =
    Quantity { name: "number of directions", unit: "", min: 1.0, max: 8.0, step: 1.0, decimals: 0 };

/// Moving stripes.
#[derive(Debug, Clone, PartialEq)]
pub struct Stripes {
    /// The directions they move in, one after another.
    pub toward: Vec<Direction>,
    /// Their speed, in degrees a second.
    pub speed: f64,
    /// The width of a light and a dark stripe together.
    pub period: Degrees,
    /// The light stripes.
    pub light: Srgb,
    /// The dark stripes.
    pub dark: Srgb,
    /// Seconds in each direction.
    pub seconds: f64,
    /// Seconds of still grey between two directions.
    pub rest: f64,
}

/// Stripes as they stand at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// The direction they move in.
    pub toward: Direction,
    /// The part of a period they have moved on, from 0 up to, without, 1.
    pub phase: f64,
    /// From 0, still grey, to 1, in full.
    pub strength: f64,
}

impl Stripes {
    /// Light with black at a luminance difference of 0.0999: no general flash at any speed (WCAG 2.2, SC 2.3.1), and full
    /// contrast for the eyes.
    pub const DIM: (Srgb, Srgb) = (Srgb::grey(0x59), Srgb::BLACK);

    /// Seconds of fading in and out (design choice).
    pub const FADE: f64 = 0.5;

    /// Light and dark turns at one place of the screen in a second: speed over period.
    #[must_use]
    pub fn flashes_a_second(&self) -> f64 {
        self.speed / self.period.0
    }

    /// The most seconds that they move, all directions together, until there is a rest of this length.
    #[must_use]
    pub fn without_rest(&self, whole: f64) -> f64 {
        let directions = if self.rest < whole { self.toward.len() } else { self.toward.len().min(1) };
        directions as f64 * self.seconds
    }

    /// The still grey before, between and after.
    #[must_use]
    pub fn ground(&self) -> Srgb {
        self.light.grey_between(self.dark)
    }

    /// Whether it is a light stripe that stands so many degrees from the middle, to the right or up.
    #[must_use]
    pub fn is_light(&self, shown: &Shown, degrees: f64) -> bool {
        (sign(shown.toward) * degrees / self.period.0 - shown.phase).rem_euclid(1.0) < 0.5
    }

    /// From where to where each light stripe stands between the edges of a field, in degrees to the right or up.
    #[must_use]
    pub fn light_stripes(&self, shown: &Shown, half_field: Degrees) -> Vec<(f64, f64)> {
        let (period, edge) = (self.period.0, half_field.0);
        let sign = sign(shown.toward);
        let first = (-edge / period - shown.phase - 0.5).floor() as i64;
        let last = (edge / period - shown.phase).ceil() as i64;
        let mut stripes: Vec<(f64, f64)> = (first..=last)
            .map(|n| {
                let from = (n as f64 + shown.phase) * period;
                let ends = (sign * from, sign * (from + period / 2.0));
                (ends.0.min(ends.1).max(-edge), ends.0.max(ends.1).min(edge))
            })
            .filter(|(from, to)| from < to)
            .collect();
        stripes.sort_by(|one, other| one.0.total_cmp(&other.0));
        stripes
    }

    /// When each direction begins.
    fn starts(&self) -> impl Iterator<Item = (Direction, f64)> + '_ {
        (0_u32..).zip(&self.toward).map(|(n, toward)| (*toward, f64::from(n) * (self.seconds + self.rest)))
    }
}

fn sign(toward: Direction) -> f64 {
    match toward {
        Direction::Right | Direction::Up => 1.0,
        Direction::Left | Direction::Down => -1.0,
    }
}

impl Part for Stripes {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        vec![
            Parameter::Real(&SPEED, &mut self.speed),
            Parameter::Real(&PERIOD, &mut self.period.0),
            Parameter::Real(&SECONDS, &mut self.seconds),
            Parameter::Real(&REST, &mut self.rest),
        ]
    }

    fn follows(&self) -> Vec<(&'static Quantity, f64)> {
        vec![(&TURNS, self.toward.len() as f64)]
    }

    fn seconds(&self) -> f64 {
        let turns = self.toward.len() as f64;
        turns * (self.seconds + self.rest) - self.rest.min(turns * self.rest)
    }

    fn at(&self, seconds: f64) -> Scene {
        let Some((toward, since)) =
            self.starts().map(|(toward, at)| (toward, seconds - at)).take_while(|(_, since)| *since >= 0.0).last()
        else {
            return Scene::Ground;
        };
        let strength = (since.min(self.seconds - since) / Stripes::FADE).clamp(0.0, 1.0);
        if strength == 0.0 {
            return Scene::Ground;
        }
        Scene::Stripes(Shown { toward, phase: (self.flashes_a_second() * since).rem_euclid(1.0), strength })
    }

    fn cues(&self) -> Vec<Cue> {
        let cues = |(toward, at)| {
            [Cue { seconds: at, what: What::Stripes(toward) }, Cue { seconds: at + self.seconds, what: What::Rest }]
        };
        self.starts().flat_map(cues).collect()
    }

    fn extent(&self, _: Axis) -> f64 {
        0.0
    }
}
