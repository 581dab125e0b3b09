//! Proportions of counted events, their score interval, and the interval of a difference between two of them.

use super::{Interval, normal};

/// Events out of a number of repetitions; never more events than repetitions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proportion {
    events: u32,
    n: u32,
}

impl Proportion {
    /// `events` out of `n` repetitions. `None` when there are more events than repetitions.
    pub fn new(events: u32, n: u32) -> Option<Self> {
        (events <= n).then_some(Self { events, n })
    }

    /// Counts the `true` among repetitions.
    ///
    /// ```
    /// use sidelight_core::statistics::proportion::Proportion;
    ///
    /// let missed = Proportion::counting([true, false, false, true]);
    /// assert_eq!((missed.events(), missed.n()), (2, 4));
    /// ```
    pub fn counting(repetitions: impl IntoIterator<Item = bool>) -> Self {
        repetitions.into_iter().fold(Self { events: 0, n: 0 }, |so_far, event| Self {
            events: so_far.events + u32::from(event),
            n: so_far.n + 1,
        })
    }

    /// How often it happened.
    pub fn events(self) -> u32 {
        self.events
    }

    /// How often it could have happened.
    pub fn n(self) -> u32 {
        self.n
    }

    /// How often it did not happen.
    pub fn others(self) -> u32 {
        self.n - self.events
    }

    /// events / n, from 0 to 1. `None` when nothing was counted.
    pub fn rate(self) -> Option<f64> {
        (self.n > 0).then(|| f64::from(self.events) / f64::from(self.n))
    }
}

/// The score interval of a proportion, from 0 to 1:
/// (p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n).
///
/// Source: Wilson 1927, Journal of the American Statistical Association 22:209; recommended for small counts by
/// Newcombe 1998, Statistics in Medicine 17:857.
/// `None` when `n` is 0, `events` exceeds `n`, or `confidence` is not strictly between 0 and 1.
///
/// ```
/// use sidelight_core::statistics::proportion::wilson;
///
/// let interval = wilson(0, 20, 0.95).unwrap();
/// assert_eq!(interval.low, 0.0);
/// assert!((interval.high - 0.1611).abs() < 0.00005);
/// assert_eq!(wilson(0, 0, 0.95), None);
/// ```
pub fn wilson(events: u32, n: u32, confidence: f64) -> Option<Interval> {
    let rate = Proportion::new(events, n)?.rate()?;
    let z = normal::critical(confidence)?;
    let n = f64::from(n);
    let (centre, spread) = (rate + z * z / (2.0 * n), z * (rate * (1.0 - rate) / n + z * z / (4.0 * n * n)).sqrt());
    let scale = 1.0 + z * z / n;
    // At 0 and at n the limit is the end of the scale itself; rounding must not move it.
    let low = if rate == 0.0 { 0.0 } else { ((centre - spread) / scale).clamp(0.0, rate) };
    let high = if rate == 1.0 { 1.0 } else { ((centre + spread) / scale).clamp(rate, 1.0) };
    Some(Interval { low, high })
}

/// The hybrid score interval of the difference rate(`a`) - rate(`b`), from -1 to 1, built from the two Wilson intervals
/// (l, u): d - √((pa - la)² + (ub - pb)²) to d + √((ua - pa)² + (pb - lb)²).
///
/// Source: Newcombe 1998, Statistics in Medicine 17:873 (method 10).
/// `None` when either group is empty or `confidence` is not strictly between 0 and 1.
pub fn newcombe(a: Proportion, b: Proportion, confidence: f64) -> Option<Interval> {
    let (rate_a, rate_b) = (a.rate()?, b.rate()?);
    let of_a = wilson(a.events, a.n, confidence)?;
    let of_b = wilson(b.events, b.n, confidence)?;
    let difference = rate_a - rate_b;
    Some(Interval {
        low: (difference - (rate_a - of_a.low).hypot(of_b.high - rate_b)).max(-1.0),
        high: (difference + (of_a.high - rate_a).hypot(rate_b - of_b.low)).min(1.0),
    })
}

/// The difference rate(a) - rate(b) common to several tasks, with its interval, both from -1 to 1.
///
/// Each task weighs m n / (m + n), so that a task with few repetitions says little (Mantel & Haenszel 1959, Journal of the
/// National Cancer Institute 22:719; for differences Greenland & Robins 1985, Biometrics 41:55). The interval is put
/// together from those of [`newcombe`] of each task: with weights w that add up to 1 and limits (l, u) around d,
/// Σ w d - √(Σ w² (d - l)²) to Σ w d + √(Σ w² (u - d)²) (Zou & Donner 2008, Statistics in Medicine 27:1693; for this case
/// Yan & Su 2010, Statistics in Biopharmaceutical Research 2:329). It takes repetitions for independent.
///
/// Tasks with an empty group are left out. `None` when all are, or `confidence` is not strictly between 0 and 1.
///
/// ```
/// use sidelight_core::statistics::proportion::{Proportion, common_difference};
///
/// let of = |events, n| Proportion::new(events, n).unwrap();
/// let (difference, _) = common_difference(&[(of(1, 10), of(6, 10)), (of(0, 2), of(2, 2))], 0.95).unwrap();
/// assert!((difference - (5.0 * -0.5 + 1.0 * -1.0) / 6.0).abs() < 1e-15);
/// ```
pub fn common_difference(tasks: &[(Proportion, Proportion)], confidence: f64) -> Option<(f64, Interval)> {
    let weight = |a: Proportion, b: Proportion| f64::from(a.n) * f64::from(b.n) / (f64::from(a.n) + f64::from(b.n));
    let tasks: Vec<_> = tasks.iter().copied().filter(|(a, b)| a.n > 0 && b.n > 0).collect();
    let total: f64 = tasks.iter().map(|&(a, b)| weight(a, b)).sum();
    let (mut difference, mut below, mut above) = (0.0, 0.0, 0.0);
    for &(a, b) in &tasks {
        let share = weight(a, b) / total;
        let (own, interval) = (a.rate()? - b.rate()?, newcombe(a, b, confidence)?);
        difference += share * own;
        below += (share * (own - interval.low)).powi(2);
        above += (share * (interval.high - own)).powi(2);
    }
    let interval = Interval { low: difference - below.sqrt(), high: difference + above.sqrt() };
    (total > 0.0).then_some((difference, interval))
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    /// Checks a 95 % Wilson interval against printed limits.
    #[track_caller]
    fn check(events: u32, n: u32, low: f64, high: f64, tolerance: f64) {
        let interval = wilson(events, n, 0.95).expect("counted");
        assert_close(interval.low, low, tolerance);
        assert_close(interval.high, high, tolerance);
    }

    #[test]
    fn wilson_intervals_of_published_counts() {
        // Newcombe 1998, Statistics in Medicine 17:857, table I, method 3 (from memory; recomputed and in agreement).
        check(81, 263, 0.2553, 0.3662, 5e-5);
        check(15, 148, 0.0624, 0.1605, 5e-5);
        check(0, 20, 0.0, 0.1611, 5e-5);
        check(1, 29, 0.0061, 0.1718, 5e-5);
        // A taught example (6 of 32) with limits printed to eight decimals; formula of Wilson 1927.
        check(6, 32, 0.088_895_45, 0.353_091_55, 5e-9);
        // Counts of another taught example; limits by arithmetic from Wilson 1927.
        check(23, 60, 0.2709, 0.5098, 5e-5);
    }

    #[test]
    fn wilson_intervals_of_clinical_counts() {
        // Strokes among 272 people with dizziness and nystagmus or imbalance: Kerber et al. 2015, Neurology.
        check(29, 272, 0.075, 0.149, 5e-4);
        assert_close(Proportion::new(29, 272).and_then(Proportion::rate).expect("counted"), 0.107, 5e-4);
        // Pursuit worse toward the lesion in 10 of 23 unilateral lesions: Morrow & Sharpe 1990.
        check(10, 23, 0.256, 0.632, 5e-4);
        // A directional loss in 4 of 16 posterior lesions; the authors could not be confirmed (counts from its abstract).
        check(4, 16, 0.102, 0.495, 5e-4);
    }

    #[test]
    fn newcombe_intervals_of_published_tables() {
        // Newcombe 1998, Statistics in Medicine 17:873, table II, method 10 (from memory; recomputed and in agreement).
        for (a, b, low, high) in [
            ((56, 70), (48, 80), 0.0524, 0.3339),
            ((9, 10), (3, 10), 0.1705, 0.8090),
            ((5, 56), (0, 29), -0.0381, 0.1926),
            ((10, 10), (0, 20), 0.6791, 1.0),
        ] {
            let (a, b) = (Proportion::new(a.0, a.1).expect("fits"), Proportion::new(b.0, b.1).expect("fits"));
            let interval = newcombe(a, b, 0.95).expect("counted");
            assert_close(interval.low, low, 5e-5);
            assert_close(interval.high, high, 5e-5);
        }
    }

    #[test]
    fn the_common_difference_of_one_task_is_its_own() {
        let of = |events: u32, n: u32| Proportion::new(events, n).expect("fits");
        let (a, b) = (of(9, 10), of(3, 10));
        let (difference, interval) = common_difference(&[(a, b), (of(0, 0), of(1, 4))], 0.95).expect("one task");
        let own = newcombe(a, b, 0.95).expect("counted");
        assert_close(difference, 0.6, 1e-15);
        assert_close(interval.low, own.low, 1e-15);
        assert_close(interval.high, own.high, 1e-15);
        // Two alike halve the square of the interval, and opposite ones cancel.
        let (_, twice) = common_difference(&[(a, b), (a, b)], 0.95).expect("two tasks");
        assert_close(0.6 - twice.low, (0.6 - own.low) / 2.0_f64.sqrt(), 1e-12);
        assert_close(common_difference(&[(a, b), (b, a)], 0.95).expect("two tasks").0, 0.0, 1e-15);
        assert_eq!(common_difference(&[(of(0, 0), b)], 0.95), None);
    }

    #[test]
    fn nothing_counted_is_no_rate_and_no_interval() {
        let none = Proportion::counting([]);
        let some = Proportion::counting([true]);
        assert_eq!(none.rate(), None);
        assert_eq!(newcombe(none, some, 0.95), None);
        assert_eq!(newcombe(some, none, 0.95), None);
        assert_eq!(wilson(3, 2, 0.95), None);
        assert_eq!(wilson(1, 2, 1.0), None);
        assert_eq!(Proportion::new(3, 2), None);
    }
}
