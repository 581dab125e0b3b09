//! Two samples of whole numbers: a permutation test of their means and one of their ranks.

pub use super::permutation::Method;
use super::permutation::{Block, two_sided_p};

/// The outcome of a permutation test of two means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanDifference {
    /// mean(a) - mean(b), in the unit of the scores.
    pub difference: f64,
    /// The two-sided permutation p, above 0 and at most 1.
    pub p: f64,
    /// How `p` was found.
    pub method: Method,
}

/// Tests whether two samples have the same mean: the share of ways to deal the scores out again whose difference is at
/// least as large in size.
///
/// Source: Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:119.
/// `None` when a sample is empty or all scores are equal.
pub fn mean_difference(a: &[i32], b: &[i32], seed: u64) -> Option<MeanDifference> {
    let block = Block::new(a, b)?;
    let (p, method) = two_sided_p(&[block], seed);
    Some(MeanDifference { difference: mean(a) - mean(b), p, method })
}

/// The outcome of a Mann-Whitney test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MannWhitney {
    /// Pairs in which the score of `a` is the higher one; equal pairs count by half.
    pub u: f64,
    /// `u` over the number of pairs: the chance that a score of `a` exceeds one of `b`. 0.5 when neither does.
    pub superiority: f64,
    /// The two-sided permutation p, above 0 and at most 1.
    pub p: f64,
    /// How `p` was found.
    pub method: Method,
}

/// Tests whether scores of one sample tend to be higher, by ranks: exact given the ties, which share their mean rank.
/// p is the probability of a `u` at least as far from half the number of pairs.
///
/// Source: Mann & Whitney 1947, Annals of Mathematical Statistics 18:50.
/// `None` when a sample is empty or all scores are equal.
pub fn mann_whitney(a: &[i32], b: &[i32], seed: u64) -> Option<MannWhitney> {
    let all: Vec<i32> = a.iter().chain(b).copied().collect();
    // Twice the mean rank is a whole number: those below, twice, and those equal, itself among them, plus one.
    let doubled_rank = |score: &i32| -> Option<i32> {
        let below = all.iter().filter(|other| *other < score).count();
        let equal = all.iter().filter(|other| *other == score).count();
        i32::try_from(2 * below + equal + 1).ok()
    };
    let ranks_a = a.iter().map(doubled_rank).collect::<Option<Vec<i32>>>()?;
    let ranks_b = b.iter().map(doubled_rank).collect::<Option<Vec<i32>>>()?;
    let block = Block::new(&ranks_a, &ranks_b)?;
    let (m, n) = (a.len() as f64, b.len() as f64);
    let u = ranks_a.iter().map(|&rank| f64::from(rank)).sum::<f64>() / 2.0 - m * (m + 1.0) / 2.0;
    let (p, method) = two_sided_p(&[block], seed);
    Some(MannWhitney { u, superiority: u / (m * n), p, method })
}

fn mean(scores: &[i32]) -> f64 {
    scores.iter().map(|&score| f64::from(score)).sum::<f64>() / scores.len() as f64
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn means_by_counting() {
        // The three largest of six: 1 arrangement of 20, and its mirror image.
        let test = mean_difference(&[4, 5, 6], &[1, 2, 3], 0).expect("informative");
        assert_close(test.difference, 3.0, 1e-15);
        assert_close(test.p, 2.0 / 20.0, 1e-15);
    }

    #[test]
    fn ranks_by_counting() {
        let test = mann_whitney(&[40, 50, 600], &[1, 2, 3], 0).expect("informative");
        assert_eq!((test.u, test.superiority), (9.0, 1.0));
        assert_close(test.p, 2.0 / 20.0, 1e-15);
        // One tie: pairs (2 over 1), (2 over 1), (2 = 2) give 2.5 of 3.
        let test = mann_whitney(&[2], &[1, 1, 2], 0).expect("informative");
        assert_close(test.u, 2.5, 1e-15);
    }

    #[test]
    fn nothing_to_compare() {
        assert_eq!(mean_difference(&[], &[1], 0), None);
        assert_eq!(mann_whitney(&[1, 1], &[1], 0), None);
    }
}
