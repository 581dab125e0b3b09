//! Strict commits on a connection of our own, because rexie and the library under it have no
//! durability option. Browsers that do not know the option ignore it and commit as they always do.

use gloo_events::EventListener;
use js_sys::{Array, Object, Promise, Reflect, Uint8Array};
use sidelight_core::sorted;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory, IdbOpenDbRequest, IdbTransaction};

use super::super::{Change, Kind, StorageError};

#[wasm_bindgen]
extern "C" {
    // web-sys has this overload only behind a build flag for the whole program.
    #[wasm_bindgen(extends = IdbDatabase)]
    type DurableDatabase;

    #[wasm_bindgen(method, catch, js_name = transaction)]
    fn transaction_with_options(
        this: &DurableDatabase,
        stores: &Array,
        mode: &str,
        options: &Object,
    ) -> Result<IdbTransaction, JsValue>;
}

/// One change in the form the database takes: a value to put, or none to delete.
pub struct Row {
    kind: Kind,
    key: JsValue,
    value: Option<JsValue>,
}

/// Puts changes into the database's form.
pub fn rows(changes: &[Change]) -> Vec<Row> {
    changes.iter().map(row).collect()
}

/// The names of the object stores that a transaction needs, each once.
pub fn store_names(kinds: impl Iterator<Item = Kind>) -> Vec<&'static str> {
    let mut names: Vec<_> = kinds.map(Kind::store_name).collect();
    sorted::by(&mut names, Ord::cmp);
    names.dedup();
    names
}

/// Opens the second connection, once the first one has made the schema. When that failed this one fails too, and never leaves
/// a database without its stores.
pub async fn open(name: &str, version: u32) -> Result<IdbDatabase, StorageError> {
    let factory = factory().ok_or(StorageError::Unavailable)?;
    let request: IdbOpenDbRequest =
        factory.open_with_u32(name, version).map_err(|thrown| StorageError::from_opening(&thrown))?;
    let _refusing = EventListener::once(&request, "upgradeneeded", |event| {
        let request = event.target().and_then(|target| target.dyn_into::<IdbOpenDbRequest>().ok());
        if let Some(transaction) = request.and_then(|request| request.transaction()) {
            let _ = transaction.abort();
        }
    });
    let opened = Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    if JsFuture::from(opened).await.is_err() {
        let reason = request.error().ok().flatten().map(JsValue::from);
        return Err(StorageError::from_opening(&reason.unwrap_or_default()));
    }
    request
        .result()
        .and_then(|database| database.dyn_into::<IdbDatabase>())
        .map_err(|thrown| StorageError::from_opening(&thrown))
}

/// Commits all of these rows or none, and returns once the browser says they are on the disk.
pub async fn commit(database: &IdbDatabase, rows: &[Row]) -> Result<(), StorageError> {
    let transaction = begin(database, rows).map_err(|thrown| StorageError::from_thrown(&thrown))?;
    let ended = Promise::new(&mut |resolve, reject| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
    });
    if let Err(thrown) = place(&transaction, rows) {
        // A request that cannot even be placed does not abort the transaction by itself, and what
        // was placed before it would be committed.
        let _already_over: Result<(), JsValue> = transaction.abort();
        let _aborted: Result<JsValue, JsValue> = JsFuture::from(ended).await;
        return Err(StorageError::from_thrown(&thrown));
    }
    if JsFuture::from(ended).await.is_ok() {
        return Ok(());
    }
    match transaction.error() {
        Some(reason) => Err(StorageError::from_thrown(&reason)),
        None => Err(StorageError::Closed),
    }
}

fn row(change: &Change) -> Row {
    let key = change.key();
    Row {
        kind: key.kind,
        key: key.id.as_str().into(),
        value: match change {
            Change::Put(_, bytes, _) => Some(Uint8Array::from(bytes.as_slice()).into()),
            Change::Delete(_) => None,
        },
    }
}

fn factory() -> Option<IdbFactory> {
    Reflect::get(&js_sys::global(), &"indexedDB".into()).ok()?.dyn_into().ok()
}

fn begin(database: &IdbDatabase, rows: &[Row]) -> Result<IdbTransaction, JsValue> {
    let names: Array = store_names(rows.iter().map(|row| row.kind)).into_iter().map(JsValue::from).collect();
    let options = Object::new();
    Reflect::set(&options, &"durability".into(), &"strict".into())?;
    database.unchecked_ref::<DurableDatabase>().transaction_with_options(&names, "readwrite", &options)
}

fn place(transaction: &IdbTransaction, rows: &[Row]) -> Result<(), JsValue> {
    for row in rows {
        let store = transaction.object_store(row.kind.store_name())?;
        match &row.value {
            Some(value) => store.put_with_key(value, &row.key)?,
            None => store.delete(&row.key)?,
        };
    }
    commit_without_waiting(transaction)
}

/// Saves a turn of the event loop against waiting for the last answer.
#[expect(deprecated, reason = "marked so after an early draft of the standard; every engine has it")]
fn commit_without_waiting(transaction: &IdbTransaction) -> Result<(), JsValue> {
    transaction.commit()
}

#[cfg(test)]
mod tests {
    use super::super::opening::SCHEMA;
    use super::*;
    use crate::storage::indexed_db::IndexedDb;
    use crate::storage::{Key, Store as _};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn without_the_first_connection_no_empty_database_is_left() {
        let name = "test-strict-alone";
        IndexedDb::erase(name).await.expect("erases");
        assert!(open(name, SCHEMA).await.is_err());
        let database = IndexedDb::open_named(name).await.expect("opens, with its stores");
        assert_eq!(database.ids(Kind::Visit).await, Ok(Vec::new()));
    }

    #[wasm_bindgen_test]
    async fn the_browser_is_asked_for_a_strict_commit() {
        IndexedDb::open_named("test-strict").await.expect("opens");
        let database = open("test-strict", SCHEMA).await.expect("opens a second time");
        let change = Change::put(Key::new(Kind::Visit, "v"), vec![1]);
        let transaction = begin(&database, &rows(&[change])).expect("begins");
        let durability = Reflect::get(&transaction, &"durability".into()).expect("is an object");
        assert_eq!(durability.as_string().as_deref(), Some("strict"));
        transaction.abort().expect("aborts");
        database.close();
    }

    #[wasm_bindgen_test]
    async fn one_row_that_cannot_be_placed_leaves_nothing() {
        let store = IndexedDb::open_named("test-strict-atomic").await.expect("opens");
        let database = open("test-strict-atomic", SCHEMA).await.expect("opens a second time");
        let good = Row { kind: Kind::Visit, key: "good".into(), value: Some(Uint8Array::new_with_length(2).into()) };
        // A function cannot be cloned into the database.
        let function: JsValue = js_sys::Function::new_no_args("").into();
        let bad = Row { kind: Kind::Person, key: "bad".into(), value: Some(function) };
        let outcome = commit(&database, &[good, bad]).await;
        assert!(
            matches!(outcome, Err(StorageError::Other(ref words)) if words.contains("DataCloneError")),
            "{outcome:?}"
        );
        let read = crate::storage::Store::list(&store, Kind::Visit).await;
        assert_eq!(read, Ok(vec![]));
        database.close();
    }
}
