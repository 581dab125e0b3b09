//! An addendum: what is corrected or added after a visit was closed, which itself stays as it is.

use super::unread::Unread;
use crate::calendar::Moment;
use crate::sorted;

/// One correction of, or addition to, a closed visit. It is never changed either; a second one corrects the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Addendum {
    /// Random id.
    pub id: String,
    /// The visit's id.
    pub visit: String,
    /// The id of the visit's person, so that what is kept of a person can be found without the visit.
    pub person: String,
    /// When it was written.
    pub written: Moment,
    /// Its words.
    pub text: String,
    /// Name and version of the program that wrote it.
    pub program: String,
    /// What this program cannot read.
    pub unread: Unread,
}

/// The addenda of a visit in the order they were written; of one moment, by id.
#[must_use]
pub fn of_visit<'a>(addenda: &'a [Addendum], visit: &str) -> Vec<&'a Addendum> {
    let mut own: Vec<&Addendum> = addenda.iter().filter(|addendum| addendum.visit == visit).collect();
    sorted::by(&mut own, |a, b| {
        a.written.cmp(&b.written).then_with(|| a.id.cmp(&b.id)).then_with(|| a.text.cmp(&b.text))
    });
    own
}
