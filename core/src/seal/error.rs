//! Why something could not be sealed or opened. Nothing in it names a person.

use std::fmt;

/// Why a key could not be derived, or a sealed thing not be opened. Its text says what happened and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SealError {
    /// The settings of the derivation are weaker or heavier than this program accepts.
    Kdf,
    /// The salt is shorter than it has to be.
    Salt,
    /// The device has not enough memory free for the derivation.
    Memory,
    /// A wrapped key does not open: the passphrase, the passkey or the device is another one.
    WrongKey,
    /// It is shorter than anything that was ever sealed.
    TooShort,
    /// A newer program sealed it.
    Newer {
        /// The version it says it has.
        version: u8,
    },
    /// The key it was sealed by is not among the keys here.
    NoKey,
    /// It was changed, or it stands in the place of another record.
    Changed,
}

impl fmt::Display for SealError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SealError::Kdf => f.write_str(
                "The lock of these records has settings that this Sidelight does not accept: they may have been tampered with.",
            ),
            SealError::Salt => f.write_str(
                "The lock of these records is damaged: its salt is too short.",
            ),
            SealError::Memory => f.write_str(
                "The device has not enough memory free to open the records: close other programs and tabs, then try again.",
            ),
            SealError::WrongKey => f.write_str(
                "This does not open the records: check the passphrase, then try again.",
            ),
            SealError::TooShort => f.write_str(
                "A record breaks off: it cannot be opened and was left as it is.",
            ),
            SealError::Newer { version } => write!(
                f,
                "A record was sealed by a newer Sidelight (form {version}): update Sidelight to read it."
            ),
            SealError::NoKey => f.write_str(
                "A record has no key here: what it said is gone for good.",
            ),
            SealError::Changed => f.write_str(
                "A record was changed or moved outside Sidelight: it cannot be opened and was left as it is.",
            ),
        }
    }
}

impl std::error::Error for SealError {}
