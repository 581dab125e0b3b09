//! What a task with counts by direction hands on besides its words: shares, repetitions in order, and the worse direction.

use crate::anatomy::{Direction, Place};
use crate::capture::answer::{Made, Series};
use crate::evidence::number;
use crate::finding::Comparison;
use crate::measure::{Amount, Better, Course, Measure, Repetition, Sided, Values};
use crate::side_by_side::COMPARABLE;
use crate::sign::{Sign, What};
use crate::statistics::proportion::Proportion;

/// How a task was done, as name and words; what was not noted is left out.
pub type Method = Vec<(&'static str, String)>;

/// The thing that is counted.
#[derive(Debug, Clone, Copy)]
pub struct Counted {
    /// The task.
    pub task: &'static str,
    /// Key within the task: "off_target".
    pub key: &'static str,
    /// In words before the direction: "jumps".
    pub noun: &'static str,
    /// In words behind the direction: "not on target".
    pub event: &'static str,
}

impl Counted {
    /// "saccade.off_target.right".
    fn key_of(&self, toward: Direction) -> String {
        format!("{}.{}.{}", self.task, self.key, toward.word())
    }

    /// "jumps to the right not on target".
    fn words(&self, toward: Direction) -> String {
        format!("{} {} {}", self.noun, toward.phrase(), self.event)
    }

    /// The share in one direction, for the next visit; nothing when nothing was recorded. Fewer is better.
    #[must_use]
    pub fn share(&self, toward: Direction, share: Proportion, method: Method) -> Option<Measure> {
        (share.n() > 0).then(|| Measure {
            key: self.key_of(toward),
            task: self.task,
            what: self.words(toward),
            place: Place::Toward(toward),
            amount: Amount::Share(share),
            better: Better::Lower,
            method,
            limits: &[],
            norm: None,
        })
    }

    /// The events of one direction in their order, for tiring; nothing when nothing was recorded.
    #[must_use]
    pub fn course(&self, toward: Direction, events: Vec<bool>) -> Option<Course> {
        (!events.is_empty()).then(|| Course {
            key: self.key_of(toward),
            task: self.task,
            what: self.words(toward),
            place: Place::Toward(toward),
            values: Values::Events(events),
            better: Better::Lower,
        })
    }
}

/// Repetitions to both sides, in the order they were recorded; nothing when one side is missing.
#[must_use]
pub fn sided(
    task: &'static str,
    what: &'static str,
    events: impl IntoIterator<Item = (Direction, bool)>,
) -> Option<Sided> {
    let repetitions: Vec<Repetition> = events
        .into_iter()
        .filter(|(toward, _)| toward.side().is_some())
        .map(|(toward, event)| Repetition { toward, score: i32::from(event) })
        .collect();
    let to = |toward| repetitions.iter().any(|repetition| repetition.toward == toward);
    let both = to(Direction::Right) && to(Direction::Left);
    let in_turn = mixed(&repetitions);
    both.then_some(Sided { task, what, repetitions, in_turn })
}

/// Whether the two sides were mixed in time rather than done one after the other: the side changes in at least a third of
/// the steps. Sides mixed by chance change in half of them; two blocks change once. Common practice.
fn mixed(repetitions: &[Repetition]) -> bool {
    let changes = repetitions.windows(2).filter(|pair| pair[0].toward != pair[1].toward).count();
    3 * changes >= repetitions.len().saturating_sub(1)
}

/// By whom the repetitions were called, as a part of how it was done: by hand, or by a beat that gives the pace.
#[must_use]
pub fn called(series: &Series) -> (&'static str, String) {
    let bpm = series.runs.iter().find_map(|run| run.bpm);
    let by_beat = series.taps.iter().any(|tap| tap.made != Made::Tapped);
    let words = match bpm {
        Some(bpm) => format!("by a beat, {} a minute", number(bpm)),
        None if by_beat => "by a beat".to_string(),
        None => "by hand".to_string(),
    };
    ("called", words)
}

/// The sign that one direction is worse, for both directions; nothing when too few were compared.
///
/// `worse` is the direction the task's own rule names, `tells` the key of the finding that tells it for a direction.
#[must_use]
pub fn worse_signs(
    what: What,
    comparison: &Comparison,
    worse: Option<Direction>,
    tells: impl Fn(Direction) -> String,
) -> Vec<Sign> {
    let compared = comparison.right.n().min(comparison.left.n()) >= COMPARABLE;
    let sign = |toward| Sign::new(what, Place::Toward(toward), worse == Some(toward), &tells(toward));
    if compared { [Direction::Right, Direction::Left].map(sign).to_vec() } else { Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::side_by_side::compare;

    const RIGHT: (Direction, bool) = (Direction::Right, false);
    const LEFT: (Direction, bool) = (Direction::Left, true);

    #[test]
    fn alternating_and_mixed_sides_are_in_turn_and_blocks_are_not() {
        let in_turn = |events: &[(Direction, bool)]| sided("t", "misses", events.iter().copied()).map(|s| s.in_turn);
        assert_eq!(in_turn(&[RIGHT, LEFT, RIGHT, LEFT]), Some(true));
        assert_eq!(in_turn(&[RIGHT, RIGHT, LEFT, RIGHT, LEFT, LEFT, RIGHT]), Some(true));
        assert_eq!(in_turn(&[RIGHT, RIGHT, RIGHT, RIGHT, RIGHT, LEFT, LEFT, LEFT, LEFT, LEFT]), Some(false));
        assert_eq!(in_turn(&[RIGHT, RIGHT]), None, "one side alone has nothing to be set against");
    }

    #[test]
    fn up_and_down_have_no_side() {
        let sided = sided("t", "misses", [RIGHT, (Direction::Up, true), LEFT]).expect("both sides");
        let scores: Vec<_> = sided.repetitions.iter().map(|repetition| (repetition.toward, repetition.score)).collect();
        assert_eq!(scores, [(Direction::Right, 0), (Direction::Left, 1)]);
    }

    #[test]
    fn too_few_to_compare_is_no_sign_and_alike_is_a_sign_not_seen() {
        let share = |events, n| Proportion::new(events, n).expect("fits");
        let signs = |right, left, worse| {
            worse_signs(What::SaccadesWorse, &compare("t", "k", "misses", right, left), worse, |_| String::new())
        };
        assert_eq!(signs(share(4, 4), share(0, 10), Some(Direction::Right)), []);
        let seen: Vec<_> = signs(share(0, 5), share(0, 5), None).iter().map(|sign| sign.seen).collect();
        assert_eq!(seen, [crate::sign::Seen::No, crate::sign::Seen::No]);
    }
}
