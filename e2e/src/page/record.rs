//! What is known of a spec's browser across restarts: what was done by hand, the size of its view, its log.

use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::viewport::{PHONE, Viewport};

/// Counts and settings that a page shares with the browser it belongs to.
#[derive(Debug)]
pub struct Record {
    taps: AtomicU32,
    keys: AtomicU32,
    viewport: Mutex<Viewport>,
    logged: Mutex<Vec<String>>,
}

impl Default for Record {
    fn default() -> Self {
        Self { taps: AtomicU32::new(0), keys: AtomicU32::new(0), viewport: Mutex::new(PHONE), logged: Mutex::default() }
    }
}

impl Record {
    /// Counts one tap.
    pub fn count_tap(&self) {
        self.taps.fetch_add(1, Ordering::Relaxed);
    }

    /// Counts a key for each character of `text`.
    pub fn count_keys(&self, text: &str) {
        let keys = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
        self.keys.fetch_add(keys, Ordering::Relaxed);
    }

    /// Taps so far.
    pub fn taps(&self) -> u32 {
        self.taps.load(Ordering::Relaxed)
    }

    /// Keys so far.
    pub fn keys(&self) -> u32 {
        self.keys.load(Ordering::Relaxed)
    }

    /// The size the view is to have.
    pub fn viewport(&self) -> Viewport {
        *lock(&self.viewport)
    }

    /// Notes the size the view is to have from now on.
    pub fn set_viewport(&self, viewport: Viewport) {
        *lock(&self.viewport) = viewport;
    }

    /// Adds errors that were taken out of a driver's log, which forgets them.
    pub fn log(&self, errors: impl IntoIterator<Item = String>) {
        lock(&self.logged).extend(errors);
    }

    /// All errors that were logged.
    pub fn logged(&self) -> Vec<String> {
        lock(&self.logged).clone()
    }
}

/// A spec that panicked has left nothing half-written behind these locks.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
