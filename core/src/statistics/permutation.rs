//! What a sum could have been had the labels been dealt out by chance: exactly where that can be counted, else by a
//! seeded sample.

use super::random::SplitMix;

/// How a permutation p was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Every arrangement was weighed; `outcomes` is the number of different values of the statistic.
    Exact {
        /// Different values of the statistic, after joining those equal but for rounding.
        outcomes: usize,
    },
    /// `draws` arrangements were drawn from the seed; p is (hits + 1)/(draws + 1) (Phipson & Smyth 2010, Statistical
    /// Applications in Genetics and Molecular Biology 9:39).
    Sampled {
        /// Arrangements drawn.
        draws: u32,
    },
}

/// Whole-number scores of one block, of which the first `chosen` carry the first label.
pub(super) struct Block {
    scores: Vec<i64>,
    chosen: usize,
    mean: f64,
    deviation: f64,
}

/// The most outcomes that are weighed exactly; beyond it a sample is drawn.
const MAX_OUTCOMES: usize = 200_000;

/// Arrangements drawn when they cannot be counted; the standard error of a p of 0.05 is then 0.0015.
const DRAWS: u32 = 19_999;

/// Statistics this near to each other are equal but for rounding; they are of the order of 1 to 100.
const SAME: f64 = 1e-9;

impl Block {
    /// A block of two groups. `None` when a group is empty or all scores are equal: such a block cannot tell the labels
    /// apart.
    pub(super) fn new(first: &[i32], second: &[i32]) -> Option<Self> {
        let scores: Vec<i64> = first.iter().chain(second).map(|&score| score.into()).collect();
        if first.is_empty() || second.is_empty() || scores.iter().all(|score| *score == scores[0]) {
            return None;
        }
        let n = scores.len() as f64;
        let mean = scores.iter().sum::<i64>() as f64 / n;
        let squares: f64 = scores.iter().map(|&score| (score as f64 - mean).powi(2)).sum();
        Some(Self { scores, chosen: first.len(), mean, deviation: (squares / (n - 1.0)).sqrt() })
    }

    /// The observed sum of standard scores under the first label; 0 on average under chance.
    pub(super) fn observed(&self) -> f64 {
        self.standard(self.scores[..self.chosen].iter().sum())
    }

    /// The variance of [`Self::observed`] under chance: m n / (m + n) for groups of m and n.
    pub(super) fn variance(&self) -> f64 {
        let (n, chosen) = (self.scores.len() as f64, self.chosen as f64);
        chosen * (n - chosen) / n
    }

    fn standard(&self, sum: i64) -> f64 {
        (sum as f64 - self.chosen as f64 * self.mean) / self.deviation
    }

    /// Every possible sum with its probability, or `None` when there are too many to hold.
    ///
    /// Scores are dealt one after the other: with j of m places taken and i of n scores seen, the next is chosen with
    /// probability (m - j)/(n - i). This needs no factorial and meets each sum once, not each arrangement.
    fn distribution(&self) -> Option<Vec<(f64, f64)>> {
        let (n, m) = (self.scores.len(), self.chosen);
        let mut by_taken: Vec<Vec<(i64, f64)>> = vec![Vec::new(); m + 1];
        by_taken[0].push((0, 1.0));
        for (seen, &score) in self.scores.iter().enumerate() {
            let left = (n - seen) as f64;
            for taken in (0..=m).rev() {
                let skip = 1.0 - (m - taken) as f64 / left;
                let stay = std::mem::take(&mut by_taken[taken]);
                let from_below = taken.checked_sub(1).map(|below| (&by_taken[below], (m - below) as f64 / left));
                by_taken[taken] = merge(&stay, skip, from_below, score);
            }
            if by_taken.iter().map(Vec::len).sum::<usize>() > MAX_OUTCOMES {
                return None;
            }
        }
        let sums = by_taken.pop()?;
        Some(sums.into_iter().map(|(sum, probability)| (self.standard(sum), probability)).collect())
    }

    /// The statistic of one arrangement drawn by chance (a partial Fisher-Yates shuffle).
    fn draw(&self, scratch: &mut Vec<i64>, random: &mut SplitMix) -> f64 {
        scratch.clone_from(&self.scores);
        for place in 0..self.chosen {
            let other = place + random.below(scratch.len() - place);
            scratch.swap(place, other);
        }
        self.standard(scratch[..self.chosen].iter().sum())
    }
}

/// The two-sided p of the summed statistic of `blocks`, their labels dealt out independently: the probability of a sum
/// at least as far from 0 as the observed one.
pub(super) fn two_sided_p(blocks: &[Block], seed: u64) -> (f64, Method) {
    let observed: f64 = blocks.iter().map(Block::observed).sum();
    if let Some(outcomes) = joint_distribution(blocks.iter().map(Block::distribution)) {
        return weighed(&outcomes, 0.0, observed);
    }
    let mut scratch = Vec::new();
    sampled(seed, observed, |random| blocks.iter().map(|block| block.draw(&mut scratch, random)).sum())
}

/// The same when each of `steps` is set against or along a `held` part that stays as it is: the signs of the steps are
/// dealt out independently, each way with one half.
pub(super) fn two_sided_p_of_signs(steps: &[f64], held: f64, seed: u64) -> (f64, Method) {
    let observed = held + steps.iter().sum::<f64>();
    let either = |step: &f64| Some(vec![(-step.abs(), 0.5), (step.abs(), 0.5)]);
    if let Some(outcomes) = joint_distribution(steps.iter().map(either)) {
        return weighed(&outcomes, held, observed);
    }
    let signed = |step: &f64, random: &mut SplitMix| if random.below(2) == 0 { *step } else { -step };
    sampled(seed, observed, |random| held + steps.iter().map(|step| signed(step, random)).sum::<f64>())
}

/// The probability of the outcomes that, on top of `held`, lie at least as far from 0 as the observed sum.
fn weighed(outcomes: &[(f64, f64)], held: f64, observed: f64) -> (f64, Method) {
    let far = outcomes.iter().filter(|(sum, _)| (held + sum).abs() >= observed.abs() - SAME);
    let p: f64 = far.map(|(_, p)| p).sum();
    (p.clamp(f64::MIN_POSITIVE, 1.0), Method::Exact { outcomes: outcomes.len() })
}

/// The same share among sums drawn from the seed.
fn sampled(seed: u64, observed: f64, mut draw: impl FnMut(&mut SplitMix) -> f64) -> (f64, Method) {
    let mut random = SplitMix::new(seed);
    let hits: u32 = (0..DRAWS).map(|_| u32::from(draw(&mut random).abs() >= observed.abs() - SAME)).sum();
    (f64::from(hits + 1) / f64::from(DRAWS + 1), Method::Sampled { draws: DRAWS })
}

/// Joins the sums reached by leaving `score` out with those reached by taking it, both in rising order.
fn merge(stay: &[(i64, f64)], skip: f64, below: Option<(&Vec<(i64, f64)>, f64)>, score: i64) -> Vec<(i64, f64)> {
    let (taken, take) = below.map_or((&[][..], 0.0), |(sums, take)| (sums.as_slice(), take));
    let mut left = stay.iter().map(|&(sum, p)| (sum, p * skip)).filter(|(_, p)| *p > 0.0).peekable();
    let mut right = taken.iter().map(|&(sum, p)| (sum + score, p * take)).filter(|(_, p)| *p > 0.0).peekable();
    let mut merged: Vec<(i64, f64)> = Vec::with_capacity(stay.len() + taken.len());
    loop {
        let next = match (left.peek(), right.peek()) {
            (Some(a), Some(b)) if b.0 < a.0 => right.next(),
            (Some(_), _) => left.next(),
            (None, _) => right.next(),
        };
        let Some((sum, p)) = next else { return merged };
        match merged.last_mut() {
            Some(last) if last.0 == sum => last.1 += p,
            _ => merged.push((sum, p)),
        }
    }
}

/// The distribution of a sum of independent parts, or `None` when it has too many outcomes to hold.
fn joint_distribution(parts: impl Iterator<Item = Option<Vec<(f64, f64)>>>) -> Option<Vec<(f64, f64)>> {
    let mut joint = vec![(0.0, 1.0)];
    for own in parts {
        let own = own?;
        if joint.len() * own.len() > MAX_OUTCOMES {
            return None;
        }
        let mut sums: Vec<(f64, f64)> = Vec::with_capacity(joint.len() * own.len());
        for &(so_far, p) in &joint {
            sums.extend(own.iter().map(|&(sum, q)| (so_far + sum, p * q)));
        }
        sums.sort_by(|a, b| a.0.total_cmp(&b.0));
        sums.dedup_by(|next, kept| {
            let same = next.0 - kept.0 < SAME;
            if same {
                kept.1 += next.1;
            }
            same
        });
        joint = sums;
    }
    Some(joint)
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn two_values_give_the_hypergeometric_distribution() {
        let block = Block::new(&[1, 1, 1, 0], &[1, 0, 0, 0]).expect("informative");
        let sums = block.distribution().expect("few sums");
        let expected = [1.0, 16.0, 36.0, 16.0, 1.0];
        assert_eq!(sums.len(), expected.len());
        for ((_, p), ways) in sums.iter().zip(expected) {
            assert_close(*p, ways / 70.0, 1e-15);
        }
    }

    #[test]
    fn the_statistic_has_mean_zero_and_the_stated_variance() {
        let block = Block::new(&[3, -1, 7, 7], &[0, 2, 40]).expect("informative");
        let sums = block.distribution().expect("few sums");
        let moment = |power: i32| sums.iter().map(|(sum, p)| p * sum.powi(power)).sum::<f64>();
        assert_close(moment(0), 1.0, 1e-14);
        assert_close(moment(1), 0.0, 1e-14);
        assert_close(moment(2), block.variance(), 1e-13);
    }

    #[test]
    fn a_sample_comes_near_the_exact_p() {
        let block = || Block::new(&[1, 1, 1, 1, 0, 1], &[0, 0, 1, 0, 0, 1]).expect("informative");
        let (exact, method) = two_sided_p(&[block(), block()], 1);
        assert!(matches!(method, Method::Exact { .. }));
        // Six blocks of scattered scores have more outcomes than can be held.
        let scattered = Block::new(&[1, 20, 300, 4000, 50_000], &[7, 80, 900, 1001, 110_001]).expect("informative");
        assert!(scattered.distribution().expect("252 sums").len() > 200);
        let many: Vec<Block> = (0..6)
            .map(|_| Block::new(&[1, 20, 300, 4000, 50_000], &[7, 80, 900, 1001, 110_001]).expect("same"))
            .collect();
        assert!(joint_distribution(many.iter().map(Block::distribution)).is_none());
        let (first, method) = two_sided_p(&many, 1);
        assert_eq!(method, Method::Sampled { draws: DRAWS });
        assert_eq!(first, two_sided_p(&many, 1).0, "the same seed gives the same p");
        assert!((first - two_sided_p(&many, 2).0).abs() < 0.02);
        // The sampler itself, on blocks whose exact p is known.
        let (mut random, mut scratch) = (SplitMix::new(5), Vec::new());
        let blocks = [block(), block()];
        let limit = blocks.iter().map(Block::observed).sum::<f64>().abs() - SAME;
        let hits = (0..DRAWS)
            .filter(|_| blocks.iter().map(|b| b.draw(&mut scratch, &mut random)).sum::<f64>().abs() >= limit)
            .count();
        assert_close(hits as f64 / f64::from(DRAWS), exact, 5.0 * (exact * (1.0 - exact) / f64::from(DRAWS)).sqrt());
    }

    /// Steps 1, 2 and 4 reach every odd sum from -7 to 7 once in 8.
    #[test]
    fn signs_are_dealt_out_each_by_itself() {
        let p = |steps: &[f64], held: f64| two_sided_p_of_signs(steps, held, 0).0;
        assert_close(p(&[1.0, 2.0, 4.0], 0.0), 2.0 / 8.0, 1e-15);
        assert_close(p(&[-1.0, 2.0, 4.0], 0.0), 4.0 / 8.0, 1e-15);
        // With 10 held, the sums run from 3 to 17 and only 17 is as far out; against it, -3 to -17 are far only at the end.
        assert_close(p(&[1.0, 2.0, 4.0], 10.0), 1.0 / 8.0, 1e-15);
        assert_close(p(&[-1.0, -2.0, -4.0], 10.0), 1.0, 1e-15);
        assert_eq!(p(&[], 3.0), 1.0);
    }

    #[test]
    fn a_sample_of_signs_comes_near_the_exact_p() {
        // Powers of 2 never meet, so the exact way holds 2 to the 17 sums and a step more is too many.
        let steps: Vec<f64> = (0..18).map(|n| f64::from(1 << n)).collect();
        let (sampled, method) = two_sided_p_of_signs(&steps, 0.0, 3);
        assert_eq!(method, Method::Sampled { draws: DRAWS });
        assert!(sampled < 0.001, "2 of 262 144 arrangements are as far out: {sampled}");
        let opposed: Vec<f64> = steps.iter().map(|step| if *step == 131_072.0 { -step } else { *step }).collect();
        assert!(two_sided_p_of_signs(&opposed, 0.0, 3).0 > 0.99, "131 071 against 131 072 leaves 1");
    }

    #[test]
    fn a_block_that_cannot_tell_is_none() {
        assert!(Block::new(&[], &[1, 2]).is_none());
        assert!(Block::new(&[1, 2], &[]).is_none());
        assert!(Block::new(&[1, 1], &[1]).is_none());
    }

    #[test]
    fn extreme_scores_do_not_overflow() {
        let block = Block::new(&[i32::MAX, i32::MIN], &[0, i32::MAX]).expect("informative");
        let (p, _) = two_sided_p(&[block], 0);
        assert!(p > 0.0 && p <= 1.0);
    }
}
