//! Days and moments as the record needs them: local to where the person was seen, and read without a clock of our own.

use std::fmt;
use time::macros::format_description;

pub use time::Date;

/// An instant together with the local offset where it was noted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment {
    /// Milliseconds since 1970-01-01T00:00:00Z.
    pub unix_ms: i64,
    /// Minutes that local time was ahead of UTC.
    pub offset_minutes: i16,
}

impl Moment {
    /// The local date.
    #[must_use]
    pub fn date(self) -> Date {
        self.local().date()
    }

    /// The local time of day, "15:52".
    #[must_use]
    pub fn clock(self) -> String {
        let t = self.local().time();
        format!("{:02}:{:02}", t.hour(), t.minute())
    }

    /// ISO 8601 with offset, to the second: "2026-03-02T15:52:08+01:00".
    #[must_use]
    pub fn iso(self) -> String {
        let local = self.local();
        let sign = if self.offset_minutes < 0 { '-' } else { '+' };
        let offset = self.offset_minutes.unsigned_abs();
        let (h, m, s) = local.time().as_hms();
        format!("{}T{h:02}:{m:02}:{s:02}{sign}{:02}:{:02}", iso_date(local.date()), offset / 60, offset % 60)
    }

    /// Whole milliseconds from `earlier` to this moment; zero if it was not earlier.
    #[must_use]
    pub fn ms_since(self, earlier: Moment) -> u32 {
        u32::try_from((self.unix_ms - earlier.unix_ms).max(0)).unwrap_or(u32::MAX)
    }

    /// The bounded local date and time; moments beyond the calendar are held at its ends.
    fn local(self) -> time::PrimitiveDateTime {
        let local_ms = self.unix_ms.saturating_add(i64::from(self.offset_minutes) * 60_000);
        let epoch = time::PrimitiveDateTime::new(time::macros::date!(1970 - 01 - 01), time::Time::MIDNIGHT);
        epoch.saturating_add(time::Duration::milliseconds(local_ms))
    }
}

/// Writes a date as 2026-03-02.
#[must_use]
pub fn iso_date(date: Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), u8::from(date.month()), date.day())
}

/// Writes a date as "2 March 2026".
#[must_use]
pub fn long_date(date: Date) -> String {
    format!("{} {} {}", date.day(), date.month(), date.year())
}

/// Writes a date as "2 Mar 2026", for the head of a column.
#[must_use]
pub fn short_date(date: Date) -> String {
    let month: String = date.month().to_string().chars().take(3).collect();
    format!("{} {month} {}", date.day(), date.year())
}

/// Reads 2026-03-02; `None` for anything else.
#[must_use]
pub fn parse_date(text: &str) -> Option<Date> {
    Date::parse(text.trim(), format_description!("[year]-[month]-[day]")).ok()
}

/// What is known of a person's birth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Born {
    /// The year only.
    Year(i32),
    /// The date.
    On(Date),
}

/// A person's age in completed years on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Age {
    /// Completed years; when only the birth year is known, the larger of the two possible values.
    pub years: u8,
    /// Whether the date of birth was known.
    pub exact: bool,
}

/// Why a birth year or date was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BirthRefused {
    /// Neither a year nor a date.
    NotADate(String),
    /// After the day of the visit.
    Future,
    /// More than 120 years before the visit.
    TooLongAgo,
}

impl fmt::Display for BirthRefused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BirthRefused::NotADate(typed) => {
                write!(
                    f,
                    "“{typed}” is not a birth year or date. Type a year such as 2012, or a date such as 2012-05-31."
                )
            }
            BirthRefused::Future => write!(f, "The birth year or date lies in the future. Check it and type it again."),
            BirthRefused::TooLongAgo => {
                write!(f, "The birth year or date lies more than 120 years back. Check it and type it again.")
            }
        }
    }
}

impl std::error::Error for BirthRefused {}

impl Born {
    /// Reads a year (2012) or a date (2012-05-31) and checks it against the day it is typed on.
    ///
    /// # Errors
    /// [`BirthRefused`] when it is no date, in the future, or more than 120 years back.
    pub fn parse(typed: &str, today: Date) -> Result<Born, BirthRefused> {
        let text = typed.trim();
        let year = Some(text).filter(|t| t.len() == 4 && t.bytes().all(|b| b.is_ascii_digit()));
        let born = match year.and_then(|t| t.parse().ok()) {
            Some(year) => Born::Year(year),
            None => Born::On(parse_date(text).ok_or_else(|| BirthRefused::NotADate(text.chars().take(24).collect()))?),
        };
        let in_future = match born {
            Born::Year(year) => year > today.year(),
            Born::On(date) => date > today,
        };
        if in_future {
            return Err(BirthRefused::Future);
        }
        if today.year() - born.year() > 120 {
            return Err(BirthRefused::TooLongAgo);
        }
        Ok(born)
    }

    /// The year of birth.
    #[must_use]
    pub fn year(self) -> i32 {
        match self {
            Born::Year(year) => year,
            Born::On(date) => date.year(),
        }
    }

    /// Age on a day; `None` before birth or beyond 130 years.
    #[must_use]
    pub fn age(self, on: Date) -> Option<Age> {
        let (years, exact) = match self {
            Born::Year(year) => (on.year() - year, false),
            Born::On(date) => {
                let had_birthday = (on.month() as u8, on.day()) >= (date.month() as u8, date.day());
                (on.year() - date.year() - i32::from(!had_birthday), true)
            }
        };
        u8::try_from(years).ok().filter(|y| *y <= 130).map(|years| Age { years, exact })
    }

    /// As typed and stored: "2012" or "2012-05-31".
    #[must_use]
    pub fn text(self) -> String {
        match self {
            Born::Year(year) => year.to_string(),
            Born::On(date) => iso_date(date),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn moments_are_shown_in_their_own_local_time() {
        let noted = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
        assert_eq!(noted.iso(), "2026-03-02T15:52:08+01:00");
        assert_eq!(noted.clock(), "15:52");
        assert_eq!(long_date(noted.date()), "2 March 2026");
        assert_eq!(short_date(noted.date()), "2 Mar 2026");
        let west = Moment { offset_minutes: -210, ..noted };
        assert_eq!(west.iso(), "2026-03-02T11:22:08-03:30");
    }

    #[test]
    fn absurd_moments_do_not_panic() {
        for unix_ms in [i64::MIN, i64::MAX] {
            assert!(!Moment { unix_ms, offset_minutes: i16::MAX }.iso().is_empty());
        }
    }

    #[test]
    fn births_are_checked_against_today() {
        let today = date!(2026 - 03 - 02);
        assert_eq!(Born::parse("2012", today), Ok(Born::Year(2012)));
        assert_eq!(Born::parse("2012-05-31", today), Ok(Born::On(date!(2012 - 05 - 31))));
        assert_eq!(Born::parse("2027", today), Err(BirthRefused::Future));
        assert_eq!(Born::parse("2026-03-03", today), Err(BirthRefused::Future));
        assert_eq!(Born::parse("1890", today), Err(BirthRefused::TooLongAgo));
        assert_eq!(Born::parse("31/5/12", today), Err(BirthRefused::NotADate("31/5/12".into())));
    }

    #[test]
    fn age_counts_completed_years() {
        let born = Born::On(date!(2012 - 05 - 31));
        assert_eq!(born.age(date!(2026 - 05 - 30)), Some(Age { years: 13, exact: true }));
        assert_eq!(born.age(date!(2026 - 05 - 31)), Some(Age { years: 14, exact: true }));
        assert_eq!(Born::Year(2012).age(date!(2026 - 01 - 01)), Some(Age { years: 14, exact: false }));
        assert_eq!(Born::Year(2030).age(date!(2026 - 01 - 01)), None);
    }
}
