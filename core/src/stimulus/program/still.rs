//! A target that stays where it is, for holding gaze straight ahead or to one side.

use super::{Parameter, Part, Scene, reach};
use crate::quantity::Quantity;
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

static RIGHT: Quantity =
    Quantity { name: "place to the right of the middle", unit: "°", min: -30.0, max: 30.0, step: 1.0, decimals: 1 };
static UP: Quantity =
    Quantity { name: "place above the middle", unit: "°", min: -30.0, max: 30.0, step: 1.0, decimals: 1 };
static SECONDS: Quantity =
    Quantity { name: "length of the run", unit: "s", min: 3.0, max: 120.0, step: 1.0, decimals: 0 };

/// A target that stays where it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Still {
    /// Where.
    pub place: At,
    /// How long.
    pub seconds: f64,
    /// What is looked at.
    pub target: Target,
}

impl Still {
    /// How much more room along each axis a flat screen needs off both of them than the part along it says: up to tan 30°
    /// over 30° in radians, 1.103, as far out as a place may be.
    pub(in crate::stimulus) fn aslant(&self) -> f64 {
        if self.place.right == 0.0 || self.place.up == 0.0 { 1.0 } else { 1.11 }
    }
}

impl Part for Still {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        vec![
            Parameter::Real(&RIGHT, &mut self.place.right),
            Parameter::Real(&UP, &mut self.place.up),
            Parameter::Real(&SECONDS, &mut self.seconds),
        ]
    }

    fn seconds(&self) -> f64 {
        self.seconds
    }

    fn at(&self, _: f64) -> Scene {
        Scene::Target(self.place)
    }

    fn extent(&self, axis: Axis) -> f64 {
        let out = match axis {
            Axis::Horizontal => self.place.right,
            Axis::Vertical => self.place.up,
        };
        reach(axis, self.aslant() * out.abs(), &self.target, axis)
    }
}
