//! Other ways to unlock: a new passphrase, a passkey more or less. Records stay as they are to the byte.

use sidelight_core::seal;

use super::super::{Change, Durability, StorageError};
use super::bytes::random;
use super::erase::Fate;
use super::header::Wrap;
use super::keys::Keys;
use super::{NewLock, PASSPHRASE, SealedStore, device};

impl SealedStore {
    /// Takes a new passphrase. The old one opens nothing any more, not even what the disk still holds of the old lock,
    /// where the device keeps a secret.
    pub async fn rewrap(&self, lock: &NewLock) -> Result<Fate, StorageError> {
        let _turn = self.turn.lock().await;
        let mut keys = self.with_keys(Keys::with_new_unlock_key)??;
        keys.header.set_derivation(lock.kdf, &lock.salt);
        keys.header.wraps.retain(|wrap| wrap.name != PASSPHRASE);
        keys.header.wraps.insert(0, Wrap::new(PASSPHRASE, None, &lock.key, &keys.unlock, [random()?, random()?]));
        self.commit(keys, Vec::new()).await
    }

    /// Adds a way to unlock, or replaces the one of that name. `about` is kept in clear.
    pub async fn add_wrap(&self, name: &str, about: Option<&str>, key: &seal::Key) -> Result<(), StorageError> {
        let _turn = self.turn.lock().await;
        let header = self.with_keys(|keys| {
            let mut header = keys.header.clone();
            header.wraps.retain(|wrap| wrap.name != name);
            header.wraps.push(Wrap::new(name, about, key, &keys.unlock, [random()?, random()?]));
            Ok::<_, StorageError>(header)
        })??;
        self.inner.apply(&[header.change()], Durability::Strict).await?;
        self.with_keys_mut(|keys| keys.header = header)
    }

    /// Takes a way to unlock away; the passphrase stays.
    pub async fn remove_wrap(&self, name: &str) -> Result<Fate, StorageError> {
        if name == PASSPHRASE {
            return Err(StorageError::Other(say!("the passphrase cannot be taken away").to_owned()));
        }
        let _turn = self.turn.lock().await;
        let mut keys = self.with_keys(Keys::with_new_unlock_key)??;
        keys.header.wraps.retain(|wrap| wrap.name != name);
        self.commit(keys, Vec::new()).await
    }

    /// Writes these keys and rows, with the data key wrapped by a new secret of the device.
    ///
    /// Three steps, and a store that opens after each: the new secret to the free place; the rows, and a lock that names
    /// that place, in one transaction; then the old place is cleared, at the latest when the records are unlocked next.
    pub(super) async fn commit(&self, mut keys: Keys, mut rows: Vec<Change>) -> Result<Fate, StorageError> {
        let old = keys.header.data.place;
        let place = old.map_or(0, device::beside);
        let secret = match &self.device {
            Some(device) => Some(device::keep_new(&**device, place).await?),
            None => None,
        };
        keys.wrap_data(secret.as_ref().map(|secret| (place, secret)))?;
        rows.push(keys.header.change());
        self.inner.apply(&rows, Durability::Strict).await?;
        self.keys.replace(Some(keys));
        let Some(device) = &self.device else { return Ok(Fate::UntilOverwritten) };
        match device::clear(&**device, device::beside(place)).await {
            Ok(()) if old.is_some() => Ok(Fate::ForGood),
            // The lock before this one hung on no secret.
            Ok(()) => Ok(Fate::UntilOverwritten),
            Err(_) => Ok(Fate::Unfinished),
        }
    }
}
