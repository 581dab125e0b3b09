//! What was corrected or added after the visit was closed, under its date. The visit itself reads as it did.

use super::heading;
use crate::calendar::long_date;
use crate::capture::addendum::{self, Addendum};
use crate::capture::visit::Visit;
use crate::document::{Block, Said, foreign};

/// Behind the head, so that nobody reads a finding without what was corrected later.
pub fn blocks(visit: &Visit, addenda: &[Addendum]) -> Vec<Block> {
    let addenda = addendum::of_visit(addenda, &visit.id);
    if addenda.is_empty() {
        return Vec::new();
    }
    let title = if addenda.len() == 1 { "Added after closing" } else { "Added after closing, the latest last" };
    let said = addenda.into_iter().map(|addendum| {
        let when = format!("{}, {}", long_date(addendum.written.date()), addendum.written.clock());
        Said::new(format!("{when}: {}", foreign(&addendum.text)), &[&format!("addendum.{}", addendum.id)])
    });
    vec![heading(title), Block::List(said.collect())]
}
