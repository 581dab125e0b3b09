//! Days and times: the shapes of R4, and days that are in the calendar.

use serde_json::Value;

use super::Say;
use crate::calendar::parse_date;

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    /// Year, month or day.
    Date,
    /// The same, or a full time.
    DateTime,
    /// A full time.
    Instant,
}

static MEMBERS: &[(&str, Kind)] = &[
    ("authored", Kind::DateTime),
    ("authoredOn", Kind::DateTime),
    ("birthDate", Kind::Date),
    ("created", Kind::DateTime),
    ("date", Kind::DateTime),
    ("effectiveDateTime", Kind::DateTime),
    ("end", Kind::DateTime),
    ("issued", Kind::Instant),
    ("lastUpdated", Kind::Instant),
    ("recorded", Kind::Instant),
    ("start", Kind::DateTime),
    ("time", Kind::DateTime),
    ("timestamp", Kind::Instant),
    ("valueDate", Kind::Date),
    ("valueDateTime", Kind::DateTime),
];

/// Checks a member whose name says that it is a time.
pub fn check(at: &str, name: &str, value: &Value, say: &mut Say<'_>) {
    let Some((_, kind)) = MEMBERS.iter().find(|(known, _)| *known == name) else { return };
    let Some(text) = value.as_str() else { return };
    if !is_one(text, *kind) {
        say(at, format!("{text} is no such time"));
    }
}

fn is_one(text: &str, kind: Kind) -> bool {
    match text.split_once('T') {
        Some((day, rest)) => kind != Kind::Date && is_day(day) && is_clock(rest),
        None => kind != Kind::Instant && (is_day(text) || is_month(text) || is_year(text)),
    }
}

fn digits(text: &str, len: usize) -> Option<u16> {
    (text.len() == len && text.bytes().all(|byte| byte.is_ascii_digit())).then(|| text.parse().ok())?
}

fn is_year(text: &str) -> bool {
    digits(text, 4).is_some_and(|year| year > 0)
}

fn is_month(text: &str) -> bool {
    text.split_once('-')
        .is_some_and(|(year, month)| is_year(year) && digits(month, 2).is_some_and(|month| (1..=12).contains(&month)))
}

fn is_day(text: &str) -> bool {
    text.len() == 10 && is_month(&text[..text.len().min(7)]) && parse_date(text).is_some()
}

/// "15:52:08+01:00", "15:52:08.123Z".
fn is_clock(text: &str) -> bool {
    let Some(zone) = text.find(['Z', '+', '-']) else { return false };
    let (time, zone) = text.split_at(zone);
    let (whole, fraction) = time.split_once('.').map_or((time, None), |(whole, fraction)| (whole, Some(fraction)));
    let fraction = fraction.is_none_or(|digits| !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit()));
    let parts: Vec<Option<u16>> = whole.split(':').map(|part| digits(part, 2)).collect();
    // Second 60 is a leap second, which the standard allows.
    let time = matches!(parts[..], [Some(0..=23), Some(0..=59), Some(0..=60)]);
    time && fraction && (zone == "Z" || is_offset(&zone[1..]))
}

fn is_offset(text: &str) -> bool {
    let parts: Vec<Option<u16>> = text.split(':').map(|part| digits(part, 2)).collect();
    matches!(parts[..], [Some(0..=13), Some(0..=59)] | [Some(14), Some(0)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_looked_up_in_the_calendar() {
        for good in ["2024-02-29", "2012", "2012-05", "2026-03-02T15:52:08+01:00", "2026-03-02T15:52:08.5Z"] {
            assert!(is_one(good, Kind::DateTime), "{good}");
        }
        let bad = [
            "2026-02-30",
            "2026-13",
            "0000",
            "26-1-1",
            "2026-03-02T15:52+01:00",
            "2026-03-02T15:52:08",
            "",
            "2026-03-02T24:00:00Z",
            "2026-03-02T15:52:08+15:00",
            "2026-02-29T10:00:00Z",
            "2026-03-02T15:52:08.Z",
            "ä026-03-02",
        ];
        for bad in bad {
            assert!(!is_one(bad, Kind::DateTime), "{bad}");
        }
        assert!(!is_one("2026-03-02", Kind::Instant) && !is_one("2026-03-02T15:52:08Z", Kind::Date));
    }
}
