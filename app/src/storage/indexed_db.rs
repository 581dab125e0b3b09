//! The store in the browser's IndexedDB: one object store for each kind, bytes as `Uint8Array`.
//!
//! Limits. A phone may end the connection of a page that was in the background; it is opened again
//! on the next operation. A browser may clear everything unless it was asked to persist (see
//! `platform::persist`). How strictly "strict" is kept is up to the browser and the disk. The records
//! are as readable as the bytes it is given; sealing comes above this layer (see `storage::sealed`).

pub mod fresh_log;
mod opening;
mod relaxed;
mod strict;

use std::cell::RefCell;
use std::rc::Rc;

use futures_util::FutureExt;
use futures_util::future::{Either, LocalBoxFuture, select, try_join, try_join_all};
use gloo_timers::future::TimeoutFuture;
use rexie::{Rexie, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;

use self::opening::{Connection, Opening};
use super::{Change, Durability, Held, Key, Kind, Pending, StorageError, Store};

/// The database's name in this browser.
const DATABASE: &str = "sidelight";
/// How long opening may take before the user hears that another tab is in the way.
const PATIENCE_MS: u32 = 5_000;

/// The records of this browser.
pub struct IndexedDb {
    name: &'static str,
    opening: RefCell<Option<Opening>>,
}

impl IndexedDb {
    /// Opens the records, creating an empty database on the first run.
    pub async fn open() -> Result<Self, StorageError> {
        Self::open_named(DATABASE).await
    }

    /// Opens a database of another name beside the records, for example for invented people.
    pub async fn open_named(name: &'static str) -> Result<Self, StorageError> {
        let database = Self { name, opening: RefCell::new(None) };
        database.connection().await?;
        Ok(database)
    }

    /// Removes a whole database. Other tabs give up their connections first.
    pub async fn erase(name: &str) -> Result<(), StorageError> {
        let erasing = Rexie::delete(name);
        let patience = TimeoutFuture::new(PATIENCE_MS);
        match select(erasing.boxed_local(), patience).await {
            Either::Left((erased, _)) => erased.map_err(|error| StorageError::from_rexie(&error)),
            Either::Right(_) => Err(StorageError::Blocked),
        }
    }

    /// Gives the open connection, opening it when there is none or when the browser ended it.
    async fn connection(&self) -> Result<Rc<Connection>, StorageError> {
        let opening = self.current_or_new_opening();
        // A write on an open connection should not pay for a timer.
        if let Some(Ok(connection)) = opening.peek() {
            return Ok(Rc::clone(connection));
        }
        match select(opening, TimeoutFuture::new(PATIENCE_MS)).await {
            Either::Left((opened, _)) => {
                if opened.is_err() {
                    self.opening.replace(None);
                }
                opened
            }
            // The opening goes on by itself; whoever asks next finds its result.
            Either::Right(_) => Err(StorageError::Blocked),
        }
    }

    fn current_or_new_opening(&self) -> Opening {
        let mut slot = self.opening.borrow_mut();
        let usable = slot.as_ref().filter(|opening| !opening::has_ended(opening));
        if let Some(opening) = usable {
            return opening.clone();
        }
        let opening = opening::start(self.name);
        spawn_local(opening.clone().map(drop));
        slot.insert(opening).clone()
    }

    /// Runs an operation, once more on a new connection when the old one turns out to be gone.
    async fn run<'a, T>(
        &'a self,
        operation: impl Fn(Rc<Connection>) -> LocalBoxFuture<'a, Result<T, StorageError>>,
    ) -> Result<T, StorageError> {
        let connection = self.connection().await?;
        let outcome = operation(Rc::clone(&connection)).await;
        if !matches!(outcome, Err(StorageError::Closed)) {
            return outcome;
        }
        if let Some(reason) = connection.end() {
            return Err(reason);
        }
        operation(self.connection().await?).await
    }
}

impl Store for IndexedDb {
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Held)>> {
        self.run(move |connection| async move { read_all(connection.rexie()?, kind).await }.boxed_local()).boxed_local()
    }

    fn ids(&self, kind: Kind) -> Pending<'_, Vec<String>> {
        self.run(move |connection| async move { read_ids(connection.rexie()?, kind).await }.boxed_local()).boxed_local()
    }

    fn get<'a>(&'a self, keys: &'a [Key]) -> Pending<'a, Vec<Option<Held>>> {
        self.run(move |connection| async move { read_some(connection.rexie()?, keys).await }.boxed_local())
            .boxed_local()
    }

    fn apply<'a>(&'a self, changes: &'a [Change], durability: Durability) -> Pending<'a, ()> {
        self.run(move |connection| async move { commit(&connection, changes, durability).await }.boxed_local())
            .boxed_local()
    }
}

async fn commit(connection: &Connection, changes: &[Change], durability: Durability) -> Result<(), StorageError> {
    if changes.is_empty() {
        return Ok(());
    }
    if durability == Durability::Relaxed {
        match relaxed::commit(connection.rexie()?, changes).await {
            relaxed::Outcome::Committed => return Ok(()),
            relaxed::Outcome::Failed(error) => return Err(error),
            // The library does not hand on why a transaction was aborted; a strict commit of the same
            // changes either succeeds or names the reason.
            relaxed::Outcome::AbortedWithoutReason => {}
        }
    }
    strict::commit(connection.database(), &strict::rows(changes)).await
}

async fn read_all(rexie: &Rexie, kind: Kind) -> Result<Vec<(String, Held)>, StorageError> {
    let read = async {
        let name = kind.store_name();
        let transaction = rexie.transaction(&[name], TransactionMode::ReadOnly)?;
        let store = transaction.store(name)?;
        // Both in one transaction, so keys and values belong together.
        try_join(store.get_all_keys(None, None), store.get_all(None, None)).await
    };
    let (keys, values) = read.await.map_err(|error| StorageError::from_rexie(&error))?;
    let rows = keys.into_iter().zip(values);
    rows.map(|(key, value)| Ok((id_of(&key)?, bytes_of(value)))).collect()
}

async fn read_ids(rexie: &Rexie, kind: Kind) -> Result<Vec<String>, StorageError> {
    let read = async {
        let name = kind.store_name();
        rexie.transaction(&[name], TransactionMode::ReadOnly)?.store(name)?.get_all_keys(None, None).await
    };
    let keys = read.await.map_err(|error| StorageError::from_rexie(&error))?;
    keys.iter().map(id_of).collect()
}

async fn read_some(rexie: &Rexie, keys: &[Key]) -> Result<Vec<Option<Held>>, StorageError> {
    if keys.is_empty() {
        return Ok(Vec::new());
    }
    let read = async {
        let names = strict::store_names(keys.iter().map(|key| key.kind));
        let transaction = rexie.transaction(&names, TransactionMode::ReadOnly)?;
        let stores = keys.iter().map(|key| transaction.store(key.kind.store_name()));
        let stores = stores.collect::<rexie::Result<Vec<_>>>()?;
        try_join_all(keys.iter().zip(&stores).map(|(key, store)| store.get(key.id.as_str().into()))).await
    };
    let values = read.await.map_err(|error| StorageError::from_rexie(&error))?;
    Ok(values.into_iter().map(|value| value.map(bytes_of)).collect())
}

fn id_of(key: &JsValue) -> Result<String, StorageError> {
    key.as_string().ok_or_else(|| StorageError::Other(say!("a key is not a text").to_owned()))
}

fn bytes_of(value: JsValue) -> Held {
    value
        .dyn_into::<js_sys::Uint8Array>()
        .map(|array| array.to_vec())
        .map_err(|_| StorageError::Other(say!("a value is not bytes").to_owned()))
}
