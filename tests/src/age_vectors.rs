//! The public test vectors of the age format (CCTV, https://c2sp.org/CCTV/age), as the age library ships them, against
//! the path by which a hand-over file is opened.
//!
//! The vectors are read from the library's package where Cargo keeps it, so they are always those of its version.

use std::collections::BTreeMap;
use std::fs;
use std::io::Read as _;
use std::path::PathBuf;
use std::process::Command;

use sha2::{Digest as _, Sha256};
use sidelight_core::hand_over::{FileKind, HandOverError, Identity, With, look, open};

/// Vectors in the package when this was written: fewer means that the wrong folder was read.
const VECTORS: usize = 123;

#[test]
fn every_vector_ends_as_its_authors_say() {
    let mut counts: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let mut faults = Vec::new();
    let mut armored = 0;
    for path in files() {
        let name = path.file_name().expect("a file").to_string_lossy().into_owned();
        let vector = Vector::read(&fs::read(&path).expect("a vector"));
        let got = vector.opened();
        let agreed = vector.agrees(&got);
        armored += usize::from(vector.armored);
        let count = counts.entry(vector.expect.clone()).or_default();
        count.0 += 1;
        count.1 += usize::from(agreed);
        if !agreed {
            faults.push(format!("{name}: expected {}, got {got:?}", vector.expect));
        }
    }
    let run: usize = counts.values().map(|count| count.0).sum();
    let agreed: usize = counts.values().map(|count| count.1).sum();
    println!("age vectors: {run} run, {agreed} agreed, {armored} of them written as text");
    for (expect, (run, agreed)) in &counts {
        println!("  {expect:16} {run:3} run, {agreed:3} agreed");
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(run >= VECTORS, "only {run} vectors were found");
    assert_eq!(counts.len(), 6, "{counts:?}");
}

#[test]
fn a_wrong_expectation_is_noticed() {
    let path = files().into_iter().find(|path| path.ends_with("x25519")).expect("the plainest vector");
    let bytes = fs::read(path).expect("a vector");
    let mut vector = Vector::read(&bytes);
    assert!(vector.agrees(&vector.opened()));
    vector.payload = Some("00".repeat(32));
    assert!(!vector.agrees(&vector.opened()));
    vector.expect = "HMAC failure".to_owned();
    assert!(!vector.agrees(&vector.opened()));
}

/// A file of the package, and what has to come of it.
struct Vector {
    expect: String,
    payload: Option<String>,
    identities: Vec<String>,
    passphrases: Vec<String>,
    armored: bool,
    file: Vec<u8>,
}

impl Vector {
    /// A head of `name: value` lines, a blank line, and the file, which may be packed.
    fn read(bytes: &[u8]) -> Vector {
        let end = bytes.windows(2).position(|two| two == b"\n\n").expect("a head and a file");
        let head = std::str::from_utf8(&bytes[..end]).expect("a head is text");
        let all = |name: &str| -> Vec<String> {
            head.lines().filter_map(|line| line.strip_prefix(name)?.strip_prefix(": ")).map(String::from).collect()
        };
        let mut file = bytes[end + 2..].to_vec();
        if all("compressed") == ["zlib"] {
            let mut unpacked = Vec::new();
            flate2::read::ZlibDecoder::new(&file[..]).read_to_end(&mut unpacked).expect("it unpacks");
            file = unpacked;
        }
        Vector {
            expect: all("expect").concat(),
            payload: all("payload").pop(),
            identities: all("identity"),
            passphrases: all("passphrase"),
            armored: all("armored") == ["yes"],
            file,
        }
    }

    /// With the key, or with the passphrase where there is no key.
    fn opened(&self) -> Result<String, HandOverError> {
        let identities = Identity::parse_all(&self.identities.join("\n")).unwrap_or_default();
        let keyed = With::Keys(&identities);
        let phrased = With::Passphrase(self.passphrases.first().map_or("", String::as_str));
        let with = if identities.is_empty() { phrased } else { keyed };
        let plain = open(&self.file, &with)?;
        // What opens is never called something else from outside.
        assert!(!matches!(look(&self.file), FileKind::Empty | FileKind::Plain | FileKind::Unreadable(_)));
        Ok(Sha256::digest(&plain).iter().map(|byte| format!("{byte:02x}")).collect())
    }

    fn agrees(&self, got: &Result<String, HandOverError>) -> bool {
        let expect = self.expect.as_str();
        match got {
            Ok(digest) => expect == "success" && Some(digest) == self.payload.as_ref(),
            Err(error) => match error {
                HandOverError::Damaged | HandOverError::Truncated => {
                    ["header failure", "payload failure", "armor failure", "HMAC failure"].contains(&expect)
                }
                HandOverError::WrongKey | HandOverError::WrongPassphrase => expect == "no match",
                // A stanza of an unknown kind is nobody's; here nothing else is in the head.
                HandOverError::UnknownKey => ["no match", "header failure"].contains(&expect),
                HandOverError::TooMuchWork { .. } | HandOverError::Newer => expect == "header failure",
                // A passphrase stanza where a key is at hand, in a head that nobody may write.
                HandOverError::NeedsPassphrase | HandOverError::NeedsKey => expect == "header failure",
                HandOverError::Foreign(_) | HandOverError::Empty => {
                    (self.armored && expect == "armor failure") || (self.file.is_empty() && expect == "header failure")
                }
                HandOverError::TooLarge { .. }
                | HandOverError::TooMuchInside { .. }
                | HandOverError::NotSealed
                | HandOverError::NoKey
                | HandOverError::NoPassphrase
                | HandOverError::CannotSeal => false,
            },
        }
    }
}

/// The vectors in the package of the age library.
fn files() -> Vec<PathBuf> {
    // Only what this computer needs, so that nothing has to be fetched.
    let host = Command::new("rustc").arg("-vV").output().expect("rustc says what it compiles for");
    let host =
        String::from_utf8_lossy(&host.stdout).lines().find_map(|line| line.strip_prefix("host: ").map(String::from));
    let listed = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform"])
        .arg(host.expect("a host"))
        .current_dir(crate::repository::root())
        .output()
        .expect("cargo lists the packages");
    assert!(listed.status.success(), "{}", String::from_utf8_lossy(&listed.stderr));
    let listed: serde_json::Value = serde_json::from_slice(&listed.stdout).expect("JSON");
    let packages = listed["packages"].as_array().expect("a list of packages");
    let age = packages.iter().find(|package| package["name"] == "age").expect("the age library is used");
    let manifest = PathBuf::from(age["manifest_path"].as_str().expect("a path"));
    let folder = manifest.with_file_name("tests").join("testdata/testkit");
    let mut files: Vec<PathBuf> = fs::read_dir(&folder)
        .unwrap_or_else(|error| {
            panic!("the package of the age library has no vectors in {}: {error}", folder.display())
        })
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    files
}
