//! Bytes: drawn by chance, and written down.

use super::super::StorageError;

/// Bytes as hexadecimal digits.
pub fn digits(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Random bytes from the browser.
pub fn random<const N: usize>() -> Result<[u8; N], StorageError> {
    let mut bytes = [0; N];
    getrandom04::fill(&mut bytes)
        .map_err(|_| StorageError::Other(say!("the browser gave no random numbers").to_owned()))?;
    Ok(bytes)
}
