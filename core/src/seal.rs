//! Sealing at rest: a key from a passphrase, and records that only that key opens.
//!
//! A passphrase is stretched by Argon2id into a key that opens nothing but another, random key (see [`wrap`]); so a new
//! passphrase leaves every record as it is. A record is sealed by XChaCha20-Poly1305 together with its kind and its id:
//! copied to another place, or changed by one bit, it no longer opens (see [`seal_row`]).
//!
//! Random bytes arrive as arguments. A nonce must never be used twice with one key; drawn at random, 24 bytes are long
//! enough for that.

mod error;
mod kdf;
mod key;
mod row;
#[cfg(test)]
mod tests;

pub use error::SealError;
pub use kdf::{Kdf, SALT_BYTES, derive};
pub use key::{Key, Nonce, unwrap, wrap};
pub use row::{KeyId, key_of, open_row, seal_row};
