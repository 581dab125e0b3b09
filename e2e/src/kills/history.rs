//! What the page showed of a visit, in order and with times, and what a restart must give back of it.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::time::{Duration, Instant};

/// What was shown longer than this before the end must be there again.
pub const SAFE: Duration = Duration::from_secs(1);

/// What one step shows of its record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// All of it, as text.
    pub what: String,
    /// How many marks, trials and grades there are.
    pub size: i64,
}

/// A visit as it was shown at one moment: the step it stands at, and each step's record as it was last seen. A record that
/// was changed out of sight is left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct State {
    pub step: String,
    pub slots: BTreeMap<String, Shown>,
}

/// A tap that was sent and whose outcome nobody saw.
#[derive(Clone, Debug)]
pub struct Unseen {
    /// The step it was made on.
    pub slot: String,
    /// Whether it may lead to another step.
    pub moves: bool,
    /// Whether it changes the record as it does.
    pub fills: bool,
}

/// Everything that one visit has shown.
#[derive(Debug, Default)]
pub struct History {
    seen: Vec<(Instant, State)>,
    unseen: Option<Unseen>,
}

/// How what a restart gave back compares with what was shown.
#[derive(Debug, PartialEq, Eq)]
pub enum Verdict {
    /// All that had to be there is there; so many younger states are not.
    Kept { young: usize },
    /// The tap whose outcome nobody saw is there too.
    KeptWithUnseen,
    /// It is an earlier state: so many states that had to be there are gone.
    Lost { states: usize, oldest: Duration },
    /// More is there than was ever tapped.
    Doubled(String),
    /// Something else, which was never shown.
    Unlike(String),
}

impl History {
    /// Takes note of a look that was asked for at `asked`. The times are those of asking, so none is later than the showing.
    pub fn note(&mut self, asked: Instant, step: &str, shown: Option<(&str, Shown)>) {
        let mut state = self.seen.last().map(|(_, state)| state.clone()).unwrap_or_default();
        if let Some(filled) = self.unseen.take().filter(|unseen| unseen.fills && unseen.slot != step) {
            state.slots.remove(&filled.slot);
        }
        step.clone_into(&mut state.step);
        if let Some((slot, shown)) = shown {
            state.slots.insert(slot.to_owned(), shown);
        }
        if self.seen.last().is_none_or(|(_, last)| *last != state) {
            self.seen.push((asked, state));
        }
    }

    /// Takes note of a tap that is about to be sent.
    pub fn send(&mut self, unseen: Unseen) {
        self.unseen = Some(unseen);
    }

    /// The steps that have shown a record.
    pub fn slots(&self) -> Vec<String> {
        let all: BTreeSet<&String> = self.seen.iter().flat_map(|(_, state)| state.slots.keys()).collect();
        all.into_iter().cloned().collect()
    }

    /// How many different states were shown.
    pub fn len(&self) -> usize {
        self.seen.len()
    }

    /// Goes on from what a restart gave back.
    pub fn begin_from(&mut self, now: Instant, found: State) {
        self.seen = vec![(now, found)];
        self.unseen = None;
    }

    /// Compares what a restart gave back with what was shown until the end at `ended`.
    pub fn judge(&self, ended: Instant, found: &State) -> Verdict {
        let Some((_, last)) = self.seen.last() else { return Verdict::Kept { young: 0 } };
        let must = self.seen.iter().rposition(|(asked, _)| *asked + SAFE <= ended).unwrap_or(0);
        match self.seen.iter().rposition(|(_, state)| state.is_in(found)) {
            Some(at) if at >= must => return Verdict::Kept { young: self.seen.len() - 1 - at },
            Some(at) => {
                let gone = self.seen.get(at + 1).map_or(Duration::ZERO, |(asked, _)| ended.duration_since(*asked));
                return Verdict::Lost { states: must - at, oldest: gone };
            }
            None => {}
        }
        if self.unseen.as_ref().is_some_and(|unseen| follows(last, unseen, found)) {
            return Verdict::KeptWithUnseen;
        }
        let allowed = |slot: &str| i64::from(self.unseen.as_ref().is_some_and(|unseen| unseen.slot == slot));
        let more = found.slots.iter().find(|(slot, shown)| {
            let most = self.seen.iter().filter_map(|(_, state)| state.slots.get(*slot)).map(|shown| shown.size).max();
            shown.size > most.unwrap_or(0) + allowed(slot)
        });
        match more {
            Some((slot, shown)) => Verdict::Doubled(format!("{slot} has {}: {last} then {found}", shown.size)),
            None => Verdict::Unlike(format!("{last} then {found}")),
        }
    }
}

impl State {
    /// Whether all that was seen is found again, to the letter.
    fn is_in(&self, found: &State) -> bool {
        self.step == found.step && self.slots.iter().all(|(slot, shown)| found.slots.get(slot) == Some(shown))
    }
}

/// Whether `found` can be what the tap that nobody saw made of `last`.
fn follows(last: &State, unseen: &Unseen, found: &State) -> bool {
    let same_step = last.step == found.step || unseen.moves;
    let others_alike =
        last.slots.iter().all(|(slot, shown)| *slot == unseen.slot || found.slots.get(slot) == Some(shown));
    let by_one = match (last.slots.get(&unseen.slot), found.slots.get(&unseen.slot)) {
        // "All as expected" fills a whole table at once; any other tap makes one mark.
        (Some(before), Some(after)) => before.size == 0 || (after.size - before.size).abs() <= 1,
        (before, after) => before.is_none() && after.is_none(),
    };
    same_step && others_alike && by_one
}

impl fmt::Display for State {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "at {}", self.step)?;
        self.slots.iter().try_for_each(|(slot, shown)| write!(f, " | {slot} {}", shown.what))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(marks: &str) -> Shown {
        Shown { what: marks.to_owned(), size: i64::try_from(marks.len()).expect("few marks") }
    }

    fn found(step: &str, marks: &str) -> State {
        State { step: step.to_owned(), slots: BTreeMap::from([("saccade".to_owned(), shown(marks))]) }
    }

    /// Marks a, b, c, half a second apart, then a tap that nobody saw the outcome of.
    fn three_marks() -> (Instant, History) {
        let start = Instant::now();
        let mut history = History::default();
        for (at, marks) in [(0, ""), (500, "a"), (1000, "ab"), (1500, "abc")] {
            history.note(start + Duration::from_millis(at), "saccade", Some(("saccade", shown(marks))));
        }
        history.send(Unseen { slot: "saccade".to_owned(), moves: false, fills: false });
        (start, history)
    }

    fn lost(states: usize, millis: u64) -> Verdict {
        Verdict::Lost { states, oldest: Duration::from_millis(millis) }
    }

    #[test]
    fn what_is_older_than_a_second_must_be_there() {
        let (start, history) = three_marks();
        let ended = start + Duration::from_millis(2010);
        assert_eq!(history.judge(ended, &found("saccade", "abc")), Verdict::Kept { young: 0 });
        assert_eq!(history.judge(ended, &found("saccade", "ab")), Verdict::Kept { young: 1 });
        assert_eq!(history.judge(ended, &found("saccade", "a")), lost(1, 1010));
        assert_eq!(history.judge(ended, &found("saccade", "")), lost(2, 1510));
    }

    #[test]
    fn the_unseen_tap_may_be_there_once_and_not_twice() {
        let (start, history) = three_marks();
        let ended = start + Duration::from_millis(1600);
        assert_eq!(history.judge(ended, &found("saccade", "abcd")), Verdict::KeptWithUnseen);
        assert!(matches!(history.judge(ended, &found("saccade", "abcdd")), Verdict::Doubled(_)));
    }

    #[test]
    fn another_step_or_a_change_that_nobody_made_is_unlike() {
        let (start, history) = three_marks();
        let ended = start + Duration::from_millis(1600);
        assert!(matches!(history.judge(ended, &found("pursuit", "abc")), Verdict::Unlike(_)));
        let mut without_unseen = history;
        without_unseen.unseen = None;
        assert!(matches!(without_unseen.judge(ended, &found("saccade", "xyz")), Verdict::Unlike(_)));
        assert!(matches!(without_unseen.judge(ended, &found("saccade", "abcd")), Verdict::Doubled(_)));
    }

    #[test]
    fn what_was_filled_out_of_sight_is_not_compared() {
        let (start, mut history) = three_marks();
        history.send(Unseen { slot: "saccade".to_owned(), moves: true, fills: true });
        history.note(start + Duration::from_millis(1700), "pursuit", Some(("pursuit", shown(""))));
        let mut both = found("pursuit", "abcz");
        both.slots.insert("pursuit".to_owned(), shown(""));
        assert_eq!(history.judge(start + Duration::from_millis(5000), &both), Verdict::Kept { young: 0 });
        assert_eq!(history.slots(), ["pursuit", "saccade"]);
        both.slots.insert("pursuit".to_owned(), shown("q"));
        assert!(matches!(history.judge(start + Duration::from_millis(5000), &both), Verdict::Doubled(_)));
    }

    #[test]
    fn a_state_that_came_back_by_undo_counts_as_its_latest() {
        let (start, mut history) = three_marks();
        history.note(start + Duration::from_millis(1700), "saccade", Some(("saccade", shown("ab"))));
        let ended = start + Duration::from_millis(5000);
        assert_eq!(history.judge(ended, &found("saccade", "ab")), Verdict::Kept { young: 0 });
        assert_eq!(history.judge(ended, &found("saccade", "abc")), lost(1, 3300));
    }
}
