//! Keys from passphrases, off the page's thread.

use sidelight_core::seal::{Kdf, Key, SALT_BYTES};
use sidelight_worker::Ask;

use crate::platform::worker::ask;
use crate::storage::sealed::NewLock;

/// A key from a passphrase and what is stored beside it.
pub async fn derive(passphrase: &str, salt: &[u8], kdf: Kdf) -> Result<Key, String> {
    let Kdf { memory_kib, passes, lanes } = kdf;
    let given = vec![passphrase.as_bytes().to_vec(), salt.to_vec()];
    let answered = ask(Ask::Derive { memory_kib, passes, lanes }, given).await;
    let (_, made) = answered.map_err(|why| why.to_string())?;
    let key = made.into_iter().next().and_then(|bytes| <[u8; Key::BYTES]>::try_from(bytes).ok());
    key.map(Key::from_bytes).ok_or_else(|| say!("No key came back: load the page again.").to_string())
}

/// A key from a new passphrase, with a new salt.
pub async fn new_lock(passphrase: &str) -> Result<NewLock, String> {
    let mut salt = [0; SALT_BYTES];
    getrandom04::fill(&mut salt)
        .map_err(|_| say!("The browser gives no random numbers, so nothing can be sealed.").to_string())?;
    let kdf = Kdf::default();
    let key = derive(passphrase, &salt, kdf).await?;
    Ok(NewLock { key, kdf, salt: salt.to_vec() })
}
