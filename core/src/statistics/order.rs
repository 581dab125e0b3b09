//! Order and time within one series: early against late repetitions, rates from tap times, and the usual summaries.

use super::exact::fisher_mid_p;
use super::proportion::Proportion;

/// Events of the first half of a series against those of the second half.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarlyLate {
    /// Events of the first half.
    pub early: Proportion,
    /// Events of the second half.
    pub late: Proportion,
    /// The two-sided mid-p of Fisher's exact test (see [`fisher_mid_p`]).
    pub p: f64,
}

/// Compares the first half of a series with the second, so that tiring can be told from chance. With an odd number of
/// repetitions the middle one belongs to neither half.
///
/// Source: the test of [`fisher_mid_p`]; halving the series is common practice.
/// `None` with fewer than two repetitions.
///
/// ```
/// use sidelight_core::statistics::order::early_late;
///
/// let missed = [false, false, false, false, true, true, true, true];
/// let halves = early_late(&missed).unwrap();
/// assert_eq!((halves.early.events(), halves.late.events()), (0, 4));
/// assert!(halves.p < 0.05);
/// ```
pub fn early_late(events: &[bool]) -> Option<EarlyLate> {
    let half = events.len() / 2;
    let early = Proportion::counting(events[..half].iter().copied());
    let late = Proportion::counting(events[events.len() - half..].iter().copied());
    Some(EarlyLate { early, late, p: fisher_mid_p(early, late)? })
}

/// The rate of a series of taps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapRate {
    /// Taps in the series.
    pub taps: usize,
    /// Seconds from the first tap to the last.
    pub seconds: f64,
    /// Intervals per second: (taps - 1) / seconds.
    pub per_second: f64,
    /// The median interval between taps, in seconds: it withstands a missed or doubled tap.
    pub median_interval: f64,
}

/// The rate of taps from their times in seconds, in the order they were made. n taps bound n - 1 intervals, so the rate
/// is (n - 1) over the span; dividing n by the span would count one interval too many.
///
/// `None` with fewer than two taps, no time between first and last, or times that run backwards or are not numbers.
///
/// ```
/// let rate = sidelight_core::statistics::order::tap_rate(&[0.0, 0.5, 1.0, 1.5, 2.0]).unwrap();
/// assert_eq!((rate.per_second, rate.median_interval), (2.0, 0.5));
/// ```
pub fn tap_rate(times: &[f64]) -> Option<TapRate> {
    let (first, last) = (*times.first()?, *times.last()?);
    let seconds = last - first;
    if !seconds.is_finite() || seconds <= 0.0 {
        return None;
    }
    let intervals: Vec<f64> = times.windows(2).map(|pair| pair[1] - pair[0]).collect();
    // Written so that a comparison with "not a number" refuses the series.
    if !intervals.iter().all(|interval| *interval >= 0.0) {
        return None;
    }
    let median_interval = median(&intervals)?;
    Some(TapRate { taps: times.len(), seconds, per_second: intervals.len() as f64 / seconds, median_interval })
}

/// The arithmetic mean, in the unit of the values. `None` without values or when one is not a finite number.
pub fn mean(values: &[f64]) -> Option<f64> {
    let usable = !values.is_empty() && values.iter().all(|value| value.is_finite());
    usable.then(|| values.iter().sum::<f64>() / values.len() as f64)
}

/// The standard deviation of a sample, √(Σ(x - mean)² / (n - 1)), in the unit of the values.
/// `None` with fewer than two values or when one is not a finite number.
pub fn standard_deviation(values: &[f64]) -> Option<f64> {
    let mean = mean(values)?;
    if values.len() < 2 {
        return None;
    }
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    Some((squares / (values.len() - 1) as f64).sqrt())
}

/// The median, in the unit of the values: [`quantile`] at 0.5.
/// `None` without values or when one is not a finite number.
pub fn median(values: &[f64]) -> Option<f64> {
    quantile(values, 0.5)
}

/// The sample quantile at `p`, in the unit of the values: linear between order statistics at position (n - 1) p.
///
/// Source: type 7 of Hyndman & Fan 1996, The American Statistician 50:361.
/// `None` without values, when one is not a finite number, or when `p` is not from 0 to 1.
pub fn quantile(values: &[f64], p: f64) -> Option<f64> {
    if values.is_empty() || !values.iter().all(|value| value.is_finite()) || !(0.0..=1.0).contains(&p) {
        return None;
    }
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let position = (sorted.len() - 1) as f64 * p;
    let (below, above) = (sorted[position.floor() as usize], sorted[position.ceil() as usize]);
    Some(below + position.fract() * (above - below))
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn halves_leave_the_middle_out() {
        let halves = early_late(&[true, false, true, false, false]).expect("five");
        assert_eq!((halves.early.events(), halves.early.n()), (1, 2));
        assert_eq!((halves.late.events(), halves.late.n()), (0, 2));
        // 0/4 against 4/4: 2 of 70 tables, less half of one.
        let halves = early_late(&[false, false, false, false, true, true, true, true]).expect("eight");
        assert_close(halves.p, 1.5 / 70.0, 1e-15);
        assert_eq!(early_late(&[true]), None);
        assert_eq!(early_late(&[]), None);
    }

    #[test]
    fn a_missed_tap_moves_the_rate_but_not_the_median() {
        let rate = tap_rate(&[0.0, 0.5, 1.0, 2.0, 2.5]).expect("five taps");
        assert_eq!((rate.taps, rate.seconds, rate.per_second, rate.median_interval), (5, 2.5, 1.6, 0.5));
    }

    #[test]
    fn times_that_are_not_a_series_have_no_rate() {
        for times in [&[][..], &[1.0], &[1.0, 1.0], &[0.0, 2.0, 1.0, 3.0], &[0.0, f64::NAN, 3.0], &[0.0, f64::INFINITY]]
        {
            assert_eq!(tap_rate(times), None, "{times:?}");
        }
    }

    #[test]
    fn quantiles_lie_between_order_statistics() {
        let values = [4.0, 1.0, 3.0, 2.0];
        let at = |p| quantile(&values, p).expect("inside");
        assert_eq!([at(0.0), at(0.25), at(0.5), at(0.75), at(1.0)], [1.0, 1.75, 2.5, 3.25, 4.0]);
        assert_eq!(quantile(&values, 1.01), None);
        assert_eq!(quantile(&values, f64::NAN), None);
        assert_eq!(median(&[]), None);
        assert_eq!(median(&[f64::NAN]), None);
    }

    #[test]
    fn one_value_has_a_mean_but_no_spread() {
        assert_eq!((mean(&[3.0]), standard_deviation(&[3.0])), (Some(3.0), None));
        assert_close(
            standard_deviation(&[2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0]).expect("eight"),
            (32.0_f64 / 7.0).sqrt(),
            1e-15,
        );
        assert_eq!(mean(&[1.0, f64::INFINITY]), None);
    }
}
