//! A key, and one key sealed by another.

use std::fmt;

use chacha20poly1305::aead::{AeadInOut, KeyInit};
use chacha20poly1305::{XChaCha20Poly1305, XNonce};
use sha2::{Digest, Sha256};
use zeroize::{Zeroize, Zeroizing};

use super::SealError;

/// A number used once; 24 random bytes.
pub type Nonce = [u8; 24];

/// Bytes of the tag that shows whether something was changed.
pub(super) const TAG_BYTES: usize = 16;

/// The form of a wrapped key: this byte, a nonce, the sealed key with its tag.
const VERSION: u8 = 1;

/// Put before the name of a wrap, so that no record can be taken for a key nor the other way round.
const PURPOSE: &str = "sidelight-key";

/// Hashed before two keys that together give a third, so that the result serves nothing else.
const BOTH: &[u8] = b"sidelight-both-keys-1";

/// A secret key. It is wiped from memory when it is dropped, and is never printed.
#[derive(Clone)]
pub struct Key([u8; Key::BYTES]);

impl Key {
    /// Bytes of a key.
    pub const BYTES: usize = 32;

    /// A key of these bytes: random ones, or those of a passkey.
    #[must_use]
    pub fn from_bytes(bytes: [u8; Key::BYTES]) -> Key {
        Key(bytes)
    }

    /// The bytes, to hand the key to another thread. They must not be stored.
    #[must_use]
    pub fn bytes(&self) -> &[u8; Key::BYTES] {
        &self.0
    }

    /// A key that needs both this one and the secret of the device.
    #[must_use]
    pub fn with_device(&self, secret: &Key) -> Key {
        let hash = Sha256::new().chain_update(BOTH).chain_update(self.0).chain_update(secret.0).finalize();
        Key(hash.into())
    }

    pub(super) fn cipher(&self) -> XChaCha20Poly1305 {
        XChaCha20Poly1305::new(&self.0.into())
    }
}

impl Drop for Key {
    fn drop(&mut self) {
        self.0.zeroize();
    }
}

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Key")
    }
}

/// Seals a key by another one, under a name that says what for.
#[must_use]
pub fn wrap(key: &Key, by: &Key, nonce: Nonce, name: &str) -> Vec<u8> {
    let mut bytes = Zeroizing::new(key.0);
    let sealed = by.cipher().encrypt_inout_detached(&XNonce::from(nonce), &purpose(name), bytes.as_mut_slice().into());
    // The cipher refuses only what is longer than 256 GiB; should it ever refuse, the key must not leave in clear.
    let Ok(tag) = sealed else { return Vec::new() };
    [&[VERSION], &nonce[..], bytes.as_slice(), &tag].concat()
}

/// Opens a key sealed by another one.
///
/// # Errors
/// [`SealError::WrongKey`] when the other key, or the name, is not the one it was sealed by.
pub fn unwrap(sealed: &[u8], by: &Key, name: &str) -> Result<Key, SealError> {
    let (version, rest) = sealed.split_first().ok_or(SealError::TooShort)?;
    if *version != VERSION {
        return Err(SealError::Newer { version: *version });
    }
    let (nonce, rest) = rest.split_first_chunk::<24>().ok_or(SealError::TooShort)?;
    let (bytes, tag) = rest.split_first_chunk::<{ Key::BYTES }>().ok_or(SealError::TooShort)?;
    let tag: [u8; TAG_BYTES] = tag.try_into().map_err(|_| SealError::TooShort)?;
    let mut bytes = Zeroizing::new(*bytes);
    by.cipher()
        .decrypt_inout_detached(&XNonce::from(*nonce), &purpose(name), bytes.as_mut_slice().into(), &tag.into())
        .map_err(|_| SealError::WrongKey)?;
    Ok(Key(*bytes))
}

fn purpose(name: &str) -> Vec<u8> {
    [PURPOSE.as_bytes(), &[0], name.as_bytes()].concat()
}
