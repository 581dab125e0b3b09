//! Published values, and everything that must not open.

use super::kdf::stretch;
use super::*;

const KEY_ID: KeyId = KeyId([7; 8]);

fn hex(text: &str) -> Vec<u8> {
    let digits: Vec<char> = text.chars().filter(char::is_ascii_hexdigit).collect();
    digits.chunks(2).map(|pair| u8::from_str_radix(&pair.iter().collect::<String>(), 16).expect("works")).collect()
}

fn key(byte: u8) -> Key {
    Key::from_bytes([byte; 32])
}

fn sealed() -> Vec<u8> {
    seal_row(&key(1), KEY_ID, [2; 24], "visit", "v1", b"near point 12 cm")
}

fn opened(row: &[u8], kind: &str, id: &str) -> Result<Vec<u8>, SealError> {
    let one = key(1);
    open_row(row, kind, id, |key_id| (key_id == KEY_ID).then_some(&one))
}

/// Values of PyPI argon2-cffi 25.1.0 (`argon2.low_level.hash_secret_raw`, type ID, version 19), 32 bytes, salt 00 to 0f.
#[test]
fn argon2id_gives_the_same_as_another_implementation() {
    let salt: Vec<u8> = (0..16).collect();
    let set = |memory_kib, passes, lanes| Kdf { memory_kib, passes, lanes };
    let horse = "correct horse battery staple";
    let cases = [
        (horse, Kdf::LEAST, "fdca024fae17b143175e4e725b9341fbbd176aaf77d79d78c44d28007d7b11a7"),
        (horse, set(19_456, 2, 1), "818259b6310026a8e0dbac5d2e6927abcfdb07b32258fac4f61b18b80f929085"),
        (horse, Kdf::default(), "853b272a44db1421c02962669a55eb0994f3cab385ed1c4c79253eee19bab49e"),
        ("pässwörd 1", set(19_456, 2, 1), "7d34423a2a19f8500837b0b8c00ba3140d947c757a76f44f5254ec082f31573d"),
        // The same words with the dots as characters of their own, as some keyboards give them.
        (
            "pa\u{308}sswo\u{308}rd 1",
            set(19_456, 2, 1),
            "7d34423a2a19f8500837b0b8c00ba3140d947c757a76f44f5254ec082f31573d",
        ),
    ];
    for (passphrase, kdf, expected) in cases {
        let derived = stretch(passphrase, &salt, kdf).expect("works");
        assert_eq!(derived.bytes().to_vec(), hex(expected), "{passphrase} {kdf:?}");
    }
}

#[test]
fn settings_that_are_too_weak_or_too_heavy_are_refused_before_any_work() {
    let salt = [0; SALT_BYTES];
    let usual = Kdf::default();
    let refused = [
        Kdf { memory_kib: Kdf::LEAST.memory_kib - 1, ..usual },
        Kdf { memory_kib: u32::MAX, ..usual },
        Kdf { passes: 0, ..usual },
        Kdf { passes: Kdf::MOST.passes + 1, ..usual },
        Kdf { lanes: 0, ..usual },
        Kdf { lanes: u32::MAX, ..usual },
    ];
    for kdf in refused {
        assert_eq!(derive("words", &salt, kdf).err(), Some(SealError::Kdf), "{kdf:?}");
    }
    for kdf in [usual, Kdf::LEAST, Kdf::MOST] {
        assert_eq!(kdf.checked(), Ok(kdf));
    }
    assert_eq!(derive("words", &[0; 7], usual).err(), Some(SealError::Salt));
}

/// The vector of draft-irtf-cfrg-xchacha-03, appendix A.3.1,
/// <https://datatracker.ietf.org/doc/html/draft-irtf-cfrg-xchacha-03#appendix-A.3.1>.
#[test]
fn xchacha20_poly1305_gives_the_published_bytes() {
    use chacha20poly1305::aead::{Aead, Payload};
    let bytes: [u8; 32] = std::array::from_fn(|at| 0x80 + at as u8);
    let nonce: Nonce = std::array::from_fn(|at| 0x40 + at as u8);
    let aad = hex("50515253 c0c1c2c3 c4c5c6c7");
    let plain = b"Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the future, \
                  sunscreen would be it.";
    let expected = hex("bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb\
         731c7f1b0b4aa6440bf3a82f4eda7e39ae64c6708c54c216cb96b72e1213b452\
         2f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff9\
         21f9664c97637da9768812f615c68b13b52e c0875924c1c7987947deafd8780acf49");
    let cipher = Key::from_bytes(bytes).cipher();
    assert_eq!(cipher.encrypt(&nonce.into(), Payload { msg: plain, aad: &aad }).expect("works"), expected);
    // A record is the same bytes behind its head, with its place as the associated data.
    let row = seal_row(&Key::from_bytes(bytes), KEY_ID, nonce, "k", "i", plain);
    let placed = cipher.encrypt(&nonce.into(), Payload { msg: plain, aad: b"k\0i" }).expect("works");
    assert_eq!(row, [&[1][..], &[7; 8], &nonce, &placed].concat());
    assert_eq!(
        row[33..33 + plain.len()],
        expected[..plain.len()],
        "the sealed text does not hang on its place, the tag does"
    );
}

#[test]
fn a_record_opens_in_its_place_and_nowhere_else() {
    assert_eq!(opened(&sealed(), "visit", "v1"), Ok(b"near point 12 cm".to_vec()));
    assert_eq!(opened(&sealed(), "draft", "v1"), Err(SealError::Changed), "another kind");
    assert_eq!(opened(&sealed(), "visit", "v2"), Err(SealError::Changed), "another id");
    assert_eq!(opened(&sealed(), "visi", "t\0v1"), Err(SealError::Changed), "the border between kind and id");
}

#[test]
fn no_bit_can_be_flipped() {
    let row = sealed();
    for at in 0..row.len() * 8 {
        let mut flipped = row.clone();
        flipped[at / 8] ^= 1 << (at % 8);
        let expected = match at / 8 {
            0 => SealError::Newer { version: flipped[0] },
            1..=8 => SealError::NoKey,
            _ => SealError::Changed,
        };
        assert_eq!(opened(&flipped, "visit", "v1"), Err(expected), "bit {at}");
    }
}

#[test]
fn no_byte_can_be_cut_off_or_added() {
    let row = sealed();
    for length in 0..row.len() {
        let expected = if length < 1 + 8 + 24 + 16 { SealError::TooShort } else { SealError::Changed };
        assert_eq!(opened(&row[..length], "visit", "v1"), Err(expected), "{length} bytes");
    }
    assert_eq!(opened(&[row, vec![0]].concat(), "visit", "v1"), Err(SealError::Changed));
}

#[test]
fn a_record_says_which_key_it_asks_for() {
    assert_eq!(key_of(&sealed()), Ok(KEY_ID));
    assert_eq!(open_row(&sealed(), "visit", "v1", |_| None), Err(SealError::NoKey));
    let other = key(9);
    assert_eq!(
        open_row(&sealed(), "visit", "v1", |_| Some(&other)),
        Err(SealError::Changed),
        "a key of the wrong name"
    );
    assert_eq!(key_of(b"{\"format\":\"sidelight-visit\"}"), Err(SealError::Newer { version: b'{' }), "a clear record");
}

#[test]
fn a_wrapped_key_opens_by_its_own_key_and_name_only() {
    let wrapped = wrap(&key(5), &key(6), [3; 24], "passphrase");
    assert_eq!(wrapped.len(), 1 + 24 + 32 + 16);
    assert_eq!(unwrap(&wrapped, &key(6), "passphrase").expect("works").bytes(), &[5; 32]);
    let refused = |sealed: &[u8], by: u8, name: &str| unwrap(sealed, &key(by), name).err();
    assert_eq!(refused(&wrapped, 7, "passphrase"), Some(SealError::WrongKey));
    assert_eq!(refused(&wrapped, 6, "passkey"), Some(SealError::WrongKey));
    let as_row = seal_row(&key(6), KEY_ID, [3; 24], "sidelight-key", "passphrase", &[5; 32]);
    assert_eq!(refused(&as_row, 6, "passphrase"), Some(SealError::TooShort), "a record is no key");
    for length in 0..wrapped.len() {
        assert_eq!(refused(&wrapped[..length], 6, "passphrase"), Some(SealError::TooShort), "{length} bytes");
    }
    for at in 0..wrapped.len() {
        let mut flipped = wrapped.clone();
        flipped[at] ^= 1;
        let expected = if at == 0 { SealError::Newer { version: 0 } } else { SealError::WrongKey };
        assert_eq!(refused(&flipped, 6, "passphrase"), Some(expected), "byte {at}");
    }
}

#[test]
fn the_device_counts_as_much_as_the_passphrase() {
    let both = key(1).with_device(&key(2));
    assert_eq!(both.bytes(), key(1).with_device(&key(2)).bytes());
    for other in [key(1).with_device(&key(3)), key(3).with_device(&key(2)), key(2).with_device(&key(1)), key(1)] {
        assert_ne!(both.bytes(), other.bytes());
    }
}

#[test]
fn a_key_is_never_printed() {
    assert_eq!(format!("{:?}", key(200)), "Key");
}

#[test]
fn each_error_is_one_sentence() {
    let errors = [
        SealError::Kdf,
        SealError::Salt,
        SealError::Memory,
        SealError::WrongKey,
        SealError::TooShort,
        SealError::Newer { version: 2 },
        SealError::NoKey,
        SealError::Changed,
    ];
    for error in errors {
        let text = error.to_string();
        assert!(text.ends_with('.') && text.matches(". ").count() == 0 && text.contains(": "), "{text}");
    }
}
