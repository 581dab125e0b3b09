//! What a file is, from its first bytes, before any work is done for it.

use std::borrow::Cow;
use std::io::Read as _;

use super::error::{Foreign, HandOverError};

/// The longest head of a sealed file that is read: some hundred keys, or one passphrase.
const LONGEST_HEAD: usize = 16 * 1024;

const MAGIC: &[u8] = b"age-encryption.org/";
const ARMOR: &[u8] = b"-----BEGIN AGE ENCRYPTED FILE-----";

/// Columns of a full line of base64 in a head (age-encryption.org/v1).
const COLUMNS: usize = 64;

/// Characters of the code that ends a head.
const CODE: usize = 43;

/// What a file looks like from outside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// Nothing is in it.
    Empty,
    /// Sealed to one key or several.
    SealedToKey {
        /// Whether it is written as text.
        armored: bool,
    },
    /// Sealed by a passphrase.
    SealedByPassphrase {
        /// The work it asks for, as the power of two of scrypt's cost.
        work_factor: u8,
        /// Whether it is written as text.
        armored: bool,
    },
    /// JSON, and so perhaps an archive that is not sealed.
    Plain,
    /// Sealed, and its head cannot be read; or something else.
    Unreadable(HandOverError),
}

/// Looks at a file without opening it. Costs next to nothing, whatever the file holds.
#[must_use]
pub fn look(file: &[u8]) -> FileKind {
    let armored = is_armored(file);
    // The first few hundred lines of text hold the whole head.
    let beginning = if armored { &file[..file.len().min(4 * LONGEST_HEAD)] } else { file };
    if !armored && !file.starts_with(MAGIC) {
        return match foreign(file) {
            HandOverError::Empty => FileKind::Empty,
            HandOverError::NotSealed => FileKind::Plain,
            other => FileKind::Unreadable(other),
        };
    }
    let bytes = if armored { Cow::Owned(unarmored_start(beginning)) } else { Cow::Borrowed(beginning) };
    match Head::read(&bytes) {
        Ok(head) if !head.is_known() => FileKind::Unreadable(HandOverError::UnknownKey),
        Ok(Head { work_factor: Some(work_factor), .. }) => FileKind::SealedByPassphrase { work_factor, armored },
        Ok(Head { work_factor: None, .. }) => FileKind::SealedToKey { armored },
        Err(error) => FileKind::Unreadable(error),
    }
}

/// The sealed bytes, from a file that has them as they are or as text.
pub(super) fn binary(file: &[u8]) -> Result<Cow<'_, [u8]>, HandOverError> {
    if file.starts_with(MAGIC) {
        return Ok(Cow::Borrowed(file));
    }
    if !is_armored(file) {
        return Err(foreign(file));
    }
    let mut bytes = Vec::with_capacity(file.len() / 4 * 3);
    let mut reader = age::armor::ArmoredReader::new(file.trim_ascii_start());
    let read = reader.read_to_end(&mut bytes);
    match read {
        Ok(_) => Ok(Cow::Owned(bytes)),
        Err(_) if !ends_armor(file) => Err(HandOverError::Truncated),
        Err(_) => Err(HandOverError::Damaged),
    }
}

/// What can be had of the beginning of a text, for a look; errors come when it is opened.
fn unarmored_start(text: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut reader = age::armor::ArmoredReader::new(text.trim_ascii_start());
    let mut line = [0_u8; 48];
    while let Ok(read @ 1..) = reader.read(&mut line) {
        bytes.extend_from_slice(&line[..read]);
    }
    bytes
}

fn is_armored(file: &[u8]) -> bool {
    file.trim_ascii_start().starts_with(ARMOR)
}

fn ends_armor(file: &[u8]) -> bool {
    file.trim_ascii_end().ends_with(b"-----END AGE ENCRYPTED FILE-----")
}

/// What is not sealed, by its first bytes.
fn foreign(file: &[u8]) -> HandOverError {
    let text = file.strip_prefix(b"\xef\xbb\xbf").unwrap_or(file).trim_ascii_start();
    if text.is_empty() {
        return HandOverError::Empty;
    }
    if text.starts_with(b"{") {
        return HandOverError::NotSealed;
    }
    if MAGIC.starts_with(file) || ARMOR.starts_with(text) {
        return HandOverError::Truncated;
    }
    let begins = |with: &[u8]| file.starts_with(with);
    let says = |word: &[u8]| text.get(..word.len()).is_some_and(|start| start.eq_ignore_ascii_case(word));
    HandOverError::Foreign(if begins(b"\x1f\x8b") {
        Foreign::Gzip
    } else if begins(b"PK\x03\x04") || begins(b"PK\x05\x06") {
        Foreign::Zip
    } else if [&b"\x28\xb5\x2f\xfd"[..], b"\xfd7zXZ\x00", b"7z\xbc\xaf", b"BZh", b"Rar!"]
        .iter()
        .any(|sign| begins(sign))
    {
        Foreign::Packed
    } else if begins(b"%PDF") {
        Foreign::Pdf
    } else if [&b"\x89PNG"[..], b"\xff\xd8\xff", b"GIF8"].iter().any(|sign| begins(sign)) {
        Foreign::Picture
    } else if says(b"AGE-SECRET-KEY-") || says(b"age1") || (text.starts_with(b"#") && holds_key(text)) {
        Foreign::Key
    } else if text.iter().take(512).all(|byte| !byte.is_ascii_control() || byte.is_ascii_whitespace()) {
        Foreign::Text
    } else {
        Foreign::Other
    })
}

fn holds_key(text: &[u8]) -> bool {
    text.split(|byte| *byte == b'\n').take(20).any(|line| line.starts_with(b"AGE-SECRET-KEY-"))
}

/// The head of a sealed file, read strictly: the library is more lenient with heads of old test versions.
pub(super) struct Head {
    /// The work a passphrase asks for, when the file is sealed by one.
    pub work_factor: Option<u8>,
    /// Keys it is sealed to that are of the kind made here.
    keys: usize,
}

impl Head {
    pub(super) fn read(file: &[u8]) -> Result<Head, HandOverError> {
        let start = &file[..file.len().min(LONGEST_HEAD)];
        // Whether what ends here might go on: only then something is missing.
        let cut = if file.len() > LONGEST_HEAD { HandOverError::Damaged } else { HandOverError::Truncated };
        let mut lines = Lines { rest: start, cut };
        let version = lines.next()?.strip_prefix(MAGIC).ok_or(HandOverError::Damaged)?;
        if version != b"v1" {
            let is_word = !version.is_empty() && version.iter().all(u8::is_ascii_graphic);
            return Err(if is_word { HandOverError::Newer } else { HandOverError::Damaged });
        }
        let mut head = Head { work_factor: None, keys: 0 };
        let mut stanzas = 0;
        loop {
            let line = lines.next()?;
            if let Some(code) = line.strip_prefix(b"--- ") {
                let whole = code.len() == CODE && code.iter().all(|byte| is_base64(*byte)) && stanzas > 0;
                // A passphrase opens alone: with a second way in, it would no longer show who made the file.
                let alone = head.work_factor.is_none() || stanzas == 1;
                return if whole && alone { Ok(head) } else { Err(HandOverError::Damaged) };
            }
            let words = line.strip_prefix(b"-> ").ok_or(HandOverError::Damaged)?;
            head.stanza(words)?;
            stanzas += 1;
            while lines.body()? == COLUMNS {}
        }
    }

    /// Whether the file is sealed in a way that is opened here.
    pub(super) fn is_known(&self) -> bool {
        self.work_factor.is_some() || self.keys > 0
    }

    fn stanza(&mut self, words: &[u8]) -> Result<(), HandOverError> {
        let mut words = words.split(|byte| *byte == b' ');
        if !words.clone().all(|word| !word.is_empty() && word.iter().all(u8::is_ascii_graphic)) {
            return Err(HandOverError::Damaged);
        }
        match words.next() {
            Some(b"X25519") => self.keys += 1,
            Some(b"scrypt") => {
                let work = words.nth(1).ok_or(HandOverError::Damaged)?;
                self.work_factor = Some(work_factor(work).ok_or(HandOverError::Damaged)?);
            }
            Some(_) | None => {}
        }
        Ok(())
    }
}

/// A plain decimal number; what is too large for one is as large as can be.
fn work_factor(word: &[u8]) -> Option<u8> {
    let digits = std::str::from_utf8(word).ok().filter(|text| text.bytes().all(|byte| byte.is_ascii_digit()))?;
    let plain = matches!(digits.as_bytes().first(), Some(b'1'..=b'9'));
    plain.then(|| digits.parse().unwrap_or(u8::MAX))
}

struct Lines<'a> {
    rest: &'a [u8],
    cut: HandOverError,
}

impl<'a> Lines<'a> {
    fn next(&mut self) -> Result<&'a [u8], HandOverError> {
        let end = self.rest.iter().position(|byte| *byte == b'\n').ok_or(self.cut)?;
        let line = &self.rest[..end];
        self.rest = &self.rest[end + 1..];
        Ok(line)
    }

    /// The length of one line of a body. The last line of a body is always a short one, if need be an empty one.
    fn body(&mut self) -> Result<usize, HandOverError> {
        let line = self.next()?;
        let fits = line.len() <= COLUMNS && line.iter().all(|byte| is_base64(*byte));
        if fits { Ok(line.len()) } else { Err(HandOverError::Damaged) }
    }
}

fn is_base64(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || byte == b'+' || byte == b'/'
}
