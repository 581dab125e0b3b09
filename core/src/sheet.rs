//! The family's sheet: a signed-off plan without any identity, as a text short enough for a link and a QR code, and back.
//!
//! A sheet holds numbers only: which of our exercises, how much, which advice, what symptoms may do. No name, no date, no
//! free words; whoever makes one up can only choose among our own texts and possible doses. It is not encrypted and not
//! signed: its check sum finds damage, not forgery.
//!
//! Form, version 1: `SHEET1.` and base32 (RFC 4648, without padding) of a length, the body and its CRC-32. All characters
//! are of a QR code's alphanumeric mode.

mod bits;
mod check_digit;
mod code;
mod draft;
mod log;
mod pacing;
mod size;
mod spoken;
mod words;

#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties;
#[cfg(test)]
mod tests;

pub use code::Unreadable;
pub use draft::{read_draft, write_draft};
pub use log::{Day, Ended, Log, MOST_DAYS, MOST_ROUNDS};
pub use pacing::{Phase, least_seconds, phases};
pub use size::{HIGHEST_VERSION, TooLarge, qr_version};
pub use spoken::{Misheard, Spoken};
pub use words::{dose_lines, rules, stop_lines};

use self::bits::{Reader, Writer};
use self::code::Kind;
use crate::advice::{self, Advice};
use crate::catalogue::Language;
use crate::exercise::{self, Amount, Dose, Exercise};
use crate::plan::{Choice, Item, MOST_DIGITS, MOST_ITEMS, SignedOff};
use crate::tolerance::Limits;

/// One exercise of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// The exercise.
    pub exercise: &'static Exercise,
    /// How much and how often.
    pub dose: Dose,
}

/// What a family opens.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Exercises in the order they are done.
    pub entries: Vec<Entry>,
    /// Advice in the order it is read.
    pub advice: Vec<&'static Advice>,
    /// What symptoms may do.
    pub limits: Limits,
    /// The emergency number, digits only; empty when it is said in words.
    pub emergency: String,
    /// Whether an adult stays with the child.
    pub helper: bool,
    /// The language it opens in.
    pub language: Language,
}

impl Sheet {
    /// The sheet of a plan that was signed off. Who signed, when and for whom stays in the practice.
    #[must_use]
    pub fn of(signed: &SignedOff) -> Sheet {
        Sheet::unsigned(signed.choice())
    }

    /// The sheet a choice would give, for the practitioner to read before signing off. What no sheet can hold is left out:
    /// an emergency number that is none.
    #[must_use]
    pub fn unsigned(choice: &Choice) -> Sheet {
        let Choice { items, advice, limits, emergency, helper, language } = choice.clone();
        let entries = items.iter().map(|item| Entry { exercise: item.exercise, dose: item.dose }).collect();
        let number = emergency.chars().all(|c| c.is_ascii_digit()) && emergency.len() <= MOST_DIGITS;
        let emergency = if number { emergency } else { String::new() };
        Sheet { entries, advice, limits, emergency, helper, language }
    }

    /// A choice that gives this sheet again, to begin the next one from.
    #[must_use]
    pub fn choice(&self) -> Choice {
        let Sheet { entries, advice, limits, emergency, helper, language } = self.clone();
        let item = |entry: &Entry| Item { exercise: entry.exercise, dose: entry.dose, despite: String::new() };
        Choice { items: entries.iter().map(item).collect(), advice, limits, emergency, helper, language }
    }

    /// The text for a link's fragment and a QR code.
    #[must_use]
    pub fn encode(&self) -> String {
        code::seal(Kind::Sheet, &self.body())
    }

    /// Reads a text, a fragment or a whole link.
    ///
    /// # Errors
    /// [`Unreadable`] says in one sentence what is wrong and what to do.
    pub fn decode(text: &str) -> Result<Sheet, Unreadable> {
        let body = code::open(Kind::Sheet, text)?;
        let mut reader = Reader::new(&body);
        let sheet = Sheet::read(&mut reader)?;
        // One sheet has one text: anything left over or written in another way is no sheet of ours.
        if sheet.body() != body {
            return Err(Unreadable::Damaged);
        }
        Ok(sheet)
    }

    /// The link a family opens: an address of the app and the sheet behind "#", which never reaches a server.
    #[must_use]
    pub fn link(&self, address: &str) -> String {
        let address = address.split('#').next().unwrap_or_default();
        format!("{address}#{}", self.encode())
    }

    /// What a log of this sheet carries, so that it is laid beside the right one. It says nothing of the person.
    #[must_use]
    pub fn mark(&self) -> u16 {
        (code::crc32(&self.body()) & 0xffff) as u16
    }

    fn body(&self) -> Vec<u8> {
        let mut out = Writer::default();
        out.bits(u32::from(self.helper), 1);
        out.bits(number_of(self.language), 4);
        out.bits(u32::from(self.limits.rise), 3);
        out.bits(u32::from(self.limits.minutes / 5), 4);
        out.bits(u32::try_from(self.emergency.len()).unwrap_or(0), 4);
        for digit in self.emergency.chars() {
            out.bits(digit.to_digit(10).unwrap_or(0), 4);
        }
        out.bits(self.advice.iter().fold(0, |all, advice| all | 1 << advice.number), 8);
        out.bits(u32::try_from(self.entries.len()).unwrap_or(0), 3);
        for Entry { exercise, dose } in &self.entries {
            out.bits(u32::from(exercise.number), 7);
            let (of_time, amount) = match dose.amount {
                Amount::Seconds(seconds) => (1, seconds),
                Amount::Times(times) => (0, times),
            };
            out.bits(of_time, 1);
            out.bits(u32::from(amount), 11);
            out.bits(u32::from(dose.sets), 4);
            out.bits(u32::from(dose.rest), 10);
            out.bits(u32::from(dose.a_day), 3);
            out.bits(u32::from(dose.a_week), 3);
            out.bits(u32::from(dose.weeks), 4);
            out.bits(u32::from(dose.beat), 8);
        }
        out.finish()
    }

    fn read(from: &mut Reader<'_>) -> Result<Sheet, Unreadable> {
        let helper = from.bits(1)? == 1;
        let language = language_of(from.bits(4)?)?;
        let limits = Limits { rise: from.small(3)?, minutes: u16::from(from.small(4)?) * 5 };
        let digits = from.bits(4)?;
        let emergency = (0..digits).map(|_| digit(from.bits(4)?)).collect::<Result<String, _>>()?;
        let advised = from.bits(8)?;
        let advice = (0..8u8).filter(|bit| advised >> bit & 1 == 1);
        let advice = advice.map(|bit| advice::by_number(bit).ok_or(Unreadable::Newer)).collect::<Result<_, _>>()?;
        let count = from.bits(3)?;
        if count as usize > MOST_ITEMS || !limits.possible() {
            return Err(Unreadable::Damaged);
        }
        let entries = (0..count).map(|_| entry(from)).collect::<Result<Vec<Entry>, _>>()?;
        let twice = |at: usize| entries[..at].iter().any(|other| other.exercise == entries[at].exercise);
        if (0..entries.len()).any(twice) {
            return Err(Unreadable::Damaged);
        }
        Ok(Sheet { entries, advice, limits, emergency, helper, language })
    }
}

fn entry(from: &mut Reader<'_>) -> Result<Entry, Unreadable> {
    // A number we do not know is an exercise of a later version.
    let exercise = exercise::by_number(from.small(7)?).ok_or(Unreadable::Newer)?;
    let of_time = from.bits(1)? == 1;
    let amount = from.wide(11)?;
    let dose = Dose {
        amount: if of_time { Amount::Seconds(amount) } else { Amount::Times(amount) },
        sets: from.small(4)?,
        rest: from.wide(10)?,
        a_day: from.small(3)?,
        a_week: from.small(3)?,
        weeks: from.small(4)?,
        beat: from.wide(8)?,
    };
    dose.check().map_err(|_| Unreadable::Damaged)?;
    Ok(Entry { exercise, dose })
}

fn digit(value: u32) -> Result<char, Unreadable> {
    char::from_digit(value, 10).ok_or(Unreadable::Damaged)
}

/// A published number is never given to another language.
fn number_of(language: Language) -> u32 {
    match language {
        Language::English => 0,
        Language::Spanish => 1,
    }
}

fn language_of(number: u32) -> Result<Language, Unreadable> {
    Language::ALL.into_iter().find(|language| number_of(*language) == number).ok_or(Unreadable::Newer)
}
