//! Why a file was not taken in. No text of the file, and so no name, ever stands in an error.

use std::fmt;

/// Why an archive could not be read. Its text says what happened and what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ArchiveError {
    /// There is nothing in it.
    Empty,
    /// It is larger than what is taken in.
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// It is not JSON.
    NotJson {
        /// Bytes that still made sense.
        byte: usize,
    },
    /// It is JSON that breaks off.
    Truncated {
        /// Bytes that are there.
        byte: usize,
    },
    /// It is JSON, but not ours.
    Foreign,
    /// A newer program wrote it in a form this one does not know.
    Newer {
        /// Its version.
        version: u64,
    },
    /// A part of it cannot be true.
    Broken {
        /// Where, as a path: `visits[0].records[3].started`.
        place: String,
        /// What is wrong there.
        fault: Fault,
    },
}

/// What is wrong with a part of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// It must be there and is not.
    Missing,
    /// It is something else than what belongs there.
    WrongKind,
    /// It is of the right kind and cannot be true.
    Impossible,
    /// It is there twice.
    Twice,
    /// It names a person who is not in the file.
    NoSuchPerson,
    /// Lists stand within lists without end.
    TooDeep,
}

impl fmt::Display for ArchiveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ArchiveError::Empty => write!(f, "The file is empty. Choose another one, or ask for it again."),
            ArchiveError::TooLarge { limit } => write!(
                f,
                "The file is larger than {} MB, the most that can be taken in. \
                 Choose a file handed over from Sidelight, or ask for it in parts.",
                limit / (1024 * 1024)
            ),
            ArchiveError::NotJson { byte } => write!(
                f,
                "The file cannot be read: at byte {byte} it is no longer text in Sidelight's form. \
                 Choose another one, or ask for it again."
            ),
            ArchiveError::Truncated { byte } => {
                write!(f, "The file breaks off after byte {byte}. Ask for it again, whole; nothing was taken in.")
            }
            ArchiveError::Foreign => {
                write!(
                    f,
                    "The file was not written by Sidelight, or is not of the kind expected here. \
                     Choose one that was handed over from Sidelight."
                )
            }
            ArchiveError::Newer { version } => write!(
                f,
                "A newer Sidelight wrote this file (form {version}; this one reads form {}). \
                 Update Sidelight, then take the file in again.",
                super::VERSION
            ),
            ArchiveError::Broken { place, fault } => {
                write!(f, "The file is damaged at {place}: {}. Ask for it again; nothing was taken in.", fault.words())
            }
        }
    }
}

impl std::error::Error for ArchiveError {}

impl Fault {
    /// The fault as the second half of a sentence.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Fault::Missing => "something that must be there is missing",
            Fault::WrongKind => "something else stands there than what belongs there",
            Fault::Impossible => "what stands there cannot be true",
            Fault::Twice => "the same thing is there twice",
            Fault::NoSuchPerson => "it names a person who is not in the file",
            Fault::TooDeep => "lists stand within lists without end",
        }
    }
}
