//! What is read from others: examples of each kind, what must hold of whatever is read, and how much memory it may take.

use std::fs;
use std::path::Path;

use sidelight_core::advice;
use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::catalogue::Language;
use sidelight_core::exercise;
use sidelight_core::export::Case;
use sidelight_core::export::table::{self, Who};
use sidelight_core::hand_over::{FileKind, Identity, Limits, Recipient, To, With, look, open_within, seal};
use sidelight_core::merge;
use sidelight_core::receipt::{self, HandedOver, Receipt, Said, VisitRef};
use sidelight_core::seal::{Key, KeyId, open_row, seal_row};
use sidelight_core::sheet::{Ended, Entry, Log, Sheet, Spoken};
use sidelight_core::tolerance::{self, Rating};
use sidelight_tests::odd_records::{addenda, fill_with_text, odd_text, some};

/// The largest example that is changed: larger ones would only take longer.
const LARGEST: usize = 40_000;

/// More work than any example asks for, and little enough for a million of them.
const LIMITS: Limits = Limits { file: 1 << 20, plain: 1 << 20, work_factor: 9 };

/// One kind of input.
pub struct Target {
    pub name: &'static str,
    /// How often it is tried, among the others.
    pub weight: u64,
    /// At least two, all different.
    pub examples: Vec<Vec<u8>>,
    pub judge: Judge,
    /// The most memory in bytes.
    pub ceiling: usize,
}

/// What must hold of an input that is read.
pub enum Judge {
    /// It gives exactly what its example holds, or is refused.
    Same { reads: Reads, holds: Vec<Vec<u8>> },
    /// It may be another good one; the law says whether it is.
    Lawful(fn(&[u8]) -> Result<bool, String>),
}

/// What an input holds, or nothing when it is refused.
type Reads = Box<dyn Fn(&[u8], usize) -> Option<Vec<u8>>>;

impl Judge {
    /// Whether the input was taken, or what is wrong with that.
    pub fn says(&self, input: &[u8], example: usize) -> Result<bool, String> {
        match self {
            Judge::Lawful(law) => law(input),
            Judge::Same { reads, holds } => match reads(input, example) {
                None => Ok(false),
                Some(held) if held == holds[example] => Ok(true),
                Some(_) => Err("it is taken for something else".to_owned()),
            },
        }
    }
}

pub fn targets() -> Vec<Target> {
    vec![
        archives(),
        rows(),
        keyed(),
        by_passphrase(),
        as_text(),
        key_files(),
        recipients(),
        receipts(),
        tables(),
        sheets(),
    ]
}

/// Plain archives: the whole visits and the golden files of the first version.
fn archives() -> Target {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut examples = Vec::new();
    for folder in ["archives/v1", "visits"] {
        for entry in fs::read_dir(root.join(folder)).expect("the folder is there") {
            let path = entry.expect("an entry").path();
            let file = if path.is_dir() { path.join("visit.json") } else { path };
            examples.push(fs::read(file).expect("a file"));
        }
    }
    examples.retain(|example| example.len() <= LARGEST && archive::read(example).is_ok());
    // Closed with a digest, so that changes behind it can be noticed.
    let closed: Vec<Vec<u8>> = examples
        .iter()
        .map(|example| {
            let mut archive = archive::read(example).expect("it was read a moment ago");
            for visit in &mut archive.visits {
                if visit.closed.is_some() {
                    visit.sha256 = Some(archive::digest(visit));
                }
            }
            archive::write_compact(&archive)
        })
        .collect();
    examples.extend(closed);
    examples.sort();
    examples.dedup();
    Target { name: "archive", weight: 30, examples, judge: Judge::Lawful(archive_law), ceiling: 16 << 20 }
}

/// Whatever is read is written and read again as the same, and no visit that was changed behind its digest gets through.
fn archive_law(input: &[u8]) -> Result<bool, String> {
    let Ok(read) = archive::read(input) else { return Ok(false) };
    let again = |bytes: Vec<u8>| archive::read(&bytes).map_err(|error| format!("written, it is not read: {error}"));
    if again(archive::write(&read))? != read || again(archive::write_compact(&read))? != read {
        return Err("it is not the same once written".to_owned());
    }
    let changed = read.visits.iter().filter(|visit| !archive::intact(visit)).count();
    let (clean, damaged) = merge::without_damaged(read);
    if damaged.len() != changed || !clean.visits.iter().all(archive::intact) {
        return Err("a visit that was changed after it was closed gets through".to_owned());
    }
    let merged = merge::merge(clean.clone(), Archive::default());
    if merge::merge(merged.clone(), clean) != merged {
        return Err("taken in twice it is something else".to_owned());
    }
    Ok(true)
}

fn rows() -> Target {
    let key = Key::from_bytes([7; 32]);
    let place = |at: usize| (["visit", "person", "visit"][at], ["a", "b", ""][at]);
    let holds: Vec<Vec<u8>> = vec![b"a record".to_vec(), vec![1; 3_000], Vec::new()];
    let sealed = |(at, plain): (usize, &Vec<u8>)| {
        let (kind, id) = place(at);
        seal_row(&key, KeyId(*b"this key"), [at as u8; 24], kind, id, plain)
    };
    let examples = holds.iter().enumerate().map(sealed).collect();
    let reads = move |input: &[u8], at: usize| {
        let (kind, id) = place(at);
        open_row(input, kind, id, |name| (name == KeyId(*b"this key")).then_some(&key)).ok()
    };
    let judge = Judge::Same { reads: Box::new(reads), holds };
    Target { name: "sealed row", weight: 15, examples, judge, ceiling: 1 << 20 }
}

fn plains() -> Vec<Vec<u8>> {
    vec![br#"{"format":"sidelight-archive","version":1}"#.to_vec(), vec![b'x'; 70_000], Vec::new()]
}

fn keyed() -> Target {
    let identity = Identity::generate();
    let keys = [Identity::generate().recipient(), identity.recipient()];
    let holds = plains();
    let examples = holds.iter().map(|plain| seal(plain, &To::Keys(&keys)).expect("it seals")).collect();
    let judge = Judge::Same { reads: opens(vec![identity]), holds };
    Target { name: "sealed to a key", weight: 15, examples, judge, ceiling: 4 << 20 }
}

fn as_text() -> Target {
    let identity = Identity::generate();
    let holds = plains();
    let armored = |plain: &Vec<u8>| {
        let binary = seal(plain, &To::Keys(&[identity.recipient()])).expect("it seals");
        let letters = base64(&binary);
        let lines: Vec<&str> =
            letters.as_bytes().chunks(64).filter_map(|line| std::str::from_utf8(line).ok()).collect();
        format!("-----BEGIN AGE ENCRYPTED FILE-----\n{}\n-----END AGE ENCRYPTED FILE-----\n", lines.join("\n"))
    };
    let examples = holds.iter().map(|plain| armored(plain).into_bytes()).collect();
    let judge = Judge::Same { reads: opens(vec![identity]), holds };
    Target { name: "sealed, as text", weight: 10, examples, judge, ceiling: 4 << 20 }
}

fn opens(identities: Vec<Identity>) -> Reads {
    Box::new(move |input, _| {
        let kind = look(input);
        let plain = open_within(input, &With::Keys(&identities), &LIMITS).ok()?;
        // What opens looks like it from outside.
        Some(if matches!(kind, FileKind::SealedToKey { .. }) { plain.to_vec() } else { b"another look".to_vec() })
    })
}

fn by_passphrase() -> Target {
    let passphrase = "p\u{e4}ssw\u{f6}rd";
    let holds = plains();
    let examples = holds
        .iter()
        .map(|plain| seal(plain, &To::Passphrase { passphrase, work_factor: 1 }).expect("it seals"))
        .collect();
    let reads = move |input: &[u8], _| {
        open_within(input, &With::Passphrase(passphrase), &LIMITS).ok().map(|plain| plain.to_vec())
    };
    // The library first measures how fast this computer is, which takes most of the time.
    Target {
        name: "by a passphrase",
        weight: 2,
        examples,
        judge: Judge::Same { reads: Box::new(reads), holds },
        ceiling: 8 << 20,
    }
}

fn key_files() -> Target {
    let identities = [Identity::generate(), Identity::generate()];
    let holds: Vec<Vec<u8>> = identities.iter().map(|identity| identity.secret().as_bytes().to_vec()).collect();
    let known = holds.clone();
    let examples = identities.iter().map(|identity| identity.key_file().as_bytes().to_vec()).collect();
    let reads = move |input: &[u8], at: usize| {
        let all = Identity::parse_all(std::str::from_utf8(input).ok()?).ok()?;
        // A line may stand there twice, or come from the other file: a key that nobody made must not.
        let made = |identity: &Identity| known.contains(&identity.secret().as_bytes().to_vec());
        Some(if all.iter().all(made) { known[at].clone() } else { b"a key of nobody".to_vec() })
    };
    let judge = Judge::Same { reads: Box::new(reads), holds };
    Target { name: "key file", weight: 5, examples, judge, ceiling: 1 << 20 }
}

fn recipients() -> Target {
    let keys: Vec<Recipient> = (0..4).map(|_| Identity::generate().recipient()).collect();
    let mut examples: Vec<Vec<u8>> = keys.iter().map(|key| key.to_string().into_bytes()).collect();
    examples.extend(keys.iter().map(|key| key.code().into_bytes()));
    let holds = keys.iter().chain(&keys).map(|key| key.to_string().into_bytes()).collect();
    let reads = |input: &[u8], _| {
        let key = Recipient::parse(std::str::from_utf8(input).ok()?).ok()?;
        // What is taken for a key can be sealed to.
        seal(b"", &To::Keys(std::slice::from_ref(&key))).ok()?;
        Some(key.to_string().into_bytes())
    };
    let judge = Judge::Same { reads: Box::new(reads), holds };
    Target { name: "clinic key", weight: 8, examples, judge, ceiling: 1 << 20 }
}

fn receipts() -> Target {
    let moment = Moment { unix_ms: 1_790_000_000_000, offset_minutes: 60 };
    let visit = |number: u32| VisitRef { id: format!("v{number}"), sha256: format!("{number:064x}") };
    let receipt = |count: u32| {
        Receipt::of(&format!("r{count}"), moment, (0..count).map(visit).collect(), vec![visit(90 + count)])
    };
    let issued: Vec<Receipt> = (1..=4_u32).map(receipt).collect();
    let note = |receipt: &Receipt| {
        HandedOver::of(&receipt.id, moment, "meadow", receipt.visits.clone(), receipt.addenda.clone())
    };
    let log: Vec<HandedOver> = issued.iter().map(note).collect();
    let mut examples: Vec<Vec<u8>> = issued.iter().map(|receipt| receipt::code(receipt).into_bytes()).collect();
    examples.extend(issued.iter().map(|receipt| receipt.words().into_bytes()));
    let holds = log.iter().chain(&log).map(|note| note.id.clone().into_bytes()).collect();
    let reads = move |input: &[u8], _| {
        let said = Said::parse(std::str::from_utf8(input).ok()?).ok()?;
        let matching = receipt::matches(&said, &log);
        // A text that is none of the four receipts belongs to no hand over.
        (!matching.is_empty())
            .then(|| matching.iter().map(|note| note.id.as_str()).collect::<Vec<_>>().join("+").into_bytes())
    };
    let judge = Judge::Same { reads: Box::new(reads), holds };
    Target { name: "receipt", weight: 15, examples, judge, ceiling: 1 << 20 }
}

/// Tables with typed words that look like formulas, quotes and lines; with and without a byte order mark.
fn tables() -> Target {
    let mut examples = Vec::new();
    for seed in 0..3 {
        let mut all = some(seed);
        fill_with_text(&mut all, &mut odd_text, seed);
        let addenda = addenda(&all, &mut odd_text);
        let cases: Vec<Case<'_>> = all.iter().map(|(person, visit)| Case { person, visit }).collect();
        let written = Moment { unix_ms: 1_790_000_000_000, offset_minutes: 60 };
        let bom = seed == 1;
        let options = table::Options { who: Who::Named, addenda: &addenda, bom, program: "Sidelight", written };
        let files = table::write(&cases, &options).expect("tables");
        examples.extend(files.into_iter().filter(|file| file.name.ends_with(".csv")).map(|file| file.bytes));
    }
    examples.retain(|example| example.len() <= LARGEST);
    examples.sort();
    examples.dedup();
    Target { name: "table", weight: 15, examples, judge: Judge::Lawful(table_law), ceiling: 8 << 20 }
}

/// Every row is as long as the first, and a guard goes on and off again without a trace; NUL alone is never written.
fn table_law(input: &[u8]) -> Result<bool, String> {
    let Ok(read) = table::read(input) else { return Ok(false) };
    if read.rows.iter().any(|row| row.len() != read.header.len()) {
        return Err("a row is longer or shorter than the first".to_owned());
    }
    for cell in read.rows.iter().flatten() {
        let plain = table::read_text(cell).replace('\0', "\u{fffd}");
        if table::read_text(&table::write_text(&plain)) != plain {
            return Err("a text is another one once guarded".to_owned());
        }
    }
    Ok(true)
}

/// Sheets on their way to a family, their logs on the way back, and the six numbers of a log.
fn sheets() -> Target {
    let mut examples = Vec::new();
    for (at, language) in Language::ALL.into_iter().enumerate() {
        let exercises = exercise::ALL.iter().skip(4 * at).take(4 + at);
        let sheet = Sheet {
            entries: exercises.map(|exercise| Entry { exercise, dose: exercise.start }).collect(),
            advice: advice::ALL.iter().skip(at).copied().collect(),
            limits: tolerance::Limits::CONSENSUS,
            emergency: ["", "112"][at].to_string(),
            helper: at == 0,
            language,
        };
        let mut log = Log::of(&sheet);
        for day in 1..=20 {
            log.note(day, usize::from(day) % 4, (Rating::new(day % 11), Rating::new(day % 7)), Ended::Planned);
        }
        let spoken = Spoken::of(&log, &sheet).numbers().join(" ");
        examples.extend([sheet.encode(), sheet.link("https://clinic.example/sheet/"), log.encode(), spoken]);
    }
    let examples = examples.into_iter().map(String::into_bytes).collect();
    Target { name: "sheet", weight: 15, examples, judge: Judge::Lawful(sheet_law), ceiling: 1 << 20 }
}

/// What is read as a sheet or a log is written as that very text; what is heard is said again as the same numbers.
fn sheet_law(input: &[u8]) -> Result<bool, String> {
    let Ok(text) = std::str::from_utf8(input) else { return Ok(false) };
    let plain: String = text.rsplit('#').next().unwrap_or_default().split_whitespace().collect();
    let plain = plain.to_ascii_uppercase();
    let written = [Sheet::decode(text).map(|sheet| sheet.encode()), Log::decode(text).map(|log| log.encode())];
    if written.iter().flatten().any(|again| *again != plain) {
        return Err("another text is read as the same".to_owned());
    }
    let heard = Spoken::read(text);
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    if heard.as_ref().is_ok_and(|spoken| spoken.numbers().concat() != digits) {
        return Err("other numbers are heard as the same".to_owned());
    }
    Ok(written.iter().any(Result::is_ok) || heard.is_ok())
}

fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let value = (0..3).fold(0_u32, |value, at| value << 8 | u32::from(three.get(at).copied().unwrap_or(0)));
        for at in 0..4 {
            let letter = LETTERS[(value >> (18 - 6 * at) & 63) as usize];
            text.push(if at > three.len() { '=' } else { char::from(letter) });
        }
    }
    text
}
