//! Bits as words that can be read aloud, compared by eye and typed: 2048 words, so eleven bits each.
//!
//! The list is the English one of BIP 39 (<https://github.com/bitcoin/bips/blob/master/bip-0039.mediawiki>), kept by
//! crate `bip39`: no two words share their first four letters, so these suffice.

use std::fmt;

/// Bits that one word holds.
const BITS: usize = 11;

/// The word of a number; numbers from 2048 on begin again, so that a random one can be given as it is.
#[must_use]
pub fn word(number: u16) -> &'static str {
    let list = list();
    list[usize::from(number) % list.len()]
}

/// The first bits of these bytes, most significant first, as so many words. Bits beyond the bytes are zero.
#[must_use]
pub fn encode(bytes: &[u8], count: usize) -> String {
    numbers(bytes, count).into_iter().map(word).collect::<Vec<_>>().join(" ")
}

/// The same as numbers from 0 to 2047, to compare with what [`decode`] read.
#[must_use]
pub fn numbers(bytes: &[u8], count: usize) -> Vec<u16> {
    let bit = |at: usize| bytes.get(at / 8).map_or(0, |byte| u16::from(byte >> (7 - at % 8)) & 1);
    (0..count).map(|nth| (nth * BITS..(nth + 1) * BITS).fold(0, |number, at| number << 1 | bit(at))).collect()
}

/// Words as somebody typed them: any case, with blanks, dashes, commas or points between them. Four letters of a word
/// suffice, and behind them nothing is looked at.
///
/// # Errors
/// [`NotAWord`] names the first one that is not on the list.
pub fn decode(typed: &str) -> Result<Vec<u16>, NotAWord> {
    let parts = typed.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty());
    parts.enumerate().map(|(at, part)| find(part).ok_or_else(|| NotAWord::new(at + 1, part))).collect()
}

/// A typed word that is not on the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotAWord {
    /// Which one, counted from 1.
    pub nth: usize,
    /// What was typed, shortened.
    pub typed: String,
}

impl NotAWord {
    fn new(nth: usize, typed: &str) -> NotAWord {
        NotAWord { nth, typed: typed.chars().take(24).collect() }
    }
}

impl fmt::Display for NotAWord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let NotAWord { nth, typed } = self;
        write!(f, "Word {nth}, “{typed}”, is not one of the words in use. Look at it again and type it anew.")
    }
}

impl std::error::Error for NotAWord {}

fn list() -> &'static [&'static str; 2048] {
    bip39::Language::English.word_list()
}

fn find(typed: &str) -> Option<u16> {
    let typed = typed.to_lowercase();
    let start: String = typed.chars().take(4).collect();
    // A word of three letters is whole; "act" must not stand for "action".
    let fits = |word: &&str| **word == typed || (start.len() == 4 && word.starts_with(&start));
    list().iter().position(fits).and_then(|at| u16::try_from(at).ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_list_has_2048_words_that_differ_in_their_first_four_letters() {
        let starts: BTreeSet<String> = list().iter().map(|word| word.chars().take(4).collect()).collect();
        assert_eq!(starts.len(), 2048);
        assert!(
            list().iter().all(|word| (3..=8).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_lowercase()))
        );
        assert_eq!((word(0), word(2047), word(2048)), ("abandon", "zoo", "abandon"));
    }

    /// Worked by hand: 0x7f 0xff begins with 01111111111 = 1023; 0x00 0x20 0x04 is 00000000001 00000000001 00.
    #[test]
    fn bits_become_numbers_most_significant_first() {
        assert_eq!(numbers(&[0x7f, 0xff, 0x80], 1), [1023]);
        assert_eq!(numbers(&[0xff, 0xff, 0xff], 2), [2047, 2047]);
        assert_eq!(numbers(&[0x00, 0x20, 0x04, 0x00], 2), [1, 1]);
        assert_eq!(numbers(&[0x80], 2), [1024, 0], "bits beyond the bytes are zero");
    }

    /// The published vectors of BIP 39 begin with these words for these bytes; the last of twelve holds a checksum.
    #[test]
    fn published_vectors_come_out() {
        assert_eq!(encode(&[0x7f; 16], 11), "legal winner thank year wave sausage worth useful legal winner thank");
        assert_eq!(
            encode(&[0x80; 16], 11),
            "letter advice cage absurd amount doctor acoustic avoid letter advice cage"
        );
    }

    #[test]
    fn every_word_comes_back_whole_and_by_its_first_four_letters() {
        for number in 0..2048 {
            let whole = word(number);
            let short: String = whole.chars().take(4).collect();
            assert_eq!(decode(whole), Ok(vec![number]));
            assert_eq!(decode(&short.to_uppercase()), Ok(vec![number]), "{whole}");
        }
    }

    #[test]
    fn words_are_taken_however_they_were_typed() {
        let expected = numbers(&[0x7f; 16], 3);
        for typed in ["legal winner thank", " LEGAL-Winner,\n thank. ", "lega winn than", "legal · winnre · thanks"] {
            assert_eq!(decode(typed), Ok(expected.clone()), "{typed}");
        }
        assert_eq!(decode(" - "), Ok(vec![]));
    }

    #[test]
    fn what_is_no_word_is_named() {
        let refused = decode("legal wimner thank").expect_err("misspelt");
        assert_eq!(refused, NotAWord { nth: 2, typed: "wimner".into() });
        assert!(refused.to_string().starts_with("Word 2, “wimner”, is not one"), "{refused}");
        for typed in ["ac", "acx", "le", "légal", "1234", "דנה"] {
            assert!(decode(typed).is_err(), "{typed}");
        }
        assert_eq!(decode(&"x".repeat(1000)).expect_err("none").typed.len(), 24);
    }
}
