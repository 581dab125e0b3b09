//! A target that is followed: there and back along a line, or round a circle, at constant speed or as a pendulum swings.

use std::f64::consts::TAU;

use super::{Parameter, Part, Scene, reach};
use crate::quantity::{Degrees, Quantity};
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

/// The largest screen in use shows about 24° to each side (12.9 inch tablet at 30 cm).
static HALF_WIDTH: Quantity =
    Quantity { name: "way from the middle", unit: "°", min: 1.0, max: 30.0, step: 0.5, decimals: 1 };
/// At most 40° a second at the bedside (clinical teaching on smooth pursuit, peltzpt.com/smooth-pursuit).
static SPEED: Quantity =
    Quantity { name: "speed", unit: "°/s", min: 2.0, max: Following::FASTEST, step: 1.0, decimals: 1 };
/// 0.2 to 2 a second were studied (Acta Otolaryngol 1988, doi.org/10.3109/00016488809119441); the bounds stay below the
/// quickest and leave room for slower ones.
static SWINGS: Quantity = Quantity {
    name: "swings there and back in a second",
    unit: "",
    min: 0.02,
    max: Following::MOST_SWINGS,
    step: 0.05,
    decimals: 2,
};
static SECONDS: Quantity =
    Quantity { name: "length of the run", unit: "s", min: 3.0, max: 60.0, step: 1.0, decimals: 0 };

/// A target that is followed.
#[derive(Debug, Clone, PartialEq)]
pub struct Following {
    /// Its path.
    pub path: Path,
    /// Its pace.
    pub pace: Pace,
    /// How far it goes from the middle to each side; the radius of a circle.
    pub half_width: Degrees,
    /// How long.
    pub seconds: f64,
    /// What is followed.
    pub target: Target,
}

/// The path of a target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Path {
    /// From the middle to the right first, and back.
    Horizontal,
    /// From the middle up first, and back.
    Vertical,
    /// Round the middle from the top, as a clock goes for the person who looks.
    Clockwise,
    /// Round the middle from the top, against the clock.
    Anticlockwise,
}

/// The pace of a target.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pace {
    /// So many degrees a second, all the way.
    Constant(f64),
    /// So many swings there and back, or rounds, a second: fastest in the middle, slow at the turns.
    Swings(f64),
}

impl Path {
    /// The line it goes along; none for a circle.
    #[must_use]
    pub fn line(self) -> Option<Axis> {
        match self {
            Path::Horizontal => Some(Axis::Horizontal),
            Path::Vertical => Some(Axis::Vertical),
            Path::Clockwise | Path::Anticlockwise => None,
        }
    }
}

impl Following {
    /// The highest speed, in degrees a second.
    pub const FASTEST: f64 = 40.0;
    /// The most swings there and back, or rounds, in a second.
    pub const MOST_SWINGS: f64 = 1.0;

    /// Swings there and back, or rounds, in a second.
    #[must_use]
    pub fn swings(&self) -> f64 {
        match (self.pace, self.path.line()) {
            (Pace::Swings(swings), _) => swings,
            (Pace::Constant(speed), Some(_)) => speed / (4.0 * self.half_width.0),
            (Pace::Constant(speed), None) => speed / self.round(),
        }
    }

    /// The highest speed, in degrees a second: 2π f A for a pendulum, the same everywhere for the others.
    #[must_use]
    pub fn peak_speed(&self) -> f64 {
        match (self.pace, self.path.line()) {
            (Pace::Constant(speed), _) => speed,
            (Pace::Swings(swings), Some(_)) => TAU * swings * self.half_width.0,
            (Pace::Swings(swings), None) => swings * self.round(),
        }
    }

    /// Where the target is so many seconds after it began to move.
    #[must_use]
    pub fn place(&self, seconds: f64) -> At {
        let turned = (self.swings() * seconds).rem_euclid(1.0);
        let far = self.half_width.0;
        match (self.path, self.path.line()) {
            (_, Some(axis)) => At::along(axis, far * self.along(turned)),
            (Path::Anticlockwise, None) => At { right: -far * (TAU * turned).sin(), up: far * (TAU * turned).cos() },
            (Path::Horizontal | Path::Vertical | Path::Clockwise, None) => {
                At { right: far * (TAU * turned).sin(), up: far * (TAU * turned).cos() }
            }
        }
    }

    /// The same with the pace so much slower or faster.
    #[must_use]
    pub(in crate::stimulus) fn paced(self, times: f64) -> Following {
        let pace = match self.pace {
            Pace::Constant(speed) => Pace::Constant(speed * times),
            Pace::Swings(swings) => Pace::Swings(swings * times),
        };
        Following { pace, ..self }
    }

    /// Where on its line it is, from -1 to 1, after this part of a swing.
    fn along(&self, turned: f64) -> f64 {
        match self.pace {
            Pace::Swings(_) => (TAU * turned).sin(),
            Pace::Constant(_) if turned < 0.25 => 4.0 * turned,
            Pace::Constant(_) if turned < 0.75 => 2.0 - 4.0 * turned,
            Pace::Constant(_) => 4.0 * turned - 4.0,
        }
    }

    /// The length of one round in degrees: the line of sight goes round a cone, whose rim is 360° sin(radius) long.
    fn round(&self) -> f64 {
        360.0 * self.half_width.0.to_radians().sin()
    }
}

impl Part for Following {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        let pace = match &mut self.pace {
            Pace::Constant(speed) => Parameter::Real(&SPEED, speed),
            Pace::Swings(swings) => Parameter::Real(&SWINGS, swings),
        };
        vec![Parameter::Real(&HALF_WIDTH, &mut self.half_width.0), pace, Parameter::Real(&SECONDS, &mut self.seconds)]
    }

    fn follows(&self) -> Vec<(&'static Quantity, f64)> {
        match self.pace {
            Pace::Constant(_) => vec![(&SWINGS, self.swings())],
            Pace::Swings(_) => vec![(&SPEED, self.peak_speed())],
        }
    }

    fn seconds(&self) -> f64 {
        self.seconds
    }

    fn at(&self, seconds: f64) -> Scene {
        Scene::Target(self.place(seconds))
    }

    fn extent(&self, axis: Axis) -> f64 {
        reach(self.path.line().unwrap_or(axis), self.half_width.0, &self.target, axis)
    }
}
