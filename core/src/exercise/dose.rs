//! How much of an exercise and how often, part by part, each within bounds.

use crate::quantity::{Quantity, Refused};

/// How much and how often.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dose {
    /// Sets in one round.
    pub sets: u8,
    /// What one set is.
    pub amount: Amount,
    /// Rest between sets, in seconds.
    pub rest: u16,
    /// Rounds a day.
    pub a_day: u8,
    /// Days a week.
    pub a_week: u8,
    /// Weeks until it is looked at again.
    pub weeks: u8,
    /// Beats a minute; 0 when there is none.
    pub beat: u16,
}

/// What one set is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// So many seconds.
    Seconds(u16),
    /// So many times.
    Times(u16),
}

/// The parts of a dose, in the order they are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Sets in one round.
    Sets,
    /// The length of a set, or how many times.
    Amount,
    /// Rest between sets.
    Rest,
    /// Rounds a day.
    ADay,
    /// Days a week.
    AWeek,
    /// Weeks until it is looked at again.
    Weeks,
    /// Beats a minute.
    Beat,
}

impl Part {
    /// All of them.
    pub const ALL: [Part; 7] = [Part::Sets, Part::Amount, Part::Rest, Part::ADay, Part::AWeek, Part::Weeks, Part::Beat];
}

/// Most sets, rounds and days that make sense; common practice, and small enough for a code.
static SETS: Quantity = Quantity { name: "sets", unit: "", min: 1.0, max: 10.0, step: 1.0, decimals: 0 };
static SECONDS: Quantity =
    Quantity { name: "length of a set", unit: "s", min: 5.0, max: 1800.0, step: 5.0, decimals: 0 };
static TIMES: Quantity = Quantity { name: "times in a set", unit: "", min: 1.0, max: 60.0, step: 1.0, decimals: 0 };
static REST: Quantity = Quantity { name: "rest between sets", unit: "s", min: 0.0, max: 600.0, step: 5.0, decimals: 0 };
static A_DAY: Quantity = Quantity { name: "rounds a day", unit: "", min: 1.0, max: 5.0, step: 1.0, decimals: 0 };
static A_WEEK: Quantity = Quantity { name: "days a week", unit: "", min: 1.0, max: 7.0, step: 1.0, decimals: 0 };
static WEEKS: Quantity = Quantity { name: "weeks", unit: "", min: 1.0, max: 12.0, step: 1.0, decimals: 0 };
static BEAT: Quantity =
    Quantity { name: "beat", unit: "beats a minute", min: 20.0, max: 240.0, step: 10.0, decimals: 0 };

impl Dose {
    /// Whether every part of it is possible.
    ///
    /// # Errors
    /// [`Refused`] names the first part that is not.
    pub fn check(&self) -> Result<(), Refused> {
        for part in Part::ALL {
            if let Some(value) = self.part(part) {
                self.quantity(part).check(value)?;
            }
        }
        Ok(())
    }

    /// What a part of it is and can be.
    #[must_use]
    pub fn quantity(&self, part: Part) -> &'static Quantity {
        match (part, self.amount) {
            (Part::Sets, _) => &SETS,
            (Part::Amount, Amount::Seconds(_)) => &SECONDS,
            (Part::Amount, Amount::Times(_)) => &TIMES,
            (Part::Rest, _) => &REST,
            (Part::ADay, _) => &A_DAY,
            (Part::AWeek, _) => &A_WEEK,
            (Part::Weeks, _) => &WEEKS,
            (Part::Beat, _) => &BEAT,
        }
    }

    /// A part of it; `None` for a beat where there is none.
    #[must_use]
    pub fn part(&self, part: Part) -> Option<f64> {
        Some(match part {
            Part::Sets => f64::from(self.sets),
            Part::Amount => match self.amount {
                Amount::Seconds(count) | Amount::Times(count) => f64::from(count),
            },
            Part::Rest => f64::from(self.rest),
            Part::ADay => f64::from(self.a_day),
            Part::AWeek => f64::from(self.a_week),
            Part::Weeks => f64::from(self.weeks),
            Part::Beat => return (self.beat > 0).then_some(f64::from(self.beat)),
        })
    }

    /// The same with another part. Only a beat can be taken away.
    ///
    /// # Errors
    /// [`Refused`] when the part is not possible.
    pub fn with(self, part: Part, value: Option<f64>) -> Result<Dose, Refused> {
        let quantity = self.quantity(part);
        let value = match value {
            Some(value) => quantity.check(value)?,
            None if part == Part::Beat => 0.0,
            None => return Err(Refused::Empty { name: quantity.name }),
        };
        // Within the bounds, which are far below what these hold.
        let (small, wide) = (value.round() as u8, value.round() as u16);
        Ok(match part {
            Part::Sets => Dose { sets: small, ..self },
            Part::Amount => match self.amount {
                Amount::Seconds(_) => Dose { amount: Amount::Seconds(wide), ..self },
                Amount::Times(_) => Dose { amount: Amount::Times(wide), ..self },
            },
            Part::Rest => Dose { rest: wide, ..self },
            Part::ADay => Dose { a_day: small, ..self },
            Part::AWeek => Dose { a_week: small, ..self },
            Part::Weeks => Dose { weeks: small, ..self },
            Part::Beat => Dose { beat: wide, ..self },
        })
    }

    /// "3 sets of 60 s with 60 s rest, 3 times a day, 5 days a week, 4 weeks", for the practitioner.
    #[must_use]
    pub fn in_words(&self) -> String {
        let amount = match self.amount {
            Amount::Seconds(seconds) if seconds >= 120 && seconds % 60 == 0 => format!("{} min", seconds / 60),
            Amount::Seconds(seconds) => format!("{seconds} s"),
            Amount::Times(1) => "once".to_string(),
            Amount::Times(times) => format!("{times} times"),
        };
        let sets = match self.sets {
            1 => amount,
            sets if self.rest == 0 => format!("{sets} sets of {amount}"),
            sets => format!("{sets} sets of {amount} with {} s rest", self.rest),
        };
        let beat = if self.beat == 0 { String::new() } else { format!(" to {} beats a minute", self.beat) };
        let a_day = if self.a_day == 1 { "once a day".to_string() } else { format!("{} times a day", self.a_day) };
        format!(
            "{sets}{beat}, {a_day}, {}, {}",
            counted(self.a_week, "day", " a week"),
            counted(self.weeks, "week", "")
        )
    }
}

fn counted(number: u8, noun: &str, behind: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {noun}{plural}{behind}")
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOSE: Dose = Dose { sets: 3, amount: Amount::Seconds(60), rest: 30, a_day: 2, a_week: 5, weeks: 4, beat: 60 };

    #[test]
    fn every_part_is_set_alone_and_read_back() {
        for (part, value) in Part::ALL.into_iter().zip([4.0, 90.0, 45.0, 3.0, 6.0, 2.0, 100.0]) {
            let changed = DOSE.with(part, Some(value)).expect("possible");
            for other in Part::ALL {
                let expected = if other == part { Some(value) } else { DOSE.part(other) };
                assert_eq!(changed.part(other), expected, "{other:?} after {part:?}");
            }
        }
        let times = Dose { amount: Amount::Times(10), ..DOSE };
        assert_eq!(times.with(Part::Amount, Some(12.0)).expect("possible").amount, Amount::Times(12));
    }

    #[test]
    fn a_part_outside_its_bounds_is_refused_and_only_a_beat_can_be_left_out() {
        for (part, value) in [(Part::Sets, 0.0), (Part::ADay, 6.0), (Part::AWeek, 8.0), (Part::Beat, 10.0)] {
            assert!(DOSE.with(part, Some(value)).is_err(), "{part:?} {value}");
        }
        assert_eq!(DOSE.with(Part::Beat, None).expect("no beat").beat, 0);
        assert_eq!(Dose { beat: 0, ..DOSE }.part(Part::Beat), None);
        assert!(DOSE.with(Part::Weeks, None).is_err());
        assert!(Dose { beat: 10, ..DOSE }.check().is_err());
        assert!(Dose { beat: 0, ..DOSE }.check().is_ok());
    }
}
