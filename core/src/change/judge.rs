//! One difference set against its error: published limits for numbers, an interval for shares, nothing for grades.

use std::cmp::Ordering;

use super::Verdict;
use crate::evidence::ChangeLimit;
use crate::measure::{Amount, as_printed};
use crate::side_by_side::{COMPARABLE, CONFIDENCE};
use crate::statistics::Interval;
use crate::statistics::proportion::newcombe;

/// What a pair of values says.
pub(super) struct Judged {
    /// How sure.
    pub verdict: Verdict,
    /// Whether it went up, down or stayed; `Equal` also where nothing can be said.
    pub up: Ordering,
    /// For shares, the interval of now minus then.
    pub difference: Option<Interval>,
}

/// Judges now against then.
pub(super) fn judge(then: &Amount, now: &Amount, limits: &[ChangeLimit]) -> Judged {
    let plain = |verdict, up| Judged { verdict, up, difference: None };
    match (then, now) {
        (Amount::Number { value: a, unit }, Amount::Number { value: b, unit: same }) if unit == same => {
            if !a.is_finite() || !b.is_finite() {
                return plain(Verdict::NotAlike, Ordering::Equal);
            }
            let fit: Vec<f64> = limits.iter().filter(|limit| limit.unit == *unit).map(|limit| limit.value).collect();
            let by = off_by(*a, *b);
            plain(against(by.abs(), &fit), by.total_cmp(&0.0))
        }
        (Amount::Share(a), Amount::Share(b)) => {
            let up = a.rate().zip(b.rate()).map_or(Ordering::Equal, |(a, b)| b.total_cmp(&a));
            let difference = newcombe(*b, *a, CONFIDENCE);
            let verdict = match difference {
                Some(_) if a.n() < COMPARABLE || b.n() < COMPARABLE => Verdict::TooFew,
                None => Verdict::TooFew,
                Some(interval) if interval.low > 0.0 || interval.high < 0.0 => Verdict::Certain,
                Some(_) => Verdict::WithinError,
            };
            Judged { verdict, up, difference }
        }
        (Amount::Step { step: a, words }, Amount::Step { step: b, words: same }) if words == same => {
            // 0 is the best step of every list; "up" follows the number, as for the other kinds.
            plain(Verdict::Untested, b.cmp(a))
        }
        (Amount::Number { .. } | Amount::Share(_) | Amount::Step { .. }, _) => {
            plain(Verdict::NotAlike, Ordering::Equal)
        }
    }
}

/// A limit is the smallest change that its study would call more than error, so reaching it counts.
fn against(by: f64, limits: &[f64]) -> Verdict {
    let beyond = limits.iter().filter(|limit| by >= **limit).count();
    match (beyond, limits.len()) {
        (_, 0) => Verdict::Untested,
        (0, _) => Verdict::WithinError,
        (some, all) if some == all => Verdict::Certain,
        (_, _) => Verdict::SomeLimits,
    }
}

/// Now minus then, of the values as they are printed, so that what a reader can work out is what was judged.
#[must_use]
pub fn off_by(then: f64, now: f64) -> f64 {
    as_printed(as_printed(now) - as_printed(then))
}
