//! The words and notations of version 1: states, ways a tap came about, moments, days and births.

use super::super::error::Fault;
use crate::calendar::{self, Born, Date, Moment};
use crate::capture::answer::Made;
use crate::capture::home::How;
use time::OffsetDateTime;
use time::format_description::well_known::Rfc3339;

/// States of a record, in the order of [`crate::capture::record::State`].
pub(super) const OPEN: &str = "open";
pub(super) const DONE: &str = "done";
pub(super) const NOT_DONE: &str = "not_done";
pub(super) const NOT_TESTABLE: &str = "not_testable";

/// The same together.
pub(super) const STATES: [&str; 4] = [OPEN, DONE, NOT_DONE, NOT_TESTABLE];

/// Ways a tap came about.
pub(super) const MADE: [&str; 3] = [TAPPED, PACED, PACED_THEN_TAPPED];
const TAPPED: &str = "tapped";
const PACED: &str = "paced";
const PACED_THEN_TAPPED: &str = "paced_then_tapped";

pub(super) fn made(made: Made) -> &'static str {
    match made {
        Made::Tapped => TAPPED,
        Made::Paced => PACED,
        Made::PacedThenTapped => PACED_THEN_TAPPED,
    }
}

pub(super) fn read_made(word: &str) -> Result<Made, Fault> {
    [Made::Tapped, Made::Paced, Made::PacedThenTapped]
        .into_iter()
        .find(|candidate| made(*candidate) == word)
        .ok_or(Fault::Impossible)
}

/// Ways a log came back.
pub(super) const HOW: [&str; 4] = ["code", "file", "message", "numbers"];

pub(super) fn how(how: How) -> &'static str {
    match how {
        How::Code => "code",
        How::File => "file",
        How::Message => "message",
        How::Numbers => "numbers",
    }
}

pub(super) fn read_how(word: &str) -> Result<How, Fault> {
    [How::Code, How::File, How::Message, How::Numbers]
        .into_iter()
        .find(|candidate| how(*candidate) == word)
        .ok_or(Fault::Impossible)
}

/// "2026-03-02T15:52:08.000+01:00". Moments outside the years 0 to 9999 are held at their ends.
pub(super) fn moment(moment: Moment) -> String {
    // One day is left at either end, so that the local date stays within them too.
    const FIRST: i64 = -62_167_132_800_000;
    const LAST: i64 = 253_402_214_400_000;
    let unix_ms = moment.unix_ms.clamp(FIRST, LAST);
    let held = Moment { unix_ms, offset_minutes: moment.offset_minutes.clamp(-1439, 1439) };
    let iso = held.iso();
    let (seconds, offset) = iso.split_at(iso.len() - "+00:00".len());
    format!("{seconds}.{:03}{offset}", unix_ms.rem_euclid(1000))
}

pub(super) fn read_moment(text: &str) -> Result<Moment, Fault> {
    let read = OffsetDateTime::parse(text, &Rfc3339).map_err(|_| Fault::Impossible)?;
    let unix_ms = i64::try_from(read.unix_timestamp_nanos().div_euclid(1_000_000)).map_err(|_| Fault::Impossible)?;
    Ok(Moment { unix_ms, offset_minutes: read.offset().whole_minutes() })
}

/// "2026-03-02"; `None` for a year that has no four digits, which no calendar of ours offers.
pub(super) fn day(date: Date) -> Option<String> {
    (0..=9999).contains(&date.year()).then(|| calendar::iso_date(date))
}

pub(super) fn read_day(text: &str) -> Result<Date, Fault> {
    // Ten characters, so that no blanks stand around it, as there never were.
    Some(text).filter(|text| text.len() == 10).and_then(calendar::parse_date).ok_or(Fault::Impossible)
}

/// "2012" or "2012-05-31".
pub(super) fn born(born: Born) -> Option<String> {
    match born {
        Born::Year(year) => (0..=9999).contains(&year).then(|| format!("{year:04}")),
        Born::On(date) => day(date),
    }
}

/// Whether a birth can be true of a person is checked where it is typed; the file may be older than its reader.
pub(super) fn read_born(text: &str) -> Result<Born, Fault> {
    if text.len() == 4 && text.bytes().all(|b| b.is_ascii_digit()) {
        return text.parse().map(Born::Year).map_err(|_| Fault::Impossible);
    }
    read_day(text).map(Born::On)
}

/// Ids become keys and addresses, so they are short and plain.
pub(super) fn read_id(text: &str) -> Result<String, Fault> {
    let plain = |b: u8| b.is_ascii_alphanumeric() || b == b'-' || b == b'_';
    if (1..=64).contains(&text.len()) && text.bytes().all(plain) {
        return Ok(text.to_string());
    }
    Err(Fault::Impossible)
}

/// A SHA-256 digest, always written the same way so that it can be compared as text.
pub(super) fn read_digest(text: &str) -> Result<String, Fault> {
    let plain = |b: u8| b.is_ascii_digit() || (b'a'..=b'f').contains(&b);
    if text.len() == 64 && text.bytes().all(plain) {
        return Ok(text.to_string());
    }
    Err(Fault::Impossible)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_come_back_to_the_millisecond() {
        for (unix_ms, offset_minutes) in [(0, 0), (1_772_463_128_007, 60), (-1, -210), (-62_000_000_000_001, 825)] {
            let noted = Moment { unix_ms, offset_minutes };
            assert_eq!(read_moment(&moment(noted)), Ok(noted), "{}", moment(noted));
        }
        assert_eq!(moment(Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 }), "2026-03-02T15:52:08.007+01:00");
    }

    #[test]
    fn absurd_moments_are_written_so_that_they_can_be_read() {
        for unix_ms in [i64::MIN, i64::MAX] {
            for offset_minutes in [i16::MIN, i16::MAX, 0] {
                let text = moment(Moment { unix_ms, offset_minutes });
                assert!(read_moment(&text).is_ok(), "{text}");
            }
        }
    }

    #[test]
    fn what_is_no_moment_is_refused() {
        for text in ["", "yesterday", "2026-03-02", "2026-13-02T15:52:08.000+01:00", "2026-03-02T15:52:08"] {
            assert_eq!(read_moment(text), Err(Fault::Impossible), "{text}");
        }
    }
}
