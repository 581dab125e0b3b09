//! What the browser still keeps for this address, counted by asking the browser anew.

use gloo_storage::{LocalStorage, Storage};
use js_sys::{Array, Function, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::settings;
use crate::storage::indexed_db::IndexedDb;
use crate::storage::{Kind, Store};

/// What is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Remains {
    /// Rows in the records' database.
    pub rows: usize,
    /// Values of preferences.
    pub preferences: u32,
    /// Stored copies of the program.
    pub caches: u32,
}

/// Counts on a new connection.
pub async fn count() -> Remains {
    let mut rows = 0;
    if let Ok(records) = IndexedDb::open().await {
        for kind in Kind::ALL {
            rows += records.ids(kind).await.map_or(0, |ids| ids.len());
        }
    }
    let preferences = if settings::there() { LocalStorage::length() } else { 0 };
    Remains { rows, preferences, caches: caches().await.unwrap_or(0) }
}

async fn caches() -> Option<u32> {
    let caches = Reflect::get(&window(), &"caches".into()).ok().filter(JsValue::is_object)?;
    let keys: Function = Reflect::get(&caches, &"keys".into()).ok()?.dyn_into().ok()?;
    let asked = keys.call0(&caches).ok()?.dyn_into::<js_sys::Promise>().ok()?;
    Some(JsFuture::from(asked).await.ok()?.unchecked_into::<Array>().length())
}
