//! The way back: what was done on which day and how it felt, as a text for a QR code. Days are counted from the first one;
//! no date and no name is in it.

use super::bits::{Reader, Writer};
use super::code::{self, Kind, Unreadable};
use super::{MOST_ITEMS, Sheet};
use crate::tolerance::Rating;

/// Days a log holds: twelve weeks.
pub const MOST_DAYS: u8 = 84;

/// Most rounds of one exercise that are counted a day.
pub const MOST_ROUNDS: u8 = 7;

/// "Not rated" among the ratings.
const UNRATED: u32 = 15;

/// How the day ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ended {
    /// As planned, or simply over.
    Planned,
    /// Stopped to rest.
    Rested,
    /// The practice was called.
    Practice,
    /// The emergency number was called.
    Emergency,
}

impl Ended {
    /// All, in the order of their numbers in a log.
    const ALL: [Ended; 4] = [Ended::Planned, Ended::Rested, Ended::Practice, Ended::Emergency];
}

/// One day with something in it. A day without exercises has no [`Day`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Day {
    /// Which day, counted from 1.
    pub number: u8,
    /// Rounds of each exercise of the sheet, in its order.
    pub rounds: Vec<u8>,
    /// The worst symptom before and after the round in which it rose most; `None` is not rated.
    pub before: Option<Rating>,
    /// See `before`.
    pub after: Option<Rating>,
    /// How it ended; the gravest of the day.
    pub ended: Ended,
}

/// What a family did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Log {
    /// The mark of its sheet.
    pub sheet: u16,
    /// How many exercises the sheet has.
    pub exercises: u8,
    /// Days in order.
    pub days: Vec<Day>,
}

impl Log {
    /// An empty log of a sheet.
    #[must_use]
    pub fn of(sheet: &Sheet) -> Log {
        let exercises = u8::try_from(sheet.entries.len()).unwrap_or(0);
        Log { sheet: sheet.mark(), exercises, days: Vec::new() }
    }

    /// Whether it belongs to this sheet.
    #[must_use]
    pub fn belongs_to(&self, sheet: &Sheet) -> bool {
        self.sheet == sheet.mark() && usize::from(self.exercises) == sheet.entries.len()
    }

    /// Notes one round: of an exercise, by its place on the sheet, on a day. Beyond the last day of a log, or for an
    /// exercise the sheet does not have, nothing is noted.
    pub fn note(&mut self, number: u8, exercise: usize, felt: (Option<Rating>, Option<Rating>), ended: Ended) {
        if exercise >= usize::from(self.exercises) {
            return;
        }
        self.note_felt(number, felt, ended);
        if let Some(day) = self.days.iter_mut().find(|day| day.number == number) {
            day.rounds[exercise] = (day.rounds[exercise] + 1).min(MOST_ROUNDS);
        }
    }

    /// Notes how it felt and ended on a day without counting a round: it was not begun, or stopped before its end.
    pub fn note_felt(&mut self, number: u8, felt: (Option<Rating>, Option<Rating>), ended: Ended) {
        if !(1..=MOST_DAYS).contains(&number) {
            return;
        }
        let at = self.days.partition_point(|day| day.number < number);
        if self.days.get(at).is_none_or(|day| day.number != number) {
            let rounds = vec![0; usize::from(self.exercises)];
            self.days.insert(at, Day { number, rounds, before: None, after: None, ended: Ended::Planned });
        }
        let day = &mut self.days[at];
        day.ended = day.ended.max(ended);
        if rise(felt) > rise((day.before, day.after)) {
            (day.before, day.after) = felt;
        }
    }

    /// Rounds of an exercise on a day.
    #[must_use]
    pub fn rounds(&self, number: u8, exercise: usize) -> u8 {
        let day = self.days.iter().find(|day| day.number == number);
        day.and_then(|day| day.rounds.get(exercise)).copied().unwrap_or(0)
    }

    /// What the practice reads at the next visit, in sentences; calls for help come first.
    #[must_use]
    pub fn lines(&self, sheet: &Sheet) -> Vec<String> {
        let mut lines = Vec::new();
        for (ended, what) in
            [(Ended::Emergency, "The emergency number was called"), (Ended::Practice, "The practice was called")]
        {
            let days: Vec<String> =
                self.days.iter().filter(|day| day.ended == ended).map(|day| day.number.to_string()).collect();
            if !days.is_empty() {
                let word = if days.len() == 1 { "day" } else { "days" };
                lines.push(format!("{what} on {word} {}.", days.join(", ")));
            }
        }
        if !self.belongs_to(sheet) {
            lines.push("This log belongs to another sheet, so rounds are not set against this plan.".to_string());
            return lines;
        }
        lines.extend(super::Spoken::of(self, sheet).lines());
        lines
    }

    /// The text for a QR code.
    #[must_use]
    pub fn encode(&self) -> String {
        code::seal(Kind::Log, &self.body())
    }

    /// Reads a text back.
    ///
    /// # Errors
    /// [`Unreadable`] says in one sentence what is wrong and what to do.
    pub fn decode(text: &str) -> Result<Log, Unreadable> {
        let body = code::open(Kind::Log, text)?;
        let log = Log::read(&mut Reader::new(&body))?;
        if log.body() != body {
            return Err(Unreadable::Damaged);
        }
        Ok(log)
    }

    fn body(&self) -> Vec<u8> {
        let mut out = Writer::default();
        out.bits(u32::from(self.sheet), 16);
        out.bits(u32::from(self.exercises), 3);
        let last = self.days.iter().map(|day| day.number).max().unwrap_or(0).min(MOST_DAYS);
        out.bits(u32::from(last), 7);
        for number in 1..=last {
            let day = self.days.iter().find(|day| day.number == number);
            out.bits(u32::from(day.is_some()), 1);
            let Some(day) = day else { continue };
            for exercise in 0..usize::from(self.exercises) {
                out.bits(u32::from(day.rounds.get(exercise).map_or(0, |rounds| *rounds.min(&MOST_ROUNDS))), 3);
            }
            for felt in [day.before, day.after] {
                out.bits(felt.map_or(UNRATED, |rating| u32::from(rating.value())), 4);
            }
            out.bits(day.ended as u32, 2);
        }
        out.finish()
    }

    fn read(from: &mut Reader<'_>) -> Result<Log, Unreadable> {
        let sheet = from.wide(16)?;
        let exercises = from.small(3)?;
        let last = from.small(7)?;
        if usize::from(exercises) > MOST_ITEMS || last > MOST_DAYS {
            return Err(Unreadable::Damaged);
        }
        let mut days = Vec::new();
        for number in 1..=last {
            if from.bits(1)? == 0 {
                continue;
            }
            let rounds = (0..exercises).map(|_| from.small(3)).collect::<Result<_, _>>()?;
            let (before, after) = (rating(from.bits(4)?)?, rating(from.bits(4)?)?);
            let ended = Ended::ALL[from.bits(2)? as usize];
            days.push(Day { number, rounds, before, after, ended });
        }
        Ok(Log { sheet, exercises, days })
    }
}

/// The rise of a round; a round rated in part is more than none at all.
fn rise(felt: (Option<Rating>, Option<Rating>)) -> i16 {
    match felt {
        (Some(before), Some(after)) => i16::from(after.value()) - i16::from(before.value()),
        (Some(_), None) | (None, Some(_)) => -50,
        (None, None) => -100,
    }
}

fn rating(value: u32) -> Result<Option<Rating>, Unreadable> {
    if value == UNRATED {
        return Ok(None);
    }
    let rating = u8::try_from(value).ok().and_then(Rating::new);
    rating.map(Some).ok_or(Unreadable::Damaged)
}
