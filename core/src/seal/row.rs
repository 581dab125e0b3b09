//! One record, sealed in its place.
//!
//! The form of a sealed record: a version byte (1), eight bytes that name the key, a nonce of 24 bytes, then the sealed
//! bytes with their tag of 16. Kind and id of the record are not in it, but it opens only beside them.

use chacha20poly1305::XNonce;
use chacha20poly1305::aead::AeadInOut;

use super::key::TAG_BYTES;
use super::{Key, Nonce, SealError};

/// Names a key in what it sealed; random, and says nothing about the key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyId(pub [u8; 8]);

const VERSION: u8 = 1;
const HEAD_BYTES: usize = 1 + 8 + 24;

/// Seals a record of this kind and id. The only failure is a record larger than 256 GiB, which gives nothing that opens.
#[must_use]
pub fn seal_row(key: &Key, key_id: KeyId, nonce: Nonce, kind: &str, id: &str, plain: &[u8]) -> Vec<u8> {
    let mut row = Vec::with_capacity(HEAD_BYTES + plain.len() + TAG_BYTES);
    row.push(VERSION);
    row.extend_from_slice(&key_id.0);
    row.extend_from_slice(&nonce);
    row.extend_from_slice(plain);
    let (_, body) = row.split_at_mut(HEAD_BYTES);
    let Ok(tag) = key.cipher().encrypt_inout_detached(&XNonce::from(nonce), &place(kind, id), body.into()) else {
        return Vec::new();
    };
    row.extend_from_slice(&tag);
    row
}

/// The name of the key a sealed record asks for.
///
/// # Errors
/// [`SealError::TooShort`] or [`SealError::Newer`] when it is no record this program sealed.
pub fn key_of(row: &[u8]) -> Result<KeyId, SealError> {
    split(row).map(|(key_id, _, _, _)| key_id)
}

/// Opens a sealed record by whichever of the keys it names.
///
/// # Errors
/// [`SealError`] says why not; what was changed and what was moved cannot be told apart.
pub fn open_row<'k>(
    row: &[u8],
    kind: &str,
    id: &str,
    keys: impl FnOnce(KeyId) -> Option<&'k Key>,
) -> Result<Vec<u8>, SealError> {
    let (key_id, nonce, body, tag) = split(row)?;
    let key = keys(key_id).ok_or(SealError::NoKey)?;
    let mut plain = body.to_vec();
    key.cipher()
        .decrypt_inout_detached(&XNonce::from(nonce), &place(kind, id), plain.as_mut_slice().into(), &tag.into())
        .map_err(|_| SealError::Changed)?;
    Ok(plain)
}

type Parts<'a> = (KeyId, Nonce, &'a [u8], [u8; TAG_BYTES]);

fn split(row: &[u8]) -> Result<Parts<'_>, SealError> {
    let (version, rest) = row.split_first().ok_or(SealError::TooShort)?;
    if *version != VERSION {
        return Err(SealError::Newer { version: *version });
    }
    let (key_id, rest) = rest.split_first_chunk().ok_or(SealError::TooShort)?;
    let (nonce, rest) = rest.split_first_chunk().ok_or(SealError::TooShort)?;
    let (body, tag) = rest.split_last_chunk().ok_or(SealError::TooShort)?;
    Ok((KeyId(*key_id), *nonce, body, *tag))
}

fn place(kind: &str, id: &str) -> Vec<u8> {
    [kind.as_bytes(), &[0], id.as_bytes()].concat()
}
