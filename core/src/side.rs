//! The side: whether movements one way are worse than the other way over several tasks, by more than chance.
//!
//! What is named is a direction of worse movement, never a side of the brain: published lesions of one place make one
//! direction worse in one task and the other direction in the next.
//!
//! One test is made over all tasks (`statistics::neighbours`), not one a task. A sign test over five tasks could never
//! reach 0.05 (2/32), so single repetitions count; and because repetitions that follow each other tire and drift together,
//! they may only change places with their neighbours. Three rules follow for what a task may bring:
//!
//! - repetitions done in turn: each pair of neighbours by itself;
//! - a few grades given by one look (fewer than [`COMPARABLE`] a side): the task as a whole, because a glance that favours
//!   one side favours it in every grade;
//! - one direction after the other: held. It adds to the difference, but alone it can never name a side, because what
//!   comes second also comes tired.
//!
//! Healthy examinations are simulated in the tests of this file and of the statistics, with series that hang together in
//! time and that tire; a side is named in at most 5 % of them.

use crate::anatomy::Direction;
use crate::evidence::Citation;
use crate::measure::Sided;
use crate::side_by_side::{COMPARABLE, CONFIDENCE, LEVEL};
use crate::statistics::Interval;
use crate::statistics::neighbours::{Exchange, Neighbours, Ordered, Timed, neighbours};
use crate::statistics::proportion::{Proportion, common_difference};

/// What is compared across tasks: tasks whose repetitions are movements of the eyes that way, with their word and what a
/// score above 0 says.
///
/// Stripes count by the way they move, which is the way the eyes follow them. Antisaccades are left out: an error there
/// is a glance not held back, and its side is the target's. So are head impulses, where the head turns and not the eyes.
static COMPARED: &[(&str, &str, &str)] =
    &[("pursuit", "following", "not smooth"), ("saccade", "jumps", "off target"), ("optokinetic", "stripes", "missed")];

/// Its repetitions are landings. Over- and undershoot never give a side, so this task may only go along with others.
const ACCURACY: &str = "saccade";

/// Fewest tasks that must point the same way before a side is named (common practice).
pub const TASKS: usize = 2;

/// Fewest pairs that can change places: five pairs all one way have p = 2/32, six have 2/64.
pub const PAIRS: usize = 6;

/// The seed of the sample that stands in where arrangements are too many to be weighed.
const SEED: u64 = 0;

/// Source of the test.
pub static RESTRICTED: Citation = Citation {
    short: "Pitman 1937",
    place: "permutation within blocks, here of neighbours in time, Supplement to the J R Stat Soc 4:119",
    link: "",
};

/// Source of the difference over all tasks.
pub static COMMON: Citation = Citation {
    short: "Yan & Su 2010",
    place: "one interval from Newcombe's of several strata, Stat Biopharm Res 2:329",
    link: "",
};

/// Right against left over all tasks.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SideReading {
    /// The tasks that were compared, in exam order.
    pub tasks: Vec<TaskSide>,
    /// What came of it.
    pub outcome: Outcome,
}

/// Right against left in one task.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskSide {
    /// The task.
    pub task: &'static str,
    /// In a sentence: "jumps".
    pub word: &'static str,
    /// What is counted: "off target".
    pub event: &'static str,
    /// Repetitions to the right in which it happened, of all to the right.
    pub right: Proportion,
    /// The same to the left.
    pub left: Proportion,
    /// The direction in which it was worse, by whatever little; `None` when alike.
    pub worse: Option<Direction>,
    /// Whether one direction was examined after the other, so that it adds but cannot decide.
    pub held: bool,
}

/// What came of the comparison.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// Fewer than [`TASKS`] tasks, or fewer than [`PAIRS`] pairs, had both directions.
    TooFew {
        /// Pairs that could change places.
        pairs: usize,
    },
    /// No side stands out.
    NoSide(Compared),
    /// The sides differ by more than chance, but in too few tasks to name one, or by where jumps land alone.
    NotNamed(Compared),
    /// Movements this way are worse, over several tasks.
    Worse(Direction, Compared),
}

impl Default for Outcome {
    fn default() -> Outcome {
        Outcome::TooFew { pairs: 0 }
    }
}

/// The figures of a comparison.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// Pairs that could change places.
    pub pairs: usize,
    /// Those of them that differ.
    pub telling: usize,
    /// Two-sided permutation p.
    pub p: f64,
    /// Share of repetitions with the event, right minus left, common to the tasks done in turn: what is held cannot decide,
    /// so it does not enter the effect that is shown either.
    pub difference: f64,
    /// Its 95 % interval; it takes repetitions for independent.
    pub interval: Interval,
}

/// Compares right and left over all tasks of a visit.
#[must_use]
pub fn read<'a>(sided: impl Iterator<Item = &'a Sided>) -> SideReading {
    let compared: Vec<&Sided> = sided.filter(|sided| words(sided.task).is_some() && both(sided)).collect();
    let ordered: Vec<Ordered> = compared.iter().map(|sided| ordered(sided)).collect();
    let Some(test) = neighbours(&ordered, SEED) else { return SideReading::default() };
    let parts = compared.iter().zip(&ordered).zip(&test.parts);
    let tasks: Vec<TaskSide> = parts.filter_map(|((sided, ordered), part)| side_of(sided, ordered, *part)).collect();
    let outcome = outcome(&tasks, &test);
    SideReading { tasks, outcome }
}

impl SideReading {
    /// The direction in which movements are worse over several tasks, when one stands out.
    #[must_use]
    pub fn worse(&self) -> Option<Direction> {
        match &self.outcome {
            Outcome::TooFew { .. } | Outcome::NoSide(_) | Outcome::NotNamed(_) => None,
            Outcome::Worse(toward, _) => Some(*toward),
        }
    }
}

fn outcome(tasks: &[TaskSide], test: &Neighbours) -> Outcome {
    let shares: Vec<(Proportion, Proportion)> =
        tasks.iter().filter(|task| !task.held).map(|task| (task.right, task.left)).collect();
    let Some((difference, interval)) =
        common_difference(&shares, CONFIDENCE).filter(|_| tasks.len() >= TASKS && test.pairs >= PAIRS)
    else {
        return Outcome::TooFew { pairs: test.pairs };
    };
    let compared = Compared { pairs: test.pairs, telling: test.telling, p: test.p, difference, interval };
    let Some(worse) = toward(test.parts.iter().sum()).filter(|_| test.p <= LEVEL) else {
        return Outcome::NoSide(compared);
    };
    let alike = tasks.iter().filter(|task| task.worse == Some(worse)).count();
    let others = tasks.iter().zip(&test.parts).filter(|(task, _)| task.task != ACCURACY).map(|(_, part)| part).sum();
    if alike < TASKS || toward(others) != Some(worse) {
        return Outcome::NotNamed(compared);
    }
    Outcome::Worse(worse, compared)
}

fn side_of(sided: &Sided, ordered: &Ordered, part: f64) -> Option<TaskSide> {
    let (_, word, event) = words(sided.task)?;
    let share = |toward| {
        let here = sided.repetitions.iter().filter(move |repetition| repetition.toward == toward);
        Proportion::counting(here.map(|repetition| repetition.score > 0))
    };
    let (right, left) = (share(Direction::Right), share(Direction::Left));
    let held = ordered.exchange == Exchange::Held;
    Some(TaskSide { task: sided.task, word, event, right, left, worse: toward(part), held })
}

/// Higher scores on the right make the statistic positive, and higher is worse.
fn toward(part: f64) -> Option<Direction> {
    // Sums of standard scores that cancel leave no more than rounding.
    match part {
        part if part > 1e-9 => Some(Direction::Right),
        part if part < -1e-9 => Some(Direction::Left),
        _ => None,
    }
}

fn words(task: &str) -> Option<&'static (&'static str, &'static str, &'static str)> {
    COMPARED.iter().find(|(id, ..)| *id == task)
}

fn both(sided: &Sided) -> bool {
    count(sided, Direction::Right) > 0 && count(sided, Direction::Left) > 0
}

fn count(sided: &Sided, toward: Direction) -> usize {
    sided.repetitions.iter().filter(|repetition| repetition.toward == toward).count()
}

fn ordered(sided: &Sided) -> Ordered {
    let few = count(sided, Direction::Right).min(count(sided, Direction::Left)) < COMPARABLE as usize;
    let exchange = match (sided.in_turn, few) {
        (false, _) => Exchange::Held,
        (true, true) => Exchange::Whole,
        (true, false) => Exchange::Neighbours,
    };
    let sides = sided.repetitions.iter().filter(|repetition| repetition.toward.side().is_some());
    let timed = sides.map(|repetition| Timed { right: repetition.toward == Direction::Right, score: repetition.score });
    Ordered { repetitions: timed.collect(), exchange }
}

#[cfg(test)]
mod tests;
