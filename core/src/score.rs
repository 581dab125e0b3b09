//! Grades a value against a published range.

use crate::evidence::{Limit, Norm};
use crate::finding::Grade;

/// Grades a value in the norm's unit.
///
/// Within `norm.error` of the limit, on either side, the grade is [`Grade::NearLimit`]: measurement error alone could
/// carry the value across.
#[must_use]
pub fn grade(value: f64, norm: &Norm) -> Grade {
    let (limit, inside) = match norm.limit {
        Limit::AtMost(limit) => (limit, value <= limit),
        Limit::Below(limit) => (limit, value < limit),
        Limit::AtLeast(limit) => (limit, value >= limit),
    };
    if norm.error.is_some_and(|error| (value - limit).abs() <= error) {
        return Grade::NearLimit;
    }
    if inside { Grade::WithinRange } else { Grade::OutsideRange }
}

/// The first norm in the list that is meant for this age.
#[must_use]
pub fn norm_for(norms: &[&'static Norm], age: Option<u8>) -> Option<&'static Norm> {
    norms.iter().copied().find(|norm| norm.fits(age))
}
