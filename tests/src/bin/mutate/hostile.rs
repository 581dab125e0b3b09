//! Files made to do harm: huge, endlessly nested, or much larger than they look. Each is refused, quickly and in little
//! memory.

use std::time::Instant;

use flate2::Compression;
use flate2::write::{DeflateEncoder, GzEncoder};
use sidelight_core::archive;
use sidelight_core::hand_over::{FileKind, Identity, To, With, look, open, seal};

use crate::measured;

/// The longest a refusal may take, in seconds; a computer that does much else at the same time is slow.
const PATIENCE: f64 = 10.0;

/// What a bomb becomes when it is unpacked.
const UNPACKED: usize = 200 << 20;

struct Hostile {
    name: &'static str,
    bytes: Vec<u8>,
    /// The most memory beside the file itself.
    ceiling: usize,
}

/// Tries them all and says what went wrong.
pub fn run() -> Vec<String> {
    let mut faults = Vec::new();
    println!("Files made to do harm:");
    for file in files() {
        let begun = Instant::now();
        let (refused, peak) = measured(|| refused(&file.bytes));
        let seconds = begun.elapsed().as_secs_f64();
        let words = refused.as_deref().unwrap_or("taken");
        println!(
            "  {:32} {:9} bytes, {:6.1} ms, {:6} KiB: {}",
            file.name,
            file.bytes.len(),
            seconds * 1_000.0,
            peak / 1024,
            words.split(". ").next().unwrap_or(words)
        );
        if refused.is_none() {
            faults.push(format!("{} is taken", file.name));
        }
        if peak > file.ceiling || seconds > PATIENCE {
            faults.push(format!("{} takes {peak} bytes and {seconds:.1} s", file.name));
        }
    }
    faults
}

/// As a screen takes a file: looked at, opened by a passphrase, and read as an archive; the sentences of both refusals.
fn refused(bytes: &[u8]) -> Option<String> {
    if look(bytes) == FileKind::Empty {
        return None;
    }
    let sealed = open(bytes, &With::Passphrase("a passphrase")).err()?;
    let plain = archive::read(bytes).err()?;
    Some(if bytes.trim_ascii_start().starts_with(b"{") { plain.to_string() } else { sealed.to_string() })
}

fn files() -> Vec<Hostile> {
    let little = 1 << 20;
    let identity = Identity::generate();
    let sealed = seal(&[b'x'; 1_000], &To::Keys(&[identity.recipient()])).expect("it seals");
    let head_end = sealed.windows(4).position(|four| four == b"--- ").expect("a head");
    let with_work = |work: &str| {
        let salt = "A".repeat(22);
        let body = "A".repeat(43);
        format!("age-encryption.org/v1\n-> scrypt {salt} {work}\n{body}\n--- {body}\n{}", "x".repeat(1_000))
            .into_bytes()
    };
    let endless_head = [&sealed[..head_end], &b"-> a b c\n\n".repeat(2_000_000)].concat();
    let armor_without_end = [b"-----BEGIN AGE ENCRYPTED FILE-----\n".to_vec(), vec![b'A'; 20_000_000]].concat();
    vec![
        Hostile { name: "100 MB of letters", bytes: vec![b'a'; 100_000_000], ceiling: little },
        Hostile { name: "100 MB behind a sealed head", bytes: padded(&sealed, 100_000_000), ceiling: little },
        Hostile { name: "gzip bomb", bytes: gzip_bomb(), ceiling: little },
        Hostile { name: "zip bomb", bytes: zip_bomb(), ceiling: little },
        Hostile { name: "nested lists", bytes: nested(b"[", 20_000_000), ceiling: little },
        Hostile { name: "nested objects", bytes: nested(b"{\"a\":", 20_000_000), ceiling: little },
        Hostile {
            name: "a text without end",
            bytes: [&b"{\"format\":\""[..], &[b'x'; 20_000_000]].concat(),
            ceiling: little,
        },
        Hostile { name: "work of 2^21", bytes: with_work("21"), ceiling: little },
        Hostile { name: "work of 2^63", bytes: with_work("63"), ceiling: little },
        Hostile { name: "work of 2^(10^40)", bytes: with_work(&"9".repeat(40)), ceiling: little },
        Hostile { name: "a head without end", bytes: endless_head, ceiling: little },
        // The library keeps one line of a text, and there is only one.
        Hostile { name: "a line without end", bytes: armor_without_end, ceiling: 96 << 20 },
    ]
}

fn padded(start: &[u8], length: usize) -> Vec<u8> {
    let mut bytes = start.to_vec();
    bytes.resize(length, 0);
    bytes
}

fn nested(opening: &[u8], length: usize) -> Vec<u8> {
    [&br#"{"format":"sidelight-archive","version":1,"x":"#[..], &opening.repeat(length / opening.len())].concat()
}

fn gzip_bomb() -> Vec<u8> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::fast());
    fill(&mut packer);
    packer.finish().expect("it packs")
}

/// One entry, as the format has it (APPNOTE 6.3, section 4.3.7): a head, a name, and what is packed.
fn zip_bomb() -> Vec<u8> {
    let mut packer = DeflateEncoder::new(Vec::new(), Compression::fast());
    fill(&mut packer);
    let packed = packer.finish().expect("it packs");
    let mut bytes = b"PK\x03\x04\x14\0\0\0\x08\0\0\0\0\0\0\0\0\0".to_vec();
    bytes.extend_from_slice(&(packed.len() as u32).to_le_bytes());
    bytes.extend_from_slice(&(UNPACKED as u32).to_le_bytes());
    bytes.extend_from_slice(b"\x0c\0\0\0archive.json");
    bytes.extend_from_slice(&packed);
    bytes
}

fn fill(packer: &mut impl std::io::Write) {
    let block = vec![b' '; 1 << 20];
    for _ in 0..UNPACKED >> 20 {
        packer.write_all(&block).expect("it packs");
    }
}
