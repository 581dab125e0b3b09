//! What a closed visit is known by: the digest of what it says.

use super::v1;
use crate::calendar::Moment;
use crate::canonical::sha256_hex;
use crate::capture::addendum::Addendum;
use crate::capture::visit::Visit;

/// SHA-256 of a visit's canonical JSON (RFC 8785) without the member that holds it: 64 lower-case hexadecimal digits.
#[must_use]
pub fn digest(visit: &Visit) -> String {
    sha256_hex(&v1::write::visit(visit).without("sha256").canonical())
}

/// SHA-256 of an addendum's canonical JSON, in the same digits.
#[must_use]
pub fn addendum_digest(addendum: &Addendum) -> String {
    sha256_hex(&v1::write::addendum(addendum).canonical())
}

/// The visit closed at this moment: nothing in sight any more, and its digest noted.
#[must_use]
pub fn closed(mut visit: Visit, now: Moment) -> Visit {
    visit.closed = Some(now);
    visit.at.clear();
    visit.sha256 = Some(digest(&visit));
    visit
}

/// Whether a visit still says what it said when it was closed. Open ones, and those closed before digests were noted, do.
#[must_use]
pub fn intact(visit: &Visit) -> bool {
    visit.sha256.as_ref().is_none_or(|noted| *noted == digest(visit))
}

#[cfg(test)]
mod tests;
