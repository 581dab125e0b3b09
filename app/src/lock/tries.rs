//! Wrong passphrases make the next try wait, longer each time and across reloads. Never is anything destroyed.
//!
//! Limits: whoever can clear the site's data can clear this count, and the records with it. What slows a stranger who has
//! copied the disk is the derivation of the key.

use gloo_storage::{LocalStorage, Storage};
use serde::{Deserialize, Serialize};

use crate::platform::clock::{self, Now};
use crate::platform::settings;

const KEY: &str = "sidelight-tries";

/// So many may be wrong before the first wait.
const FREE: u32 = 2;
/// The first wait, in seconds; it doubles up to the longest.
const FIRST: u32 = 4;
const LONGEST: u32 = 300;

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct Tries {
    failed: u32,
    last_ms: i64,
}

/// In how many seconds the next try is allowed.
pub fn wait() -> u32 {
    left(load(), now_ms())
}

/// Counts a try.
pub fn count() {
    let failed = load().failed.saturating_add(1);
    if settings::there() {
        let _ = LocalStorage::set(KEY, Tries { failed, last_ms: now_ms() });
    }
}

/// Forgets all tries, after a right one.
pub fn forget() {
    if settings::there() {
        LocalStorage::delete(KEY);
    }
}

fn load() -> Tries {
    if settings::there() { LocalStorage::get(KEY).unwrap_or_default() } else { Tries::default() }
}

fn now_ms() -> i64 {
    let Now(ms, _) = clock::now();
    ms
}

fn left(tries: Tries, now_ms: i64) -> u32 {
    let whole = pause(tries.failed);
    // A clock that was set back must not make the wait longer than it is.
    let passed = u32::try_from(now_ms.saturating_sub(tries.last_ms).max(0) / 1_000).unwrap_or(u32::MAX);
    whole.saturating_sub(passed)
}

fn pause(failed: u32) -> u32 {
    match failed.checked_sub(FREE + 1) {
        None => 0,
        Some(more) => FIRST.saturating_mul(1 << more.min(16)).min(LONGEST),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_wait_doubles_and_has_an_end() {
        let waits: Vec<u32> = (0..12).map(pause).collect();
        assert_eq!(waits, [0, 0, 0, 4, 8, 16, 32, 64, 128, 256, 300, 300]);
        assert_eq!(pause(u32::MAX), 300);
    }

    #[wasm_bindgen_test]
    fn time_passes_and_a_clock_set_back_does_not_add_to_it() {
        let tries = Tries { failed: 4, last_ms: 1_000_000 };
        assert_eq!(left(tries, 1_000_000), 8);
        assert_eq!(left(tries, 1_005_500), 3);
        assert_eq!(left(tries, 1_008_000), 0);
        assert_eq!(left(tries, 0), 8);
    }

    #[wasm_bindgen_test]
    fn tries_are_counted_and_forgotten() {
        forget();
        for _ in 0..3 {
            assert_eq!(wait(), 0);
            count();
        }
        assert!((3..=4).contains(&wait()));
        forget();
        assert_eq!(wait(), 0);
    }
}
