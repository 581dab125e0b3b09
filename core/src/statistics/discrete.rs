//! One-peaked distributions on whole numbers, built outwards from the peak so that no factorial is ever formed.

/// Outcomes are "equally probable" when they differ by less than this share (rounding, not chance).
const TIE: f64 = 1e-7;

/// Probabilities of consecutive whole numbers.
pub(super) struct Discrete {
    first: u64,
    probability: Vec<f64>,
}

impl Discrete {
    /// The hypergeometric distribution: `draws` taken without replacement from `population`, of which `marked` count.
    pub(super) fn hypergeometric(population: u64, marked: u64, draws: u64) -> Self {
        let unmarked = population - marked;
        let (low, high) = (draws.saturating_sub(unmarked), draws.min(marked));
        let mode = ((u128::from(draws) + 1) * (u128::from(marked) + 1) / (u128::from(population) + 2)) as u64;
        Self::around(mode.clamp(low, high), low, high, |k| {
            let up = (marked - k) as f64 * (draws - k) as f64;
            up / ((k + 1) as f64 * (unmarked + k + 1 - draws) as f64)
        })
    }

    /// The binomial distribution of `n` trials with probability `p`, which must be strictly between 0 and 1.
    pub(super) fn binomial(n: u64, p: f64) -> Self {
        let mode = ((n + 1) as f64 * p).floor() as u64;
        let odds = p / (1.0 - p);
        Self::around(mode.min(n), 0, n, |k| odds * (n - k) as f64 / (k + 1) as f64)
    }

    /// The probability of exactly `k`.
    pub(super) fn at(&self, k: u64) -> f64 {
        k.checked_sub(self.first).and_then(|index| self.probability.get(index as usize)).copied().unwrap_or(0.0)
    }

    /// The probability of `k` or less.
    pub(super) fn at_most(&self, k: u64) -> f64 {
        let count = (k + 1).saturating_sub(self.first).min(self.probability.len() as u64) as usize;
        possible(self.probability[..count].iter().sum())
    }

    /// The probability of `k` or more.
    pub(super) fn at_least(&self, k: u64) -> f64 {
        let start = k.saturating_sub(self.first).min(self.probability.len() as u64) as usize;
        possible(self.probability[start..].iter().rev().sum())
    }

    /// The probability of all outcomes that are no more probable than `k`, with `k` itself counted in full.
    pub(super) fn no_more_probable_than(&self, k: u64) -> f64 {
        let limit = self.at(k) * (1.0 + TIE);
        possible(self.probability.iter().filter(|&&p| p <= limit).sum())
    }

    /// As [`Self::no_more_probable_than`], with `k` itself counted by half.
    pub(super) fn mid_p(&self, k: u64) -> f64 {
        possible(self.no_more_probable_than(k) - 0.5 * self.at(k))
    }

    /// Builds the distribution from `up(k)` = P(k + 1)/P(k), stopping on each side where a binary64 number ends.
    fn around(mode: u64, low: u64, high: u64, up: impl Fn(u64) -> f64) -> Self {
        let mut below = Vec::new();
        let (mut k, mut weight) = (mode, 1.0);
        while k > low {
            weight /= up(k - 1);
            if weight < f64::MIN_POSITIVE {
                break;
            }
            below.push(weight);
            k -= 1;
        }
        let first = mode - below.len() as u64;
        let mut probability: Vec<f64> = below.into_iter().rev().collect();
        probability.push(1.0);
        let (mut k, mut weight) = (mode, 1.0);
        while k < high {
            weight *= up(k);
            if weight < f64::MIN_POSITIVE {
                break;
            }
            probability.push(weight);
            k += 1;
        }
        let total: f64 = probability.iter().sum();
        for p in &mut probability {
            *p /= total;
        }
        Self { first, probability }
    }
}

/// Keeps the probability of something that has happened above 0 and, against rounding, not above 1.
fn possible(p: f64) -> f64 {
    p.clamp(f64::MIN_POSITIVE, 1.0)
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn hypergeometric_matches_counting() {
        // 4 of 8 cups: C(4,k) C(4,4-k) / C(8,4) (Fisher 1935, The Design of Experiments).
        let cups = Discrete::hypergeometric(8, 4, 4);
        for (k, ways) in [(0, 1.0), (1, 16.0), (2, 36.0), (3, 16.0), (4, 1.0)] {
            assert_close(cups.at(k), ways / 70.0, 1e-15);
        }
        assert_eq!(cups.at(5), 0.0);
    }

    #[test]
    fn binomial_matches_counting() {
        let coins = Discrete::binomial(4, 0.5);
        for (k, ways) in [(0, 1.0), (1, 4.0), (2, 6.0), (3, 4.0), (4, 1.0)] {
            assert_close(coins.at(k), ways / 16.0, 1e-15);
        }
    }

    #[test]
    fn the_support_respects_both_margins() {
        // 7 of 10 are marked and 8 are drawn: at least 5 marked ones must be among them.
        let drawn = Discrete::hypergeometric(10, 7, 8);
        assert_eq!((drawn.at(4), drawn.at(8)), (0.0, 0.0));
        assert_close(drawn.at_least(5), 1.0, 1e-15);
    }

    #[test]
    fn huge_margins_end_and_never_reach_zero() {
        let half = u64::from(u32::MAX);
        let drawn = Discrete::hypergeometric(2 * half, half, half);
        assert!(drawn.probability.len() < 10_000_000);
        assert!(drawn.no_more_probable_than(0) > 0.0 && drawn.at_most(0) > 0.0 && drawn.at_least(half) > 0.0);
    }
}
