//! Words as the bytes they may be stored as.

use std::collections::BTreeSet;

/// Every word in every encoding.
pub struct Needles {
    all: Vec<(Vec<u8>, String)>,
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
        Self { all: words.iter().flat_map(|word| of(word)).collect() }
    }

    /// The words that stand in `bytes`, each once.
    pub fn in_bytes(&self, bytes: &[u8]) -> BTreeSet<String> {
        let stands = |needle: &[u8]| contains(bytes, needle);
        self.all.iter().filter(|(needle, _)| stands(needle)).map(|(_, word)| word.clone()).collect()
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

/// Looks for the first byte with the fast search of the standard library, then compares.
fn contains(bytes: &[u8], needle: &[u8]) -> bool {
    let Some((&first, rest)) = needle.split_first() else { return false };
    let mut left = bytes;
    while let Some(at) = left.iter().position(|&byte| byte == first) {
        left = &left[at + 1..];
        if left.starts_with(rest) {
            return true;
        }
    }
    false
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
    }
}
