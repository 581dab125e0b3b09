//! A showing in words: what was shown, on which screen, what the person was told, and what a reader must know of it.

use super::{Showing, Value, key, program};
use crate::anatomy::Direction;
use crate::evidence;
use crate::sorted;
use crate::stimulus::run;
use crate::stimulus::screen::Axis;

/// What stripes on a phone or tablet are not.
pub const NOT_FULL_FIELD: &str =
    "A phone or tablet shows following of stripes, not a full-field response: it fills too little of the view.";

/// All of it, as sentences: what was shown first.
#[must_use]
pub fn says(showing: &Showing) -> Vec<String> {
    let mut said = vec![what(showing)];
    said.extend(remarks(showing));
    said
}

/// What was shown, on which screen at what distance, and what was said: one to three sentences.
#[must_use]
pub fn what(showing: &Showing) -> String {
    let place = if showing.elsewhere { "on another device" } else { "on a screen" };
    let lasted = match showing.stopped {
        true => format!("stopped after {} s", seconds(showing.seconds)),
        false => format!("{} s", seconds(showing.seconds)),
    };
    let details = [directions(showing), Some(way(showing)), target(showing)];
    let details: Vec<String> = details.into_iter().flatten().filter(|text| !text.is_empty()).chain([lasted]).collect();
    let mut said = format!("{} {place}: {}.", named(&showing.program), details.join(", "));
    if let Some(field) = field(showing) {
        said.push_str(&format!(" {field}."));
    }
    if let Some(told) = told(showing) {
        let stop = if told.ends_with(".”") { "" } else { "." };
        said.push_str(&format!(" Told {told}{stop}"));
    }
    said
}

/// What a reader must know before the results are used.
#[must_use]
pub fn remarks(showing: &Showing) -> Vec<String> {
    let mut remarks = Vec::new();
    if showing.program == program::STRIPES {
        remarks.push(NOT_FULL_FIELD.to_string());
    }
    if let Some(why) = showing.word(key::DESPITE) {
        remarks.push(format!("Asked before: {}. Shown all the same: “{why}”.", yes_to(showing).join(" and ")));
    }
    if showing.word(key::LESS_MOTION) == Some("yes") {
        remarks.push("The device was set to less motion. It was confirmed, and shown all the same.".to_string());
    }
    if showing.elsewhere {
        remarks.push(
            "Shown on another device: sizes and speeds are those that were set, and nothing here tells whether it kept them."
                .to_string(),
        );
    }
    if let Some(screen) = showing.screen {
        remarks.extend(run::remarks(screen.held, &screen.frames()));
    }
    remarks
}

/// What was answered with yes before it was shown.
fn yes_to(showing: &Showing) -> Vec<&str> {
    let yes = showing.settings.iter().filter(|setting| setting.value == Value::Word("yes".to_string()));
    let ids = yes.filter_map(|setting| setting.key.strip_prefix(key::ASKED));
    ids.map(|id| match id {
        "seizures" => "seizures or odd feelings with flicker or stripes",
        "motion_sickness" => "motion sickness",
        other => other,
    })
    .collect()
}

/// The title of a program; its id when a newer version knows it.
#[must_use]
pub fn named(id: &str) -> String {
    match id {
        program::FOLLOWING => "Following".to_string(),
        program::JUMPS => "Jumps".to_string(),
        program::ANTISACCADE => "Looking away".to_string(),
        program::NEAR_FAR => "Prompts to look near and far".to_string(),
        program::STRIPES => "Stripes".to_string(),
        program::STILL => "A target that stays".to_string(),
        program::HEAD_TURNS => "Head turns to a beat".to_string(),
        id => format!("“{id}”"),
    }
}

/// How it was shown, whatever the direction: two visits are measured alike when these words are the same.
#[must_use]
pub fn way(showing: &Showing) -> String {
    let setting = |key: &str| showing.number(key);
    let parts: Vec<Option<String>> = match showing.program.as_str() {
        program::FOLLOWING => vec![
            setting(key::SPEED).map(|speed| format!("{}°/s", number(speed))),
            setting(key::PEAK_SPEED).map(|speed| format!("swinging, up to {}°/s", number(speed))),
            each_way(showing),
        ],
        program::JUMPS => vec![each_way(showing), every(showing)],
        program::ANTISACCADE => vec![
            each_way(showing),
            setting(key::GAP).map(|gap| match gap {
                0.0 => "no gap".to_string(),
                gap => format!("gap of {} s", number(gap)),
            }),
        ],
        program::NEAR_FAR => vec![every(showing)],
        program::STRIPES => vec![
            setting(key::SPEED).map(|speed| format!("{}°/s", number(speed))),
            setting(key::STRIPE).map(|width| format!("each stripe {}° wide", number(width))),
        ],
        program::STILL => vec![place(showing)],
        program::HEAD_TURNS => vec![setting(key::PACE).map(|pace| format!("{} a minute", number(pace)))],
        _ => showing.settings.iter().map(raw).collect(),
    };
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The name of the part of a method that says what was shown on a screen.
pub const ON_A_SCREEN: &str = "on a screen";

/// How all showings of a program were, as one part of the method of a measure; none when it was not shown.
///
/// Stripes fill more or less of the view from one screen to another, so theirs names the field, to five degrees.
#[must_use]
pub fn method(showings: &[Showing], id: &str) -> Option<(&'static str, String)> {
    let words = |showing: &Showing| {
        let coarse = |axis| showing.geometry().map(|screen| 5.0 * (screen.field(axis).0 / 5.0).round());
        match (coarse(Axis::Horizontal), coarse(Axis::Vertical)) {
            (Some(wide), Some(high)) if id == program::STRIPES => {
                format!("{}, field about {wide}° by {high}°", way(showing))
            }
            _ => way(showing),
        }
    };
    let mut ways: Vec<String> = showings.iter().filter(|showing| showing.program == id).map(words).collect();
    sorted::by(&mut ways, Ord::cmp);
    ways.dedup();
    (!ways.is_empty()).then(|| (ON_A_SCREEN, ways.join("; ")))
}

/// Whether a text from a file looks like one of our own keys or values, so that it can name no person.
#[must_use]
pub fn is_plain(text: &str) -> bool {
    let ours = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || matches!(b, b'_' | b' ' | b'#');
    text.len() <= 40 && text.bytes().all(ours)
}

/// The directions it went in, for programs that have them.
fn directions(showing: &Showing) -> Option<String> {
    match showing.program.as_str() {
        program::FOLLOWING | program::JUMPS => Some(match showing.word(key::PATH)? {
            "horizontal" => "side to side".to_string(),
            "vertical" => "up and down".to_string(),
            "clockwise" => "round, clockwise for the person".to_string(),
            "anticlockwise" => "round, anticlockwise for the person".to_string(),
            _ => return None,
        }),
        program::STRIPES => {
            let each = showing.word(key::TOWARD)?.split(' ').filter_map(Direction::from_word).map(Direction::phrase);
            Some(each.collect::<Vec<_>>().join(", then "))
        }
        _ => None,
    }
}

fn each_way(showing: &Showing) -> Option<String> {
    let degrees = number(showing.number(key::EACH_WAY)?);
    Some(match showing.word(key::PATH) {
        Some("vertical") => format!("{degrees}° up and down"),
        Some("clockwise" | "anticlockwise") => format!("{degrees}° from the middle"),
        _ => format!("{degrees}° to each side"),
    })
}

fn every(showing: &Showing) -> Option<String> {
    match showing.number(key::EVERY) {
        Some(every) => Some(format!("every {} s", number(every))),
        None => showing.word(key::SEED).map(|_| "at times no one can foresee".to_string()),
    }
}

fn place(showing: &Showing) -> Option<String> {
    let (right, up) = (showing.number(key::RIGHT)?, showing.number(key::UP)?);
    let part = |degrees: f64, one: &str, other: &str| {
        (degrees != 0.0).then(|| format!("{}° {}", number(degrees.abs()), if degrees > 0.0 { one } else { other }))
    };
    let parts: Vec<String> =
        [part(right, "to the right", "to the left"), part(up, "up", "down")].into_iter().flatten().collect();
    Some(if parts.is_empty() { "straight ahead".to_string() } else { parts.join(" and ") })
}

fn target(showing: &Showing) -> Option<String> {
    let kind = showing.word(key::TARGET)?;
    let size = showing.number(key::SIZE).map(|size| format!(" of {}°", number(size))).unwrap_or_default();
    Some(format!("a {kind}{size}"))
}

/// What the screen showed at that distance.
fn field(showing: &Showing) -> Option<String> {
    let screen = showing.geometry()?;
    let side = |axis| screen.field(axis).0.round();
    let (wide, high) = (side(Axis::Horizontal), side(Axis::Vertical));
    Some(format!("The screen showed {wide}° by {high}° at {} cm", number(screen.distance().0)))
}

fn told(showing: &Showing) -> Option<String> {
    match showing.instruction.trim() {
        "" => None,
        "follow" => Some("“look at each stripe”".to_string()),
        "middle" => Some("“look at the middle”".to_string()),
        words => Some(format!("“{words}”")),
    }
}

fn raw(setting: &super::Setting) -> Option<String> {
    match &setting.value {
        Value::Number(value) if setting.unit.is_empty() => Some(format!("{} {}", setting.key, number(*value))),
        Value::Number(value) => Some(format!("{} {} {}", setting.key, number(*value), setting.unit)),
        Value::Word(word) => Some(format!("{} {word}", setting.key)),
        Value::Newer => None,
    }
}

/// A number as it is printed; one that no program of ours sets stays short as well.
fn number(value: f64) -> String {
    if value.abs() < 1e6 { evidence::number(value) } else { format!("{value:e}") }
}

/// Seconds, whole from ten on.
fn seconds(seconds: f64) -> String {
    number(if seconds < 10.0 { (10.0 * seconds).round() / 10.0 } else { seconds.round() })
}
