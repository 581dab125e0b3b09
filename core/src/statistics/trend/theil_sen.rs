//! The median of all pairwise slopes: a line that one odd visit cannot tilt.

use super::super::order::{median, quantile};
use super::super::{Interval, normal};
use super::{group_sizes, paired, variance_of_s};

/// A line through the median of pairwise slopes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MedianLine {
    /// The median slope, in units of y per unit of x.
    pub slope: f64,
    /// median(y) - slope × median(x), in units of y.
    pub intercept: f64,
    /// The interval of the slope by the normal approximation, coarse below about ten points. `None` when ties leave the
    /// approximation without a variance.
    pub interval: Option<Interval>,
    /// Pairs with different x, whose slopes were taken.
    pub pairs: usize,
}

/// The median of the slopes of all pairs of points with different x, and Sen's interval for it: with N slopes in order,
/// those of rank (N ∓ z σ)/2, σ² the tie-corrected variance of Kendall's S.
///
/// Source: Theil 1950, Indagationes Mathematicae 12; Sen 1968, Journal of the American Statistical Association 63:1379,
/// equation 2.6. Ranks are rounded half to even, and ties in x and y both lower σ².
/// `None` with fewer than two points, series of unequal length, values that are not finite, x that never changes, or a
/// `confidence` not strictly between 0 and 1.
pub fn theil_sen(x: &[f64], y: &[f64], confidence: f64) -> Option<MedianLine> {
    let z = normal::critical(confidence)?;
    if !paired(x, y) {
        return None;
    }
    let mut slopes = Vec::new();
    for (i, (xi, yi)) in x.iter().zip(y).enumerate() {
        for (xj, yj) in x.iter().zip(y).skip(i + 1) {
            if xi != xj {
                slopes.push((yj - yi) / (xj - xi));
            }
        }
    }
    let slope = median(&slopes)?;
    slopes.sort_by(f64::total_cmp);
    Some(MedianLine {
        slope,
        intercept: quantile(y, 0.5)? - slope * quantile(x, 0.5)?,
        interval: interval(&slopes, z, variance(x, y)),
        pairs: slopes.len(),
    })
}

/// The variance of Kendall's S with ties in both series (Sen 1968, equation 2.6).
fn variance(x: &[f64], y: &[f64]) -> f64 {
    variance_of_s(y.len(), group_sizes(x).into_iter().chain(group_sizes(y)))
}

/// The slopes at the ranks of the interval, kept inside the list.
fn interval(sorted: &[f64], z: f64, variance: f64) -> Option<Interval> {
    if variance < 0.0 {
        return None;
    }
    let (pairs, reach) = (sorted.len() as f64, z * variance.sqrt());
    let low = (((pairs - reach) / 2.0).round_ties_even() - 1.0).max(0.0);
    let high = ((pairs + reach) / 2.0).round_ties_even().min(pairs - 1.0);
    Some(Interval { low: *sorted.get(low as usize)?, high: *sorted.get(high as usize)? })
}

#[cfg(test)]
mod tests {
    use super::super::super::assert_close;
    use super::*;

    #[test]
    fn one_outlier_does_not_tilt_the_line() {
        let x = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0];
        let line = theil_sen(&x, &[10.0, 9.0, 25.0, 7.0, 6.0, 5.0], 0.95).expect("six points");
        assert_eq!((line.slope, line.pairs), (-1.0, 15));
    }

    #[test]
    fn pairs_on_the_same_day_have_no_slope() {
        let line = theil_sen(&[0.0, 7.0, 7.0], &[1.0, 2.0, 4.0], 0.95).expect("three points");
        assert_eq!(line.pairs, 2);
        assert_close(line.slope, 2.0 / 7.0, 1e-15);
    }

    #[test]
    fn heavy_ties_leave_a_slope_without_an_interval() {
        let line = theil_sen(&[0.0, 0.0, 0.0, 1.0], &[2.0, 2.0, 2.0, 2.0], 0.95).expect("a slope");
        assert_eq!((line.slope, line.interval), (0.0, None));
    }

    #[test]
    fn series_without_a_slope() {
        assert_eq!(theil_sen(&[1.0], &[1.0], 0.95), None);
        assert_eq!(theil_sen(&[1.0, 1.0], &[1.0, 2.0], 0.95), None);
        assert_eq!(theil_sen(&[1.0, 2.0], &[1.0], 0.95), None);
        assert_eq!(theil_sen(&[0.0, f64::MIN_POSITIVE], &[0.0, f64::MAX], 0.95), None);
        assert_eq!(theil_sen(&[1.0, 2.0], &[1.0, 2.0], 0.0), None);
    }
}
