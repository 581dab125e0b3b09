//! Which QR code a text needs: the smallest version at error level M, and what is too large to be read from a screen.

use std::fmt;

/// The highest version a phone's camera reads well from another phone's screen: 77 modules a side (common practice).
pub const HIGHEST_VERSION: u8 = 15;

/// Characters of versions 1 to 15 at level M, alphanumeric and bytes (ISO/IEC 18004, table of capacities).
static CAPACITY: [(usize, usize); 15] = [
    (20, 14),
    (38, 26),
    (61, 42),
    (90, 62),
    (122, 84),
    (154, 106),
    (178, 122),
    (221, 152),
    (262, 180),
    (311, 213),
    (366, 251),
    (419, 287),
    (483, 331),
    (528, 362),
    (600, 412),
];

/// A text that needs a larger code than can be read from a screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooLarge {
    /// Its characters.
    pub has: usize,
    /// How many there may be.
    pub most: usize,
}

impl fmt::Display for TooLarge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let TooLarge { has, most } = self;
        write!(
            f,
            "This is too large for a code that a phone reads from a screen ({has} of {most} characters). Give the file."
        )
    }
}

impl std::error::Error for TooLarge {}

/// The version, 1 to 15, of the smallest code at level M that holds a text.
///
/// # Errors
/// [`TooLarge`] beyond version 15.
pub fn qr_version(text: &str) -> Result<u8, TooLarge> {
    let alphanumeric = text.bytes().all(|b| b.is_ascii_digit() || b.is_ascii_uppercase() || b" $%*+-./:".contains(&b));
    let of = |(letters, bytes): &(usize, usize)| if alphanumeric { *letters } else { *bytes };
    let most = CAPACITY.last().map_or(0, of);
    let version = CAPACITY.iter().position(|capacity| text.len() <= of(capacity));
    version.and_then(|at| u8::try_from(at + 1).ok()).ok_or(TooLarge { has: text.len(), most })
}
