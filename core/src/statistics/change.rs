//! Change between two occasions against the error of measurement.
//!
//! Units are those of the measure; a reliability is a test-retest correlation from 0 to 1 and has none.

use std::f64::consts::SQRT_2;

use super::normal;

/// The standard error of measurement: SD √(1 - r).
///
/// Source: Lord & Novick 1968, Statistical Theories of Mental Test Scores.
/// `None` when the standard deviation is not a number from 0 up or the reliability is not from 0 to 1.
pub fn error_of_measurement(standard_deviation: f64, reliability: f64) -> Option<f64> {
    let usable = size(standard_deviation) && (0.0..=1.0).contains(&reliability);
    usable.then(|| standard_deviation * (1.0 - reliability).sqrt())
}

/// The standard error of the difference between two occasions: √(SEM₁² + SEM₂²), which is √2 SEM when both are alike.
///
/// Source: Jacobson & Truax 1991, Journal of Consulting and Clinical Psychology 59:12 (both alike); Maassen 2004,
/// Journal of the International Neuropsychological Society 10:888 (occasions with variances of their own).
/// `None` when an error is not a number from 0 up.
pub fn error_of_difference(sem_before: f64, sem_after: f64) -> Option<f64> {
    (size(sem_before) && size(sem_after)).then(|| sem_before.hypot(sem_after))
}

/// The smallest change beyond measurement error at this confidence: z √2 SEM.
///
/// `confidence` is two-sided, as 0.95 (z = 1.96) or 0.90 (z = 1.645).
/// `None` when the error is not a number from 0 up or `confidence` is not strictly between 0 and 1.
pub fn minimal_detectable_change(sem: f64, confidence: f64) -> Option<f64> {
    let z = normal::critical(confidence)?;
    size(sem).then_some(z * SQRT_2 * sem)
}

/// The standard error of measurement behind a published limit of change: limit / (z √2). The limit is a minimal
/// detectable change or half the width of limits of agreement (Bland & Altman 1986, Lancet 327:307).
///
/// `None` when the limit is not a number from 0 up or `confidence` is not strictly between 0 and 1.
pub fn error_behind_limit(limit: f64, confidence: f64) -> Option<f64> {
    let z = normal::critical(confidence)?;
    size(limit).then_some(limit / (z * SQRT_2))
}

/// A change set against its error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReliableChange {
    /// after - before, in the unit of the measure.
    pub change: f64,
    /// The reliable change index: `change` over the standard error of the difference.
    pub index: f64,
    /// The size the index must exceed.
    pub threshold: f64,
    /// Whether the index exceeds the threshold in size.
    pub reliable: bool,
}

/// The reliable change index, (after - before) / SE of the difference, and whether it exceeds z in size.
///
/// Source: Jacobson & Truax 1991, Journal of Consulting and Clinical Psychology 59:12.
/// `None` when a value is not finite, the error is not above 0, or `confidence` is not strictly between 0 and 1.
pub fn reliable_change(before: f64, after: f64, error_of_difference: f64, confidence: f64) -> Option<ReliableChange> {
    let threshold = normal::critical(confidence)?;
    let change = after - before;
    if !change.is_finite() || !size(error_of_difference) || error_of_difference == 0.0 {
        return None;
    }
    let index = change / error_of_difference;
    Some(ReliableChange { change, index, threshold, reliable: index.abs() > threshold })
}

/// Whether a number can be the size of an error.
fn size(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn a_taught_example() {
        // SD 7.6 and reliability 0.95, a taught example of Jacobson & Truax 1991; outputs by arithmetic.
        let sem = error_of_measurement(7.6, 0.95).expect("usable");
        let difference = error_of_difference(sem, sem).expect("usable");
        assert_close(sem, 1.699, 5e-4);
        assert_close(difference, 2.403, 5e-4);
        assert_close(minimal_detectable_change(sem, 0.95).expect("usable"), 4.71, 5e-3);
    }

    #[test]
    fn the_authors_own_example() {
        // Jacobson & Truax 1991: 47.5 before, 32.5 after, SD 7.5, reliability 0.80 (from memory; recomputed).
        let sem = error_of_measurement(7.5, 0.80).expect("usable");
        let difference = error_of_difference(sem, sem).expect("usable");
        assert_close(sem, 3.354, 5e-4);
        assert_close(difference, 4.743, 5e-4);
        let change = reliable_change(47.5, 32.5, difference, 0.95).expect("usable");
        assert_close(change.index, -3.16, 5e-3);
        assert!(change.reliable);
    }

    #[test]
    fn a_symptom_survey_of_children() {
        // SD 8.4, ICC 0.77, limits of agreement -10.2 to +12.1: Borsting et al. 2003, Optometry and Vision Science 80:832.
        let sem = error_of_measurement(8.4, 0.77).expect("usable");
        assert_close(sem, 4.03, 5e-3);
        let limit = minimal_detectable_change(sem, 0.95).expect("usable");
        assert_close(limit, 11.17, 5e-3);
        assert_close(limit, (12.1 + 10.2) / 2.0, 0.05);
    }

    #[test]
    fn errors_behind_published_limits() {
        let sem = |limit| error_behind_limit(limit, 0.95).expect("usable");
        // Balance of children, MDC95 7.3 (373 children, 2016; authors not shown in the copy read).
        assert_close(sem(7.3), 2.63, 5e-3);
        // Near point: MDC95 4 cm (CARE consortium 2021, Brain Injury 35:1563), limits of agreement of 2.5 cm over 90 days
        // (91 healthy adolescents; authors not shown) and 2 cm within a session (2020, Journal of Athletic Training 55:850).
        assert_close(sem(4.0), 1.443, 5e-4);
        assert_close(sem(2.5), 0.902, 5e-4);
        assert_close(sem(2.0), 0.722, 5e-4);
    }

    #[test]
    fn a_change_on_the_threshold_is_not_beyond_it() {
        let threshold = normal::critical(0.95).expect("inside");
        assert!(!reliable_change(0.0, threshold, 1.0, 0.95).expect("usable").reliable);
        assert!(reliable_change(0.0, -threshold * 1.000_001, 1.0, 0.95).expect("usable").reliable);
    }

    #[test]
    fn unusable_inputs_have_no_answer() {
        assert_eq!(error_of_measurement(-1.0, 0.5), None);
        assert_eq!(error_of_measurement(1.0, 1.1), None);
        assert_eq!(error_of_difference(f64::NAN, 1.0), None);
        assert_eq!(minimal_detectable_change(1.0, 0.0), None);
        assert_eq!(error_behind_limit(f64::INFINITY, 0.95), None);
        assert_eq!(reliable_change(1.0, 2.0, 0.0, 0.95), None);
        assert_eq!(reliable_change(1.0, f64::NAN, 1.0, 0.95), None);
    }
}
