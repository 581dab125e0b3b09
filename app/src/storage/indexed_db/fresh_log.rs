//! Makes Chromium begin a new log under its database, once per start.
//!
//! A browser that is killed in the middle of a write leaves half a record at the end of its log. Its next start passes over
//! that half and goes on writing behind it; the start after finds a record that never ended, takes the whole database for
//! damaged and erases it (github.com/google/leveldb/issues/1287, open in November 2026). A log that has grown by some
//! megabytes is put away in tables and a new one is begun, and the half record goes with the old one: so some megabytes of
//! zeros are written to a database of their own at each start, and erased at once.
//!
//! Limits: a browser that is killed between its start and this, twice, is not helped; nor is one without room for the zeros.

use futures_util::future::try_join_all;
use js_sys::Uint8Array;
use rexie::{ObjectStore, Rexie, TransactionMode};
use wasm_bindgen::JsValue;

use crate::platform::engine::is_chromium;

const NAME: &str = "sidelight-zeros";

/// Below the size from which Chromium writes a value to a file of its own, past the log.
const BLOCK: u32 = 48 * 1024;
/// Together more than the 4 MB at which the log is put away.
const BLOCKS: u32 = 100;

/// Begins a new log, in a browser that needs it. What goes wrong is let be: it is tried again at the next start.
pub async fn begin() {
    if is_chromium() {
        let _ = write().await;
        let _ = Rexie::delete(NAME).await;
    }
}

async fn write() -> rexie::Result<()> {
    let database = Rexie::builder(NAME).version(1).add_object_store(ObjectStore::new(NAME)).build().await?;
    let transaction = database.transaction(&[NAME], TransactionMode::ReadWrite)?;
    let store = transaction.store(NAME)?;
    let (zeros, key) = (JsValue::from(Uint8Array::new_with_length(BLOCK)), JsValue::from(0));
    let written = try_join_all((0..BLOCKS).map(|_| store.put(&zeros, Some(&key)))).await;
    let ended = transaction.done().await;
    database.close();
    written?;
    ended.map(|_| ())
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn the_zeros_are_written_and_leave_nothing() {
        write().await.expect("there is room");
        let database = Rexie::builder(NAME).build().await.expect("opens");
        assert_eq!(database.store_names(), [NAME]);
        database.close();
        begin().await;
        let database = Rexie::builder(NAME).build().await.expect("opens");
        assert_eq!(database.store_names(), Vec::<String>::new());
        database.close();
        Rexie::delete(NAME).await.expect("is gone");
    }
}
