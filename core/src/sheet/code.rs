//! From bytes to a text that fits into a link, a message and a QR code, and back; what is wrong with a text is said in one
//! sentence.

use crate::catalogue::{self, Language};
use std::fmt;

/// Letters and digits of base32 (RFC 4648, section 6): none looks like another, and case makes no difference.
const ALPHABET: &[u8; 32] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

/// The longest text that is looked at; the largest log has fewer than 700 characters, a link a little more.
const LONGEST: usize = 2000;

/// The version written and read here.
const VERSION: u32 = 1;

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A plan on its way to the family.
    Sheet,
    /// A log on its way back.
    Log,
}

impl Kind {
    /// How its texts begin, before the version.
    fn name(self) -> &'static str {
        match self {
            Kind::Sheet => "SHEET",
            Kind::Log => "SHEETLOG",
        }
    }
}

/// Why a text was not opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unreadable {
    /// There is no text.
    Nothing,
    /// It is no sheet.
    Foreign,
    /// It is no log.
    ForeignLog,
    /// Its end is missing.
    CutShort,
    /// A character of it is wrong.
    Damaged,
    /// It was made by a newer version.
    Newer,
    /// There is markup in it.
    Markup,
    /// It is far too long.
    TooLong,
}

impl Unreadable {
    /// Every reason.
    pub const ALL: [Unreadable; 8] = [
        Unreadable::Nothing,
        Unreadable::Foreign,
        Unreadable::ForeignLog,
        Unreadable::CutShort,
        Unreadable::Damaged,
        Unreadable::Newer,
        Unreadable::Markup,
        Unreadable::TooLong,
    ];

    /// The key of what a family reads.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Unreadable::Nothing => "unreadable.nothing",
            Unreadable::Foreign => "unreadable.foreign",
            Unreadable::ForeignLog => "unreadable.foreign_log",
            Unreadable::CutShort => "unreadable.cut_short",
            Unreadable::Damaged => "unreadable.damaged",
            Unreadable::Newer => "unreadable.newer",
            Unreadable::Markup => "unreadable.markup",
            Unreadable::TooLong => "unreadable.too_long",
        }
    }
}

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(catalogue::text(Language::English, self.key()))
    }
}

impl std::error::Error for Unreadable {}

/// Name and version, a point, and base32 of length, body and check sum.
pub(super) fn seal(kind: Kind, body: &[u8]) -> String {
    let mut bytes = u16::try_from(body.len()).unwrap_or(u16::MAX).to_be_bytes().to_vec();
    bytes.extend(body);
    bytes.extend(crc32(&bytes).to_be_bytes());
    format!("{}{VERSION}.{}", kind.name(), base32(&bytes))
}

/// The body of a text.
pub(super) fn open(kind: Kind, text: &str) -> Result<Vec<u8>, Unreadable> {
    if text.len() > LONGEST {
        return Err(Unreadable::TooLong);
    }
    // A whole link may have been given, and a message may have broken it into lines or made it small.
    let behind = text.rsplit('#').next().unwrap_or_default();
    let lower = behind.to_ascii_lowercase();
    if behind.contains(['<', '>', '"', '\'']) || lower.contains("%3c") || lower.contains("&lt") {
        return Err(Unreadable::Markup);
    }
    let plain: String = behind.split_whitespace().collect::<String>().to_ascii_uppercase();
    let foreign = match kind {
        Kind::Sheet => Unreadable::Foreign,
        Kind::Log => Unreadable::ForeignLog,
    };
    if plain.is_empty() {
        return Err(Unreadable::Nothing);
    }
    let Some((head, code)) = plain.split_once('.') else {
        let cut = format!("{}{VERSION}", kind.name()).starts_with(&plain) && plain.len() > 1;
        return Err(if cut { Unreadable::CutShort } else { foreign });
    };
    let version = head.strip_prefix(kind.name()).and_then(number).ok_or(foreign)?;
    if version > VERSION {
        return Err(Unreadable::Newer);
    }
    if version != VERSION {
        return Err(foreign);
    }
    body(code)
}

fn body(code: &str) -> Result<Vec<u8>, Unreadable> {
    if code.bytes().any(|byte| !ALPHABET.contains(&byte)) {
        return Err(Unreadable::Damaged);
    }
    let (bytes, rest_is_zero) = from_base32(code);
    let [high, low, behind @ ..] = bytes.as_slice() else { return Err(Unreadable::CutShort) };
    let length = usize::from(u16::from_be_bytes([*high, *low]));
    if behind.len() < length + 4 {
        return Err(Unreadable::CutShort);
    }
    let (body, sum) = behind.split_at(length);
    let whole = crc32(&bytes[..2 + length]).to_be_bytes();
    if sum != whole || !rest_is_zero || base32(&bytes).len() != code.len() {
        return Err(Unreadable::Damaged);
    }
    Ok(body.to_vec())
}

/// A version: digits only, a few of them.
fn number(digits: &str) -> Option<u32> {
    let plain = !digits.is_empty() && digits.len() <= 4 && digits.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| digits.parse().ok()).flatten()
}

fn base32(bytes: &[u8]) -> String {
    let bit = |at: usize| bytes.get(at / 8).map_or(0, |byte| byte >> (7 - at % 8) & 1);
    let letters = (bytes.len() * 8).div_ceil(5);
    (0..letters)
        .map(|nth| char::from(ALPHABET[usize::from((nth * 5..nth * 5 + 5).fold(0, |all, at| all << 1 | bit(at)))]))
        .collect()
}

/// The whole bytes, and whether the bits left over are zero as they are written.
fn from_base32(code: &str) -> (Vec<u8>, bool) {
    let mut bytes = Vec::with_capacity(code.len() * 5 / 8);
    let (mut held, mut count) = (0u32, 0u32);
    for value in code.bytes().filter_map(|letter| ALPHABET.iter().position(|known| *known == letter)) {
        held = held << 5 | u32::try_from(value).unwrap_or(0);
        count += 5;
        if count >= 8 {
            count -= 8;
            bytes.push((held >> count & 0xff) as u8);
            held &= (1 << count) - 1;
        }
    }
    (bytes, held == 0)
}

/// CRC-32 (IEEE 802.3): finds every change within 32 neighbouring bits, so every wrong or exchanged character.
pub(super) fn crc32(bytes: &[u8]) -> u32 {
    let step = |sum: u32| if sum & 1 == 1 { sum >> 1 ^ 0xedb8_8320 } else { sum >> 1 };
    let byte = |sum: u32, byte: &u8| (0..8).fold(sum ^ u32::from(*byte), |sum, _| step(sum));
    !bytes.iter().fold(!0, byte)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10, without the padding.
    #[test]
    fn base32_gives_the_published_vectors() {
        let vectors = [
            ("", ""),
            ("f", "MY"),
            ("fo", "MZXQ"),
            ("foo", "MZXW6"),
            ("foob", "MZXW6YQ"),
            ("fooba", "MZXW6YTB"),
            ("foobar", "MZXW6YTBOI"),
        ];
        for (plain, code) in vectors {
            assert_eq!(base32(plain.as_bytes()), code);
            assert_eq!(from_base32(code), (plain.as_bytes().to_vec(), true));
        }
    }

    /// The check value of the CRC catalogue, and one of zlib's.
    #[test]
    fn crc32_gives_the_published_values() {
        assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
        assert_eq!(crc32(b"a"), 0xe8b7_be43);
        assert_eq!(crc32(b""), 0);
    }
}
