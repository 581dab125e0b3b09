//! Why a file was not sealed or not opened. No text of the file, and so no name, ever stands in an error.

use std::fmt;

/// Why a hand-over file could not be made or opened. Its text says what happened and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HandOverError {
    /// There is nothing in the file.
    Empty,
    /// The file is larger than what is taken in.
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// The content is larger than what is handed over in one file.
    TooMuchInside {
        /// The limit in bytes.
        limit: usize,
    },
    /// The file is something else.
    Foreign(Foreign),
    /// The file is not sealed: it is read as it is.
    NotSealed,
    /// It is sealed in a later form of age.
    Newer,
    /// It breaks off, or its last part was changed: the two look the same.
    Truncated,
    /// It was changed.
    Damaged,
    /// None of the keys at hand opens it.
    WrongKey,
    /// It is sealed to a kind of key that Sidelight does not make.
    UnknownKey,
    /// The passphrase does not open it.
    WrongPassphrase,
    /// It is sealed to a clinic key, and a passphrase was given.
    NeedsKey,
    /// It is sealed by a passphrase, and a key was given.
    NeedsPassphrase,
    /// It asks for more work than is done for a file.
    TooMuchWork {
        /// What it asks for, as a power of two.
        asked: u8,
        /// The most that is done.
        most: u8,
    },
    /// There is no clinic key.
    NoKey,
    /// The passphrase is empty.
    NoPassphrase,
    /// The seal could not be made.
    CannotSeal,
}

impl fmt::Display for HandOverError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = match self {
            HandOverError::Empty => "The file is empty. Choose another one, or have it handed over again.",
            HandOverError::TooLarge { limit } => {
                return write!(
                    f,
                    "The file is larger than {} MB, the most a hand-over file may have. \
                     Have fewer people handed over at a time.",
                    limit / (1024 * 1024)
                );
            }
            HandOverError::TooMuchInside { limit } => {
                return write!(
                    f,
                    "This is more than the {} MB that go into one hand-over file. Hand over fewer people at a time.",
                    limit / (1024 * 1024)
                );
            }
            HandOverError::Foreign(what) => {
                return write!(f, "This is {}, not a hand-over file. {}", what.words(), what.advice());
            }
            HandOverError::NotSealed => "The file is not sealed. Take it in as it is.",
            HandOverError::Newer => {
                "The file is sealed in a newer form than this program knows. Update Sidelight, then open it again."
            }
            HandOverError::Truncated => {
                "The file breaks off, or its last part was changed on the way. \
                 Copy it again, whole; nothing was taken in."
            }
            HandOverError::Damaged => {
                "The file was changed on the way and cannot be trusted. \
                 Copy it again, or have it handed over again; nothing was taken in."
            }
            HandOverError::WrongKey => {
                "No clinic key of this computer opens the file: it was sealed to another key, or its beginning was \
                 changed. Compare the six words of the key with those on the phone."
            }
            HandOverError::UnknownKey => {
                "The file is sealed to a kind of key that Sidelight does not use. \
                 Have it handed over again to the clinic key or by a passphrase."
            }
            HandOverError::WrongPassphrase => {
                "The passphrase does not open the file. Type it again, with its spaces and capital letters; \
                 if it is right, the beginning of the file was changed."
            }
            HandOverError::NeedsKey => {
                "The file is sealed to a clinic key, not by a passphrase. Open it where that key is kept."
            }
            HandOverError::NeedsPassphrase => "The file is sealed by a passphrase. Type that passphrase to open it.",
            HandOverError::TooMuchWork { asked, most } => {
                return write!(
                    f,
                    "The file asks for more work than is safe to do for it (2^{asked}; at most 2^{most} is done). \
                     Sidelight does not write such files: find out where it comes from."
                );
            }
            HandOverError::NoKey => "There is no clinic key yet. Read it from the clinic computer, or make one there.",
            HandOverError::NoPassphrase => "The passphrase is empty. Type one.",
            HandOverError::CannotSeal => "The file could not be sealed, so none was written. Try again.",
        };
        f.write_str(words)
    }
}

impl std::error::Error for HandOverError {}

/// Something that is no hand-over file, as far as its first bytes tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Foreign {
    /// A gzip file.
    Gzip,
    /// A zip file.
    Zip,
    /// A file packed in another way.
    Packed,
    /// A PDF.
    Pdf,
    /// A picture.
    Picture,
    /// A key.
    Key,
    /// A table or any other text.
    Text,
    /// Something else.
    Other,
}

impl Foreign {
    /// What it is, with its article.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Foreign::Gzip => "a gzip file",
            Foreign::Zip => "a zip file",
            Foreign::Packed => "a packed file",
            Foreign::Pdf => "a PDF",
            Foreign::Picture => "a picture",
            Foreign::Key => "a key",
            Foreign::Text => "a text",
            Foreign::Other => "another kind of file",
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn advice(self) -> &'static str {
        match self {
            Foreign::Gzip | Foreign::Zip | Foreign::Packed => "Unpack it, then choose the file that was inside.",
            Foreign::Key => "Keep it safe, and choose the file that the phone made.",
            Foreign::Pdf | Foreign::Picture | Foreign::Text | Foreign::Other => "Choose the file that the phone made.",
        }
    }
}
