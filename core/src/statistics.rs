//! Exact and small-sample statistics for counts, rates, sides and series, written out so that every formula can be read
//! beside its source. Nothing here knows what an eye is.
//!
//! Every function answers `None` when the data cannot carry the answer (nothing was counted, one group is empty, a level
//! of confidence is not between 0 and 1). Absent is never turned into zero. Randomness is an argument (a seed).

mod discrete;
mod permutation;
mod random;

pub mod change;
pub mod exact;
pub mod neighbours;
pub mod normal;
pub mod order;
pub mod proportion;
pub mod stratified;
pub mod student;
pub mod trend;
pub mod two_sample;

// The generator behind the property tests draws its seeds from the system, which WebAssembly does not have.
#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties;

/// A confidence interval, in the unit of the value it surrounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lower limit.
    pub low: f64,
    /// The upper limit, never below `low`.
    pub high: f64,
}

impl Interval {
    /// Whether `value` lies in the closed interval.
    ///
    /// ```
    /// use sidelight_core::statistics::Interval;
    ///
    /// let interval = Interval { low: 0.1, high: 0.4 };
    /// assert!(interval.contains(0.4) && !interval.contains(0.41));
    /// ```
    pub fn contains(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}

/// The probability outside an interval of this confidence, or `None` unless the confidence is strictly between 0 and 1.
fn outside(confidence: f64) -> Option<f64> {
    (confidence > 0.0 && confidence < 1.0).then_some(1.0 - confidence)
}

/// Fails with a readable message when two numbers differ by more than the tolerance.
#[cfg(test)]
#[track_caller]
fn assert_close(actual: f64, expected: f64, tolerance: f64) {
    assert!((actual - expected).abs() <= tolerance, "expected {expected}, found {actual}");
}
