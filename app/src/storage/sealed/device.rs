//! The secret of the device: 32 bytes beside the database, which can be overwritten in place as no record there can.
//!
//! There are two places for it. A new secret is written to the free one, then the lock names that place, then the other
//! is cleared; whatever happens between, the secret the lock names is there.

use sidelight_core::seal;

use super::super::{Pending, StorageError};
use super::bytes::random;

/// Which of the two places.
pub type Place = u8;

/// Where the secret of this device is kept.
pub trait DeviceSecret {
    /// The secret at a place; `None` when none is there.
    fn read(&self, place: Place) -> Pending<'_, Option<seal::Key>>;

    /// Overwrites a place where it lies, with zeros for no secret, and returns once that is on the disk.
    fn write<'a>(&'a self, place: Place, secret: Option<&'a seal::Key>) -> Pending<'a, ()>;
}

/// The other place.
pub const fn beside(place: Place) -> Place {
    1 - place % 2
}

/// Keeps a new secret at a place, and reads it back: one that did not arrive would lock everything for ever.
pub async fn keep_new(device: &dyn DeviceSecret, place: Place) -> Result<seal::Key, StorageError> {
    let secret = seal::Key::from_bytes(random()?);
    device.write(place, Some(&secret)).await?;
    let kept = device.read(place).await?;
    if kept.is_some_and(|kept| kept.bytes() == secret.bytes()) {
        return Ok(secret);
    }
    Err(StorageError::Other(say!("the secret of the device was not kept").to_owned()))
}

/// Clears a place, and looks whether it is clear.
pub async fn clear(device: &dyn DeviceSecret, place: Place) -> Result<(), StorageError> {
    device.write(place, None).await?;
    match device.read(place).await? {
        None => Ok(()),
        Some(_) => Err(StorageError::Other(say!("the secret of the device was not cleared").to_owned())),
    }
}
