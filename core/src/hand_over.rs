//! Hand-over files: an archive inside the age format (age-encryption.org/v1), so that any program that reads age opens
//! what is handed over here.
//!
//! A file is sealed to the key of a clinic or by a passphrase, never both. Whoever has the clinic's public key can make
//! a file for it, so a seal says who can read a file and not who wrote it.
//!
//! The age library draws its own random bytes; everything else arrives as an argument.

mod error;
mod key;
mod look;

pub use error::{Foreign, HandOverError};
pub use key::{Identity, NotAKey, Recipient, fingerprint};
pub use look::{FileKind, look};

use age::armor::{ArmoredWriter, Format};
use age::secrecy::SecretString;
use age::stream::StreamReader;
use age::{DecryptError, Decryptor, Encryptor};
use std::io::{Read as _, Write as _};
use unicode_normalization::UnicodeNormalization as _;
use zeroize::{Zeroize as _, Zeroizing};

use crate::archive;
use crate::calendar::{Date, iso_date};
use look::Head;

/// Work for a passphrase, as the power of two of scrypt's cost: 64 MiB of memory, which a phone has (common practice
/// on computers is 18, four times as much).
pub const WORK_FACTOR: u8 = 16;

/// The most work a file may ask of its reader, 1 GiB of memory; what other programs write by themselves is 18 or 19.
pub const MOST_WORK: u8 = 20;

/// Who may open a file.
pub enum To<'a> {
    /// Whoever has the secret half of one of these keys.
    Keys(&'a [Recipient]),
    /// Whoever knows the passphrase.
    Passphrase {
        /// The passphrase.
        passphrase: &'a str,
        /// See [`WORK_FACTOR`]; never above [`MOST_WORK`].
        work_factor: u8,
    },
}

/// What a file is opened with.
pub enum With<'a> {
    /// The secret keys of this computer.
    Keys(&'a [Identity]),
    /// A passphrase.
    Passphrase(&'a str),
}

/// What a reader puts up with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// The largest file in bytes, as it arrives.
    pub file: usize,
    /// The largest content in bytes.
    pub plain: usize,
    /// The most work, as the power of two of scrypt's cost.
    pub work_factor: u8,
}

impl Default for Limits {
    fn default() -> Limits {
        // A seal adds 16 bytes to each 64 KiB and a short head; as text a file is longer by a third and line ends.
        Limits { file: archive::MAX_BYTES / 8 * 11, plain: archive::MAX_BYTES, work_factor: MOST_WORK }
    }
}

/// Seals the bytes.
///
/// # Errors
/// [`HandOverError`] when there is no key or passphrase, when there is too much to seal, or when the work asked for is
/// out of bounds.
pub fn seal(plain: &[u8], to: &To<'_>) -> Result<Vec<u8>, HandOverError> {
    let limits = Limits::default();
    if plain.len() > limits.plain {
        return Err(HandOverError::TooMuchInside { limit: limits.plain });
    }
    let encryptor = match to {
        To::Keys(keys) => Encryptor::with_recipients(keys.iter().map(Recipient::as_age)),
        To::Passphrase { passphrase: "", .. } => return Err(HandOverError::NoPassphrase),
        To::Passphrase { work_factor, .. } if !(1..=MOST_WORK).contains(work_factor) => {
            return Err(HandOverError::TooMuchWork { asked: *work_factor, most: MOST_WORK });
        }
        To::Passphrase { passphrase, work_factor } => {
            let mut recipient = age::scrypt::Recipient::new(composed(passphrase));
            recipient.set_work_factor(*work_factor);
            Encryptor::with_recipients(std::iter::once(&recipient as &dyn age::Recipient))
        }
    };
    let encryptor = encryptor.map_err(|_| HandOverError::NoKey)?;
    let written = || -> std::io::Result<Vec<u8>> {
        // Room for the head and the tag of each chunk, so that the bytes are not moved while they grow.
        let sealed = Vec::with_capacity(plain.len() + plain.len() / 4096 + 1024);
        let mut writer = encryptor.wrap_output(sealed)?;
        writer.write_all(plain)?;
        writer.finish()
    };
    written().map_err(|_| HandOverError::CannotSeal)
}

/// Opens a sealed file: all of it or nothing.
///
/// # Errors
/// [`HandOverError`] says what is wrong with the file or the key.
pub fn open(file: &[u8], with: &With<'_>) -> Result<Zeroizing<Vec<u8>>, HandOverError> {
    open_within(file, with, &Limits::default())
}

/// Opens a sealed file within limits of the caller's.
///
/// # Errors
/// [`HandOverError`] says what is wrong with the file or the key.
pub fn open_within(file: &[u8], with: &With<'_>, limits: &Limits) -> Result<Zeroizing<Vec<u8>>, HandOverError> {
    if file.len() > limits.file {
        return Err(HandOverError::TooLarge { limit: limits.file });
    }
    let binary = look::binary(file)?;
    let head = Head::read(&binary)?;
    match with {
        With::Keys(_) if head.work_factor.is_some() => Err(HandOverError::NeedsPassphrase),
        With::Keys(_) | With::Passphrase(_) if !head.is_known() => Err(HandOverError::UnknownKey),
        With::Keys([]) => Err(HandOverError::NoKey),
        With::Keys(keys) => {
            let keys: Vec<_> = keys.iter().map(Identity::as_age).collect();
            decrypt(&binary, &keys, limits).map_err(|trouble| trouble.with_keys())
        }
        With::Passphrase("") => Err(HandOverError::NoPassphrase),
        With::Passphrase(passphrase) => {
            let asked = head.work_factor.ok_or(HandOverError::NeedsKey)?;
            if asked > limits.work_factor {
                return Err(HandOverError::TooMuchWork { asked, most: limits.work_factor });
            }
            let composed = composed(passphrase);
            let as_typed = SecretString::from(*passphrase);
            // Another program may have taken the letters as they were typed, with accents apart.
            let differ = !is_composed(passphrase);
            match (by_passphrase(&binary, composed, limits), differ) {
                (Err(Trouble::Refused(DecryptError::DecryptionFailed)), true) => {
                    by_passphrase(&binary, as_typed, limits)
                }
                (opened, _) => opened,
            }
            .map_err(|trouble| trouble.with_passphrase())
        }
    }
}

/// The sealed file as text, for ways that carry nothing else; it is opened like the file itself.
///
/// # Errors
/// [`HandOverError::CannotSeal`] when there is no room for it.
pub fn as_text(sealed: &[u8]) -> Result<Vec<u8>, HandOverError> {
    let written = || -> std::io::Result<Vec<u8>> {
        let room = Vec::with_capacity(sealed.len() / 3 * 4 + sealed.len() / 48 + 128);
        let mut writer = ArmoredWriter::wrap_output(room, Format::AsciiArmor)?;
        writer.write_all(sealed)?;
        writer.finish()
    };
    written().map_err(|_| HandOverError::CannotSeal)
}

/// What a hand-over file is called: a date and a word, and never anything of a person.
#[must_use]
pub fn file_name(made: Date, word: &str, sealed: bool) -> String {
    format!("{}.{}", file_stem(made, word), if sealed { "age" } else { "json" })
}

/// What every file begins with that leaves a device: the same date and word for files that belong together.
#[must_use]
pub fn file_stem(made: Date, word: &str) -> String {
    let word: String = word.chars().filter(char::is_ascii_alphabetic).map(|c| c.to_ascii_lowercase()).collect();
    format!("sidelight-{}-{word}", iso_date(made))
}

fn by_passphrase(binary: &[u8], passphrase: SecretString, limits: &Limits) -> Result<Zeroizing<Vec<u8>>, Trouble> {
    let mut identity = age::scrypt::Identity::new(passphrase);
    identity.set_max_work_factor(limits.work_factor);
    decrypt(binary, &[&identity], limits)
}

/// Nothing is given on before the last chunk was seen: until then the rest may be missing or forged.
fn decrypt(binary: &[u8], with: &[&dyn age::Identity], limits: &Limits) -> Result<Zeroizing<Vec<u8>>, Trouble> {
    let mut rest = binary;
    let opened = Decryptor::new_buffered(&mut rest)
        .and_then(|decryptor| decryptor.decrypt(with.iter().copied()))
        .map_err(Trouble::Refused)?;
    // The content is always shorter than the file: enough room now leaves no copies behind in memory given back.
    let mut plain = Zeroizing::new(Vec::with_capacity(binary.len().min(limits.plain) + 1));
    let read = read_all(opened, &mut plain, limits.plain);
    match read {
        Ok(()) if plain.len() > limits.plain => Err(Trouble::TooMuch { limit: limits.plain }),
        Ok(()) => Ok(plain),
        Err(_) if rest.is_empty() => Err(Trouble::AtTheEnd),
        Err(_) => Err(Trouble::InTheMiddle),
    }
}

fn read_all(opened: StreamReader<&mut &[u8]>, plain: &mut Vec<u8>, limit: usize) -> std::io::Result<()> {
    opened.take(limit as u64 + 1).read_to_end(plain).map(|_| ())
}

/// What the age library said, before it is known what the file was opened with.
enum Trouble {
    Refused(DecryptError),
    AtTheEnd,
    InTheMiddle,
    TooMuch { limit: usize },
}

impl Trouble {
    fn with_keys(self) -> HandOverError {
        self.told(HandOverError::WrongKey)
    }

    fn with_passphrase(self) -> HandOverError {
        self.told(HandOverError::WrongPassphrase)
    }

    fn told(self, wrong: HandOverError) -> HandOverError {
        match self {
            Trouble::Refused(DecryptError::NoMatchingKeys | DecryptError::DecryptionFailed) => wrong,
            Trouble::Refused(DecryptError::UnknownFormat) => HandOverError::Newer,
            Trouble::Refused(DecryptError::ExcessiveWork { required, .. }) => {
                HandOverError::TooMuchWork { asked: required, most: MOST_WORK }
            }
            // The head was whole, so all that can be missing behind it is the beginning of the content.
            Trouble::Refused(DecryptError::Io(_)) | Trouble::AtTheEnd => HandOverError::Truncated,
            Trouble::Refused(_) | Trouble::InTheMiddle => HandOverError::Damaged,
            Trouble::TooMuch { limit } => HandOverError::TooMuchInside { limit },
        }
    }
}

/// The same letters always as the same bytes, whichever keyboard typed them.
fn composed(passphrase: &str) -> SecretString {
    let mut letters: String = passphrase.nfc().collect();
    let secret = SecretString::from(letters.as_str());
    letters.zeroize();
    secret
}

fn is_composed(passphrase: &str) -> bool {
    unicode_normalization::is_nfc(passphrase)
}

#[cfg(test)]
mod tests;
