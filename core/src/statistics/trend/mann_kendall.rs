//! Whether a series rises or falls at all: each pair of visits votes up, down or neither.

use super::super::normal;
use super::{group_sizes, variance_of_s};

/// The outcome of a Mann-Kendall test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MannKendall {
    /// Pairs that rise less pairs that fall.
    pub s: i64,
    /// The variance of S under no trend, corrected for ties.
    pub variance: f64,
    /// (S ∓ 1)/√variance, drawn one step toward 0 (the continuity correction).
    pub z: f64,
    /// The two-sided p by the normal approximation.
    pub p_normal: f64,
    /// The exact two-sided p over all orders of these values. `None` above [`MOST_EXACT`] values.
    pub p_exact: Option<f64>,
    /// S over the number of pairs, from -1 to 1 (Kendall's tau-a).
    pub tau: f64,
}

impl MannKendall {
    /// The exact p where there is one, else that of the normal approximation.
    pub fn p(&self) -> f64 {
        self.p_exact.unwrap_or(self.p_normal)
    }
}

/// The longest series whose p is found exactly.
pub const MOST_EXACT: usize = 50;

/// Tests a series, in order of time, for a rise or fall.
///
/// The exact p weighs every order of the values, equal values included, by the number of orders with each S. It matters
/// below about ten values, where the approximation is poor: five falling values have p = 2/120 exactly, 0.027 by
/// approximation.
///
/// Source: Mann 1945, Econometrica 13:245; Kendall 1975, Rank Correlation Methods (variance with ties, exact orders).
/// `None` with fewer than two values or when one is not a number. A series that never changes has S = 0 and p = 1.
pub fn mann_kendall(values: &[f64]) -> Option<MannKendall> {
    if values.len() < 2 || values.iter().any(|value| value.is_nan()) {
        return None;
    }
    let mut s = 0_i64;
    for (i, earlier) in values.iter().enumerate() {
        for later in &values[i + 1..] {
            s += i64::from(later > earlier) - i64::from(later < earlier);
        }
    }
    let (n, groups) = (values.len(), group_sizes(values));
    let variance = variance_of_s(n, groups.iter().copied());
    let z = if s == 0 { 0.0 } else { (s - s.signum()) as f64 / variance.sqrt() };
    Some(MannKendall {
        s,
        variance,
        z,
        p_normal: normal::two_sided_p(z),
        p_exact: (n <= MOST_EXACT).then(|| exact_p(&groups, s.unsigned_abs() as usize)),
        tau: s as f64 / (n * (n - 1) / 2) as f64,
    })
}

/// The share of orders of values with these tied groups whose S is at least `size` in either direction.
///
/// An order with i falling pairs out of all `untied` pairs has S = untied - 2 i. The orders are counted by i, adding one
/// group of equal values after the other: setting t equal values among m earlier ones makes i falling pairs in as many
/// ways as the Gaussian binomial coefficient [m + t choose t] has at power i.
fn exact_p(groups: &[usize], size: usize) -> f64 {
    let (mut orders, mut placed) = (vec![1.0], 0);
    for &tied in groups {
        orders = product(&orders, &gaussian_binomial(placed + tied, tied));
        placed += tied;
    }
    let untied = orders.len() - 1;
    let extreme = |falling: &usize| untied.abs_diff(2 * falling) >= size;
    let share: f64 = (0..=untied).filter(extreme).map(|falling| orders[falling]).sum();
    (share / orders.iter().sum::<f64>()).clamp(f64::MIN_POSITIVE, 1.0)
}

/// The coefficients of [n choose k] in powers of q, by the rule of Pascal: [n, k] = [n-1, k-1] + qᵏ [n-1, k].
fn gaussian_binomial(n: usize, k: usize) -> Vec<f64> {
    let mut row: Vec<Vec<f64>> = vec![vec![1.0]];
    for size in 1..=n {
        let next = (0..=k.min(size)).map(|chosen| {
            let mut sum = vec![0.0; chosen * (size - chosen) + 1];
            if let Some(without) = chosen.checked_sub(1).and_then(|below| row.get(below)) {
                without.iter().enumerate().for_each(|(power, ways)| sum[power] += ways);
            }
            if let Some(with) = row.get(chosen).filter(|_| chosen < size) {
                with.iter().enumerate().for_each(|(power, ways)| sum[power + chosen] += ways);
            }
            sum
        });
        row = next.collect();
    }
    row.swap_remove(k)
}

fn product(a: &[f64], b: &[f64]) -> Vec<f64> {
    let mut result = vec![0.0; a.len() + b.len() - 1];
    for (i, x) in a.iter().enumerate() {
        for (j, y) in b.iter().enumerate() {
            result[i + j] += x * y;
        }
    }
    result
}

#[cfg(test)]
mod tests {
    use super::super::super::assert_close;
    use super::*;

    #[test]
    fn five_falling_values() {
        let test = mann_kendall(&[9.5, 9.0, 8.0, 7.5, 6.0]).expect("five values");
        assert_eq!((test.s, test.tau), (-10, -1.0));
        assert_close(test.variance, 50.0 / 3.0, 1e-13);
        assert_close(test.p(), 2.0 / 120.0, 1e-15);
        assert_close(test.p_normal, 0.0275, 5e-5);
    }

    #[test]
    fn orders_of_equal_values_are_counted_once() {
        // 1 1 2 has three orders with S of 2, 0 and -2.
        let test = mann_kendall(&[1.0, 1.0, 2.0]).expect("three values");
        assert_eq!(test.s, 2);
        assert_close(test.p(), 2.0 / 3.0, 1e-15);
    }

    #[test]
    fn the_gaussian_binomial_of_four_and_two() {
        assert_eq!(gaussian_binomial(4, 2), [1.0, 1.0, 2.0, 1.0, 1.0]);
    }

    #[test]
    fn long_series_fall_back_on_the_approximation() {
        let rising: Vec<f64> = (0..=MOST_EXACT).map(|i| i as f64).collect();
        let test = mann_kendall(&rising).expect("values");
        assert_eq!((test.p_exact, test.p()), (None, test.p_normal));
        let shorter = mann_kendall(&rising[1..]).expect("values");
        assert!(shorter.p_exact.is_some_and(|p| p > 0.0 && p < 1e-60));
    }

    #[test]
    fn exact_and_approximate_p_meet_in_longer_series() {
        let values: Vec<f64> = (0..40).map(|i| f64::from(i * 17 % 41) + 0.3 * f64::from(i)).collect();
        let test = mann_kendall(&values).expect("values");
        assert_close(test.p_normal, test.p(), 2e-3);
    }

    #[test]
    fn a_level_series_has_no_trend() {
        let test = mann_kendall(&[4.0; 6]).expect("six values");
        assert_eq!((test.s, test.z, test.p_normal, test.p()), (0, 0.0, 1.0, 1.0));
        assert_eq!(mann_kendall(&[1.0]), None);
        assert_eq!(mann_kendall(&[1.0, f64::NAN, 2.0]), None);
    }
}
