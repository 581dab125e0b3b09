//! What stands on the lock, in clear: how to derive the key from the passphrase, and the wrapped keys.

use serde::{Deserialize, Serialize};
use sidelight_core::canonical::sha256_hex;
use sidelight_core::seal::{self, Kdf, KeyId, SealError};

use super::super::{Change, Key, Kind, StorageError, Store};
use super::device::Place;

const FORMAT: &str = "sidelight-lock";
const VERSION: u64 = 1;

/// Names under which keys are wrapped; part of the stored form.
const DATA: &str = "data";
const DATA_OF_DEVICE: &str = "data-of-device";

/// The lock of a store.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Header {
    format: String,
    version: u64,
    kdf: Settings,
    #[serde(with = "hex")]
    salt: Vec<u8>,
    /// One for each way to unlock.
    pub(super) wraps: Vec<Wrap>,
    /// The data key by the unlock key.
    pub(super) data: DataWrap,
    /// Whether it is not as it was written: then a passphrase that does not open it may be the right one.
    #[serde(skip)]
    pub(super) altered: bool,
}

/// One way to unlock.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wrap {
    /// Its name: [`super::PASSPHRASE`], or one chosen when it was added.
    pub name: String,
    /// What whoever added it needs to know to ask for its key again, such as which passkey it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<String>,
    /// The unlock key by this way's key.
    #[serde(with = "hex")]
    key: Vec<u8>,
    /// This way's key by the unlock key, so that the unlock key can be changed without asking again.
    #[serde(with = "hex")]
    own: Vec<u8>,
}

/// The data key by the unlock key, with or without the secret of the device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DataWrap {
    /// Names the data key in what it sealed.
    #[serde(with = "hex")]
    id: Vec<u8>,
    /// Where the secret lies that belongs to it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    #[serde(with = "hex")]
    key: Vec<u8>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Settings {
    name: String,
    memory_kib: u32,
    passes: u32,
    lanes: u32,
}

/// The last member: the SHA-256 of what stands before it, as 64 digits. It proves nothing to an attacker; it tells a
/// damaged lock from a wrong passphrase.
const CHECK: &str = ",\"check\":\"";
const CHECK_BYTES: usize = CHECK.len() + 64 + 2;

const ARGON2ID: &str = "argon2id";

impl Header {
    pub(super) fn new(kdf: Kdf, salt: &[u8], data: DataWrap) -> Self {
        let mut header = Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            kdf: Settings { name: ARGON2ID.to_owned(), memory_kib: 0, passes: 0, lanes: 0 },
            salt: Vec::new(),
            wraps: Vec::new(),
            data,
            altered: false,
        };
        header.set_derivation(kdf, salt);
        header
    }

    /// How the key is derived from the passphrase.
    #[must_use]
    pub fn kdf(&self) -> Kdf {
        Kdf { memory_kib: self.kdf.memory_kib, passes: self.kdf.passes, lanes: self.kdf.lanes }
    }

    /// The salt of the passphrase.
    #[must_use]
    pub fn salt(&self) -> &[u8] {
        &self.salt
    }

    /// Every way to unlock.
    #[must_use]
    pub fn wraps(&self) -> &[Wrap] {
        &self.wraps
    }

    pub(super) fn set_derivation(&mut self, kdf: Kdf, salt: &[u8]) {
        self.kdf =
            Settings { name: ARGON2ID.to_owned(), memory_kib: kdf.memory_kib, passes: kdf.passes, lanes: kdf.lanes };
        self.salt = salt.to_vec();
    }

    /// The row that keeps this.
    pub(super) fn change(&self) -> Change {
        let mut text = serde_json::to_string(self).unwrap_or_default();
        if let Some(open) = text.strip_suffix('}') {
            text = format!("{open}{CHECK}{}\"}}", sha256_hex(text.as_bytes()));
        }
        Change::put(place(), text.into_bytes())
    }
}

impl Wrap {
    pub(super) fn new(
        name: &str,
        about: Option<&str>,
        by: &seal::Key,
        unlock: &seal::Key,
        nonces: [seal::Nonce; 2],
    ) -> Self {
        Self {
            name: name.to_owned(),
            about: about.map(str::to_owned),
            key: seal::wrap(unlock, by, nonces[0], name),
            own: seal::wrap(by, unlock, nonces[1], &own_name(name)),
        }
    }

    /// The unlock key, by this way's key.
    pub(super) fn open(&self, by: &seal::Key) -> Result<seal::Key, SealError> {
        seal::unwrap(&self.key, by, &self.name)
    }

    /// This way's key, by the unlock key.
    pub(super) fn own(&self, unlock: &seal::Key) -> Result<seal::Key, SealError> {
        seal::unwrap(&self.own, unlock, &own_name(&self.name))
    }
}

impl DataWrap {
    pub(super) fn new(
        id: KeyId,
        data: &seal::Key,
        unlock: &seal::Key,
        secret: Option<(Place, &seal::Key)>,
        nonce: seal::Nonce,
    ) -> Self {
        let id = id.0.to_vec();
        match secret {
            Some((place, secret)) => {
                let key = seal::wrap(data, &unlock.with_device(secret), nonce, DATA_OF_DEVICE);
                Self { id, place: Some(place), key }
            }
            None => Self { id, place: None, key: seal::wrap(data, unlock, nonce, DATA) },
        }
    }

    pub(super) fn open(
        &self,
        unlock: &seal::Key,
        secret: Option<&seal::Key>,
    ) -> Result<(KeyId, seal::Key), StorageError> {
        let id = self.id.as_slice().try_into().map(KeyId).map_err(|_| StorageError::LockDamaged)?;
        let key = match self.place {
            Some(_) => {
                let secret = secret.ok_or(StorageError::NoDevice)?;
                seal::unwrap(&self.key, &unlock.with_device(secret), DATA_OF_DEVICE)
                    .map_err(|_| StorageError::NoDevice)?
            }
            None => seal::unwrap(&self.key, unlock, DATA).map_err(|_| StorageError::LockDamaged)?,
        };
        Ok((id, key))
    }
}

/// Where the lock stands.
pub fn place() -> Key {
    Key::new(Kind::Meta, "lock")
}

/// Reads the lock; `None` when there is none. Keys without a lock are the rest of one: what they seal is not in clear.
pub async fn read(inner: &dyn Store) -> Result<Option<Header>, StorageError> {
    match inner.get(&[place()]).await?.pop().flatten() {
        Some(held) => parse(&held?).map(Some),
        None if inner.ids(Kind::Key).await?.is_empty() => Ok(None),
        None => Err(StorageError::LockDamaged),
    }
}

fn parse(bytes: &[u8]) -> Result<Header, StorageError> {
    #[derive(Deserialize)]
    struct Start {
        format: String,
        version: u64,
    }
    let start: Start = serde_json::from_slice(bytes).map_err(|_| StorageError::LockDamaged)?;
    if start.format == FORMAT && start.version > VERSION {
        return Err(StorageError::NewerSchema);
    }
    let mut header: Header = serde_json::from_slice(bytes).map_err(|_| StorageError::LockDamaged)?;
    header.altered = is_altered(bytes);
    let known = header.format == FORMAT && header.version == VERSION && header.kdf.name == ARGON2ID;
    if !known || header.wraps.is_empty() {
        return Err(StorageError::LockDamaged);
    }
    header.kdf().checked().map_err(StorageError::Seal)?;
    Ok(header)
}

/// Whether the digest at the end is that of what stands before it. Locks of earlier versions have none.
fn is_altered(bytes: &[u8]) -> bool {
    let Some((said, end)) = bytes.split_last_chunk::<CHECK_BYTES>() else { return false };
    let digest = end.strip_prefix(CHECK.as_bytes()).and_then(|end| end.strip_suffix(b"\"}"));
    digest.is_some_and(|digest| digest != sha256_hex(&[said, b"}"].concat()).as_bytes())
}

fn own_name(name: &str) -> String {
    format!("own-{name}")
}

/// Bytes as hexadecimal digits, which a JSON file can hold.
mod hex {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    pub fn serialize<S: Serializer>(bytes: &[u8], to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&super::super::bytes::digits(bytes))
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<u8>, D::Error> {
        let text = String::deserialize(from)?;
        let pair = |at: usize| text.get(at..at + 2).and_then(|pair| u8::from_str_radix(pair, 16).ok());
        let bytes: Option<Vec<u8>> = (0..text.len()).step_by(2).map(pair).collect();
        bytes.ok_or_else(|| D::Error::custom("not hexadecimal"))
    }
}
