//! Reads a chosen file, after looking at its size: a huge one is refused before a byte of it is read.

use std::fmt;

use wasm_bindgen_futures::JsFuture;

/// Why a file was not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Larger than any file of ours.
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// The browser could not read it.
    Unreadable,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refused::TooLarge { limit } => write!(
                f,
                "This file is larger than {} MB, which no visit file is. Choose the file that Sidelight saved.",
                limit / 1_048_576
            ),
            Refused::Unreadable => {
                f.write_str("The browser could not read this file. It may have been moved; choose it again.")
            }
        }
    }
}

/// The bytes of the file, if it is at most `limit` bytes long.
pub async fn read(file: &web_sys::File, limit: usize) -> Result<Vec<u8>, Refused> {
    if file.size() > limit as f64 {
        return Err(Refused::TooLarge { limit });
    }
    let buffer = JsFuture::from(file.array_buffer()).await.map_err(|_| Refused::Unreadable)?;
    Ok(js_sys::Uint8Array::new(&buffer).to_vec())
}
