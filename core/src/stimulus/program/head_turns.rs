//! Head turns to a beat, the eyes on a target that stays where it is; a small mark swings with the beat and never flashes.

use super::{Cue, Parameter, Part, Scene, What, reach};
use crate::quantity::Quantity;
use crate::stimulus::beat::Beat;
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

/// Twenty beats are ten turns there and back; the bounds leave room.
static BEATS: Quantity = Quantity { name: "number of beats", unit: "", min: 4.0, max: 400.0, step: 2.0, decimals: 0 };

/// Head turns to a beat.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadTurns {
    /// The beat, one turn to a side at each.
    pub beat: Beat,
    /// How many.
    pub beats: u32,
    /// What is looked at.
    pub target: Target,
}

impl HeadTurns {
    /// Size of the mark across, in degrees (design choice).
    pub const MARK: f64 = 0.5;
    /// How far the mark swings to each side, in degrees (design choice).
    pub const SWING: f64 = 1.0;
    /// How far below the middle it swings, in degrees: clear of the largest target (design choice).
    pub const BELOW: f64 = 2.0;

    /// Where the mark is at this part of its swing, from -1 to 1.
    #[must_use]
    pub fn mark(swing: f64) -> At {
        At { right: HeadTurns::SWING * swing, up: -HeadTurns::BELOW }
    }
}

impl Part for HeadTurns {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        vec![Parameter::Count(&BEATS, &mut self.beats)]
    }

    fn seconds(&self) -> f64 {
        self.beat.seconds(self.beats + 1)
    }

    fn at(&self, seconds: f64) -> Scene {
        Scene::Beat { swing: self.beat.swing(seconds) }
    }

    fn cues(&self) -> Vec<Cue> {
        (1..=self.beats).map(|n| Cue { seconds: self.beat.seconds(n), what: What::Beat }).collect()
    }

    fn extent(&self, axis: Axis) -> f64 {
        let mark = HeadTurns::MARK / 2.0;
        let mark = match axis {
            Axis::Horizontal => HeadTurns::SWING + mark,
            Axis::Vertical => HeadTurns::BELOW + mark,
        };
        reach(axis, 0.0, &self.target, axis).max(mark)
    }
}
