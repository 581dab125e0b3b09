//! What the page shows: which of its screens, other plans by name, and the time that is left.

use super::course::Course;
use super::round::{LEAD, Round, Stage};
use crate::catalogue::{Language, text};
use crate::sheet::{Phase, Unreadable};
use crate::tolerance::Reason;

/// What is shown.
#[derive(Debug, Clone, PartialEq)]
pub enum View {
    /// There is no plan: what this page is for.
    Empty,
    /// A plan that cannot be read.
    Unreadable(Unreadable),
    /// The plan.
    Today,
    /// An exercise going on, by its place on the sheet.
    Round(usize, Round),
    /// The danger signs are asked, from within an exercise or outside.
    Danger(Option<(usize, Round)>),
    /// What to do about something that was said outside an exercise.
    Told(Reason),
    /// What was done.
    Log,
}

/// Another plan of this phone.
#[derive(Debug, Clone, PartialEq)]
pub struct Other(pub(super) Course);

impl Other {
    /// Its exercises' names, by which a family knows it.
    #[must_use]
    pub fn titles(&self, language: Language) -> Vec<&'static str> {
        self.0.sheet.entries.iter().map(|entry| text(language, entry.exercise.family.title)).collect()
    }
}

/// Seconds left of what is timed or rested, rounded up, and the share of that time that is over.
pub(super) fn time_left(round: &Round) -> Option<(u32, f64)> {
    let (left, whole) = match (round.stage(), round.phase()) {
        (Stage::Lead { left }, _) => (left, LEAD),
        (Stage::Work { left, .. }, Some(Phase::Timed { seconds, .. } | Phase::Rest { seconds })) => {
            (left, u32::from(seconds) * 1000)
        }
        _ => return None,
    };
    let over = 1.0 - f64::from(left) / f64::from(whole.max(1));
    Some((left.div_ceil(1000), over))
}
