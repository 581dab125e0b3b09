//! A passkey as a second way to open: the same data key under a wrap of its own. The passphrase stays.

use sidelight_core::seal::Key;

use super::{Lock, OPENING};
use crate::platform::passkey;
use crate::storage::StorageError;
use crate::storage::sealed::Fate;

const WAY: &str = "passkey";

impl Lock {
    /// Whether a passkey opens these records.
    pub async fn has_passkey(self) -> bool {
        self.passkey_id().await.is_some()
    }

    /// Makes a passkey and lets it open the records.
    pub async fn add_passkey(self) -> Result<(), String> {
        self.refuse_elsewhere()?;
        let sealed = self.sealed().ok_or_else(|| StorageError::Locked.to_string())?;
        let (id, secret) = passkey::create(&random()?).await.map_err(|why| why.to_string())?;
        let added = sealed.add_wrap(WAY, Some(&to_hex(&id)), &Key::from_bytes(secret)).await;
        added.map_err(|error| error.to_string())
    }

    /// Takes the passkey's way away.
    pub async fn remove_passkey(self) -> Result<Fate, String> {
        self.refuse_elsewhere()?;
        let sealed = self.sealed().ok_or_else(|| StorageError::Locked.to_string())?;
        sealed.remove_wrap(WAY).await.map_err(|error| error.to_string())
    }

    /// Opens with the passkey.
    pub async fn unlock_by_passkey(self) -> Result<(), String> {
        let id = self.passkey_id().await.ok_or_else(|| passkey::Refused::Absent.to_string())?;
        let secret = passkey::get(&id, &random()?).await.map_err(|why| why.to_string())?;
        let _working = self.work(OPENING);
        self.unlock_by(WAY, &Key::from_bytes(secret)).await
    }

    async fn passkey_id(self) -> Option<Vec<u8>> {
        let header = self.header().await.ok()?;
        let wrap = header.wraps().iter().find(|wrap| wrap.name == WAY)?;
        from_hex(wrap.about.as_deref()?)
    }
}

fn random() -> Result<[u8; 32], String> {
    let mut bytes = [0; 32];
    getrandom04::fill(&mut bytes).map_err(|_| say!("The browser gives no random numbers.").to_string())?;
    Ok(bytes)
}

fn to_hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn from_hex(text: &str) -> Option<Vec<u8>> {
    let digits: Option<Vec<u8>> = text.chars().map(|c| c.to_digit(16).and_then(|it| u8::try_from(it).ok())).collect();
    let digits = digits.filter(|digits| digits.len() % 2 == 0)?;
    Some(digits.chunks_exact(2).map(|pair| pair[0] << 4 | pair[1]).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn ids_survive_as_text() {
        assert_eq!(to_hex(&[0, 10, 255]), "000aff");
        assert_eq!(from_hex("000aff"), Some(vec![0, 10, 255]));
        assert_eq!(from_hex("0"), None);
        assert_eq!(from_hex("zz"), None);
    }
}
