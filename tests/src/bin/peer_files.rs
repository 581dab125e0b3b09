//! Writes hand-over files for other programs, and opens theirs: `cargo run -p sidelight-tests --bin peer_files -- write
//! FOLDER`, or `open FOLDER`. The programs in `tests/peers/age` call it.
//!
//! A folder holds `list.json` and the files it names: sealed ones, and beside each what must come out.

use std::fs;
use std::path::Path;
use std::process::ExitCode;

use serde_json::{Value, json};
use sidelight_core::hand_over::{HandOverError, Identity, To, WORK_FACTOR, With, open, seal};
use sidelight_core::seal::{Kdf, Key, KeyId, derive, seal_row};

/// Around the chunks of the format, and a whole archive's worth.
const SIZES: [usize; 7] = [0, 1, 65_535, 65_536, 65_537, 200_000, 1_000_000];

/// Letters that keyboards and programs treat differently, all of them composed.
const PASSPHRASES: [&str; 6] = [
    "correct horse battery staple",
    "p\u{e4}ssw\u{f6}rd 1",
    "\u{43a}\u{43b}\u{44e}\u{447} \u{434}\u{43b}\u{44f} \u{43a}\u{43b}\u{438}\u{43d}\u{438}\u{43a}\u{438}",
    "\u{9375}\u{3068}\u{5ddd}",
    "\u{1f511}\u{1f3de}\u{fe0f} \u{0}\u{7f}",
    " blanks at both ends ",
];

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["write", folder] => write(Path::new(folder)),
        ["open", folder] => open_all(Path::new(folder)),
        _ => Err("Usage: peer_files write FOLDER, or peer_files open FOLDER".to_owned()),
    };
    match done {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn write(folder: &Path) -> Result<String, String> {
    let identity = Identity::generate();
    let other = Identity::generate();
    let mut files = Vec::new();
    let mut add = |sealed: Vec<u8>, plain: &[u8], mut entry: Value| -> Result<(), String> {
        let name = format!("{}.age", files.len());
        put(folder, &name, &sealed)?;
        put(folder, &format!("{name}.plain"), plain)?;
        entry["file"] = json!(name);
        files.push(entry);
        Ok(())
    };
    for size in SIZES {
        let plain = content(size);
        let keyed = seal(&plain, &To::Keys(&[other.recipient(), identity.recipient()])).map_err(sentence)?;
        add(keyed, &plain, json!({ "with": "key" }))?;
        let passphrase = PASSPHRASES[0];
        let phrased = seal(&plain, &To::Passphrase { passphrase, work_factor: WORK_FACTOR }).map_err(sentence)?;
        add(phrased, &plain, json!({ "with": "passphrase", "passphrase": passphrase }))?;
    }
    for passphrase in PASSPHRASES {
        let sealed = seal(b"words", &To::Passphrase { passphrase, work_factor: WORK_FACTOR + 1 }).map_err(sentence)?;
        add(sealed, b"words", json!({ "with": "passphrase", "passphrase": passphrase }))?;
    }
    let list = json!({
        "identity": identity.secret().as_str(),
        "recipient": identity.recipient().to_string(),
        "code": identity.recipient().code(),
        "key_file": identity.key_file().as_str(),
        "files": files,
        "derived": derived()?,
        "rows": rows(),
    });
    put(folder, "list.json", list.to_string().as_bytes())?;
    Ok(format!("{} files written", files.len()))
}

/// Keys from passphrases, with what they were derived from.
fn derived() -> Result<Vec<Value>, String> {
    let salt: Vec<u8> = (0..16).collect();
    let settings = [Kdf::LEAST, Kdf::default(), Kdf { memory_kib: 131_072, passes: 2, lanes: 2 }];
    let cases = settings.into_iter().flat_map(|kdf| PASSPHRASES.map(|passphrase| (kdf, passphrase)));
    let derive = |(kdf, passphrase): (Kdf, &str)| {
        let key = derive(passphrase, &salt, kdf).map_err(|error| error.to_string())?;
        Ok(json!({
            "passphrase": passphrase, "salt": hex(&salt), "memory_kib": kdf.memory_kib, "passes": kdf.passes,
            "lanes": kdf.lanes, "key": hex(key.bytes()),
        }))
    };
    cases.map(derive).collect()
}

/// Records sealed at rest, with the key and the place they belong to.
fn rows() -> Vec<Value> {
    let key = Key::from_bytes(std::array::from_fn(|at| (at * 7) as u8));
    let row = |size: usize, id: &str| {
        let nonce = std::array::from_fn(|at| (at + size) as u8);
        let plain = content(size);
        let row = seal_row(&key, KeyId(*b"peer key"), nonce, "visit", id, &plain);
        json!({ "key": hex(key.bytes()), "kind": "visit", "id": id, "plain": hex(&plain), "row": hex(&row) })
    };
    [(0, "a"), (1, ""), (1_000, "0198c0de-0000-7000-8000-000000000001"), (70_000, "\u{e4}")]
        .into_iter()
        .map(|(size, id)| row(size, id))
        .collect()
}

fn open_all(folder: &Path) -> Result<String, String> {
    let list: Value = serde_json::from_slice(&get(folder, "list.json")?).map_err(|error| error.to_string())?;
    let identities =
        Identity::parse_all(list["identity"].as_str().unwrap_or_default()).map_err(|why| why.to_string())?;
    let files = list["files"].as_array().ok_or("list.json names no files")?;
    let (mut opened, mut refused) = (0, 0);
    for entry in files {
        let name = entry["file"].as_str().ok_or("a file has no name")?;
        let sealed = get(folder, name)?;
        let with = match entry["with"].as_str() {
            Some("key") => With::Keys(&identities),
            _ => With::Passphrase(entry["passphrase"].as_str().unwrap_or_default()),
        };
        match (open(&sealed, &with), entry["must"].as_str()) {
            (Ok(plain), None) if *plain == get(folder, &format!("{name}.plain"))? => opened += 1,
            (Err(_), Some("be refused")) => refused += 1,
            (Ok(_), _) => return Err(format!("{name} must not open, or not as this")),
            (Err(why), _) => return Err(format!("{name} does not open: {why}")),
        }
    }
    Ok(format!("{opened} of {} files of theirs open here, {refused} are refused as they must be", files.len()))
}

/// Bytes that are not alike in any two chunks.
fn content(size: usize) -> Vec<u8> {
    (0..size).map(|at| (at % 251 + at / 65_536) as u8).collect()
}

fn put(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), String> {
    fs::write(folder.join(name), bytes).map_err(|error| format!("{name} cannot be written: {error}"))
}

fn get(folder: &Path, name: &str) -> Result<Vec<u8>, String> {
    fs::read(folder.join(name)).map_err(|error| format!("{name} cannot be read: {error}"))
}

fn sentence(error: HandOverError) -> String {
    error.to_string()
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
