//! One round of an exercise as a family does it: a rating before, sets and rests by the clock, a rating after, a verdict.
//!
//! Time comes in as milliseconds that have passed. Time in which nobody can have looked at the phone is not counted: when
//! the page was hidden, or nothing was heard of it for longer than [`LONGEST_GAP`], the clock stands still until somebody
//! goes on. A set that ended unseen would be counted as done, and a rest could end without anyone having rested.

mod kept;

use crate::sheet::{Ended, Entry, Phase, phases};
use crate::tolerance::{self, Limits, Rating, Reason, Verdict};

/// Longest time between two looks at the clock that still counts, in milliseconds. Browsers look once a second even when
/// they save power; beyond that the phone slept.
pub const LONGEST_GAP: u32 = 2000;

/// Time to put the phone down before the first set, in milliseconds (common practice).
pub const LEAD: u32 = 5000;

/// Where a round stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// The rating before is asked.
    Before,
    /// The steps are read, the clock has not begun.
    Ready,
    /// A few seconds to get ready.
    Lead {
        /// Milliseconds left.
        left: u32,
    },
    /// A set or a rest.
    Work {
        /// Which of the phases.
        at: usize,
        /// Milliseconds left; 0 where a tap ends it.
        left: u32,
    },
    /// The rating after is asked.
    After,
    /// It is over, and this is what to do.
    Told(Verdict, Reason),
}

/// Why the clock stands still.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Somebody asked for it.
    Asked,
    /// The page was hidden or the phone slept.
    Away,
}

/// What is heard when a phase ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cue {
    /// A set begins.
    Begin,
    /// A rest begins.
    Rest,
    /// The last set is done.
    Over,
}

/// What a round came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outcome {
    /// The worst symptom before; `None` when danger came first.
    pub before: Option<Rating>,
    /// The worst symptom after; `None` when it was not begun or danger came first.
    pub after: Option<Rating>,
    /// Whether all of it was done.
    pub whole: bool,
    /// How it ended.
    pub ended: Ended,
    /// Why that is so.
    pub reason: Reason,
}

/// One round going on.
#[derive(Debug, Clone, PartialEq)]
pub struct Round {
    entry: Entry,
    limits: Limits,
    phases: Vec<Phase>,
    stage: Stage,
    held: Option<Held>,
    before: Option<Rating>,
    after: Option<Rating>,
    whole: bool,
}

impl Round {
    /// A round that begins with the rating before.
    #[must_use]
    pub fn new(entry: Entry, limits: Limits) -> Round {
        let phases = phases(&entry.dose);
        Round { entry, limits, phases, stage: Stage::Before, held: None, before: None, after: None, whole: false }
    }

    /// The exercise and its dose.
    #[must_use]
    pub fn entry(&self) -> &Entry {
        &self.entry
    }

    /// Where it stands.
    #[must_use]
    pub fn stage(&self) -> Stage {
        self.stage
    }

    /// Why its clock stands still, if it does.
    #[must_use]
    pub fn held(&self) -> Option<Held> {
        self.held
    }

    /// The phase that goes on.
    #[must_use]
    pub fn phase(&self) -> Option<Phase> {
        let Stage::Work { at, .. } = self.stage else { return None };
        self.phases.get(at).copied()
    }

    /// The set that goes on or comes next, counted from 1.
    #[must_use]
    pub fn set(&self) -> u8 {
        let Stage::Work { at, .. } = self.stage else { return 1 };
        let number = |phase: &Phase| match phase {
            Phase::Timed { set, .. } | Phase::Counted { set, .. } => Some(*set),
            Phase::Rest { .. } => None,
        };
        self.phases.iter().skip(at).find_map(number).unwrap_or(self.entry.dose.sets)
    }

    /// Whether the clock runs, so that the screen should stay awake.
    #[must_use]
    pub fn runs(&self) -> bool {
        self.held.is_none() && matches!(self.stage, Stage::Lead { .. } | Stage::Work { .. })
    }

    /// The beat to be heard now, in beats a minute.
    #[must_use]
    pub fn beat(&self) -> Option<u16> {
        let works = matches!(self.phase(), Some(Phase::Timed { .. } | Phase::Counted { .. }));
        (works && self.held.is_none() && self.entry.dose.beat > 0).then_some(self.entry.dose.beat)
    }

    /// Takes a rating where one is asked.
    pub fn rate(&mut self, rating: Rating) {
        match self.stage {
            Stage::Before => {
                self.before = Some(rating);
                let (verdict, reason) = self.judged();
                self.stage = if reason == Reason::StrongBefore { Stage::Told(verdict, reason) } else { Stage::Ready };
            }
            Stage::After => {
                self.after = Some(rating);
                let (verdict, reason) = self.judged();
                self.stage = Stage::Told(verdict, reason);
            }
            Stage::Ready | Stage::Lead { .. } | Stage::Work { .. } | Stage::Told(..) => {}
        }
    }

    /// Begins: a few seconds, then the first set.
    pub fn begin(&mut self) {
        if self.stage == Stage::Ready {
            self.stage = Stage::Lead { left: LEAD };
        }
    }

    /// All sets were done without the clock.
    pub fn done_alone(&mut self) {
        if self.stage == Stage::Ready {
            self.whole = true;
            self.stage = Stage::After;
        }
    }

    /// Lets time pass. The last cue that fell into it is given back.
    pub fn pass(&mut self, milliseconds: u32) -> Option<Cue> {
        if milliseconds > LONGEST_GAP {
            self.hold(Held::Away);
        }
        let mut heard = None;
        let mut rest = milliseconds;
        while self.runs() {
            let (Stage::Lead { left } | Stage::Work { left, .. }) = &mut self.stage else { break };
            // A set that is counted waits for a tap, however much time passes.
            if *left == 0 {
                break;
            }
            if rest < *left {
                *left -= rest;
                break;
            }
            rest -= *left;
            heard = Some(self.next());
        }
        heard
    }

    /// Ends a set that is counted.
    pub fn counted(&mut self) -> Option<Cue> {
        matches!(self.phase(), Some(Phase::Counted { .. })).then(|| {
            self.held = None;
            self.next()
        })
    }

    /// Lets the clock stand still. Somebody who asked for it has not gone away later.
    pub fn hold(&mut self, why: Held) {
        if self.runs() {
            self.held = Some(why);
        }
    }

    /// Goes on.
    pub fn go_on(&mut self) {
        self.held = None;
    }

    /// Stops before the end; how it feels is still asked.
    pub fn stop(&mut self) {
        if matches!(self.stage, Stage::Lead { .. } | Stage::Work { .. }) {
            self.held = None;
            self.stage = Stage::After;
        }
    }

    /// A danger sign is there. Whatever the numbers, help is called.
    pub fn danger(&mut self) {
        self.held = None;
        self.stage = Stage::Told(Verdict::CallNow, Reason::Danger);
    }

    /// What it came to, once that is known.
    #[must_use]
    pub fn outcome(&self) -> Option<Outcome> {
        let Stage::Told(verdict, reason) = self.stage else { return None };
        let ended = match (verdict, reason) {
            (Verdict::CallNow, Reason::Danger) => Ended::Emergency,
            (Verdict::CallNow, _) => Ended::Practice,
            (Verdict::StopAndRest, _) => Ended::Rested,
            (Verdict::GoOn, _) if self.whole => Ended::Planned,
            (Verdict::GoOn, _) => Ended::Rested,
        };
        Some(Outcome { before: self.before, after: self.after, whole: self.whole, ended, reason })
    }

    fn judged(&self) -> (Verdict, Reason) {
        let Some(before) = self.before else { return (Verdict::GoOn, Reason::Within) };
        let round = tolerance::Round { before, after: self.after, settled: None, danger: false };
        tolerance::judge(&round, self.limits)
    }

    /// The next phase, and what is heard as it begins.
    fn next(&mut self) -> Cue {
        let at = match self.stage {
            Stage::Work { at, .. } => at + 1,
            Stage::Before | Stage::Ready | Stage::Lead { .. } | Stage::After | Stage::Told(..) => 0,
        };
        let Some(phase) = self.phases.get(at) else {
            self.whole = true;
            self.stage = Stage::After;
            return Cue::Over;
        };
        let (seconds, cue) = match phase {
            Phase::Timed { seconds, .. } => (*seconds, Cue::Begin),
            Phase::Counted { .. } => (0, Cue::Begin),
            Phase::Rest { seconds } => (*seconds, Cue::Rest),
        };
        self.stage = Stage::Work { at, left: u32::from(seconds) * 1000 };
        cue
    }
}
