//! What was shown on a screen during a task: the program with its settings, for how long, and what the display made of it.
//!
//! Kept as plain keys and values, so that a program of a newer version survives on an older phone.

mod settings;
mod told;
mod words;

#[cfg(test)]
mod tests;

use super::unread::Unread;
use crate::calendar::Moment;
use crate::quantity::{Centimetres, Degrees, Millimetres};
use crate::stimulus::program::Program;
use crate::stimulus::run::{Frames, Run};
use crate::stimulus::safety::Safe;
use crate::stimulus::screen::{Axis, Px, Scale, Screen, position};

pub use told::Told;
pub use words::{NOT_FULL_FIELD, ON_A_SCREEN, is_plain, method, named, remarks, says, way, what};

/// Most showings one record keeps: an hour of the shortest ones.
pub const MOST: usize = 200;

/// Ids of the programs.
pub mod program {
    /// A target that is followed.
    pub const FOLLOWING: &str = "following";
    /// A target that jumps between two places.
    pub const JUMPS: &str = "jumps";
    /// A target to look away from.
    pub const ANTISACCADE: &str = "antisaccade";
    /// Prompts to look near and far.
    pub const NEAR_FAR: &str = "near_far";
    /// Moving stripes.
    pub const STRIPES: &str = "stripes";
    /// A target that stays where it is.
    pub const STILL: &str = "still";
    /// Head turns to a beat.
    pub const HEAD_TURNS: &str = "head_turns";

    /// All of them.
    pub const ALL: [&str; 7] = [FOLLOWING, JUMPS, ANTISACCADE, NEAR_FAR, STRIPES, STILL, HEAD_TURNS];
}

/// Keys of the settings.
pub mod key {
    /// Degrees a second, all the way.
    pub const SPEED: &str = "speed";
    /// Degrees a second where it is fastest.
    pub const PEAK_SPEED: &str = "peak_speed";
    /// Swings there and back, or rounds, in a second.
    pub const SWINGS: &str = "swings";
    /// How the target goes.
    pub const PATH: &str = "path";
    /// Degrees from the middle to each side.
    pub const EACH_WAY: &str = "each_way";
    /// The directions stripes move in, one after another.
    pub const TOWARD: &str = "toward";
    /// Degrees of one stripe.
    pub const STRIPE: &str = "stripe";
    /// Seconds between jumps or prompts.
    pub const EVERY: &str = "every";
    /// Seconds of bare ground before the target.
    pub const GAP: &str = "gap";
    /// How many jumps, trials, prompts or beats.
    pub const COUNT: &str = "count";
    /// What chance was drawn from.
    pub const SEED: &str = "seed";
    /// Beats a minute.
    pub const PACE: &str = "pace";
    /// Seconds in each direction.
    pub const SECONDS_EACH: &str = "seconds_each";
    /// Seconds of rest between two directions.
    pub const REST: &str = "rest";
    /// Degrees to the right of the middle.
    pub const RIGHT: &str = "right";
    /// Degrees above the middle.
    pub const UP: &str = "up";
    /// What is drawn.
    pub const TARGET: &str = "target";
    /// Its degrees across.
    pub const SIZE: &str = "size";
    /// The darker of two colours, or that of the target.
    pub const INK: &str = "ink";
    /// The lighter of two colours, or that of the ground.
    pub const GROUND: &str = "ground";
    /// Before the id of what was asked beforehand; "yes" or "no".
    pub const ASKED: &str = "asked_";
    /// Why it was shown although one of these was yes.
    pub const DESPITE: &str = "despite";
    /// Whether it was confirmed although the device asks for less motion; "yes" where it was.
    pub const LESS_MOTION: &str = "less_motion";
}

/// One showing.
#[derive(Debug, Clone, PartialEq)]
pub struct Showing {
    /// When it began.
    pub at: Moment,
    /// The program, by its id; see [`program`].
    pub program: String,
    /// Its settings in order, each key once; see [`key`].
    pub settings: Vec<Setting>,
    /// What the person was told: the id of the task's own choice ("follow"), or the words; empty when not noted.
    pub instruction: String,
    /// Seconds it was shown.
    pub seconds: f64,
    /// Whether it was stopped before its end.
    pub stopped: bool,
    /// Whether it was shown on another device than the one that recorded.
    pub elsewhere: bool,
    /// The screen it was shown on; none when that was another device's.
    pub screen: Option<Shown>,
    /// What a newer program wrote here and this one cannot read.
    pub unread: Unread,
}

/// One setting.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// Stable key.
    pub key: String,
    /// Its value.
    pub value: Value,
    /// The unit of a number; empty for none.
    pub unit: String,
}

/// The value of a setting.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number in the setting's unit.
    Number(f64),
    /// A word.
    Word(String),
    /// One of a kind that only a newer program knows; it is kept unread.
    Newer,
}

/// The screen and what it drew.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shown {
    /// CSS pixels in a millimetre.
    pub px_per_mm: f64,
    /// From the eyes to the screen, as it was said, in centimetres.
    pub distance_cm: f64,
    /// Device pixels in a CSS pixel.
    pub pixel_ratio: f64,
    /// Pinch zoom; 1 for none.
    pub zoom: f64,
    /// Width of what was drawn on, in CSS pixels.
    pub width_px: f64,
    /// Height of what was drawn on, in CSS pixels.
    pub height_px: f64,
    /// Frames a second the display draws; none when too few were drawn to tell.
    pub frames_a_second: Option<f64>,
    /// Frames drawn.
    pub drawn: u32,
    /// Frames dropped.
    pub dropped: u32,
    /// Whether the scale held to the end.
    pub held: bool,
}

impl Showing {
    /// What was shown of a checked program on this screen.
    #[must_use]
    pub fn of(safe: &Safe, run: &Run, at: Moment, seconds: f64, stopped: bool) -> Showing {
        let screen = safe.screen();
        let shown = Shown {
            px_per_mm: run.scale.px_per_mm(),
            distance_cm: run.distance.0,
            pixel_ratio: run.pixel_ratio,
            zoom: run.zoom,
            width_px: screen.side(Axis::Horizontal).0,
            height_px: screen.side(Axis::Vertical).0,
            frames_a_second: run.frames.a_second,
            drawn: run.frames.drawn,
            dropped: run.frames.dropped,
            held: run.held,
        };
        Showing {
            screen: Some(shown),
            elsewhere: false,
            ..Showing::on_another_device(safe.program(), at, seconds, stopped)
        }
    }

    /// What was shown of a program on another device, whose screen is not known here.
    #[must_use]
    pub fn on_another_device(program: &Program, at: Moment, seconds: f64, stopped: bool) -> Showing {
        Showing {
            at,
            program: settings::id(program).to_string(),
            settings: settings::of(program),
            instruction: String::new(),
            seconds,
            stopped,
            elsewhere: true,
            screen: None,
            unread: Unread::default(),
        }
    }

    /// The same, with what the person was told.
    #[must_use]
    pub fn told(self, instruction: &str) -> Showing {
        Showing { instruction: instruction.to_string(), ..self }
    }

    /// The same, with what the examiner confirmed: that it was to be shown although the device asks for less motion.
    #[must_use]
    pub fn despite_less_motion(mut self) -> Showing {
        let value = Value::Word("yes".to_string());
        self.settings.push(Setting { key: key::LESS_MOTION.to_string(), value, unit: String::new() });
        self
    }

    /// A setting that is a number.
    #[must_use]
    pub fn number(&self, key: &str) -> Option<f64> {
        match &self.setting(key)?.value {
            Value::Number(number) => Some(*number),
            Value::Word(_) | Value::Newer => None,
        }
    }

    /// A setting that is a word.
    #[must_use]
    pub fn word(&self, key: &str) -> Option<&str> {
        match &self.setting(key)?.value {
            Value::Word(word) => Some(word),
            Value::Number(_) | Value::Newer => None,
        }
    }

    /// The highest speed in degrees a second.
    #[must_use]
    pub fn speed(&self) -> Option<f64> {
        self.number(key::SPEED).or_else(|| self.number(key::PEAK_SPEED))
    }

    /// The screen as geometry; none when it is not known, or is none that can be.
    #[must_use]
    pub fn geometry(&self) -> Option<Screen> {
        let Shown { px_per_mm, width_px, height_px, distance_cm, .. } = self.screen?;
        let scale = Scale::from_px_per_mm(px_per_mm).ok()?;
        Screen::new(scale, Px(width_px), Px(height_px), Centimetres(distance_cm)).ok()
    }

    /// From the eyes to the screen, in centimetres.
    #[must_use]
    pub fn distance(&self) -> Option<f64> {
        Some(self.geometry()?.distance().0)
    }

    /// From the middle of the screen to the target, in centimetres to a tenth.
    #[must_use]
    pub fn offset(&self) -> Option<f64> {
        let each_way = Some(self.number(key::EACH_WAY)?).filter(|degrees| (0.0..80.0).contains(degrees))?;
        let away = Millimetres(10.0 * self.distance()?);
        Some(position(Degrees(each_way), away).0.round() / 10.0)
    }

    fn setting(&self, key: &str) -> Option<&Setting> {
        self.settings.iter().find(|setting| setting.key == key)
    }
}

impl Shown {
    /// Its frames.
    #[must_use]
    pub fn frames(&self) -> Frames {
        Frames { a_second: self.frames_a_second, drawn: self.drawn, dropped: self.dropped }
    }
}
