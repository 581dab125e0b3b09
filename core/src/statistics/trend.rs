//! Trends over visits: a line by least squares, a line that withstands outliers, and a test that needs no line.

pub mod least_squares;
pub mod mann_kendall;
pub mod theil_sen;

/// Whether two series of finite numbers belong together point by point.
fn paired(x: &[f64], y: &[f64]) -> bool {
    x.len() == y.len() && x.iter().chain(y).all(|value| value.is_finite())
}

/// The sizes of groups of equal values.
fn group_sizes(values: &[f64]) -> Vec<usize> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    // Compared by value, so that 0 and -0 are one group.
    sorted.chunk_by(|a, b| a == b).map(<[f64]>::len).collect()
}

/// The variance of Kendall's S for `n` values with these ties: [n(n-1)(2n+5) - Σ t(t-1)(2t+5)] / 18.
fn variance_of_s(n: usize, tied_groups: impl Iterator<Item = usize>) -> f64 {
    let part = |k: usize| {
        let k = k as f64;
        k * (k - 1.0) * (2.0 * k + 5.0)
    };
    (part(n) - tied_groups.map(part).sum::<f64>()) / 18.0
}
