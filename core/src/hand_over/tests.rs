//! Every way a file can be sealed opens again, and every fault has its own sentence.

use std::collections::BTreeSet;
use std::time::Instant;

use super::*;

/// The least work there is, so that tests of everything else take no time.
const LITTLE_WORK: u8 = 1;

const PLAIN: &[u8] = br#"{"format":"sidelight-archive","version":1,"people":[],"visits":[]}"#;

/// From the tests of the age library.
const PUBLIC: &str = "age1t7rxyev2z3rw82stdlrrepyc39nvn86l5078zqkf5uasdy86jp6svpy7pa";
const SECRET: &str = "AGE-SECRET-KEY-1GQ9778VQXMMJVE8SK7J6VT8UJ4HDQAJUVSFCWCM02D8GEWQ72PVQ2Y5J33";

fn by_passphrase(plain: &[u8], passphrase: &str) -> Vec<u8> {
    seal(plain, &To::Passphrase { passphrase, work_factor: LITTLE_WORK }).expect("it seals")
}

fn to_key(plain: &[u8], identity: &Identity) -> Vec<u8> {
    seal(plain, &To::Keys(&[identity.recipient()])).expect("it seals")
}

fn open_with_key(file: &[u8], identity: &Identity) -> Result<Vec<u8>, HandOverError> {
    open(file, &With::Keys(std::slice::from_ref(identity))).map(|plain| plain.to_vec())
}

fn open_with_passphrase(file: &[u8], passphrase: &str) -> Result<Vec<u8>, HandOverError> {
    open(file, &With::Passphrase(passphrase)).map(|plain| plain.to_vec())
}

#[test]
fn what_was_sealed_opens_again_at_every_size() {
    let identity = Identity::generate();
    // Around the chunks of 64 KiB, where an error of one would show.
    for size in [0_usize, 1, 65_535, 65_536, 65_537, 131_072, 1_000_000] {
        let plain: Vec<u8> = (0..size).map(|at| (at % 251) as u8).collect();
        let file = by_passphrase(&plain, "field and river");
        assert_eq!(open_with_passphrase(&file, "field and river").as_deref(), Ok(&plain[..]), "{size} bytes");
        assert_eq!(open_with_key(&to_key(&plain, &identity), &identity).as_deref(), Ok(&plain[..]), "{size} bytes");
        // 182 bytes with a work factor of two digits and 16 for each further chunk, as the format has it.
        let chunks = size.div_ceil(65_536).max(1);
        assert_eq!(file.len(), size + 181 + 16 * (chunks - 1), "{size} bytes");
    }
}

#[test]
fn a_file_for_two_clinics_opens_at_both_and_nowhere_else() {
    let (here, there, elsewhere) = (Identity::generate(), Identity::generate(), Identity::generate());
    let file = seal(PLAIN, &To::Keys(&[here.recipient(), there.recipient()])).expect("it seals");
    assert_eq!(open_with_key(&file, &here).as_deref(), Ok(PLAIN));
    assert_eq!(open_with_key(&file, &there).as_deref(), Ok(PLAIN));
    assert_eq!(open_with_key(&file, &elsewhere), Err(HandOverError::WrongKey));
    // A clinic that has made a new key keeps the old one for files that come late.
    assert_eq!(open(&file, &With::Keys(&[elsewhere, here])).as_deref().map(Vec::as_slice), Ok(PLAIN));
}

#[test]
fn two_files_of_the_same_content_are_not_alike() {
    let identity = Identity::generate();
    assert_ne!(to_key(PLAIN, &identity), to_key(PLAIN, &identity));
    assert_ne!(by_passphrase(PLAIN, "word"), by_passphrase(PLAIN, "word"));
}

#[test]
fn a_passphrase_is_the_same_however_its_accents_are_typed() {
    let (together, apart) = ("p\u{e4}ssw\u{f6}rd \u{e9}t\u{e9}", "pa\u{308}sswo\u{308}rd e\u{301}te\u{301}");
    let file = by_passphrase(PLAIN, apart);
    assert_eq!(open_with_passphrase(&file, together).as_deref(), Ok(PLAIN));
    assert_eq!(open_with_passphrase(&file, apart).as_deref(), Ok(PLAIN));
    // Another program took the letters as they came.
    let mut recipient = age::scrypt::Recipient::new(age::secrecy::SecretString::from(apart));
    recipient.set_work_factor(LITTLE_WORK);
    let theirs = age::encrypt(&recipient, PLAIN).expect("it seals");
    assert_eq!(open_with_passphrase(&theirs, apart).as_deref(), Ok(PLAIN));
    assert_eq!(open_with_passphrase(&theirs, together), Err(HandOverError::WrongPassphrase));
}

#[test]
fn the_work_is_what_was_asked_for() {
    let file = seal(b"", &To::Passphrase { passphrase: "word", work_factor: WORK_FACTOR }).expect("it seals");
    assert_eq!(look(&file), FileKind::SealedByPassphrase { work_factor: 16, armored: false });
    assert_eq!(file.len(), 182);
    assert_eq!(open_with_passphrase(&file, "word").as_deref(), Ok(&b""[..]));
    for work_factor in [0, 21, 64, 255] {
        let refused = seal(b"", &To::Passphrase { passphrase: "word", work_factor });
        assert_eq!(refused, Err(HandOverError::TooMuchWork { asked: work_factor, most: 20 }));
    }
}

#[test]
fn a_file_that_asks_for_huge_work_is_refused_before_any_is_done() {
    let file = by_passphrase(PLAIN, "word");
    let text = |work: &str| {
        let mut changed = file.clone();
        let at = changed.windows(3).position(|three| three == b" 1\n").expect("the work factor stands in the head");
        changed.splice(at + 1..at + 2, work.bytes());
        changed
    };
    let honest = seal(PLAIN, &To::Passphrase { passphrase: "word", work_factor: 15 }).expect("it seals");
    let begun = Instant::now();
    assert!(open_with_passphrase(&honest, "word").is_ok());
    let once = begun.elapsed();
    let begun = Instant::now();
    for (work, asked) in [("21", 21), ("63", 63), ("255", 255), ("999999999999", 255)] {
        let refused = Err(HandOverError::TooMuchWork { asked, most: 20 });
        assert_eq!(open_with_passphrase(&text(work), "word"), refused, "{work}");
    }
    // The least of them is sixty-four times the work of the honest one.
    assert!(begun.elapsed() < once, "{:?} beside {once:?}", begun.elapsed());
    // Numbers that are none, or are written in a second way.
    for work in ["0", "01", "+1", "-1", "1x", "x", "0x10", ""] {
        assert_eq!(open_with_passphrase(&text(work), "word"), Err(HandOverError::Damaged), "{work}");
    }
}

#[test]
fn the_wrong_key_or_passphrase_is_named_as_such() {
    let (identity, other) = (Identity::generate(), Identity::generate());
    let (keyed, phrased) = (to_key(PLAIN, &identity), by_passphrase(PLAIN, "right horse"));
    assert_eq!(open_with_key(&keyed, &other), Err(HandOverError::WrongKey));
    assert_eq!(open_with_passphrase(&phrased, "right  horse"), Err(HandOverError::WrongPassphrase));
    assert_eq!(open_with_passphrase(&phrased, ""), Err(HandOverError::NoPassphrase));
    assert_eq!(open_with_passphrase(&keyed, "right horse"), Err(HandOverError::NeedsKey));
    assert_eq!(open_with_key(&phrased, &identity), Err(HandOverError::NeedsPassphrase));
    assert_eq!(open(&keyed, &With::Keys(&[])).map(|_| ()), Err(HandOverError::NoKey));
    assert_eq!(seal(PLAIN, &To::Keys(&[])), Err(HandOverError::NoKey));
    let nothing = To::Passphrase { passphrase: "", work_factor: LITTLE_WORK };
    assert_eq!(seal(PLAIN, &nothing), Err(HandOverError::NoPassphrase));
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let identity = Identity::generate();
    let phrased = by_passphrase(PLAIN, "word");
    let keyed = to_key(PLAIN, &identity);
    for end in 0..phrased.len() {
        let refused = open_with_passphrase(&phrased[..end], "word");
        let expected = if end == 0 { HandOverError::Empty } else { HandOverError::Truncated };
        assert_eq!(refused, Err(expected), "cut at byte {end}");
    }
    for end in 1..keyed.len() {
        assert_eq!(open_with_key(&keyed[..end], &identity), Err(HandOverError::Truncated), "cut at byte {end}");
    }
    // At the end of a chunk nothing but the missing mark of the last one tells.
    let long = to_key(&[7; 200_000], &identity);
    let content = long.len() - 200_000 - 4 * 16;
    for chunks in 0..3 {
        let cut = &long[..content + chunks * (65_536 + 16)];
        assert_eq!(open_with_key(cut, &identity), Err(HandOverError::Truncated), "{chunks} chunks");
    }
}

#[test]
fn no_flipped_bit_goes_unseen() {
    let identity = Identity::generate();
    let phrased = by_passphrase(PLAIN, "word");
    let keyed = to_key(PLAIN, &identity);
    let mut told = BTreeSet::new();
    for (file, is_keyed) in [(&phrased, false), (&keyed, true)] {
        for at in 0..file.len() {
            // The lowest, the one between small and capital letters, and the one that is never set in text.
            for bit in [0, 5, 7] {
                let mut changed = file.clone();
                changed[at] ^= 1 << bit;
                // Little work even where the flip raises the work factor.
                let limits = Limits { work_factor: 9, ..Limits::default() };
                let keys = [identity.clone()];
                let with = if is_keyed { With::Keys(&keys) } else { With::Passphrase("word") };
                let error = open_within(&changed, &with, &limits).map(|_| ()).expect_err("a flip must be seen");
                told.insert(error.to_string());
            }
        }
    }
    assert!(told.len() > 4, "{told:?}");
}

#[test]
fn a_flip_in_the_middle_is_told_from_a_cut() {
    let identity = Identity::generate();
    let mut file = to_key(&[7; 200_000], &identity);
    file[100_000] ^= 1;
    assert_eq!(open_with_key(&file, &identity), Err(HandOverError::Damaged));
    let mut longer = to_key(PLAIN, &identity);
    longer.extend([0; 70_000]);
    assert_eq!(open_with_key(&longer, &identity), Err(HandOverError::Damaged));
}

#[test]
fn what_is_no_hand_over_file_is_named() {
    let cases: [(&[u8], HandOverError); 15] = [
        (b"", HandOverError::Empty),
        (b" \r\n\t", HandOverError::Empty),
        (b"\xef\xbb\xbf\n", HandOverError::Empty),
        (b"\x1f\x8b\x08\x00", HandOverError::Foreign(Foreign::Gzip)),
        (b"PK\x03\x04\x14\x00", HandOverError::Foreign(Foreign::Zip)),
        (b"7z\xbc\xaf\x27\x1c", HandOverError::Foreign(Foreign::Packed)),
        (b"%PDF-1.7\n", HandOverError::Foreign(Foreign::Pdf)),
        (b"\xff\xd8\xff\xe0", HandOverError::Foreign(Foreign::Picture)),
        (SECRET.as_bytes(), HandOverError::Foreign(Foreign::Key)),
        (b"# created: today\nAGE-SECRET-KEY-1", HandOverError::Foreign(Foreign::Key)),
        (b"person,visit\r\n1,2\r\n", HandOverError::Foreign(Foreign::Text)),
        (b"\x00\x01\x02\x03", HandOverError::Foreign(Foreign::Other)),
        (b"\xef\xbb\xbf {\"format\":1}", HandOverError::NotSealed),
        (b"age-encryption.org/v2\nwhatever comes then", HandOverError::Newer),
        (b"age-encryption.org/v1\n-> ssh-ed25519 abcd\n\n--- ", HandOverError::Truncated),
    ];
    for (file, expected) in cases {
        assert_eq!(open_with_passphrase(file, "word"), Err(expected), "{}", String::from_utf8_lossy(file));
    }
    assert_eq!(look(b""), FileKind::Empty);
    assert_eq!(look(PLAIN), FileKind::Plain);
    assert_eq!(look(b"PK\x03\x04"), FileKind::Unreadable(HandOverError::Foreign(Foreign::Zip)));
    assert_eq!(look(b"age-encryption.org/v2\n"), FileKind::Unreadable(HandOverError::Newer));
}

#[test]
fn a_file_written_as_text_opens_too() {
    let identity = Identity::generate();
    let text = armored(&to_key(&[9; 100_000], &identity));
    assert_eq!(look(&text), FileKind::SealedToKey { armored: true });
    assert_eq!(open_with_key(&text, &identity).map(|plain| plain.len()), Ok(100_000));
    // Mail puts blank lines around it, and other line ends.
    let mailed = [b"\r\n\n", &String::from_utf8_lossy(&text).replace('\n', "\r\n").into_bytes()[..], b" \n"].concat();
    assert_eq!(open_with_key(&mailed, &identity).map(|plain| plain.len()), Ok(100_000));
    let phrased = armored(&by_passphrase(PLAIN, "word"));
    assert_eq!(look(&phrased), FileKind::SealedByPassphrase { work_factor: 1, armored: true });
    assert_eq!(open_with_passphrase(&phrased, "word").as_deref(), Ok(PLAIN));
    assert_eq!(open_with_key(&text[..text.len() / 2], &identity), Err(HandOverError::Truncated));
    let mut changed = text.clone();
    changed[5_000] = b'!';
    assert_eq!(open_with_key(&changed, &identity), Err(HandOverError::Damaged));
    let signed = String::from_utf8_lossy(&text).replace("AGE ENCRYPTED FILE", "PGP MESSAGE").into_bytes();
    assert_eq!(open_with_key(&signed, &identity), Err(HandOverError::Foreign(Foreign::Text)));
}

#[test]
fn what_is_too_large_is_refused_unread() {
    let limits = Limits::default();
    let large = vec![b'a'; 100_000_000];
    assert_eq!(open_with_passphrase(&large, "word"), Err(HandOverError::TooLarge { limit: limits.file }));
    let mut head = by_passphrase(PLAIN, "word");
    head.resize(limits.file + 1, 0);
    assert_eq!(open_with_passphrase(&head, "word"), Err(HandOverError::TooLarge { limit: limits.file }));
    let refused = seal(&vec![0; limits.plain + 1], &To::Keys(&[Identity::generate().recipient()]));
    assert_eq!(refused, Err(HandOverError::TooMuchInside { limit: limits.plain }));
}

#[test]
fn a_content_above_the_limit_is_refused_before_it_is_whole() {
    let identity = [Identity::generate()];
    let file = to_key(&[1; 300_000], &identity[0]);
    let limit = |plain| Limits { plain, ..Limits::default() };
    let opened = |plain| open_within(&file, &With::Keys(&identity), &limit(plain)).map(|plain| plain.len());
    assert_eq!(opened(300_000), Ok(300_000));
    assert_eq!(opened(299_999), Err(HandOverError::TooMuchInside { limit: 299_999 }));
    assert_eq!(opened(65_536), Err(HandOverError::TooMuchInside { limit: 65_536 }));
}

#[test]
fn a_head_without_end_is_left_after_sixteen_kilobytes() {
    let endless = |length: usize| {
        let mut file = b"age-encryption.org/v1\n".to_vec();
        while file.len() < length {
            file.extend_from_slice(b"-> a\n\n");
        }
        file
    };
    let quickest = |file: &[u8]| {
        let once = || {
            let begun = Instant::now();
            assert_eq!(open_with_passphrase(file, "word"), Err(HandOverError::Damaged));
            assert_eq!(look(file), FileKind::Unreadable(HandOverError::Damaged));
            assert_eq!(look(&armored(file)), FileKind::Unreadable(HandOverError::Damaged));
            begun.elapsed()
        };
        (0..3).map(|_| once()).min().unwrap_or_default()
    };
    // Read to its end by a parser that goes back at every line, the larger one would take ten thousand times as long.
    let (small, large) = (quickest(&endless(20_000)), quickest(&endless(2_000_000)));
    assert!(large < 2_000 * small, "{small:?} for 20 kB, {large:?} for 2 MB");
}

#[test]
fn every_fault_has_a_sentence_of_its_own_that_says_what_to_do() {
    let all = [
        HandOverError::Empty,
        HandOverError::TooLarge { limit: 1 << 26 },
        HandOverError::TooMuchInside { limit: 1 << 26 },
        HandOverError::Foreign(Foreign::Zip),
        HandOverError::NotSealed,
        HandOverError::Newer,
        HandOverError::Truncated,
        HandOverError::Damaged,
        HandOverError::WrongKey,
        HandOverError::UnknownKey,
        HandOverError::WrongPassphrase,
        HandOverError::NeedsKey,
        HandOverError::NeedsPassphrase,
        HandOverError::TooMuchWork { asked: 30, most: 20 },
        HandOverError::NoKey,
        HandOverError::NoPassphrase,
        HandOverError::CannotSeal,
    ];
    let sentences: BTreeSet<String> = all.iter().map(ToString::to_string).collect();
    assert_eq!(sentences.len(), all.len());
    for sentence in sentences {
        assert!(sentence.ends_with('.') && sentence.contains(". ") || sentence.contains(": "), "{sentence}");
    }
}

#[test]
fn a_key_is_read_in_small_and_in_capital_letters_and_in_no_mixture() {
    let key = Recipient::parse(PUBLIC).expect("a key");
    assert_eq!(key.to_string(), PUBLIC);
    assert_eq!(Recipient::parse(&key.code()).as_ref(), Ok(&key));
    assert_eq!(Recipient::parse(&format!("\n {PUBLIC}\r\n")).as_ref(), Ok(&key));
    let in_a_code = |c: char| c.is_ascii_digit() || c.is_ascii_uppercase();
    assert!(key.code().len() == 62 && key.code().chars().all(in_a_code));
    assert_eq!(Recipient::parse(&PUBLIC.replacen("t7rx", "T7RX", 1)), Err(NotAKey::Damaged));
    let identity = &Identity::parse_all(SECRET).expect("a secret key")[0];
    assert_eq!(identity.recipient(), key);
    assert_eq!(*identity.secret(), SECRET);
}

#[test]
fn what_is_no_key_is_named() {
    let cases = [
        ("", NotAKey::Empty),
        ("  \n", NotAKey::Empty),
        (SECRET, NotAKey::Secret),
        (&SECRET.to_lowercase(), NotAKey::Secret),
        (&format!("# created: x\n# public key: {PUBLIC}\n{SECRET}\n"), NotAKey::Secret),
        ("correct horse battery staple", NotAKey::Other),
        ("https://example.org/", NotAKey::Other),
        ("ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIE me@desk", NotAKey::Ssh),
        ("ecdsa-sha2-nistp256 AAAA", NotAKey::Ssh),
        (&PUBLIC[..61], NotAKey::Damaged),
        (&PUBLIC.replacen('7', "8", 1), NotAKey::Damaged),
        (&PUBLIC.replacen('l', "1", 1), NotAKey::Damaged),
        ("age1yubikey1q2w7u3vpya839jxxuq8g0sedh3d740d4xvn639sqhr95ejj8vu3hyfumptt", NotAKey::OtherKind),
        (&format!("age1pq1{}", "q".repeat(1900)), NotAKey::OtherKind),
        ("SIDELIGHT RECEIPT 1 3 00FF", NotAKey::Other),
    ];
    for (text, expected) in cases {
        assert_eq!(Recipient::parse(text), Err(expected), "{text}");
    }
    for (text, expected) in
        [("", NotAKey::Empty), ("# nothing\n", NotAKey::Empty), (PUBLIC, NotAKey::Public), ("word", NotAKey::Other)]
    {
        assert_eq!(Identity::parse_all(text).map(|_| ()), Err(expected), "{text}");
    }
    assert_eq!(Identity::parse_all(&SECRET[..70]).map(|_| ()), Err(NotAKey::Damaged));
    assert_eq!(Identity::parse_all("AGE-PLUGIN-YUBIKEY-1QQQ").map(|_| ()), Err(NotAKey::OtherKind));
}

#[test]
fn a_key_file_is_read_back_and_names_the_public_half() {
    let identity = Identity::generate();
    let file = identity.key_file();
    assert!(file.contains(&fingerprint(&identity.recipient())));
    let read = Identity::parse_all(&format!("{}\r\n{SECRET}\r\n", *file)).expect("two keys");
    assert_eq!(read.len(), 2);
    assert_eq!(read[0].recipient(), identity.recipient());
    assert_eq!(read[1].recipient().to_string(), PUBLIC);
}

#[test]
fn keys_that_keep_nothing_secret_are_refused() {
    // The public keys of the points listed with `is_weak`, each also with the bit that does not count.
    let prime = |low: u8| [&[low][..], &[0xff; 30], &[0x7f]].concat();
    let small = |low: u8| [&[low][..], &[0; 31]].concat();
    let points = [small(0), small(1), prime(0xec), prime(0xed), prime(0xee)];
    let points = points.into_iter().chain(key::ORDER_EIGHT.iter().map(|point| point.to_vec()));
    let mut tried = 0;
    for point in points {
        for top in [0, 0x80] {
            let mut point = point.clone();
            point[31] |= top;
            let text = bech32_of(&point);
            assert!(text.parse::<age::x25519::Recipient>().is_ok(), "the library takes {text}");
            assert!(gives_nought(&point), "{text} is no such point");
            assert_eq!(Recipient::parse(&text), Err(NotAKey::Weak), "{text}");
            assert_eq!(Recipient::parse(&text.to_uppercase()), Err(NotAKey::Weak), "{text}");
            tried += 1;
        }
    }
    assert_eq!(tried, 14);
    assert!(!gives_nought(&small(9)));
    assert!(Recipient::parse(&bech32_of(&small(9))).is_ok(), "nine is the base point");
}

#[test]
fn a_fingerprint_is_six_words_that_depend_on_the_whole_key() {
    let key = Recipient::parse(PUBLIC).expect("a key");
    assert_eq!(fingerprint(&key).split_whitespace().count(), 6);
    assert_eq!(fingerprint(&key), fingerprint(&Recipient::parse(&key.code()).expect("a key")));
    let others: BTreeSet<String> = (0..200).map(|_| fingerprint(&Identity::generate().recipient())).collect();
    assert_eq!(others.len(), 200);
}

#[test]
fn a_secret_is_shown_to_nobody() {
    let identity = Identity::generate();
    let shown = format!("{identity:?}");
    assert!(!shown.contains("SECRET") && !shown.contains(&identity.secret()[20..]), "{shown}");
}

#[test]
fn names_of_files_hold_a_date_and_a_word() {
    let made = crate::calendar::parse_date("2026-11-26").expect("a date");
    assert_eq!(file_name(made, "Meadow", true), "sidelight-2026-11-26-meadow.age");
    assert_eq!(file_name(made, "../me a\u{e4}dow", false), "sidelight-2026-11-26-meadow.json");
}

fn armored(binary: &[u8]) -> Vec<u8> {
    as_text(binary).expect("it writes")
}

/// Asks the library itself: it reports a share with which the shared key is nought as a broken head.
fn gives_nought(point: &[u8]) -> bool {
    let body = "A".repeat(43);
    let head = format!("age-encryption.org/v1\n-> X25519 {}\n{body}\n--- {body}\n0123456789abcdef", base64(point));
    let identity = age::x25519::Identity::generate();
    let decryptor = age::Decryptor::new(head.as_bytes()).expect("a head");
    let opened = decryptor.decrypt(std::iter::once(&identity as &dyn age::Identity));
    matches!(opened, Err(age::DecryptError::InvalidHeader))
}

fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    letters(bytes, 6).map(|five| char::from(LETTERS[five])).collect()
}

/// BIP 173, with its checksum.
fn bech32_of(bytes: &[u8]) -> String {
    const LETTERS: &[u8] = b"qpzry9x8gf2tvdw0s3jn54khce6mua7l";
    let data: Vec<usize> = letters(bytes, 5).collect();
    let name = b"age";
    let expanded = name.iter().map(|c| usize::from(c >> 5)).chain([0]).chain(name.iter().map(|c| usize::from(c & 31)));
    let mut check = 1_usize;
    for value in expanded.chain(data.iter().copied()).chain([0; 6]) {
        let top = check >> 25;
        check = (check & 0x1ff_ffff) << 5 ^ value;
        for (at, generator) in [0x3b6a_57b2, 0x2650_8e6d, 0x1ea1_19fa, 0x3d42_33dd, 0x2a14_62b3].iter().enumerate() {
            if top >> at & 1 == 1 {
                check ^= generator;
            }
        }
    }
    let check = check ^ 1;
    let checksum = (0..6).map(|at| check >> (5 * (5 - at)) & 31);
    format!("age1{}", data.into_iter().chain(checksum).map(|five| char::from(LETTERS[five])).collect::<String>())
}

fn letters(bytes: &[u8], bits: usize) -> impl Iterator<Item = usize> {
    let all: Vec<u8> = bytes.iter().flat_map(|byte| (0..8).rev().map(move |at| byte >> at & 1)).collect();
    let groups: Vec<usize> = all
        .chunks(bits)
        .map(|group| (0..bits).fold(0, |value, at| value << 1 | usize::from(group.get(at).copied().unwrap_or(0))))
        .collect();
    groups.into_iter()
}
