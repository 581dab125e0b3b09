//! The visits of one id: all its closings that differ, or while there is none the open one with the later last entry.

use crate::archive::{Kept, digest};
use crate::capture::answer::Answer;
use crate::capture::visit::Visit;
use std::collections::BTreeMap;

/// Visits by id.
#[derive(Default)]
pub(super) struct Closings(BTreeMap<String, Same>);

/// The visits of one id.
#[derive(Default)]
struct Same {
    open: Option<Visit>,
    /// By what they say.
    closed: BTreeMap<String, Visit>,
}

impl Closings {
    pub(super) fn take(&mut self, visit: Visit) {
        let said = visit.closed.is_some().then(|| digest(&visit));
        self.take_known(visit, said);
    }

    /// Takes a visit whose digest was worked out before; an open one has none.
    pub(super) fn take_known(&mut self, visit: Visit, said: Option<String>) {
        let same = self.0.entry(visit.id.clone()).or_default();
        match said {
            None => {
                let stays = same.open.as_ref().is_none_or(|known| prevails(&visit, known));
                if stays && same.closed.is_empty() {
                    same.open = Some(visit);
                }
            }
            Some(said) => {
                same.open = None;
                match same.closed.get(&said) {
                    Some(known) if !better(&said, &visit, known) => {}
                    Some(_) | None => {
                        same.closed.insert(said, visit);
                    }
                }
            }
        }
    }

    /// All of them, by id and under one id by digest.
    pub(super) fn all(self) -> Vec<Visit> {
        self.known().map(|(visit, _)| visit).collect()
    }

    /// The same, each with the digest of what it says; an open one has none.
    pub(super) fn known(self) -> impl Iterator<Item = (Visit, Option<String>)> {
        let of_one = |same: Same| {
            let closed = same.closed.into_iter().map(|(said, visit)| (visit, Some(said)));
            closed.chain(same.open.map(|visit| (visit, None)))
        };
        self.0.into_values().flat_map(of_one)
    }
}

/// Of two closings that say the same, the one that notes its digest rightly, then the one that notes none.
fn better(said: &str, visit: &Visit, known: &Visit) -> bool {
    let rank = |visit: &Visit| match &visit.sha256 {
        Some(noted) if noted == said => 2,
        None => 1,
        Some(_) => 0,
    };
    match rank(visit).cmp(&rank(known)) {
        std::cmp::Ordering::Greater => true,
        std::cmp::Ordering::Less => false,
        // The letters of unread parts may differ where their meaning does not.
        std::cmp::Ordering::Equal => visit != known && visit.order() > known.order(),
    }
}

/// Whether this open visit stays rather than the other.
pub(super) fn prevails(visit: &Visit, other: &Visit) -> bool {
    match last_entry(visit).cmp(&last_entry(other)) {
        std::cmp::Ordering::Greater => true,
        std::cmp::Ordering::Less => false,
        std::cmp::Ordering::Equal => visit != other && visit.order() > other.order(),
    }
}

/// When anything was entered last, as far as the visit tells, and how much was.
fn last_entry(visit: &Visit) -> (i64, usize) {
    let of_record = |record: &crate::capture::record::Record| {
        let from = record.started.map(|started| started.unix_ms);
        let taps = record.answers.iter().filter_map(|(_, answer)| last_ms(answer)).max();
        let tapped = from.zip(taps).map(|(from, ms)| from.saturating_add(i64::from(ms)));
        [from, tapped, record.ended.map(|ended| ended.unix_ms)].into_iter().flatten().max()
    };
    let last = visit.records.iter().filter_map(of_record).max();
    let entered = visit.records.iter().map(|record| 1 + record.answers.iter().count()).sum();
    (last.unwrap_or(visit.started.unix_ms), entered)
}

fn last_ms(answer: &Answer) -> Option<u32> {
    match answer {
        Answer::Trials(trials) => trials.iter().map(|trial| trial.at_ms).max(),
        Answer::Series(series) => series.taps.iter().map(|tap| tap.at_ms).max(),
        Answer::One(_)
        | Answer::Many(_)
        | Answer::Number(_)
        | Answer::Text(_)
        | Answer::Day(_)
        | Answer::Ratings(_)
        | Answer::Grid(_) => None,
    }
}
