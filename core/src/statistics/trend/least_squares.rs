//! The least-squares line through a series, with the interval of its slope.

use super::super::{Interval, student};
use super::paired;

/// A least-squares line y = intercept + slope x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// The slope, in units of y per unit of x.
    pub slope: f64,
    /// The value of y at x = 0.
    pub intercept: f64,
    /// The standard error of the slope: √(Σ residual² / (n - 2) / Σ (x - mean x)²).
    pub slope_error: f64,
    /// The interval of the slope: slope ± t × `slope_error`, t of Student with n - 2 degrees of freedom.
    pub interval: Interval,
    /// n - 2.
    pub degrees: u32,
    /// The two-sided p that the slope is 0. It is 0 for points that lie on a sloping line without any residual.
    pub p: f64,
    /// The share of the variance of y on the line, 0 to 1. `None` when y never changes.
    pub r_squared: Option<f64>,
}

/// Fits y on x by least squares.
///
/// Source: Draper & Smith 1998, Applied Regression Analysis, chapter 1. It takes residuals to be independent and alike in
/// spread; with a handful of visits the interval is the honest part.
/// `None` with fewer than three points, series of unequal length, values that are not finite, x that never changes, or a
/// `confidence` not strictly between 0 and 1.
pub fn least_squares(x: &[f64], y: &[f64], confidence: f64) -> Option<Line> {
    if x.len() < 3 || !paired(x, y) {
        return None;
    }
    let n = x.len() as f64;
    let (mean_x, mean_y) = (x.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
    let products = || x.iter().zip(y).map(|(x, y)| (x - mean_x, y - mean_y));
    let spread_x: f64 = products().map(|(dx, _)| dx * dx).sum();
    let spread_y: f64 = products().map(|(_, dy)| dy * dy).sum();
    if x.iter().all(|value| *value == x[0]) || spread_x == 0.0 || !spread_x.is_finite() || !spread_y.is_finite() {
        return None;
    }
    let slope = products().map(|(dx, dy)| dx * dy).sum::<f64>() / spread_x;
    let residual: f64 = products().map(|(dx, dy)| (dy - slope * dx).powi(2)).sum();
    let degrees = u32::try_from(x.len() - 2).ok()?;
    let slope_error = (residual / f64::from(degrees) / spread_x).sqrt();
    let reach = student::critical(confidence, degrees)? * slope_error;
    // Without any slope there is nothing to test, also when there is no residual to test it against.
    let p = if slope == 0.0 { 1.0 } else { student::two_sided_p(slope / slope_error, degrees)? };
    let changes = y.iter().any(|value| *value != y[0]);
    Some(Line {
        slope,
        intercept: mean_y - slope * mean_x,
        slope_error,
        interval: Interval { low: slope - reach, high: slope + reach },
        degrees,
        p,
        r_squared: changes.then(|| (1.0 - residual / spread_y).clamp(0.0, 1.0)),
    })
}

#[cfg(test)]
mod tests {
    use super::super::super::assert_close;
    use super::*;

    #[test]
    fn three_points_by_hand() {
        // Residuals 1/6, -1/3, 1/6; their squares sum to 1/6; Σ(x - 2)² = 2.
        let line = least_squares(&[1.0, 2.0, 3.0], &[2.0, 4.0, 5.0], 0.95).expect("three points");
        assert_close(line.slope, 1.5, 1e-14);
        assert_close(line.intercept, 2.0 / 3.0, 1e-14);
        assert_close(line.slope_error, (1.0_f64 / 12.0).sqrt(), 1e-14);
        assert_close(line.r_squared.expect("y changes"), 27.0 / 28.0, 1e-14);
        assert_close(line.interval.high - line.slope, 12.706_204_736 * line.slope_error, 1e-8);
    }

    #[test]
    fn a_level_series_has_no_slope_to_test() {
        let line = least_squares(&[0.0, 1.0, 2.0, 3.0], &[0.1; 4], 0.95).expect("four points");
        assert_eq!((line.slope, line.p, line.r_squared), (0.0, 1.0, None));
    }

    #[test]
    fn series_without_a_line() {
        assert_eq!(least_squares(&[1.0, 2.0], &[1.0, 2.0], 0.95), None);
        assert_eq!(least_squares(&[1.0; 4], &[1.0, 2.0, 3.0, 4.0], 0.95), None);
        assert_eq!(least_squares(&[1.0, 2.0, 3.0], &[1.0, 2.0], 0.95), None);
        assert_eq!(least_squares(&[1.0, 2.0, f64::NAN], &[1.0, 2.0, 3.0], 0.95), None);
        assert_eq!(least_squares(&[1.0, 2.0, 3.0], &[1.0, 2.0, 3.0], 1.0), None);
        assert_eq!(least_squares(&[0.0, 1e300, -1e300], &[0.0, 1e300, 3.0], 0.95), None);
    }
}
