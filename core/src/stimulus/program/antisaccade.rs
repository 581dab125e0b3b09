//! A target to look away from: a mark in the middle, then, at once or after a gap, a target on one side.

use super::{Cue, Parameter, Part, Scene, What, direction, reach, seconds};
use crate::quantity::{Degrees, Quantity};
use crate::stimulus::draw;
use crate::stimulus::screen::{At, Axis};
use crate::stimulus::target::Target;

/// 5 to 10° are in use (pmc.ncbi.nlm.nih.gov/articles/PMC6174870), 1 to 12° were studied (“On the generation of
/// antisaccades in different conditions”, abstract).
static HALF_WIDTH: Quantity =
    Quantity { name: "way from the middle to the target", unit: "°", min: 4.0, max: 15.0, step: 0.5, decimals: 1 };
/// 0 to 350 ms were studied (pmc.ncbi.nlm.nih.gov/articles/PMC6645714); one of 200 ms adds a tenth of errors and takes
/// 30 ms off (“On the generation of antisaccades in different conditions”, abstract).
static GAP: Quantity =
    Quantity { name: "gap before the target", unit: "s", min: 0.0, max: 0.35, step: 0.05, decimals: 2 };
static TRIALS: Quantity = Quantity { name: "number of trials", unit: "", min: 4.0, max: 60.0, step: 2.0, decimals: 0 };

/// Milliseconds of looking at the middle, drawn (1,000 to 2,000, pmc.ncbi.nlm.nih.gov/articles/PMC4382315).
const FOREPERIOD: (u32, u32) = (1000, 2000);
/// Milliseconds the target stands (one second in the international protocol, Antoniades et al. 2013,
/// doi.org/10.1016/j.visres.2013.02.007; from memory).
const STANDS: u32 = 1000;
/// Milliseconds of bare ground after it, for the eyes to come back (design choice).
const REST: u32 = 1000;

/// A target to look away from. All trials are of this kind: mixed with looks toward it, errors double (22 against 42 %,
/// pmc.ncbi.nlm.nih.gov/articles/PMC5319747).
///
/// A block of ten takes about 35 s. The guard's 20 s are for moving stripes, which fill the view and pass each place up to
/// two and a half times a second; here still pictures follow each other, with one flash a second at most at a place, of a
/// target far below the area that counts, and the middle is rested on before each. Published blocks are longer (40
/// trials, same protocol; from memory), so a shorter one would only say less.
#[derive(Debug, Clone, PartialEq)]
pub struct Antisaccade {
    /// How far the target is from the middle.
    pub half_width: Degrees,
    /// Seconds of bare ground before the target; 0 for none.
    pub gap: f64,
    /// How many trials, half of them to each side.
    pub trials: u32,
    /// What the order of sides and the waits are drawn from.
    pub seed: u64,
    /// What is looked away from.
    pub target: Target,
}

/// One trial, in milliseconds from the start.
struct Trial {
    right: bool,
    gap: u32,
    target: u32,
    rest: u32,
    end: u32,
}

impl Antisaccade {
    fn schedule(&self) -> Vec<Trial> {
        let gap_lasts = (1000.0 * self.gap).round() as u32;
        let mut begins = 0;
        let sides = draw::balanced(self.seed, self.trials);
        let trial = |(at, right)| {
            // The order took the first numbers of the sequence.
            let gap = begins + draw::milliseconds(self.seed, self.trials + at, FOREPERIOD.0, FOREPERIOD.1);
            let target = gap + gap_lasts;
            let rest = target + STANDS;
            let end = rest + REST;
            begins = end;
            Trial { right, gap, target, rest, end }
        };
        (0..).zip(sides).map(trial).collect()
    }
}

impl Part for Antisaccade {
    fn parameters(&mut self) -> Vec<Parameter<'_>> {
        vec![
            Parameter::Real(&HALF_WIDTH, &mut self.half_width.0),
            Parameter::Real(&GAP, &mut self.gap),
            Parameter::Count(&TRIALS, &mut self.trials),
        ]
    }

    fn seconds(&self) -> f64 {
        self.schedule().last().map_or(0.0, |trial| seconds(trial.end))
    }

    fn at(&self, at: f64) -> Scene {
        let schedule = self.schedule();
        let Some(trial) = schedule.iter().find(|trial| at < seconds(trial.end)) else { return Scene::Ground };
        if at < seconds(trial.gap) {
            return Scene::Fixation;
        }
        if at < seconds(trial.target) || at >= seconds(trial.rest) {
            return Scene::Ground;
        }
        let far = if trial.right { self.half_width.0 } else { -self.half_width.0 };
        Scene::Target(At::along(Axis::Horizontal, far))
    }

    fn cues(&self) -> Vec<Cue> {
        let cues = |trial: &Trial| {
            let target = What::Target(direction(Axis::Horizontal, trial.right));
            [
                Cue { seconds: seconds(trial.target), what: target },
                Cue { seconds: seconds(trial.rest), what: What::Rest },
            ]
        };
        self.schedule().iter().flat_map(cues).collect()
    }

    fn extent(&self, axis: Axis) -> f64 {
        reach(Axis::Horizontal, self.half_width.0, &self.target, axis)
    }
}
