//! Prompts to look near and far in turn: the screen is the near target, the far one is in the room, and a sound says when.

use super::{Cue, Parameter, Part, Scene, What, reach};
use crate::quantity::Quantity;
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

/// Two to five seconds give time to see clearly before the next (common practice); the bounds leave room.
static EVERY: Quantity =
    Quantity { name: "seconds between prompts", unit: "s", min: 1.0, max: 10.0, step: 0.5, decimals: 1 };
static COUNT: Quantity = Quantity { name: "number of prompts", unit: "", min: 2.0, max: 60.0, step: 2.0, decimals: 0 };

/// Prompts to look near and far in turn, near first.
#[derive(Debug, Clone, PartialEq)]
pub struct NearFar {
    /// Seconds from one prompt to the next.
    pub every: f64,
    /// How many prompts.
    pub count: u32,
    /// The near target.
    pub target: Target,
}

impl Part for NearFar {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        vec![Parameter::Real(&EVERY, &mut self.every), Parameter::Count(&COUNT, &mut self.count)]
    }

    fn seconds(&self) -> f64 {
        self.every * f64::from(self.count)
    }

    fn at(&self, _: f64) -> Scene {
        Scene::Target(At::MIDDLE)
    }

    fn cues(&self) -> Vec<Cue> {
        let what = |prompt: u32| if prompt.is_multiple_of(2) { What::Near } else { What::Far };
        (0..self.count).map(|prompt| Cue { seconds: self.every * f64::from(prompt), what: what(prompt) }).collect()
    }

    fn extent(&self, axis: Axis) -> f64 {
        reach(axis, 0.0, &self.target, axis)
    }
}
