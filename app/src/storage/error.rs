//! What can go wrong with the store, each as one sentence that says what happened and what to do.

use std::error::Error;
use std::fmt;

use sidelight_core::seal::SealError;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::DomException;

/// Why a storage operation failed. Nothing in it names a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StorageError {
    /// The device or the browser's share of it is full.
    Full,
    /// Another tab keeps the database busy and opening it took too long.
    Blocked,
    /// A newer version of the program has changed the form of the database.
    NewerSchema,
    /// This browser or window keeps no records.
    Unavailable,
    /// The browser ended the connection, as phones do with pages that were in the background.
    Closed,
    /// The records are locked.
    Locked,
    /// What stands on the lock cannot be read.
    LockDamaged,
    /// The passphrase is right, but the secret this device kept beside the records is gone or another one.
    NoDevice,
    /// A record or a key does not open.
    Seal(SealError),
    /// Anything else, in the browser's own words.
    Other(String),
}

impl StorageError {
    /// Whether the same operation may succeed later on this page without a reload.
    #[must_use]
    pub const fn recoverable(&self) -> bool {
        match self {
            Self::Full | Self::Blocked | Self::Closed | Self::Locked | Self::Other(_) => true,
            Self::NewerSchema | Self::Unavailable | Self::LockDamaged | Self::NoDevice | Self::Seal(_) => false,
        }
    }

    /// Reads an error thrown while the database was being opened.
    pub(super) fn from_opening(thrown: &JsValue) -> Self {
        match name_of(thrown).as_str() {
            // Private windows of some browsers refuse to open a database at all.
            "InvalidStateError" | "SecurityError" => Self::Unavailable,
            _ => Self::from_thrown(thrown),
        }
    }

    /// Reads an error thrown by an open database.
    pub(super) fn from_thrown(thrown: &JsValue) -> Self {
        let name = name_of(thrown);
        Self::from_name(&name).unwrap_or_else(|| Self::Other(in_words(&name, thrown)))
    }

    /// Reads an error that the `rexie` library met while opening.
    pub(super) fn from_rexie_opening(error: &rexie::Error) -> Self {
        let text = rexie_text(error);
        let refused = ["indexed db not found", "InvalidStateError"].iter().any(|sign| text.contains(sign));
        if refused { Self::Unavailable } else { Self::from_rexie(error) }
    }

    /// Reads an error of the `rexie` library.
    pub(super) fn from_rexie(error: &rexie::Error) -> Self {
        let text = rexie_text(error);
        text.split(|character: char| !character.is_ascii_alphanumeric())
            .find_map(Self::from_name)
            .unwrap_or(Self::Other(text))
    }

    fn from_name(exception: &str) -> Option<Self> {
        match exception {
            "QuotaExceededError" => Some(Self::Full),
            "VersionError" => Some(Self::NewerSchema),
            "SecurityError" => Some(Self::Unavailable),
            // A connection that is gone throws the first; one that is torn down under way gives the
            // others, of which "UnknownError" is what phones report after a stay in the background.
            "InvalidStateError" | "AbortError" | "UnknownError" | "TransactionInactiveError" => Some(Self::Closed),
            _ => None,
        }
    }
}

impl fmt::Display for StorageError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Full => f.write_str(
                say!("This device has no room left for the records: free some space, then try saving again."),
            ),
            Self::Blocked => f.write_str(
                say!("Another tab keeps the records busy: close all other Sidelight tabs, then try again."),
            ),
            Self::NewerSchema => f.write_str(
                say!("A newer version of Sidelight has opened these records: close every Sidelight tab and open it again."),
            ),
            Self::Unavailable => f.write_str(
                say!("This browser window keeps no records: open Sidelight outside private browsing and allow it to store data."),
            ),
            Self::Closed => f.write_str(
                say!("The browser closed the records: try again, and if that does not help, close Sidelight and open it again."),
            ),
            Self::Locked => f.write_str(say!("The records are locked: unlock them with your passphrase.")),
            Self::LockDamaged => f.write_str(
                say!("The lock of these records is damaged: they cannot be opened, and were left as they are."),
            ),
            Self::NoDevice => f.write_str(
                say!("The secret this device kept beside the records is gone: they cannot be opened here any more, and files that were handed over still can."),
            ),
            Self::Seal(error) => error.fmt(f),
            Self::Other(words) => {
                f.write_str(&say!(
                    "The records could not be reached: try again, and if that does not help, restart the browser ({words}).",
                    words
                ))
            }
        }
    }
}

impl Error for StorageError {}

/// The library keeps the browser's exception, with its name, as the text of its source.
fn rexie_text(error: &rexie::Error) -> String {
    error.source().map_or_else(|| error.to_string(), ToString::to_string)
}

fn name_of(thrown: &JsValue) -> String {
    thrown.dyn_ref::<DomException>().map_or_else(String::new, DomException::name)
}

fn in_words(name: &str, thrown: &JsValue) -> String {
    if let Some(exception) = thrown.dyn_ref::<DomException>() {
        return format!("{name}: {}", exception.message());
    }
    match thrown.dyn_ref::<js_sys::Error>() {
        Some(error) => format!("{}: {}", error.name(), error.message()),
        None => say!("no reason given").to_owned(),
    }
}
