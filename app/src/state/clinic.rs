//! The clinic's key: the public half that this device seals to, and on the clinic computer the secret one.

use leptos::prelude::*;

use super::App;
use crate::storage::{Change, Key, Kind};
use crate::words;

/// The row of the public half, as text.
const KEY: &str = "clinic-key";

/// The row of the secret keys of this computer, as a key file, the newest first.
const IDENTITIES: &str = "clinic-identity";

impl App {
    /// Keeps the key that hand overs are sealed to from now on.
    pub async fn keep_clinic_key(self, key: &str) -> Result<(), String> {
        self.keep_setting(KEY, key.as_bytes().to_vec()).await?;
        self.clinic_key.set(Some(key.to_string()));
        Ok(())
    }

    /// The key that hand overs are sealed to; one that cannot be read is read from the clinic's screen again.
    pub(super) async fn public_key(self) -> Option<String> {
        String::from_utf8(self.setting(KEY).await.ok()??).ok()
    }

    /// The secret keys of this computer, as one key file.
    pub async fn identities(self) -> Result<Option<Vec<u8>>, String> {
        self.setting(IDENTITIES).await
    }

    /// Puts the keys of this file before those that are here; older ones still open what was sealed to them.
    pub async fn keep_identity(self, mut file: Vec<u8>) -> Result<(), String> {
        if let Some(older) = self.identities().await? {
            if older.starts_with(&file) {
                return Ok(());
            }
            file.push(b'\n');
            file.extend(older);
        }
        self.keep_setting(IDENTITIES, file).await
    }

    async fn setting(self, id: &str) -> Result<Option<Vec<u8>>, String> {
        let keys = [Key::new(Kind::Setting, id)];
        let found = self.store.get_value().get(&keys).await.map_err(|error| error.to_string())?;
        found.into_iter().next().flatten().transpose().map_err(|error| error.to_string())
    }

    async fn keep_setting(self, id: &str, bytes: Vec<u8>) -> Result<(), String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(super::ELSEWHERE).to_string());
        }
        let writer = self.writer.get_value();
        writer.close([Change::put(Key::new(Kind::Setting, id), bytes)]).await.map_err(|error| error.to_string())
    }
}
