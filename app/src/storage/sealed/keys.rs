//! The keys of an unlocked store, in memory only. Each is wiped when it is dropped.

use std::collections::BTreeMap;

use sidelight_core::seal::{self, KeyId, SealError};

use super::super::{Change, Held, Key, Kind, Owner, StorageError};
use super::bytes::{digits, random};
use super::device::Place;
use super::header::{DataWrap, Header, Wrap};
use super::{NewLock, PASSPHRASE, is_own};

/// Every key there is.
#[derive(Clone)]
pub struct Keys {
    /// The lock as it stands in the store.
    pub header: Header,
    /// Opened by each way to unlock.
    pub unlock: seal::Key,
    /// Opens the keys of owners.
    pub data: seal::Key,
    data_id: KeyId,
    by_id: BTreeMap<KeyId, seal::Key>,
    of: BTreeMap<Owner, KeyId>,
}

/// Keys made for a write that is not yet in the store.
#[derive(Default)]
pub struct Fresh(Vec<(Owner, KeyId, seal::Key, Change)>);

impl Keys {
    /// The keys of a new lock.
    pub fn new(lock: &NewLock, secret: Option<(Place, &seal::Key)>) -> Result<Self, StorageError> {
        let (unlock, data) = (seal::Key::from_bytes(random()?), seal::Key::from_bytes(random()?));
        let data_id = KeyId(random()?);
        let mut header = Header::new(lock.kdf, &lock.salt, DataWrap::new(data_id, &data, &unlock, secret, random()?));
        header.wraps.push(Wrap::new(PASSPHRASE, None, &lock.key, &unlock, [random()?, random()?]));
        Ok(Self { header, unlock, data, data_id, by_id: BTreeMap::new(), of: BTreeMap::new() })
    }

    /// Opens the keys by one of the wraps.
    pub fn open(
        header: Header,
        wrap: &str,
        key: &seal::Key,
        secret: Option<&seal::Key>,
        rows: &[(String, Held)],
    ) -> Result<Self, StorageError> {
        let why = |error| match error {
            SealError::WrongKey if header.altered => StorageError::LockDamaged,
            error => StorageError::Seal(error),
        };
        let wrap = header.wraps.iter().find(|known| known.name == wrap).ok_or(why(SealError::WrongKey))?;
        let unlock = wrap.open(key).map_err(why)?;
        let (data_id, data) = header.data.open(&unlock, secret)?;
        let mut keys = Self { header, unlock, data, data_id, by_id: BTreeMap::new(), of: BTreeMap::new() };
        for (id, held) in rows {
            // A key that cannot be opened is missed, and told, by the records it sealed.
            let Some((owner, key_id, key)) = held.as_ref().ok().and_then(|row| keys.open_key(id, row)) else {
                continue;
            };
            keys.by_id.insert(key_id, key);
            keys.of.entry(owner).or_insert(key_id);
        }
        Ok(keys)
    }

    /// Opens a record.
    pub fn open_row(&self, row: &[u8], key: &Key) -> Held {
        seal::open_row(row, key.kind.store_name(), &key.id, |id| self.by_id.get(&id)).map_err(StorageError::Seal)
    }

    /// Seals changes, and adds the rows of keys they are the first to need.
    pub fn seal_changes(&self, changes: &[Change], fresh: &mut Fresh) -> Result<Vec<Change>, StorageError> {
        let mut sealed = Vec::with_capacity(changes.len());
        for change in changes {
            if is_own(change.key()) {
                return Err(StorageError::Other(say!("that place belongs to the lock").to_owned()));
            }
            sealed.push(match change {
                Change::Put(key, bytes, owner) => self.seal(key, bytes, owner, fresh)?,
                Change::Delete(key) => Change::Delete(key.clone()),
            });
        }
        sealed.extend(fresh.0.iter().map(|(.., row)| row.clone()));
        Ok(sealed)
    }

    fn seal(&self, key: &Key, bytes: &[u8], owner: &Owner, fresh: &mut Fresh) -> Result<Change, StorageError> {
        let made = || fresh.0.iter().position(|(of, ..)| of == owner);
        let (key_id, by) = match self.of.get(owner).and_then(|id| Some((*id, self.by_id.get(id)?))) {
            Some(known) => known,
            None => {
                let at = match made() {
                    Some(at) => at,
                    None => {
                        let (key_id, new) = (KeyId(random()?), seal::Key::from_bytes(random()?));
                        let row = key_row(owner, key_id, &new, (self.data_id, &self.data))?;
                        fresh.0.push((owner.clone(), key_id, new, row));
                        fresh.0.len() - 1
                    }
                };
                (fresh.0[at].1, &fresh.0[at].2)
            }
        };
        let sealed = seal::seal_row(by, key_id, random()?, key.kind.store_name(), &key.id, bytes);
        Ok(Change::Put(key.clone(), sealed, owner.clone()))
    }

    /// Counts keys that are in the store now among the known ones.
    pub fn learn(&mut self, fresh: Fresh) {
        for (owner, key_id, key, _) in fresh.0 {
            self.by_id.insert(key_id, key);
            self.of.insert(owner, key_id);
        }
    }

    /// The id of an owner's key.
    pub fn id_of(&self, owner: &Owner) -> Option<KeyId> {
        self.of.get(owner).copied()
    }

    /// The same keys without that of one owner, under a new data key, and the rows that make it so.
    pub fn without(&self, owner: &Owner) -> Result<(Self, Vec<Change>), StorageError> {
        let (data, data_id) = (seal::Key::from_bytes(random()?), KeyId(random()?));
        let mut keys = Self { data, data_id, by_id: BTreeMap::new(), of: BTreeMap::new(), ..self.clone() };
        let mut rows = Vec::new();
        for (whose, key_id) in &self.of {
            if whose == owner {
                rows.push(Change::Delete(place_of(*key_id)));
                continue;
            }
            let Some(key) = self.by_id.get(key_id) else { continue };
            rows.push(key_row(whose, *key_id, key, (data_id, &keys.data))?);
            keys.by_id.insert(*key_id, key.clone());
            keys.of.insert(whose.clone(), *key_id);
        }
        Ok((keys, rows))
    }

    /// The same keys under a new unlock key, which every way to unlock opens from now on.
    pub fn with_new_unlock_key(&self) -> Result<Self, StorageError> {
        let unlock = seal::Key::from_bytes(random()?);
        let mut header = self.header.clone();
        for wrap in &mut header.wraps {
            let own = wrap.own(&self.unlock).map_err(|_| StorageError::LockDamaged)?;
            *wrap = Wrap::new(&wrap.name, wrap.about.as_deref(), &own, &unlock, [random()?, random()?]);
        }
        Ok(Self { header, unlock, ..self.clone() })
    }

    /// Wraps the data key anew, with this secret of the device.
    pub fn wrap_data(&mut self, secret: Option<(Place, &seal::Key)>) -> Result<(), StorageError> {
        self.header.data = DataWrap::new(self.data_id, &self.data, &self.unlock, secret, random()?);
        Ok(())
    }

    fn open_key(&self, id: &str, row: &[u8]) -> Option<(Owner, KeyId, seal::Key)> {
        let by = |key_id| (key_id == self.data_id).then_some(&self.data);
        let plain = seal::open_row(row, Kind::Key.store_name(), id, by).ok()?;
        let plain = zeroize::Zeroizing::new(plain);
        let (key_id, rest) = plain.split_first_chunk::<8>()?;
        let (key, owner) = rest.split_first_chunk::<{ seal::Key::BYTES }>()?;
        let owner = match std::str::from_utf8(owner).ok()? {
            "" => Owner::Practice,
            person => Owner::Person(person.to_owned()),
        };
        Some((owner, KeyId(*key_id), seal::Key::from_bytes(*key)))
    }
}

/// The row of a key: its id, its bytes and its owner, sealed by the data key. The place is named after the id of the
/// key, so that a person's name or id shows nowhere.
fn key_row(owner: &Owner, key_id: KeyId, key: &seal::Key, data: (KeyId, &seal::Key)) -> Result<Change, StorageError> {
    let person = match owner {
        Owner::Practice => "",
        Owner::Person(person) => person,
    };
    let plain = zeroize::Zeroizing::new([&key_id.0[..], key.bytes(), person.as_bytes()].concat());
    let place = place_of(key_id);
    let row = seal::seal_row(data.1, data.0, random()?, Kind::Key.store_name(), &place.id, &plain);
    Ok(Change::put(place, row))
}

fn place_of(key_id: KeyId) -> Key {
    Key::new(Kind::Key, digits(&key_id.0))
}
