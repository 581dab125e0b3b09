//! A sheet in a family's words: dose, rules and stop list, line by line.

use super::Sheet;
use crate::catalogue::Language;
use crate::catalogue::{filled, text};
use crate::exercise::{Amount, Dose};

/// What stops every exercise, as keys (common practice, from memory; chest pain, breathlessness and dizziness also stand in
/// a health service's exercises at home).
/// What is a danger sign (new double sight, weak or numb) stands there alone: one thing must not ask for two answers.
static STOP: &[&str] = &["stop.head", "stop.faint", "stop.chest", "stop.neck", "stop.vomit", "stop.ear"];

/// The dose as short sentences, in the order they are followed.
#[must_use]
pub fn dose_lines(language: Language, dose: &Dose) -> Vec<String> {
    let with = |key: &str, count: u16| filled(language, key, &[("count", &count.to_string())]);
    let mut lines = vec![amount_line(language, dose.amount)];
    if dose.sets > 1 {
        let (count, rest) = (dose.sets.to_string(), dose.rest.to_string());
        let key = if dose.rest == 0 { "dose.sets" } else { "dose.sets_rest" };
        lines.push(filled(language, key, &[("count", &count), ("rest", &rest)]));
    }
    if dose.beat > 0 {
        lines.push(with("dose.beat", dose.beat));
    }
    lines.push(match dose.a_day {
        1 => text(language, "dose.once_a_day").to_string(),
        times => with("dose.a_day", u16::from(times)),
    });
    lines.push(match dose.a_week {
        1 => text(language, "dose.one_day").to_string(),
        7 => text(language, "dose.every_day").to_string(),
        days => with("dose.days", u16::from(days)),
    });
    lines.push(match dose.weeks {
        1 => text(language, "dose.one_week").to_string(),
        weeks => with("dose.weeks", u16::from(weeks)),
    });
    lines
}

fn amount_line(language: Language, amount: Amount) -> String {
    let with = |key: &str, count: u16| filled(language, key, &[("count", &count.to_string())]);
    match amount {
        Amount::Times(1) => text(language, "dose.once").to_string(),
        Amount::Times(times) => with("dose.times", times),
        Amount::Seconds(60) => text(language, "dose.one_minute").to_string(),
        // Up to 90 s is told in seconds; a second minute begins the count of minutes.
        Amount::Seconds(seconds) if seconds <= 90 => with("dose.seconds", seconds),
        Amount::Seconds(seconds) if seconds % 60 == 0 => with("dose.minutes", seconds / 60),
        Amount::Seconds(seconds) => {
            let (minutes, count) = ((seconds / 60).to_string(), (seconds % 60).to_string());
            let key = if seconds < 120 { "dose.minute_seconds" } else { "dose.minutes_seconds" };
            filled(language, key, &[("minutes", &minutes), ("count", &count)])
        }
    }
}

/// The rules of every sheet, in order; what symptoms may do is filled in.
#[must_use]
pub fn rules(language: Language, sheet: &Sheet) -> Vec<String> {
    let (rise, minutes) = (sheet.limits.rise.to_string(), sheet.limits.minutes.to_string());
    let limit = if sheet.limits.rise == 0 { "rule.no_rise" } else { "rule.limit" };
    let keys =
        ["rule.place", "rule.glasses", "rule.when", "rule.before", "rule.after", limit, "rule.early", "rule.far"];
    let mut lines: Vec<String> = Vec::new();
    if sheet.helper {
        lines.push(text(language, "page.helper").to_string());
    }
    lines.extend(keys.map(|key| filled(language, key, &[("rise", &rise), ("minutes", &minutes)])));
    lines
}

/// What stops every exercise.
#[must_use]
pub fn stop_lines(language: Language) -> Vec<&'static str> {
    STOP.iter().map(|key| text(language, key)).collect()
}
