//! Opening the database: rexie makes the schema and reads, a second connection of our own commits
//! strictly. Both are given up when a newer version in another tab asks for it.

use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;

use futures_util::FutureExt;
use futures_util::future::{Shared, join};
use gloo_events::EventListener;
use rexie::{ObjectStore, Rexie};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{IdbDatabase, IdbVersionChangeEvent};

use super::super::{Kind, StorageError};
use super::strict;

/// The database's form. Raise it when a kind is added: 2 brought entries, keys, addenda and the ledger. rexie removes
/// object stores that are not named while upgrading, so a kind is never taken off the list as long as its values matter.
pub(super) const SCHEMA: u32 = 2;

/// A connection being opened, which several operations may wait for.
pub type Opening = Shared<Pin<Box<dyn Future<Output = Result<Rc<Connection>, StorageError>>>>>;

/// The two open connections to one database.
pub struct Connection {
    rexie: Option<Rexie>,
    strict: IdbDatabase,
    ended: Rc<RefCell<Option<StorageError>>>,
    _listeners: [EventListener; 2],
}

impl Connection {
    /// The connection for reads and relaxed writes.
    pub fn rexie(&self) -> Result<&Rexie, StorageError> {
        self.rexie.as_ref().ok_or(StorageError::Closed)
    }

    /// The connection for strict commits.
    pub fn database(&self) -> &IdbDatabase {
        &self.strict
    }

    /// Marks the connection as unusable. Gives the reason when opening again would be no use.
    pub fn end(&self) -> Option<StorageError> {
        let mut ended = self.ended.borrow_mut();
        let reason = ended.get_or_insert(StorageError::Closed);
        (!reason.recoverable()).then(|| reason.clone())
    }
}

impl Drop for Connection {
    /// Closes both connections at once; one that waits to be collected would block an upgrade or an
    /// erasure in another tab.
    fn drop(&mut self) {
        self.strict.close();
        if let Some(rexie) = self.rexie.take() {
            rexie.close();
        }
    }
}

/// Starts opening; the result stays with the shared future.
pub fn start(name: &'static str) -> Opening {
    let opening: Pin<Box<dyn Future<Output = _>>> = Box::pin(open(name));
    opening.shared()
}

/// Whether a finished opening no longer gives a usable connection.
pub fn has_ended(opening: &Opening) -> bool {
    match opening.peek() {
        None => false,
        Some(Err(_)) => true,
        // A connection that a newer version took away stays, to give its reason to whoever asks.
        Some(Ok(connection)) => {
            matches!(*connection.ended.borrow(), Some(ref reason) if reason.recoverable())
        }
    }
}

async fn open(name: &'static str) -> Result<Rc<Connection>, StorageError> {
    let builder = Kind::ALL.into_iter().fold(Rexie::builder(name).version(SCHEMA), |builder, kind| {
        builder.add_object_store(ObjectStore::new(kind.store_name()))
    });
    // Both are asked for at once; the browser answers one after the other, so the schema stands before the second is open.
    let (rexie, strict) = join(builder.build(), strict::open(name, SCHEMA)).await;
    let (rexie, strict) = match (rexie, strict) {
        (Ok(rexie), Ok(strict)) => (rexie, strict),
        (Err(error), strict) => {
            if let Ok(strict) = strict {
                strict.close();
            }
            return Err(StorageError::from_rexie_opening(&error));
        }
        (Ok(rexie), Err(error)) => {
            rexie.close();
            return Err(error);
        }
    };
    let ended = Rc::default();
    let listeners = [give_way_to_newer(&strict, Rc::clone(&ended)), notice_close(&strict, Rc::clone(&ended))];
    Ok(Rc::new(Connection { rexie: Some(rexie), strict, ended, _listeners: listeners }))
}

fn give_way_to_newer(database: &IdbDatabase, ended: Rc<RefCell<Option<StorageError>>>) -> EventListener {
    let connection = database.clone();
    EventListener::new(database, "versionchange", move |event| {
        let upgraded = event.dyn_ref::<IdbVersionChangeEvent>().is_some_and(|event| event.new_version().is_some());
        // Without a new version the database is being erased, and may be opened again afterwards.
        ended.replace(Some(if upgraded { StorageError::NewerSchema } else { StorageError::Closed }));
        connection.close();
    })
}

fn notice_close(database: &IdbDatabase, ended: Rc<RefCell<Option<StorageError>>>) -> EventListener {
    let target: &JsValue = database;
    EventListener::new(target.unchecked_ref(), "close", move |_| {
        ended.replace(Some(StorageError::Closed));
    })
}
