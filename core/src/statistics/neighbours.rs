//! One side against the other across several tasks, when repetitions follow each other in time: only neighbours change
//! places.
//!
//! The free test (`stratified`) deals the labels of a task out anew over all its repetitions. That takes every repetition
//! for exchangeable with every other, which tiring, a lapse of attention or any other dependence in time breaks. Here a
//! label only ever changes places with its neighbour's (restricted permutation, Pitman 1937, Supplement to the Journal of
//! the Royal Statistical Society 4:119; Fisher 1935, The Design of Experiments, section 21, for pairs):
//!
//! - **in turn** ([`Exchange::Neighbours`]): the order is cut into stretches of one side, and each stretch is paired with
//!   the next one. A pair changes places by itself. Exact when the two of a pair are exchangeable, whatever happens
//!   between pairs. Dependence that fades with distance makes neighbours alike and the test cautious: the differences of
//!   two pairs then correlate by -r (1 - r) / 2 for a chain with correlation r. A steady decline favours the side that
//!   comes first in each pair, but over a whole task by no more than the decline from the first repetition to the last,
//!   because the steps between pairs do not count;
//! - **as a whole** ([`Exchange::Whole`]): both sides were examined at the same time but with one judgement each, so all
//!   repetitions of the task change places together;
//! - **one side after the other** ([`Exchange::Held`], and stretches longer than [`LONGEST`]): side and time cannot be told
//!   apart, so nothing changes places. The difference is held as it is and added to every arrangement of the others. It
//!   can tip the scales but never fill them: held parts alone give p = 1, and because the arrangements of the others are
//!   symmetric, the test keeps its level however large the effect of the order is.
//!
//! Scores of a task are divided by their standard deviation, and a pair of stretches of m and n counts m n / (m + n).
//! With u pairs that differ and nothing held, the smallest possible p is 2 / 2ᵘ: five tasks that count once each, as in a
//! sign test over tasks, can never reach 0.05 (2/32 = 0.0625).

pub use super::permutation::Method;
use super::permutation::two_sided_p_of_signs;

/// One repetition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Timed {
    /// Whether it belongs to the right.
    pub right: bool,
    /// How high it scored.
    pub score: i32,
}

/// What may change places in a task.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exchange {
    /// Each pair of neighbouring stretches by itself.
    Neighbours,
    /// The two sides of the task as a whole.
    Whole,
    /// Nothing: one side was examined after the other.
    Held,
}

/// The repetitions of one task in the order they were made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ordered {
    /// The repetitions.
    pub repetitions: Vec<Timed>,
    /// What may change places.
    pub exchange: Exchange,
}

/// The outcome.
#[derive(Clone, Debug, PartialEq)]
pub struct Neighbours {
    /// For each task its part of the statistic, above 0 when the right scores higher; 0 when it cannot tell.
    pub parts: Vec<f64>,
    /// Pairs (and whole tasks) that could change places.
    pub pairs: usize,
    /// Those of them in which the two differ.
    pub telling: usize,
    /// The two-sided permutation p, above 0 and at most 1.
    pub p: f64,
    /// How `p` was found.
    pub method: Method,
}

/// Longest stretch of one side that still counts as in turn: one repeated by mistake.
pub const LONGEST: usize = 2;

/// Tests whether right scores differ from left scores across all tasks. `seed` is used only where the outcomes are too
/// many to be weighed exactly.
///
/// `None` when no task has both sides. A task whose scores are all equal has pairs, none of which differ.
///
/// ```
/// use sidelight_core::statistics::neighbours::{Exchange, Ordered, Timed, neighbours};
///
/// // Ten repetitions in turn, the left one always worse: five pairs. Then one grade a side, worse to the left.
/// let turn = |scores: &[i32]| scores.iter().enumerate().map(|(at, &score)| Timed { right: at % 2 == 0, score }).collect();
/// let jumps = Ordered { repetitions: turn(&[0, 1, 0, 1, 0, 1, 0, 1, 0, 1]), exchange: Exchange::Neighbours };
/// let grades = Ordered { repetitions: turn(&[0, 2]), exchange: Exchange::Whole };
/// let test = neighbours(&[jumps, grades], 0).unwrap();
/// assert_eq!((test.pairs, test.telling), (6, 6));
/// assert!((test.p - 2.0 / 64.0).abs() < 1e-15 && test.parts.iter().all(|part| *part < 0.0));
/// ```
pub fn neighbours(tasks: &[Ordered], seed: u64) -> Option<Neighbours> {
    let tasks: Vec<Steps> = tasks.iter().map(Steps::of).collect();
    if !tasks.iter().any(|task| task.both_sides) {
        return None;
    }
    let steps: Vec<f64> = tasks.iter().flat_map(|task| task.free.iter().copied()).collect();
    let telling: Vec<f64> = steps.iter().copied().filter(|step| *step != 0.0).collect();
    let (p, method) = two_sided_p_of_signs(&telling, tasks.iter().map(|task| task.held).sum(), seed);
    let parts = tasks.iter().map(Steps::sum).collect();
    Some(Neighbours { parts, pairs: steps.len(), telling: telling.len(), p, method })
}

/// What a task adds to the statistic: steps that may change sign, and what is held.
struct Steps {
    both_sides: bool,
    free: Vec<f64>,
    held: f64,
}

impl Steps {
    fn of(task: &Ordered) -> Steps {
        let scores = |right: bool| task.repetitions.iter().filter(move |r| r.right == right).map(|r| r.score);
        let (right, left): (Vec<i32>, Vec<i32>) = (scores(true).collect(), scores(false).collect());
        let mut steps = Steps { both_sides: !right.is_empty() && !left.is_empty(), free: Vec::new(), held: 0.0 };
        if !steps.both_sides {
            return steps;
        }
        let deviation = deviation(&task.repetitions);
        match task.exchange {
            Exchange::Whole => steps.free.push(step(&right, &left, deviation)),
            Exchange::Held => steps.held = step(&right, &left, deviation),
            Exchange::Neighbours => {
                for pair in stretches(&task.repetitions).chunks_exact(2) {
                    let (right, left) = if pair[0].0 { (&pair[0].1, &pair[1].1) } else { (&pair[1].1, &pair[0].1) };
                    let step = step(right, left, deviation);
                    if right.len().max(left.len()) > LONGEST {
                        steps.held += step;
                    } else {
                        steps.free.push(step);
                    }
                }
            }
        }
        steps
    }

    fn sum(&self) -> f64 {
        self.held + self.free.iter().sum::<f64>()
    }
}

/// The difference of two stretches in standard scores, by its weight. Added up in whole numbers, so that mirrored scores
/// give the same number with the other sign.
fn step(right: &[i32], left: &[i32], deviation: f64) -> f64 {
    let total = |scores: &[i32]| scores.iter().map(|&score| i64::from(score)).sum::<i64>();
    let (m, n) = (right.len() as i64, left.len() as i64);
    let difference = total(right) * n - total(left) * m;
    if difference == 0 { 0.0 } else { difference as f64 / ((m + n) as f64 * deviation) }
}

fn deviation(repetitions: &[Timed]) -> f64 {
    let n = repetitions.len() as f64;
    let mean = repetitions.iter().map(|r| f64::from(r.score)).sum::<f64>() / n;
    let squares: f64 = repetitions.iter().map(|r| (f64::from(r.score) - mean).powi(2)).sum();
    (squares / (n - 1.0)).sqrt()
}

/// Stretches of one side, in order: whether it is the right one, and its scores.
fn stretches(repetitions: &[Timed]) -> Vec<(bool, Vec<i32>)> {
    let stretch = |of: &[Timed]| (of[0].right, of.iter().map(|r| r.score).collect());
    repetitions.chunk_by(|a, b| a.right == b.right).map(stretch).collect()
}

#[cfg(test)]
mod tests;
