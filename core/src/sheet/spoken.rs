//! Six numbers of three digits that say how it went, for the telephone: two digits each and a check digit.
//!
//! 1. the last day, counted from the first (0 to 84); 2. days with exercises; 3. rounds done of those planned, in percent,
//!    99 for all; 4. mean worst symptom before, doubled (0 to 20), 99 when it was not rated; 5. the same after; 6. days that
//!    were ended early.
//!
//! The check digit of a number starts from its place, so a wrong digit, exchanged neighbours and exchanged numbers are
//! found for certain, and any other mistake in one number nine times in ten. The numbers do not say whose they are.

use super::check_digit;
use super::log::{Ended, Log, MOST_DAYS};
use super::{Entry, Sheet};
use crate::evidence::number;
use crate::tolerance::Rating;
use std::fmt;

/// How many numbers there are.
const NUMBERS: u8 = 6;

/// "Not rated".
const UNRATED: u8 = 99;

/// How it went, as far as six numbers tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spoken {
    /// The last day with exercises, counted from the first; 0 when there is none.
    pub days: u8,
    /// Days with exercises.
    pub active: u8,
    /// Rounds done of those planned until the last day, in percent; 99 stands for all.
    pub share: u8,
    /// Mean worst symptom before, in half points; `None` when it was not rated.
    pub before: Option<u8>,
    /// The same after.
    pub after: Option<u8>,
    /// Days that were ended early.
    pub early: u8,
}

/// Why numbers were not taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Misheard {
    /// There are not six numbers of three digits.
    Count {
        /// Digits that were typed.
        digits: usize,
    },
    /// These numbers do not fit their check digit.
    Wrong {
        /// Which, counted from 1.
        which: Vec<u8>,
    },
    /// Every check digit fits, and still it cannot be.
    Impossible,
}

impl Spoken {
    /// The numbers of a log, with its sheet.
    #[must_use]
    pub fn of(log: &Log, sheet: &Sheet) -> Spoken {
        let days = log.days.last().map_or(0, |day| day.number);
        let some = |day: &&super::Day| day.rounds.iter().any(|rounds| *rounds > 0);
        let count = |number: usize| u8::try_from(number).unwrap_or(MOST_DAYS).min(MOST_DAYS);
        Spoken {
            days,
            active: count(log.days.iter().filter(some).count()),
            share: share(log, sheet, days),
            before: halves(log.days.iter().filter_map(|day| day.before)),
            after: halves(log.days.iter().filter_map(|day| day.after)),
            early: count(log.days.iter().filter(|day| day.ended != Ended::Planned).count()),
        }
    }

    /// The six numbers, three digits each.
    #[must_use]
    pub fn numbers(&self) -> [String; 6] {
        let values = [
            self.days,
            self.active,
            self.share,
            self.before.unwrap_or(UNRATED),
            self.after.unwrap_or(UNRATED),
            self.early,
        ];
        let mut place = 0;
        values.map(|value| {
            place += 1;
            let digits = [value / 10 % 10, value % 10];
            format!("{value:02}{}", check_digit::of(place, &digits))
        })
    }

    /// Whether one number of three digits fits its check digit at this place, counted from 1.
    #[must_use]
    pub fn fits(place: u8, number: &str) -> bool {
        let digits: Option<Vec<u8>> =
            number.chars().map(|c| c.to_digit(10).and_then(|digit| u8::try_from(digit).ok())).collect();
        digits.is_some_and(|digits| digits.len() == 3 && check_digit::of(place, &digits[..2]) == digits[2])
    }

    /// Reads six numbers as somebody typed them, with anything between them.
    ///
    /// # Errors
    /// [`Misheard`] says which numbers to ask for again.
    pub fn read(typed: &str) -> Result<Spoken, Misheard> {
        let digits: Vec<u8> =
            typed.chars().filter_map(|c| c.to_digit(10)).filter_map(|d| u8::try_from(d).ok()).collect();
        if digits.len() != usize::from(NUMBERS) * 3 {
            return Err(Misheard::Count { digits: digits.len() });
        }
        let numbers: Vec<&[u8]> = digits.chunks(3).collect();
        let fits = |(place, number): &(u8, &&[u8])| check_digit::of(*place, &number[..2]) == number[2];
        let which: Vec<u8> = (1..).zip(&numbers).filter(|pair| !fits(pair)).map(|(place, _)| place).collect();
        if !which.is_empty() {
            return Err(Misheard::Wrong { which });
        }
        let value = |at: usize| numbers[at][0] * 10 + numbers[at][1];
        let felt = |at: usize| Some(value(at)).filter(|value| *value != UNRATED);
        let spoken = Spoken {
            days: value(0),
            active: value(1),
            share: value(2),
            before: felt(3),
            after: felt(4),
            early: value(5),
        };
        if spoken.possible() { Ok(spoken) } else { Err(Misheard::Impossible) }
    }

    /// In sentences, for the practice.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        if self.days == 0 {
            return vec!["No exercises are noted.".to_string()];
        }
        let share = match self.share {
            99.. => "all or nearly all of the planned rounds".to_string(),
            share => format!("{share} in 100 of the planned rounds"),
        };
        let mut lines = vec![format!("Exercises on {} of {} days: {share}.", self.active, self.days)];
        let points = |halves: u8| number(f64::from(halves) / 2.0);
        lines.push(match (self.before, self.after) {
            (Some(before), Some(after)) => {
                format!("Worst symptom on average {} before and {} after, of 10.", points(before), points(after))
            }
            (Some(before), None) => {
                format!("Worst symptom on average {} of 10 before; after was not rated.", points(before))
            }
            (None, Some(after)) => {
                format!("Worst symptom on average {} of 10 after; before was not rated.", points(after))
            }
            (None, None) => "Symptoms were not rated.".to_string(),
        });
        match self.early {
            0 => {}
            1 => lines.push("Ended early on 1 day.".to_string()),
            days => lines.push(format!("Ended early on {days} days.")),
        }
        lines
    }

    fn possible(&self) -> bool {
        let felt = |value: Option<u8>| value.is_none_or(|value| value <= 20);
        let days = self.days <= MOST_DAYS && self.active <= self.days && self.early <= self.days;
        // Nothing done is no share; something may round to none.
        let share = self.active > 0 || self.share == 0;
        days && share && felt(self.before) && felt(self.after)
    }
}

fn share(log: &Log, sheet: &Sheet, days: u8) -> u8 {
    let done: u32 = log.days.iter().flat_map(|day| &day.rounds).map(|rounds| u32::from(*rounds)).sum();
    let a_week: u32 =
        sheet.entries.iter().map(|Entry { dose, .. }| u32::from(dose.a_day) * u32::from(dose.a_week)).sum();
    let planned = a_week * u32::from(days);
    if planned == 0 {
        return 0;
    }
    // Planned rounds are a seventh of that; rounded to the nearest.
    let percent = (done * 7 * 100 + planned / 2) / planned;
    u8::try_from(percent.min(99)).unwrap_or(99)
}

/// Twice the mean, rounded to the nearest.
fn halves(ratings: impl Iterator<Item = Rating>) -> Option<u8> {
    let (sum, count) = ratings.fold((0u32, 0u32), |(sum, count), rating| (sum + u32::from(rating.value()), count + 1));
    (count > 0).then(|| u8::try_from((4 * sum + count) / (2 * count)).unwrap_or(20))
}

impl fmt::Display for Misheard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Misheard::Count { digits } => {
                write!(f, "Six numbers of three digits are 18 digits; these are {digits}. Ask for them one at a time.")
            }
            Misheard::Wrong { which } => {
                let which: Vec<String> = which.iter().map(u8::to_string).collect();
                let word = if which.len() == 1 { "Number" } else { "Numbers" };
                let it = if which.len() == 1 { "it" } else { "them" };
                write!(f, "{word} {} cannot be right. Ask for {it} again.", which.join(", "))
            }
            Misheard::Impossible => write!(f, "These numbers do not go together. Ask for all six again."),
        }
    }
}

impl std::error::Error for Misheard {}
