//! The secret of the device, kept by the second module, because only a worker may overwrite a file in place.

use std::rc::Rc;

use futures_util::FutureExt;
use sidelight_core::seal::Key;
use sidelight_worker::{Answer, Ask, Place, SECRET};

use crate::platform::worker::{Answered, Trouble, ask};
use crate::storage::sealed::DeviceSecret;
use crate::storage::{Pending, StorageError};

/// The device's secret, where the browser has a file for it.
pub async fn find() -> Result<Option<Rc<dyn DeviceSecret>>, StorageError> {
    match ask(Ask::SecretRead { slot: 0 }, Vec::new()).await {
        Ok((Answer::Secret(Place::Absent), _)) => Ok(None),
        Ok(_) => Ok(Some(Rc::new(InFile))),
        Err(why) => Err(trouble(&why)),
    }
}

struct InFile;

impl DeviceSecret for InFile {
    fn read(&self, place: u8) -> Pending<'_, Option<Key>> {
        async move { found(ask(Ask::SecretRead { slot: place }, Vec::new()).await) }.boxed_local()
    }

    fn write<'a>(&'a self, place: u8, secret: Option<&'a Key>) -> Pending<'a, ()> {
        let bytes = secret.map_or([0; SECRET], |secret| *secret.bytes());
        async move {
            let written = ask(Ask::SecretWrite { slot: place }, vec![bytes.to_vec()]).await;
            written.map(|_| ()).map_err(|why| trouble(&why))
        }
        .boxed_local()
    }
}

fn found(answered: Result<Answered, Trouble>) -> Result<Option<Key>, StorageError> {
    let (_, bytes) = answered.map_err(|why| trouble(&why))?;
    let secret = bytes.into_iter().next().and_then(|bytes| <[u8; SECRET]>::try_from(bytes).ok());
    Ok(secret.map(Key::from_bytes))
}

fn trouble(why: &Trouble) -> StorageError {
    StorageError::Other(why.to_string())
}
