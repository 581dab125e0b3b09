//! As many visits as go into one file.

use super::{Shelf, pack};
use crate::archive::{self, Archive};
use crate::capture::visit::Visit;

/// What goes into one file.
#[derive(Debug, Clone, PartialEq)]
pub struct Packed {
    /// The visits with all that belongs to them.
    pub archive: Archive,
    /// The same as bytes.
    pub bytes: Vec<u8>,
    /// How many closed visits did not fit.
    pub left: usize,
}

/// Packs closed visits, the first ones first, as far as their bytes stay within the limit: a file beyond
/// [`archive::MAX_BYTES`] could be written and never read again. When not even one visit fits, none is packed.
#[must_use]
pub fn pack_within(visits: Vec<Visit>, shelf: &Shelf<'_>, limit: usize) -> Packed {
    let mut visits: Vec<Visit> = visits.into_iter().filter(|visit| visit.closed.is_some()).collect();
    let all = visits.len();
    loop {
        let archive = pack(visits, shelf);
        let bytes = archive::write_compact(&archive);
        if bytes.len() <= limit || archive.visits.is_empty() {
            return Packed { left: all - archive.visits.len(), bytes, archive };
        }
        visits = archive.visits;
        // Visits differ in length, so that what would fit on average is tried with a little room.
        let fitting = visits.len() as u128 * limit as u128 / bytes.len() as u128;
        let room = fitting / 64 + 1;
        visits.truncate(usize::try_from(fitting.saturating_sub(room)).unwrap_or_default());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::demo;

    const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn shelf<'a>(people: &'a [crate::capture::visit::Person]) -> Shelf<'a> {
        Shelf { people, addenda: &[], routines: &[], joins: &[] }
    }

    #[test]
    fn what_does_not_fit_is_left_for_the_next_file_and_nothing_is_lost() {
        let (people, visits) = demo::people(NOON);
        let shelf = shelf(&people);
        let visits: Vec<Visit> = (0..200)
            .map(|n| {
                let visit = &visits[n % visits.len()];
                archive::closed(Visit { id: format!("v{n}"), ..visit.clone() }, NOON)
            })
            .collect();
        let whole = pack_within(visits.clone(), &shelf, usize::MAX);
        assert_eq!((whole.left, whole.archive.visits.len()), (0, 200));
        assert_eq!(pack_within(visits.clone(), &shelf, whole.bytes.len()), whole, "what just fits is not divided");

        let limit = whole.bytes.len() / 3;
        let (mut rest, mut seen, mut files) = (visits.clone(), Vec::new(), 0);
        while !rest.is_empty() {
            let packed = pack_within(rest.clone(), &shelf, limit);
            assert!(packed.bytes.len() <= limit);
            assert!(packed.left == 0 || packed.bytes.len() > limit / 2, "{} of {limit}", packed.bytes.len());
            let read = archive::read(&packed.bytes).expect("each file is whole by itself");
            assert_eq!(read.visits, packed.archive.visits);
            rest = rest.split_off(read.visits.len());
            assert_eq!(rest.len(), packed.left);
            seen.extend(read.visits);
            files += 1;
        }
        assert_eq!(seen, visits);
        assert!((3..=5).contains(&files), "{files}");
        assert_eq!(pack_within(visits, &shelf, 10).archive.visits.len(), 0);
    }
}
