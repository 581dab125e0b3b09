//! What reading and writing version 1 have in common over all its records: ids, moments, numbers, and what is kept unread.

use super::super::error::{ArchiveError, Fault};
use super::super::fields::{Fields, Place};
use super::super::node::Node;
use super::word;
use crate::calendar::Moment;
use crate::capture::unread::Unread;
use crate::sorted;
use serde_json::Number;
use serde_json::value::RawValue;

/// Collects what is not understood inside one record, addressed from that record.
pub(super) struct Keeper<'o> {
    owner: &'o Place<'o>,
    kept: Unread,
}

impl<'o> Keeper<'o> {
    pub(super) fn of(owner: &'o Place<'o>) -> Keeper<'o> {
        Keeper { owner, kept: Unread::default() }
    }

    /// All that was kept, by name, so that it reads the same however its writer ordered the fields.
    pub(super) fn all(mut self, fields: Fields<'_, '_>) -> Unread {
        self.rest(fields);
        sorted::by(&mut self.kept.0, Ord::cmp);
        self.kept
    }

    pub(super) fn rest(&mut self, fields: Fields<'_, '_>) {
        fields.keep(self.owner, &mut self.kept);
    }

    pub(super) fn whole(&mut self, raw: &RawValue, place: &Place<'_>) {
        self.kept.0.push((place.pointer(self.owner), raw.get().to_string()));
    }
}

pub(super) fn id(fields: &mut Fields<'_, '_>, place: &Place<'_>, name: &str) -> Result<String, ArchiveError> {
    needed(fields.by(name, word::read_id)?, place, name)
}

pub(super) fn moment(fields: &mut Fields<'_, '_>, place: &Place<'_>, name: &str) -> Result<Moment, ArchiveError> {
    needed(fields.by(name, word::read_moment)?, place, name)
}

pub(super) fn needed<T>(value: Option<T>, place: &Place<'_>, name: &str) -> Result<T, ArchiveError> {
    value.ok_or_else(|| place.field(name).broken(Fault::Missing))
}

/// A number; one too large for a computer's number would turn into infinity and is refused.
pub(super) fn finite(raw: &RawValue, place: &Place<'_>) -> Result<f64, ArchiveError> {
    // Read by the standard library, to the last bit; the JSON library's own quick way may miss it by one.
    let text = raw.get();
    let is_number = text.starts_with(|first: char| first == '-' || first.is_ascii_digit());
    let number: f64 = text.parse().ok().filter(|_| is_number).ok_or_else(|| place.broken(Fault::WrongKind))?;
    if number.is_finite() { Ok(number) } else { Err(place.broken(Fault::Impossible)) }
}

pub(super) fn filled(text: &str) -> Option<&str> {
    (!text.is_empty()).then_some(text)
}

/// A number, without ".0" when it is whole; `None` for what is no number.
pub(super) fn number(number: f64) -> Option<Node> {
    // Whole numbers up to here are exact in both notations.
    const EXACT: f64 = 9_007_199_254_740_992.0;
    if number.fract() == 0.0 && number.abs() < EXACT {
        return Some(Node::number(number as i64));
    }
    Number::from_f64(number).map(Node::number)
}
