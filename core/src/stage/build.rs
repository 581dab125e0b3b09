//! Programs from what was chosen. What the screen cannot show is left to the guard to refuse; only what is to go as far as
//! fits is fitted here.

use super::Wanted;
use crate::anatomy::Direction;
use crate::quantity::Degrees;
use crate::stimulus::beat::Beat;
use crate::stimulus::colour::Srgb;
use crate::stimulus::program::{
    Antisaccade, Following, HeadTurns, Jumps, NearFar, Pace, Path, Program, Still, Stripes, Timing,
};
use crate::stimulus::safety::{MOST_FLASHES, MOST_PAIRS};
use crate::stimulus::screen::{At, Axis, Screen};
use crate::stimulus::target::{Kind, Target};

pub(super) const WAY: &str = "way";
pub(super) const TOWARD: &str = "toward";
pub(super) const TOLD: &str = "told";
pub(super) const SPEED: &str = "speed";
pub(super) const LIGHT: &str = "light";
pub(super) const FAR: &str = "far";
pub(super) const WHEN: &str = "when";
pub(super) const TIMES: &str = "times";
pub(super) const PACE: &str = "pace";
pub(super) const SECONDS: &str = "seconds";
pub(super) const TARGET: &str = "target";
pub(super) const SIZE: &str = "size";

/// The choice of going as far as the screen shows.
pub(super) const FITS: &str = "fits";

/// As far as most targets go (8 or 10° in laboratories; pmc.ncbi.nlm.nih.gov/articles/PMC6174870).
const FARTHEST: f64 = 10.0;

/// Swings there and back in a second: 0.2 to 2 were studied, fewer than 0.7 are usual (Acta Otolaryngol 1988,
/// doi.org/10.3109/00016488809119441; the second from memory).
const SWINGS: f64 = 0.4;

/// Seconds of a run: 10 and 20 s of stripes in studies (see the guard), and as long for the rest (design choice).
const RUN: f64 = 20.0;

/// Seconds of still grey between two directions (3 s in one study of stripes, 10 s in another; design choice between).
const BETWEEN: f64 = 5.0;

/// Ten turns there and back (clinic protocol of the symptom screen).
const BEATS: u32 = 20;

/// White with black would be brighter than a screen in a dark room should be; the guard lets it through by its rate.
const BRIGHT: (Srgb, Srgb) = (Srgb::WHITE, Srgb::BLACK);

pub(super) fn still(wanted: &Wanted, screen: Option<&Screen>, _: u64) -> Program {
    let out = |axis, sign: f64| At::along(axis, sign * far(wanted, screen, &[axis]));
    let place = match wanted.of(WAY) {
        "right" => out(Axis::Horizontal, 1.0),
        "left" => out(Axis::Horizontal, -1.0),
        "up" => out(Axis::Vertical, 1.0),
        "down" => out(Axis::Vertical, -1.0),
        _ => At::MIDDLE,
    };
    Program::Still(Still { place, seconds: number(wanted, SECONDS, RUN), target: target(wanted) })
}

pub(super) fn near_far(wanted: &Wanted, _: Option<&Screen>, _: u64) -> Program {
    let every = number(wanted, WHEN, 2.0);
    // An even number, so that far is looked at as often as near.
    let count = 2 * (RUN / every / 2.0).round().max(1.0) as u32;
    Program::NearFar(NearFar { every, count, target: target(wanted) })
}

pub(super) fn following(wanted: &Wanted, screen: Option<&Screen>, _: u64) -> Program {
    let (path, axes): (Path, &[Axis]) = match wanted.of(WAY) {
        "vertical" => (Path::Vertical, &[Axis::Vertical]),
        "clockwise" => (Path::Clockwise, &[Axis::Horizontal, Axis::Vertical]),
        "anticlockwise" => (Path::Anticlockwise, &[Axis::Horizontal, Axis::Vertical]),
        _ => (Path::Horizontal, &[Axis::Horizontal]),
    };
    let pace = match wanted.of(SPEED) {
        "swing" => Pace::Swings(SWINGS),
        _ => Pace::Constant(number(wanted, SPEED, 15.0)),
    };
    let half_width = Degrees(far(wanted, screen, axes));
    Program::Following(Following {
        path,
        pace,
        half_width,
        seconds: number(wanted, SECONDS, RUN),
        target: target(wanted),
    })
}

pub(super) fn jumps(wanted: &Wanted, screen: Option<&Screen>, seed: u64) -> Program {
    let timing = match wanted.of(WHEN) {
        "unforeseen" => Timing::Unforeseen(seed),
        _ => Timing::Fixed(number(wanted, WHEN, 1.5)),
    };
    let half_width = Degrees(far(wanted, screen, &[Axis::Horizontal]));
    let count = number(wanted, TIMES, 12.0) as u32;
    Program::Jumps(Jumps { axis: Axis::Horizontal, half_width, timing, count, target: target(wanted) })
}

pub(super) fn antisaccade(wanted: &Wanted, screen: Option<&Screen>, seed: u64) -> Program {
    // Nearer than this it is no looking away, so on a screen too narrow for it the guard says how much is missing.
    let half_width = far(wanted, screen, &[Axis::Horizontal]).max(4.0);
    Program::Antisaccade(Antisaccade {
        half_width: Degrees(half_width),
        gap: number(wanted, WHEN, 0.0),
        trials: number(wanted, TIMES, 10.0) as u32,
        seed,
        target: target(wanted),
    })
}

/// Stripes as narrow as their speed and the screen allow: the more of them are seen, the more there is to take up.
pub(super) fn stripes(wanted: &Wanted, screen: Option<&Screen>, _: u64) -> Program {
    let toward: Vec<Direction> = wanted.of(TOWARD).split(' ').filter_map(Direction::from_word).collect();
    let speed = number(wanted, SPEED, 15.0);
    let fields = |screen: &Screen| toward.iter().map(|way| screen.field(Axis::of(*way)).0).fold(0.0, f64::max);
    let period = (speed / MOST_FLASHES).max(screen.map_or(0.0, fields) / MOST_PAIRS);
    let (light, dark) = if wanted.of(LIGHT) == "bright" { BRIGHT } else { Stripes::DIM };
    let seconds = RUN / toward.len().max(1) as f64;
    Program::Stripes(Stripes {
        toward,
        speed,
        period: Degrees((10.0 * period - 1e-9).ceil() / 10.0),
        light,
        dark,
        seconds,
        rest: BETWEEN,
    })
}

pub(super) fn head_turns(wanted: &Wanted, _: Option<&Screen>, _: u64) -> Program {
    let pace = number(wanted, PACE, 180.0);
    match Beat::new(pace) {
        Ok(beat) => Program::HeadTurns(HeadTurns { beat, beats: BEATS, target: target(wanted) }),
        // No offer has such a pace; without a beat the target at least stays.
        Err(_) => still(wanted, None, 0),
    }
}

/// The column of the table of following that a run belongs to: 15 and 30° a second are what the task calls slow and fast,
/// and half way between parts them.
pub(super) fn speed_column(program: &Program) -> Option<&'static str> {
    match program {
        Program::Following(following) => Some(if following.peak_speed() < 22.5 { "slow" } else { "fast" }),
        Program::Jumps(_)
        | Program::Antisaccade(_)
        | Program::NearFar(_)
        | Program::Stripes(_)
        | Program::Still(_)
        | Program::HeadTurns(_) => None,
    }
}

/// How far from the middle: as chosen, or as far as the screen shows along all of these axes.
fn far(wanted: &Wanted, screen: Option<&Screen>, axes: &[Axis]) -> f64 {
    if let (false, Ok(chosen)) = (wanted.as_far_as_fits(), wanted.of(FAR).parse()) {
        return chosen;
    }
    let Some(screen) = screen else { return FARTHEST };
    let room = axes.iter().map(|axis| screen.half_field(*axis).0).fold(f64::INFINITY, f64::min);
    let room = room - number(wanted, SIZE, 1.0) / 2.0;
    ((10.0 * room + 1e-9).floor() / 10.0).min(FARTHEST)
}

fn target(wanted: &Wanted) -> Target {
    let kind = match (wanted.face(), wanted.of(TARGET)) {
        (Some(_), _) => Kind::Face,
        (None, "letter") => Kind::Letter,
        (None, _) => Kind::Dot,
    };
    Target::on_white(kind, Degrees(number(wanted, SIZE, 1.0)))
}

fn number(wanted: &Wanted, key: &str, otherwise: f64) -> f64 {
    wanted.of(key).parse().unwrap_or(otherwise)
}
