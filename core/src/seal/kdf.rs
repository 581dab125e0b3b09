//! From a passphrase to a key, slowly on purpose: Argon2id, version 1.3.

use argon2::{Algorithm, Argon2, Error, Params, Version};
use unicode_normalization::UnicodeNormalization;
use zeroize::Zeroizing;

use super::{Key, SealError};

/// Bytes of a new salt: 16, as RFC 9106 section 3.1 recommends for passwords.
pub const SALT_BYTES: usize = 16;

/// Shortest salt that is accepted, the least Argon2 itself takes (RFC 9106 section 3.1).
const SHORTEST_SALT: usize = 8;

/// How much work the derivation costs. The settings are stored beside the salt, so that they can be raised later.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kdf {
    /// Memory in KiB.
    pub memory_kib: u32,
    /// Passes over the memory.
    pub passes: u32,
    /// Lanes, the most that could be worked on at the same time.
    pub lanes: u32,
}

impl Default for Kdf {
    /// The second recommended choice of RFC 9106, section 4 (from memory): 64 MiB, three passes, four lanes.
    fn default() -> Kdf {
        Kdf { memory_kib: 65_536, passes: 3, lanes: 4 }
    }
}

impl Kdf {
    /// The least that is accepted: the set with most memory that OWASP's Password Storage Cheat Sheet lists for Argon2id,
    /// <https://cheatsheetseries.owasp.org/cheatsheets/Password_Storage_Cheat_Sheet.html>.
    pub const LEAST: Kdf = Kdf { memory_kib: 47_104, passes: 1, lanes: 1 };

    /// The most that is accepted, so that a tampered file cannot ask for all memory or all evening: four times the memory
    /// and four times the passes of the default, and sixteen lanes. Common practice.
    pub const MOST: Kdf = Kdf { memory_kib: 262_144, passes: 12, lanes: 16 };

    /// These settings, when they lie within the bounds.
    ///
    /// # Errors
    /// [`SealError::Kdf`] when one of them is outside.
    pub fn checked(self) -> Result<Kdf, SealError> {
        let within = (Kdf::LEAST.memory_kib..=Kdf::MOST.memory_kib).contains(&self.memory_kib)
            && (Kdf::LEAST.passes..=Kdf::MOST.passes).contains(&self.passes)
            && (Kdf::LEAST.lanes..=Kdf::MOST.lanes).contains(&self.lanes);
        if within { Ok(self) } else { Err(SealError::Kdf) }
    }
}

/// Derives a key from a passphrase. An accent typed as one character or as two gives the same key (NFC).
///
/// # Errors
/// [`SealError`] when settings or salt are not acceptable, or when there is not enough memory.
pub fn derive(passphrase: &str, salt: &[u8], kdf: Kdf) -> Result<Key, SealError> {
    stretch(passphrase, salt, kdf.checked()?)
}

pub(super) fn stretch(passphrase: &str, salt: &[u8], kdf: Kdf) -> Result<Key, SealError> {
    if salt.len() < SHORTEST_SALT {
        return Err(SealError::Salt);
    }
    let composed: Zeroizing<String> = Zeroizing::new(passphrase.nfc().collect());
    let params = Params::new(kdf.memory_kib, kdf.passes, kdf.lanes, Some(Key::BYTES)).map_err(|_| SealError::Kdf)?;
    let mut bytes = Zeroizing::new([0; Key::BYTES]);
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
        .hash_password_into(composed.as_bytes(), salt, bytes.as_mut_slice())
        .map_err(|error| if error == Error::OutOfMemory { SealError::Memory } else { SealError::Kdf })?;
    Ok(Key::from_bytes(*bytes))
}
