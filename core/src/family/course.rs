//! What a family's phone keeps of one sheet: the log, which day is the first, and what is still open. Days and minutes come
//! from outside.
//!
//! Days are counted from the first with an exercise or a reason not to do one, so that a plan that waits a week on the
//! fridge begins with day 1. A clock that was set back never makes a day before the first.

use super::round::Outcome;
use crate::catalogue::Language;
use crate::sheet::{Ended, Log, MOST_DAYS, Sheet};
use crate::tolerance::{self, Rating, Reason};

/// When it is, as the phone says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Now {
    /// The day where the phone is, counted from any fixed day.
    pub day: i64,
    /// Minutes from any fixed moment, whatever the time zone.
    pub minute: i64,
}

/// Why no exercise is begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// Not on this day.
    Day(i64),
    /// Not before somebody who can judge it said so.
    UntilTold,
}

/// A rise that may not have settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Settling {
    /// Which exercise of the sheet.
    pub exercise: usize,
    /// On which day of the log.
    pub number: u8,
    /// Before and after.
    pub before: Rating,
    /// See `before`.
    pub after: Rating,
    /// When it was rated.
    pub minute: i64,
}

/// What a family says of a rise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settled {
    /// It was gone sooner than the limit.
    Under,
    /// It took as long as the limit or longer.
    Over,
    /// It is still there.
    NotYet,
}

/// One sheet on one phone.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// The sheet.
    pub sheet: Sheet,
    /// What was done.
    pub log: Log,
    /// The language it is read in.
    pub language: Language,
    /// Whether the lists at its beginning were read.
    pub read: bool,
    /// The day that is day 1.
    pub first: Option<i64>,
    /// Why nothing is begun, if so.
    pub hold: Option<Hold>,
    /// A rise to ask about.
    pub settling: Option<Settling>,
    /// For each exercise whether the easier step comes next.
    pub easier: Vec<bool>,
    /// When it was opened last.
    pub opened: i64,
}

impl Course {
    /// A sheet that was just opened.
    #[must_use]
    pub fn new(sheet: Sheet) -> Course {
        let (log, language, easier) = (Log::of(&sheet), sheet.language, vec![false; sheet.entries.len()]);
        Course { sheet, log, language, read: false, first: None, hold: None, settling: None, easier, opened: 0 }
    }

    /// The number of a day, from 1; `None` beyond the last a log holds.
    #[must_use]
    pub fn number(&self, now: Now) -> Option<u8> {
        let passed = self.first.map_or(0, |first| now.day.saturating_sub(first).max(0));
        u8::try_from(passed.saturating_add(1)).ok().filter(|number| *number <= MOST_DAYS)
    }

    /// Rounds of an exercise that were done today.
    #[must_use]
    pub fn done(&self, exercise: usize, now: Now) -> u8 {
        // Before the first day nothing is done, though its number is 1.
        self.first.and_then(|_| self.number(now)).map_or(0, |number| self.log.rounds(number, exercise))
    }

    /// Whether everything planned for a day is done.
    #[must_use]
    pub fn done_for_today(&self, now: Now) -> bool {
        let entries = &self.sheet.entries;
        !entries.is_empty() && (0..entries.len()).all(|at| self.done(at, now) >= entries[at].dose.a_day)
    }

    /// Why no exercise is begun now.
    #[must_use]
    pub fn held(&self, now: Now) -> Option<Hold> {
        self.hold.filter(|hold| match hold {
            Hold::Day(day) => *day == now.day,
            Hold::UntilTold => true,
        })
    }

    /// A rating before an exercise: when it is back where an earlier rise began, that rise has settled.
    pub fn rated_before(&mut self, rating: Rating) {
        if self.settling.is_some_and(|open| rating <= open.before) {
            self.settling = None;
        }
    }

    /// Takes down what a round came to.
    pub fn note(&mut self, exercise: usize, outcome: &Outcome, now: Now) {
        self.first.get_or_insert(now.day);
        let Some(number) = self.number(now) else { return };
        let felt = (outcome.before, outcome.after);
        if outcome.whole {
            self.log.note(number, exercise, felt, outcome.ended);
        } else {
            self.log.note_felt(number, felt, outcome.ended);
        }
        if let (Some(before), Some(after)) = felt
            && after > before
        {
            self.settling = Some(Settling { exercise, number, before, after, minute: now.minute });
        }
        self.follow(exercise, outcome.reason, now);
    }

    /// Takes down how a rise went on. A reason is given back when it took too long: rest, or call the practice.
    pub fn settled(&mut self, settled: Settled, now: Now) -> Option<Reason> {
        let open = self.settling?;
        let passed = u16::try_from(now.minute.saturating_sub(open.minute).max(0)).unwrap_or(u16::MAX);
        let minutes = match settled {
            Settled::Under => 0,
            Settled::Over => self.sheet.limits.minutes,
            Settled::NotYet => passed,
        };
        let round =
            tolerance::Round { before: open.before, after: Some(open.after), settled: Some(minutes), danger: false };
        let (_, reason) = tolerance::judge(&round, self.sheet.limits);
        if settled != Settled::NotYet || reason == Reason::ADay {
            self.settling = None;
        }
        let (reason, ended) = match reason {
            Reason::ADay => (reason, Ended::Practice),
            Reason::Lasted => (reason, Ended::Rested),
            // It rose beyond the limit and was told so then; that it lasts is new.
            Reason::Rose if settled == Settled::NotYet => (reason, Ended::Rested),
            Reason::Within | Reason::AtLimit | Reason::Rose | Reason::StrongBefore | Reason::Danger => return None,
        };
        self.log.note_felt(open.number, (None, None), ended);
        self.follow(open.exercise, reason, now);
        Some(reason)
    }

    /// Somebody who can judge it said that it may go on.
    pub fn told(&mut self) {
        self.hold = None;
        // What rose before that was part of what was told.
        self.settling = None;
    }

    /// Forgets what was done; the plan stays.
    pub fn clear(&mut self) {
        let (language, read, opened) = (self.language, self.read, self.opened);
        *self = Course { language, read, opened, ..Course::new(self.sheet.clone()) };
    }

    /// What a verdict means for the days to come.
    fn follow(&mut self, exercise: usize, reason: Reason, now: Now) {
        let hold = match reason {
            Reason::Within | Reason::AtLimit | Reason::StrongBefore => None,
            Reason::Rose | Reason::Lasted => Some(Hold::Day(now.day)),
            Reason::ADay | Reason::Danger => Some(Hold::UntilTold),
        };
        // Rest for a day never takes the place of waiting for a word.
        if self.hold != Some(Hold::UntilTold) {
            self.hold = hold.or(self.hold);
        }
        if let Some(easier) = self.easier.get_mut(exercise) {
            *easier = match reason {
                Reason::Within => false,
                Reason::AtLimit | Reason::Rose | Reason::Lasted => true,
                Reason::StrongBefore | Reason::ADay | Reason::Danger => *easier,
            };
        }
    }
}
