//! A target that jumps between two places, at a fixed pace or at times no one can foresee.

use super::{Cue, Parameter, Part, Scene, What, direction, reach, seconds};
use crate::quantity::{Degrees, Quantity};
use crate::stimulus::draw;
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

static HALF_WIDTH: Quantity =
    Quantity { name: "way from the middle to each place", unit: "°", min: 1.0, max: 30.0, step: 0.5, decimals: 1 };
/// Every one to two seconds is usual (from memory); as fast as possible is the examiner's own pace, not a screen's.
static EVERY: Quantity =
    Quantity { name: "seconds between jumps", unit: "s", min: 0.5, max: 5.0, step: 0.1, decimals: 1 };
static COUNT: Quantity = Quantity { name: "number of jumps", unit: "", min: 2.0, max: 60.0, step: 1.0, decimals: 0 };

/// Milliseconds between jumps that no one can foresee: 0.8 to 2.5 s (from memory).
const UNFORESEEN: (u32, u32) = (800, 2500);

/// A target that jumps between two places.
#[derive(Debug, Clone, PartialEq)]
pub struct Jumps {
    /// Side to side, or up and down.
    pub axis: Axis,
    /// How far each place is from the middle.
    pub half_width: Degrees,
    /// When.
    pub timing: Timing,
    /// How many jumps, the first appearance not counted.
    pub count: u32,
    /// What jumps.
    pub target: Target,
}

/// When a target jumps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Timing {
    /// Every so many seconds.
    Fixed(f64),
    /// After intervals drawn from this seed.
    Unforeseen(u64),
}

impl Jumps {
    /// The side the target stands on after so many jumps: it appears on the right, or above.
    #[must_use]
    pub fn side_after(&self, jumps: u32) -> bool {
        jumps.is_multiple_of(2)
    }

    /// How long the target stays after so many jumps, in whole milliseconds.
    fn stay(&self, jumps: u32) -> u32 {
        match self.timing {
            Timing::Fixed(every) => (1000.0 * every).round() as u32,
            Timing::Unforeseen(seed) => draw::milliseconds(seed, jumps, UNFORESEEN.0, UNFORESEEN.1),
        }
    }

    /// The shortest stay there can be, in seconds.
    pub(in crate::stimulus) fn shortest(&self) -> f64 {
        match self.timing {
            Timing::Fixed(every) => every,
            Timing::Unforeseen(_) => seconds(UNFORESEEN.0),
        }
    }

    /// When the target takes each place, in milliseconds, and last of all when it goes.
    fn times(&self) -> impl Iterator<Item = u32> + '_ {
        let mut next = 0;
        (0..=self.count + 1).map(move |jumps| {
            let now = next;
            next += self.stay(jumps);
            now
        })
    }
}

impl Part for Jumps {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        let mut all =
            vec![Parameter::Real(&HALF_WIDTH, &mut self.half_width.0), Parameter::Count(&COUNT, &mut self.count)];
        if let Timing::Fixed(every) = &mut self.timing {
            all.push(Parameter::Real(&EVERY, every));
        }
        all
    }

    fn seconds(&self) -> f64 {
        seconds(self.times().last().unwrap_or_default())
    }

    fn at(&self, at: f64) -> Scene {
        let jumps = self.times().skip(1).take_while(|time| seconds(*time) <= at).count() as u32;
        let far = if self.side_after(jumps) { self.half_width.0 } else { -self.half_width.0 };
        Scene::Target(At::along(self.axis, far))
    }

    fn cues(&self) -> Vec<Cue> {
        let appears = |(jumps, time)| Cue {
            seconds: seconds(time),
            what: What::Target(direction(self.axis, self.side_after(jumps))),
        };
        (0..=self.count).zip(self.times()).map(appears).collect()
    }

    fn extent(&self, axis: Axis) -> f64 {
        reach(self.axis, self.half_width.0, &self.target, axis)
    }
}
