//! A store that seals what it is given before the store beneath it sees it.
//!
//! Who opens what:
//! - The passphrase, stretched by Argon2id, opens the unlock key; so may a passkey, by a wrap of its own.
//! - The unlock key, together with the secret of the device, opens the data key.
//! - The data key opens the key of each person, and the one of the practice.
//! - The key of a person opens what is about that person; the key of the practice opens the rest.
//!
//! So a new passphrase leaves every record as it is, and a person is erased by erasing one key. What a browser deletes
//! stays on the disk for a while; therefore the data key is changed then, and the old one hangs on a secret that is
//! overwritten in place (see [`DeviceSecret`]).
//!
//! Limits. Ids, kinds, sizes and the number of records stay visible. Records that were written before there was a
//! passphrase stay on the disk in clear until the browser overwrites them.

mod bytes;
mod change_lock;
mod device;
mod erase;
mod header;
mod keys;
#[cfg(test)]
mod tests;

use std::cell::RefCell;
use std::rc::Rc;

use futures_util::FutureExt;
use futures_util::lock::Mutex;
use sidelight_core::seal::{self, Kdf};

pub use self::device::DeviceSecret;
pub use self::erase::{Erased, Fate};
#[cfg_attr(test, allow(unused_imports, reason = "the lock screens name it"))]
pub use self::header::Header;
use self::keys::Keys;
use super::{Change, Durability, Held, Key, Kind, Owner, Pending, StorageError, Store};

/// The wrap that the passphrase opens.
pub const PASSPHRASE: &str = "passphrase";

/// What a lock is made of: the key, and how to derive it again.
#[derive(Debug)]
pub struct NewLock {
    /// The key derived from the passphrase.
    pub key: seal::Key,
    /// How it was derived.
    pub kdf: Kdf,
    /// The salt it was derived with.
    pub salt: Vec<u8>,
}

/// A sealed store, locked or unlocked.
pub struct SealedStore {
    inner: Rc<dyn Store>,
    device: Option<Rc<dyn DeviceSecret>>,
    keys: RefCell<Option<Keys>>,
    /// Writes take turns, so that none is sealed by a key that is being replaced.
    turn: Mutex<()>,
}

impl SealedStore {
    /// What stands on the lock; `None` when there is none and the records are in clear.
    pub async fn header(inner: &dyn Store) -> Result<Option<Header>, StorageError> {
        header::read(inner).await
    }

    /// Makes a lock and seals everything that is there, in one transaction. `owner` says whom a record in clear is about.
    pub async fn create(
        inner: Rc<dyn Store>,
        device: Option<Rc<dyn DeviceSecret>>,
        lock: &NewLock,
        owner: impl Fn(&Key, &[u8]) -> Owner,
    ) -> Result<Self, StorageError> {
        if header::read(&*inner).await?.is_some() {
            return Err(StorageError::Other(say!("there is a passphrase already").to_owned()));
        }
        let secret = match &device {
            Some(device) => Some(device::keep_new(&**device, 0).await?),
            None => None,
        };
        let keys = Keys::new(lock, secret.as_ref().map(|secret| (0, secret)))?;
        let store = Self { inner, device, keys: RefCell::new(Some(keys)), turn: Mutex::new(()) };
        store.seal_what_is_clear(owner).await?;
        Ok(store)
    }

    /// Unlocks by one of the wraps.
    pub async fn unlock(
        inner: Rc<dyn Store>,
        device: Option<Rc<dyn DeviceSecret>>,
        wrap: &str,
        key: &seal::Key,
    ) -> Result<Self, StorageError> {
        let store = Self { inner, device, keys: RefCell::new(None), turn: Mutex::new(()) };
        store.unlock_again(wrap, key).await?;
        Ok(store)
    }

    /// Unlocks after [`Self::lock`], for everyone who holds this store.
    pub async fn unlock_again(&self, wrap: &str, key: &seal::Key) -> Result<(), StorageError> {
        let _turn = self.turn.lock().await;
        let header = header::read(&*self.inner).await?.ok_or(StorageError::LockDamaged)?;
        let secret = match (&self.device, header.data.place) {
            (Some(device), Some(place)) => device.read(place).await?,
            _ => None,
        };
        let rows = self.inner.list(Kind::Key).await?;
        let place = header.data.place;
        let keys = Keys::open(header, wrap, key, secret.as_ref(), &rows)?;
        self.keys.replace(Some(keys));
        if let (Some(device), Some(place)) = (&self.device, place) {
            // A change of keys that was cut short left an old secret, or a new one that no lock names. If it cannot be
            // cleared now, it is tried again when the records are unlocked next; they are open either way.
            let _later: Result<(), StorageError> = device::clear(&**device, device::beside(place)).await;
        }
        Ok(())
    }

    /// Forgets every key. What is asked for afterwards is refused until the store is unlocked again.
    pub fn lock(&self) {
        self.keys.replace(None);
    }

    /// Whether the keys are there.
    #[must_use]
    pub fn is_unlocked(&self) -> bool {
        self.keys.borrow().is_some()
    }

    async fn seal_what_is_clear(&self, owner: impl Fn(&Key, &[u8]) -> Owner) -> Result<(), StorageError> {
        let mut clear = Vec::new();
        for kind in Kind::ALL {
            for (id, held) in self.inner.list(kind).await? {
                // A value that is not even bytes cannot be sealed; it stays and is told whenever it is read.
                let Ok(bytes) = held else { continue };
                let key = Key::new(kind, id);
                let owner = owner(&key, &bytes);
                clear.push(Change::Put(key, bytes, owner));
            }
        }
        let mut keys = self.with_keys(Keys::clone)?;
        let mut changes = seal_all(&mut keys, &clear)?;
        changes.push(keys.header.change());
        self.inner.apply(&changes, Durability::Strict).await?;
        self.keys.replace(Some(keys));
        Ok(())
    }

    fn with_keys<T>(&self, ask: impl FnOnce(&Keys) -> T) -> Result<T, StorageError> {
        self.keys.borrow().as_ref().map(ask).ok_or(StorageError::Locked)
    }

    fn with_keys_mut<T>(&self, change: impl FnOnce(&mut Keys) -> T) -> Result<T, StorageError> {
        self.keys.borrow_mut().as_mut().map(change).ok_or(StorageError::Locked)
    }
}

impl Store for SealedStore {
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Held)>> {
        async move {
            self.with_keys(|_| ())?;
            let rows = self.inner.list(kind).await?;
            self.with_keys(|keys| {
                let open = |(id, held): (String, Held)| {
                    let key = Key::new(kind, id);
                    (!is_own(&key)).then(|| {
                        let held = held.and_then(|row| keys.open_row(&row, &key));
                        (key.id, held)
                    })
                };
                rows.into_iter().filter_map(open).collect()
            })
        }
        .boxed_local()
    }

    fn ids(&self, kind: Kind) -> Pending<'_, Vec<String>> {
        async move {
            self.with_keys(|_| ())?;
            let ids = self.inner.ids(kind).await?;
            Ok(ids.into_iter().filter(|id| !is_own(&Key::new(kind, id))).collect())
        }
        .boxed_local()
    }

    fn get<'a>(&'a self, keys: &'a [Key]) -> Pending<'a, Vec<Option<Held>>> {
        async move {
            self.with_keys(|_| ())?;
            let rows = self.inner.get(keys).await?;
            self.with_keys(|known| {
                let open = |(key, held): (&Key, Option<Held>)| {
                    let held = held.filter(|_| !is_own(key))?;
                    Some(held.and_then(|row| known.open_row(&row, key)))
                };
                keys.iter().zip(rows).map(open).collect()
            })
        }
        .boxed_local()
    }

    fn apply<'a>(&'a self, changes: &'a [Change], durability: Durability) -> Pending<'a, ()> {
        async move {
            let _turn = self.turn.lock().await;
            let (sealed, fresh) = self.with_keys(|keys| {
                let mut fresh = keys::Fresh::default();
                let sealed = keys.seal_changes(changes, &mut fresh)?;
                Ok::<_, StorageError>((sealed, fresh))
            })??;
            self.inner.apply(&sealed, durability).await?;
            // A key counts only once it is in the store. Locked meanwhile, it is read from there when unlocked.
            let _locked: Result<(), StorageError> = self.with_keys_mut(|keys| keys.learn(fresh));
            Ok(())
        }
        .boxed_local()
    }
}

/// Whether a place belongs to the lock itself, which nobody above it reads or writes.
fn is_own(key: &Key) -> bool {
    key.kind == Kind::Key || *key == header::place()
}

/// Seals changes by keys that are not in use yet, and counts what they were the first to need among them.
fn seal_all(keys: &mut Keys, changes: &[Change]) -> Result<Vec<Change>, StorageError> {
    let mut fresh = keys::Fresh::default();
    let sealed = keys.seal_changes(changes, &mut fresh)?;
    keys.learn(fresh);
    Ok(sealed)
}
