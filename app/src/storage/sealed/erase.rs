//! Erasing: a person by that person's key, the device by its secret.

use sidelight_core::seal::{self, KeyId};

use super::super::{Change, Durability, Key, Kind, Owner, StorageError, Store};
use super::{DeviceSecret, SealedStore, device, seal_all};

/// How far the keys of what was erased are gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// Nothing that stayed on this device opens it any more.
    ForGood,
    /// The device keeps no secret that can be overwritten: until the browser overwrites what it deleted, the passphrase
    /// together with the disk may still open it.
    UntilOverwritten,
    /// The secret of the device could not be overwritten now; it is tried again when the records are unlocked next.
    Unfinished,
}

/// What an erasure took away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Erased {
    /// How many rows of each kind.
    pub rows: Vec<(Kind, usize)>,
    /// What became of the keys.
    pub fate: Fate,
}

/// Kinds that hold what is about a person.
const OF_PERSON: [Kind; 5] = [Kind::Person, Kind::Visit, Kind::Draft, Kind::Entry, Kind::Addendum];

/// Rows looked at together, so that ten thousand visits need not be in memory at once.
const AT_ONCE: usize = 500;

impl SealedStore {
    /// Erases a person: every row sealed by that person's key, and the key. `also` is written in the same transaction.
    pub async fn forget(&self, person: &str, also: &[Change]) -> Result<Erased, StorageError> {
        let _turn = self.turn.lock().await;
        let owner = Owner::Person(person.to_owned());
        let id = self.with_keys(|keys| keys.id_of(&owner))?;
        let (mut changes, mut rows) = (Vec::new(), Vec::new());
        for kind in OF_PERSON {
            let found = match id {
                Some(id) => self.sealed_by(kind, id).await?,
                None => Vec::new(),
            };
            rows.push((kind, found.len()));
            changes.extend(found.into_iter().map(Change::Delete));
        }
        let (mut keys, key_rows) = self.with_keys(|keys| keys.without(&owner))??;
        changes.extend(key_rows);
        changes.extend(seal_all(&mut keys, also)?);
        let fate = self.commit(keys, changes).await?;
        Ok(Erased { rows, fate })
    }

    /// Erases everything, also when it is locked: first the secrets of the device, then every row; then looks whether
    /// nothing is left.
    pub async fn erase_all(inner: &dyn Store, device: Option<&dyn DeviceSecret>) -> Result<Erased, StorageError> {
        if let Some(device) = device {
            for place in [0, 1] {
                device::clear(device, place).await?;
            }
        }
        let (mut changes, mut rows) = (Vec::new(), Vec::new());
        for kind in Kind::ALL {
            let ids = inner.ids(kind).await?;
            rows.push((kind, ids.len()));
            changes.extend(ids.into_iter().map(|id| Change::Delete(Key::new(kind, id))));
        }
        inner.apply(&changes, Durability::Strict).await?;
        for kind in Kind::ALL {
            if !inner.ids(kind).await?.is_empty() {
                return Err(StorageError::Other(say!("something came back while it was being erased").to_owned()));
            }
        }
        let fate = if device.is_some() { Fate::ForGood } else { Fate::UntilOverwritten };
        Ok(Erased { rows, fate })
    }

    async fn sealed_by(&self, kind: Kind, by: KeyId) -> Result<Vec<Key>, StorageError> {
        let places: Vec<Key> = self.inner.ids(kind).await?.into_iter().map(|id| Key::new(kind, id)).collect();
        let mut found = Vec::new();
        for some in places.chunks(AT_ONCE) {
            let rows = self.inner.get(some).await?;
            let of_person = rows.into_iter().map(|held| {
                let key = held.and_then(Result::ok).and_then(|row| seal::key_of(&row).ok());
                key == Some(by)
            });
            found.extend(some.iter().zip(of_person).filter(|(_, is)| *is).map(|(place, _)| place.clone()));
        }
        Ok(found)
    }
}
