//! Words as the bytes they may be stored as.

use std::collections::{BTreeMap, BTreeSet};

/// Every word in every encoding.
pub struct Needles {
    all: Vec<(Vec<u8>, String)>,
    /// The places in `all` of what begins with these two bytes, so that one pass looks for everything.
    by_start: BTreeMap<u16, Vec<usize>>,
    starts: Vec<bool>,
}

impl Needles {
    /// In UTF-8, in UTF-16 of either order, in Latin-1 as far as a word has such letters only, and as a key of Firefox.
    pub fn new(words: &[&str]) -> Self {
        let of = |word: &str| {
            let latin = word.chars().map(|c| u8::try_from(u32::from(c)).ok()).collect::<Option<Vec<u8>>>();
            let little = word.encode_utf16().flat_map(u16::to_le_bytes).collect();
            let big = word.encode_utf16().flat_map(u16::to_be_bytes).collect();
            let encoded: BTreeSet<Vec<u8>> =
                [Some(word.as_bytes().to_vec()), latin, Some(little), Some(big), Some(key_of_firefox(word))]
                    .into_iter()
                    .flatten()
                    .collect();
            encoded.into_iter().map(|bytes| (bytes, word.to_owned())).collect::<Vec<_>>()
        };
        Self::of(words.iter().flat_map(|word| of(word)).collect())
    }

    /// Strings of bytes as they are, each named by its number.
    pub fn of_bytes(all: &[Vec<u8>]) -> Self {
        Self::of(all.iter().enumerate().map(|(number, bytes)| (bytes.clone(), number.to_string())).collect())
    }

    fn of(all: Vec<(Vec<u8>, String)>) -> Self {
        let mut by_start: BTreeMap<u16, Vec<usize>> = BTreeMap::new();
        let mut starts = vec![false; usize::from(u16::MAX) + 1];
        for (place, (needle, _)) in all.iter().enumerate() {
            let Some(start) = needle.first_chunk() else { continue };
            let start = u16::from_be_bytes(*start);
            by_start.entry(start).or_default().push(place);
            starts[usize::from(start)] = true;
        }
        Self { all, by_start, starts }
    }

    /// The words that stand in `bytes`, each once.
    pub fn in_bytes(&self, bytes: &[u8]) -> BTreeSet<String> {
        let mut found = BTreeSet::new();
        // A plain loop, because this is most of the time of a search and is compiled without optimisation.
        let mut at = 0;
        while at + 1 < bytes.len() {
            let start = u16::from_be_bytes([bytes[at], bytes[at + 1]]);
            if self.starts[usize::from(start)] {
                for place in self.by_start.get(&start).into_iter().flatten() {
                    let (needle, word) = &self.all[*place];
                    if bytes[at..].starts_with(needle) && !found.contains(word) {
                        found.insert(word.clone());
                    }
                }
            }
            at += 1;
        }
        found
    }
}

/// A text key of Firefox's IndexedDB: every character is moved up by one, and longer the farther up it is
/// (dom/indexedDB/Key.cpp of Firefox).
fn key_of_firefox(word: &str) -> Vec<u8> {
    const ONE_BYTE: u32 = 0x7e;
    const TWO_BYTES: u32 = 0x3fff + ONE_BYTE + 1;
    let bytes = |unit: u16| match u32::from(unit) {
        c @ ..=ONE_BYTE => vec![(c + 1).to_be_bytes()[3]],
        c @ ..=TWO_BYTES => (0x8000 | (c - ONE_BYTE - 1)).to_be_bytes()[2..].to_vec(),
        c => (0x00c0_0000 | (c << 6)).to_be_bytes()[1..].to_vec(),
    };
    word.encode_utf16().flat_map(bytes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_encoding_is_found() {
        let needles = Needles::new(&["Zoë-7", "other"]);
        let found = |bytes: &[u8]| needles.in_bytes(bytes).into_iter().collect::<Vec<_>>();
        assert_eq!(found("..Zoë-7..".as_bytes()), ["Zoë-7"]);
        assert_eq!(found(b"\0Z\0o\0\xeb\0-\x007"), ["Zoë-7"]);
        assert_eq!(found(b"xZ\0o\0\xeb\0-\x007\0"), ["Zoë-7"]);
        assert_eq!(found(b"ZZo\xeb-7"), ["Zoë-7"]);
        assert_eq!(found(b"[p\x80\x6c.8"), ["Zoë-7"]);
        assert!(found(b"Zo\xeb-").is_empty());
        assert!(found(b"Zoe-7").is_empty());
        assert_eq!(found(b"other Zo\xc3\xab-7"), ["Zo\u{eb}-7", "other"]);
        assert_eq!(found(b"ZoZo\xeb-ZZo\xeb-7"), ["Zo\u{eb}-7"]);
        assert_eq!(
            Needles::of_bytes(&[vec![0, 1, 2], vec![9, 9, 9]]).in_bytes(&[9, 9, 0, 1, 2]),
            ["0".to_owned()].into()
        );
    }
}
