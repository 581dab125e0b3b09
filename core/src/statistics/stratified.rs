//! One side against the other across several tasks at once: a permutation test with the tasks as strata.
//!
//! Within a task, the scores of all repetitions are put on one scale (score less mean, over standard deviation, of both
//! sides together). The statistic is the sum of these over the right side and over all tasks. Under chance the labels
//! "right" and "left" could have fallen on any repetitions of the same task, so they are dealt out anew within each task,
//! never between tasks; p is the share of arrangements whose sum is at least as far from 0.
//! A task thus counts by its number of repetitions, m n / (m + n), and not by the width of its scale.
//!
//! Source: permutation within blocks, Pitman 1937 (Supplement to the Journal of the Royal Statistical Society 4:119);
//! sums of within-stratum scores, Mantel 1963 (Journal of the American Statistical Association 58:690).
//!
//! What it rests on: repetitions of one task are exchangeable between sides when nothing differs. Tiring that hits one
//! side because it was examined last breaks this, so sides should be examined in turn.

pub use super::permutation::Method;
use super::permutation::{Block, two_sided_p};

/// The scores of one task, one whole number per repetition: 0 and 1 for an event, or a grade. Which repetitions belong
/// to which side is the caller's reading (a jump to the left may be set on the right).
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stratum {
    /// Scores of the repetitions laid to the right.
    pub right: Vec<i32>,
    /// Scores of the repetitions laid to the left.
    pub left: Vec<i32>,
}

/// The outcome of the test across tasks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stratified {
    /// Tasks that could tell the sides apart: both sides done and not all scores equal.
    pub strata: usize,
    /// The statistic over its standard deviation under chance: above 0 when scores are higher on the right.
    pub z: f64,
    /// The two-sided permutation p, above 0 and at most 1.
    pub p: f64,
    /// How `p` was found.
    pub method: Method,
}

/// Tests whether the right scores differ from the left across all tasks. `seed` is used only where the outcomes are too
/// many to be weighed exactly (more than 200 000).
///
/// `None` when no task can tell the sides apart. Tasks that cannot are left out, they do not count as equal.
///
/// ```
/// use sidelight_core::statistics::stratified::{Stratum, stratified};
///
/// let short_jumps = Stratum { right: vec![1, 1, 1, 0, 1], left: vec![0, 0, 0, 1, 0] };
/// let pursuit_grades = Stratum { right: vec![2, 3], left: vec![0, 1] };
/// let test = stratified(&[short_jumps, pursuit_grades], 0).unwrap();
/// assert_eq!(test.strata, 2);
/// assert!(test.z > 0.0 && test.p < 0.05);
/// ```
pub fn stratified(strata: &[Stratum], seed: u64) -> Option<Stratified> {
    let blocks: Vec<Block> = strata.iter().filter_map(|stratum| Block::new(&stratum.right, &stratum.left)).collect();
    if blocks.is_empty() {
        return None;
    }
    let sum: f64 = blocks.iter().map(Block::observed).sum();
    let variance: f64 = blocks.iter().map(Block::variance).sum();
    let (p, method) = two_sided_p(&blocks, seed);
    Some(Stratified { strata: blocks.len(), z: sum / variance.sqrt(), p, method })
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::super::random::SplitMix;
    use super::*;

    fn stratum(right: &[i32], left: &[i32]) -> Stratum {
        Stratum { right: right.to_vec(), left: left.to_vec() }
    }

    #[test]
    fn two_tasks_by_counting() {
        // Each task alone has one arrangement of 6 as far out on either side; both together 2 of 36.
        let tasks = [stratum(&[1, 1], &[0, 0]), stratum(&[1, 1], &[0, 0])];
        let test = stratified(&tasks, 0).expect("informative");
        assert_eq!(test.strata, 2);
        assert_close(test.p, 2.0 / 36.0, 1e-15);
        // The same tasks pulling apart cancel.
        let tasks = [stratum(&[1, 1], &[0, 0]), stratum(&[0, 0], &[1, 1])];
        let test = stratified(&tasks, 0).expect("informative");
        assert_close(test.z, 0.0, 1e-15);
        assert_eq!(test.p, 1.0);
    }

    #[test]
    fn mirrored_tasks_give_a_mirrored_answer() {
        let tasks = [stratum(&[1, 0, 1, 1], &[0, 0, 1]), stratum(&[3, 1, 2], &[0, 0, 2, 1])];
        let mirrored = tasks.clone().map(|task| Stratum { right: task.left, left: task.right });
        let (test, mirror) = (stratified(&tasks, 0).expect("informative"), stratified(&mirrored, 0).expect("same"));
        assert_close(test.z, -mirror.z, 1e-14);
        assert_close(test.p, mirror.p, 1e-14);
    }

    #[test]
    fn tasks_that_cannot_tell_are_left_out() {
        let tasks = [stratum(&[0, 0], &[0, 0]), stratum(&[1], &[])];
        assert_eq!(stratified(&tasks, 0), None);
        let with_one = [tasks[0].clone(), stratum(&[1, 1, 1], &[0, 0, 0]), tasks[1].clone()];
        let test = stratified(&with_one, 0).expect("one task can");
        assert_eq!(test.strata, 1);
        assert_close(test.p, 2.0 / 20.0, 1e-15);
    }

    #[test]
    fn chance_alone_is_called_a_difference_in_at_most_one_of_twenty() {
        // Invented healthy examinations: the same rates on both sides of four tasks.
        let mut random = SplitMix::new(20_260);
        let mut side =
            |n: usize, percent: usize| -> Vec<i32> { (0..n).map(|_| i32::from(random.below(100) < percent)).collect() };
        let (visits, mut named) = (2_000, 0);
        for _ in 0..visits {
            let tasks = [(10, 20), (8, 30), (6, 10), (5, 50)].map(|(n, percent)| {
                let (right, left) = (side(n, percent), side(n, percent));
                Stratum { right, left }
            });
            named += u32::from(stratified(&tasks, 0).is_some_and(|test| test.p <= 0.05));
        }
        let share = f64::from(named) / f64::from(visits);
        // Three standard errors of 2000 visits at 5 % are 1.5 %.
        assert!((0.02..=0.065).contains(&share), "named a side in {share}");
    }
}
