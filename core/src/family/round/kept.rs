//! A round as words of one line, so that it goes on where it stood. Words that describe no round that can have been are none.

use super::{Held, LEAD, Round, Stage};
use crate::sheet::{Entry, Phase};
use crate::tolerance::{Limits, Rating, Reason};

/// Where a rating was not given.
const NONE: &str = "-";

impl Round {
    /// The words: the ratings, whether all of it was done, and where it stands.
    pub(in crate::family) fn encode(&self) -> String {
        let felt = |rating: Option<Rating>| rating.map_or(NONE.to_string(), |rating| rating.value().to_string());
        let stage = match self.stage {
            Stage::Before => "before".to_string(),
            Stage::Ready => "ready".to_string(),
            Stage::Lead { left } => format!("lead {left}"),
            Stage::Work { at, left } => format!("work {at} {left}"),
            Stage::After => "after".to_string(),
            // What to do follows from the ratings.
            Stage::Told(..) => "told".to_string(),
        };
        let done = if self.whole { "whole" } else { "part" };
        format!("{} {} {done} {stage}", felt(self.before), felt(self.after))
    }

    /// The round of these words. Its clock stands still until somebody goes on.
    pub(in crate::family) fn decode<'a>(
        words: &mut impl Iterator<Item = &'a str>,
        entry: Entry,
        limits: Limits,
    ) -> Option<Round> {
        let mut round = Round::new(entry, limits);
        round.before = felt(words.next()?)?;
        round.after = felt(words.next()?)?;
        round.whole = match words.next()? {
            "whole" => true,
            "part" => false,
            _ => return None,
        };
        let stage = words.next()?;
        let mut number = || words.next()?.parse::<u32>().ok();
        round.stage = match stage {
            "before" => Stage::Before,
            "ready" => Stage::Ready,
            "lead" => Stage::Lead { left: number()? },
            "work" => Stage::Work { at: usize::try_from(number()?).ok()?, left: number()? },
            "after" => Stage::After,
            "told" => {
                let (verdict, reason) = round.judged();
                Stage::Told(verdict, reason)
            }
            _ => return None,
        };
        if !round.can_have_been() {
            return None;
        }
        round.hold(Held::Away);
        Some(round)
    }

    fn can_have_been(&self) -> bool {
        let rated = (self.before.is_some(), self.after.is_some());
        let begun = rated == (true, false) && self.judged().1 != Reason::StrongBefore;
        match self.stage {
            Stage::Before => rated == (false, false) && !self.whole,
            Stage::Ready => begun && !self.whole,
            Stage::Lead { left } => begun && !self.whole && (1..=LEAD).contains(&left),
            Stage::Work { at, left } => begun && !self.whole && self.phases.get(at).is_some_and(|of| fits(*of, left)),
            Stage::After => begun,
            Stage::Told(_, reason) => match rated {
                (true, true) => true,
                (true, false) => reason == Reason::StrongBefore && !self.whole,
                (false, _) => false,
            },
        }
    }
}

/// Whether so many milliseconds of a phase can be left; a set that is counted has none.
fn fits(phase: Phase, left: u32) -> bool {
    match phase {
        Phase::Timed { seconds, .. } | Phase::Rest { seconds } => (1..=u32::from(seconds) * 1000).contains(&left),
        Phase::Counted { .. } => left == 0,
    }
}

fn felt(word: &str) -> Option<Option<Rating>> {
    if word == NONE {
        return Some(None);
    }
    word.parse().ok().and_then(Rating::new).map(Some)
}
