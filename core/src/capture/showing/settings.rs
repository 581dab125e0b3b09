//! The settings of a program as keys and values.

use super::key;
use super::program::{ANTISACCADE, FOLLOWING, HEAD_TURNS, JUMPS, NEAR_FAR, STILL, STRIPES};
use super::{Setting, Value};
use crate::stimulus::program::{Following, Pace, Path, Program, Timing};
use crate::stimulus::screen::Axis;
use crate::stimulus::target::Target;

/// The id of a program.
pub(super) fn id(program: &Program) -> &'static str {
    match program {
        Program::Following(_) => FOLLOWING,
        Program::Jumps(_) => JUMPS,
        Program::Antisaccade(_) => ANTISACCADE,
        Program::NearFar(_) => NEAR_FAR,
        Program::Stripes(_) => STRIPES,
        Program::Still(_) => STILL,
        Program::HeadTurns(_) => HEAD_TURNS,
    }
}

/// Its settings, those a reader looks for first.
pub(super) fn of(program: &Program) -> Vec<Setting> {
    let mut settings = match program {
        Program::Following(following) => self::following(following),
        Program::Jumps(jumps) => {
            let timing = match jumps.timing {
                Timing::Fixed(every) => number(key::EVERY, every, "s"),
                Timing::Unforeseen(seed) => word(key::SEED, &seed.to_string()),
            };
            vec![
                word(key::PATH, axis(jumps.axis)),
                number(key::EACH_WAY, jumps.half_width.0, "°"),
                timing,
                number(key::COUNT, f64::from(jumps.count), ""),
            ]
        }
        Program::Antisaccade(anti) => vec![
            number(key::EACH_WAY, anti.half_width.0, "°"),
            number(key::GAP, anti.gap, "s"),
            number(key::COUNT, f64::from(anti.trials), ""),
            // As a word, since a number of a file holds no more than 53 bits of it.
            word(key::SEED, &anti.seed.to_string()),
        ],
        Program::NearFar(near_far) => {
            vec![number(key::EVERY, near_far.every, "s"), number(key::COUNT, f64::from(near_far.count), "")]
        }
        Program::Stripes(stripes) => vec![
            word(key::TOWARD, &stripes.toward.iter().map(|toward| toward.word()).collect::<Vec<_>>().join(" ")),
            number(key::SPEED, stripes.speed, "°/s"),
            number(key::STRIPE, stripes.period.0 / 2.0, "°"),
            number(key::SECONDS_EACH, stripes.seconds, "s"),
            number(key::REST, stripes.rest, "s"),
            word(key::INK, &stripes.dark.to_string()),
            word(key::GROUND, &stripes.light.to_string()),
        ],
        Program::Still(still) => {
            vec![number(key::RIGHT, still.place.right, "°"), number(key::UP, still.place.up, "°")]
        }
        Program::HeadTurns(turns) => {
            vec![number(key::PACE, turns.beat.per_minute(), "/min"), number(key::COUNT, f64::from(turns.beats), "")]
        }
    };
    settings.extend(program.target().into_iter().flat_map(target));
    settings
}

fn following(following: &Following) -> Vec<Setting> {
    let path = match following.path {
        Path::Horizontal => axis(Axis::Horizontal),
        Path::Vertical => axis(Axis::Vertical),
        Path::Clockwise => "clockwise",
        Path::Anticlockwise => "anticlockwise",
    };
    let mut settings = vec![word(key::PATH, path)];
    match following.pace {
        Pace::Constant(speed) => settings.push(number(key::SPEED, speed, "°/s")),
        Pace::Swings(swings) => settings.extend([
            number(key::SWINGS, swings, "/s"),
            number(key::PEAK_SPEED, (10.0 * following.peak_speed()).round() / 10.0, "°/s"),
        ]),
    }
    settings.push(number(key::EACH_WAY, following.half_width.0, "°"));
    settings
}

fn target(target: &Target) -> [Setting; 4] {
    [
        word(key::TARGET, target.kind().word()),
        number(key::SIZE, target.size().0, "°"),
        word(key::INK, &target.ink().to_string()),
        word(key::GROUND, &target.ground().to_string()),
    ]
}

fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::Horizontal => "horizontal",
        Axis::Vertical => "vertical",
    }
}

fn number(key: &str, value: f64, unit: &str) -> Setting {
    Setting { key: key.to_string(), value: Value::Number(value), unit: unit.to_string() }
}

fn word(key: &str, value: &str) -> Setting {
    Setting { key: key.to_string(), value: Value::Word(value.to_string()), unit: String::new() }
}
