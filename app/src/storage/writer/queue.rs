//! What waits to be written and what is not yet flushed to the disk, without any browser.

use std::collections::BTreeMap;

use super::super::{Change, Durability, Key};

/// Longest time, in milliseconds, that a written change may stay unflushed.
const FLUSH_WITHIN_MS: f64 = 3_000.0;
/// First pause before a retry, in milliseconds; it doubles up to the longest.
const FIRST_PAUSE_MS: u32 = 500;
/// Longest pause between retries, in milliseconds.
const LONGEST_PAUSE_MS: u32 = 30_000;

/// Changes to be written as one.
#[derive(Debug, PartialEq)]
pub struct Batch {
    /// The latest change of each key.
    pub changes: Vec<Change>,
    /// How far they must come.
    pub durability: Durability,
    /// What waits again if the batch is refused; all of the changes when not given.
    kept: Option<Vec<Change>>,
}

/// The changes that are not on the disk for certain. Times are milliseconds of a steady clock.
#[derive(Debug, Default)]
pub struct Queue {
    waiting: BTreeMap<Key, Change>,
    /// Tried once with the next batch; whoever asked hears how it went.
    once: Vec<Change>,
    /// Written relaxed since the last strict commit, which writes them once more: that a strict commit
    /// also flushes earlier ones is promised by no browser.
    unflushed: BTreeMap<Key, Change>,
    unflushed_since: Option<f64>,
    strict_wanted: bool,
}

impl Queue {
    /// Adds changes; the latest for each key wins.
    pub fn add(&mut self, changes: impl IntoIterator<Item = Change>) {
        let keyed = changes.into_iter().map(|change| (change.key().clone(), change));
        self.waiting.extend(keyed);
    }

    /// Adds changes to the next batch only, over what waits for the same keys, and makes it strict. If it is refused they
    /// are forgotten, and what waited waits again.
    pub fn add_once(&mut self, changes: impl IntoIterator<Item = Change>) {
        self.once.extend(changes);
        self.want_strict();
    }

    /// Whether nothing waits to be written.
    pub fn is_empty(&self) -> bool {
        self.waiting.is_empty() && self.once.is_empty()
    }

    /// Makes the next batch strict, and one even when nothing new waits.
    pub fn want_strict(&mut self) {
        self.strict_wanted = true;
    }

    /// Takes everything that should be written now, if anything.
    pub fn take(&mut self, now: f64) -> Option<Batch> {
        let strict = std::mem::take(&mut self.strict_wanted) || self.flush_in(now) == Some(0);
        let mut changes = std::mem::take(&mut self.waiting);
        if strict {
            for (key, change) in std::mem::take(&mut self.unflushed) {
                changes.entry(key).or_insert(change);
            }
            self.unflushed_since = None;
        }
        let once = std::mem::take(&mut self.once);
        let kept = (!once.is_empty()).then(|| changes.values().cloned().collect());
        changes.extend(once.into_iter().map(|change| (change.key().clone(), change)));
        if changes.is_empty() {
            return None;
        }
        Some(Batch {
            kept,
            changes: changes.into_values().collect(),
            durability: if strict { Durability::Strict } else { Durability::Relaxed },
        })
    }

    /// Notes that a batch was written.
    pub fn written(&mut self, batch: Batch, now: f64) {
        if batch.durability == Durability::Strict {
            return;
        }
        self.unflushed_since.get_or_insert(now);
        let keyed = batch.changes.into_iter().map(|change| (change.key().clone(), change));
        self.unflushed.extend(keyed);
    }

    /// Puts a batch back that was not written. Changes that came meanwhile are newer and stay.
    pub fn refused(&mut self, batch: Batch) {
        self.strict_wanted |= batch.durability == Durability::Strict;
        for change in batch.kept.unwrap_or(batch.changes) {
            self.waiting.entry(change.key().clone()).or_insert(change);
        }
    }

    /// In how many milliseconds a flush is due; `None` when everything written is flushed.
    pub fn flush_in(&self, now: f64) -> Option<u32> {
        let due = self.unflushed_since? + FLUSH_WITHIN_MS;
        Some((due - now).max(0.0).ceil() as u32)
    }
}

/// How long to wait after so many failures in a row.
pub fn back_off(failures: u32) -> u32 {
    let doublings = failures.saturating_sub(1).min(16);
    FIRST_PAUSE_MS.saturating_mul(1 << doublings).min(LONGEST_PAUSE_MS)
}

#[cfg(test)]
mod tests {
    use super::super::super::Kind;
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn put(id: &str, byte: u8) -> Change {
        Change::put(Key::new(Kind::Draft, id), vec![byte])
    }

    #[wasm_bindgen_test]
    fn the_latest_change_of_each_key_is_taken_once() {
        let mut queue = Queue::default();
        queue.add([put("a", 1), put("b", 1), put("a", 2)]);
        let batch = queue.take(0.0).expect("two changes wait");
        assert_eq!(
            batch,
            Batch { changes: vec![put("a", 2), put("b", 1)], durability: Durability::Relaxed, kept: None }
        );
        assert_eq!(queue.take(0.0), None);
    }

    #[wasm_bindgen_test]
    fn a_change_is_flushed_within_three_seconds_of_being_written() {
        let mut queue = Queue::default();
        queue.add([put("a", 1)]);
        let batch = queue.take(1_000.0).expect("one change waits");
        queue.written(batch, 1_010.0);
        assert_eq!(queue.flush_in(1_010.0), Some(3_000));
        queue.add([put("b", 1)]);
        let batch = queue.take(4_009.0).expect("one change waits");
        assert_eq!(batch.durability, Durability::Relaxed);
        queue.written(batch, 4_009.5);
        // Nothing new waits, and still both are written once more, strictly.
        let batch = queue.take(4_010.0).expect("a flush is due");
        assert_eq!(
            batch,
            Batch { changes: vec![put("a", 1), put("b", 1)], durability: Durability::Strict, kept: None }
        );
        queue.written(batch, 4_020.0);
        assert_eq!(queue.flush_in(9_000.0), None);
        assert_eq!(queue.take(9_000.0), None);
    }

    #[wasm_bindgen_test]
    fn a_refused_batch_waits_again_but_never_replaces_newer_changes() {
        let mut queue = Queue::default();
        queue.add([put("a", 1), put("b", 1)]);
        queue.want_strict();
        let batch = queue.take(0.0).expect("two changes wait");
        queue.add([Change::Delete(Key::new(Kind::Draft, "a"))]);
        queue.refused(batch);
        let batch = queue.take(0.0).expect("both wait again");
        assert_eq!(batch.durability, Durability::Strict);
        assert_eq!(batch.changes, vec![Change::Delete(Key::new(Kind::Draft, "a")), put("b", 1)]);
    }

    #[wasm_bindgen_test]
    fn what_is_tried_once_is_forgotten_when_it_is_refused_and_what_it_covered_comes_back() {
        let mut queue = Queue::default();
        queue.add([put("a", 1), put("b", 1)]);
        queue.add_once([Change::Delete(Key::new(Kind::Draft, "a")), put("closed", 1)]);
        let batch = queue.take(0.0).expect("three changes wait");
        assert_eq!(batch.durability, Durability::Strict);
        assert_eq!(batch.changes, vec![Change::Delete(Key::new(Kind::Draft, "a")), put("b", 1), put("closed", 1)]);
        queue.refused(batch);
        let batch = queue.take(0.0).expect("two changes wait again");
        assert_eq!(batch.changes, vec![put("a", 1), put("b", 1)]);
        queue.written(batch, 0.0);
        assert!(queue.is_empty());
    }

    #[wasm_bindgen_test]
    fn pauses_double_up_to_half_a_minute() {
        let pauses: Vec<u32> = [1, 2, 3, 7, 1_000].into_iter().map(back_off).collect();
        assert_eq!(pauses, [500, 1_000, 2_000, 30_000, 30_000]);
    }
}
