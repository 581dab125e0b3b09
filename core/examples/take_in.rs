//! Takes in hand-over files natively: `cargo run -p sidelight-core --example take_in -- FILES... --out DIR`.
//!
//! Files sealed to a clinic key are opened with `--key FILE` (`--key -` reads the key from standard input), files sealed
//! by a passphrase with the first line of standard input. All files are merged; what comes of it is written into a new
//! folder, all or nothing, and the receipt is printed. In the folder are
//!
//! - `archive.json`, `receipt.txt`, and for each visit `summaries/00001.txt` and `.html`;
//! - `fhir/collection-001.json` to keep and `fhir/transaction-001.json` to post, each with at most 500 visits;
//! - `tables/named`, and `tables/coded` without names; `study-codes.csv` says whose the codes are, is drawn anew each time,
//!   and stays here.
//!
//! It ends with 0 when everything was written, 2 when it was called wrongly, 3 when a file cannot be taken in, and 4 when
//! the folder cannot be written. Files are named by their number, for their names may hold a person's.

use sidelight_core::archive::{self, Archive};
use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::Visit;
use sidelight_core::export::fhir::{self, Mode};
use sidelight_core::export::table::{self, Who, code};
use sidelight_core::export::{Case, html, text};
use sidelight_core::hand_over::{self, FileKind, HandOverError, Identity, Limits, With};
use sidelight_core::merge;
use sidelight_core::receipt::{self, Receipt};
use sidelight_core::summary::{Options, compose};
use std::fs;
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::SystemTime;
use zeroize::Zeroizing;

const USAGE: &str = "Usage: take_in FILES... --out DIR [--key FILE] [--without-damaged]";
const PROGRAM: &str = concat!("Sidelight ", env!("CARGO_PKG_VERSION"));

/// The longest passphrase or key file that is read from standard input.
const LONGEST_INPUT: u64 = 64 * 1024;

/// Visits in a bundle: a server takes it all or nothing, and many refuse what is larger than some tens of megabytes.
const IN_A_BUNDLE: usize = 500;

fn main() -> ExitCode {
    match run(std::env::args().skip(1)) {
        Ok(said) => match io::stdout().write_all(said.as_bytes()) {
            // A reader that has seen enough closes the pipe; everything is written by then.
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => ExitCode::from(4),
            Ok(()) | Err(_) => ExitCode::SUCCESS,
        },
        Err(Fault { code, sentences }) => {
            sentences.iter().for_each(|sentence| eprintln!("{sentence}"));
            ExitCode::from(code)
        }
    }
}

/// Why nothing was written: one sentence a fault.
struct Fault {
    code: u8,
    sentences: Vec<String>,
}

impl Fault {
    fn usage(sentence: &str) -> Fault {
        Fault { code: 2, sentences: vec![format!("{sentence} {USAGE}")] }
    }

    fn of_file(sentences: Vec<String>) -> Fault {
        Fault { code: 3, sentences }
    }

    fn of_folder(what: &str, error: &io::Error) -> Fault {
        Fault { code: 4, sentences: vec![format!("{what} ({error}). Nothing was written.")] }
    }
}

struct Request {
    files: Vec<PathBuf>,
    out: PathBuf,
    key: Option<String>,
    without_damaged: bool,
}

fn run(arguments: impl Iterator<Item = String>) -> Result<String, Fault> {
    let request = parse(arguments)?;
    if request.out.exists() {
        return Err(Fault::usage("The folder exists already. Name a new one, so that nothing is overwritten."));
    }
    let archives = open_all(&request)?;
    let opened = archives.len();
    let mut damaged = Vec::new();
    let mut merged = Archive::default();
    for archive in archives {
        let (clean, changed) = merge::without_damaged(archive);
        damaged.extend(changed);
        merged = merge::merge(merged, clean);
    }
    if !damaged.is_empty() && !request.without_damaged {
        return Err(Fault::of_file(vec![format!(
            "{} changed after being closed, so nothing was written. Ask where the files come from; \
             --without-damaged takes in the others.",
            visits(damaged.len(), "was", "were")
        )]));
    }
    let now = now();
    let receipt = receipt_for(&merged, now);
    let said = report(opened, damaged.len(), &merged, &receipt);
    write_all(&request.out, &parts(&merged, &said, now)?)?;
    Ok(said)
}

fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Request, Fault> {
    let (mut files, mut out, mut key, mut without_damaged) = (Vec::new(), None, None, false);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--out" => out = Some(arguments.next().ok_or_else(|| Fault::usage("--out takes a folder."))?),
            "--key" => key = Some(arguments.next().ok_or_else(|| Fault::usage("--key takes a file."))?),
            "--without-damaged" => without_damaged = true,
            option if option.starts_with("--") => {
                return Err(Fault::usage(&format!("There is no option {option}.")));
            }
            _ => files.push(PathBuf::from(argument)),
        }
    }
    if files.is_empty() {
        return Err(Fault::usage("Name the files to take in."));
    }
    let out = out.ok_or_else(|| Fault::usage("Name the folder to write into."))?;
    Ok(Request { files, out: PathBuf::from(out), key, without_damaged })
}

/// Every file is tried, so that one call tells all that is wrong.
fn open_all(request: &Request) -> Result<Vec<Archive>, Fault> {
    let identities = identities(request.key.as_deref())?;
    let mut passphrase = None;
    let (mut archives, mut faults) = (Vec::new(), Vec::new());
    for (at, path) in request.files.iter().enumerate() {
        match open(path, &identities, request.key.as_deref() == Some("-"), &mut passphrase) {
            Ok(archive) => archives.push(archive),
            Err(sentence) => faults.push(format!("File {}: {sentence}", at + 1)),
        }
    }
    if faults.is_empty() { Ok(archives) } else { Err(Fault::of_file(faults)) }
}

fn identities(key: Option<&str>) -> Result<Vec<Identity>, Fault> {
    let Some(key) = key else { return Ok(Vec::new()) };
    let mut text = Zeroizing::new(String::new());
    let read = match key {
        "-" => io::stdin().take(LONGEST_INPUT).read_to_string(&mut text),
        path => fs::File::open(path).and_then(|file| file.take(LONGEST_INPUT).read_to_string(&mut text)),
    };
    read.map_err(|error| Fault::of_file(vec![format!("The key file cannot be read ({error}).")]))?;
    Identity::parse_all(&text).map_err(|why| Fault::of_file(vec![format!("The key file: {why}")]))
}

fn open(
    path: &Path,
    identities: &[Identity],
    input_is_used: bool,
    passphrase: &mut Option<Zeroizing<String>>,
) -> Result<Archive, String> {
    let file = read(path)?;
    let opened = match hand_over::look(&file) {
        FileKind::Plain => return archive::read(&file).map_err(|error| error.to_string()),
        FileKind::SealedByPassphrase { .. } if input_is_used => return Err(HandOverError::NeedsPassphrase.to_string()),
        FileKind::SealedByPassphrase { .. } => {
            let passphrase = match passphrase {
                Some(passphrase) => passphrase,
                None => passphrase.insert(ask()?),
            };
            hand_over::open(&file, &With::Passphrase(passphrase))
        }
        FileKind::SealedToKey { .. } if identities.is_empty() => {
            return Err("The file is sealed to a clinic key. Name the key file with --key.".to_owned());
        }
        FileKind::Empty | FileKind::SealedToKey { .. } | FileKind::Unreadable(_) => {
            hand_over::open(&file, &With::Keys(identities))
        }
    };
    let plain = opened.map_err(|error| error.to_string())?;
    archive::read(&plain).map_err(|error| error.to_string())
}

/// A file's size is looked at before its content.
fn read(path: &Path) -> Result<Vec<u8>, String> {
    let unreadable = |error: io::Error| format!("It cannot be opened ({error}). Check its path and try again.");
    let limit = Limits::default().file;
    let file = fs::File::open(path).map_err(unreadable)?;
    let size = file.metadata().map_err(unreadable)?.len();
    if usize::try_from(size).map_or(true, |size| size > limit) {
        return Err(HandOverError::TooLarge { limit }.to_string());
    }
    // What is no plain file has no size beforehand.
    let mut bytes = Vec::new();
    file.take(limit as u64 + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    Ok(bytes)
}

fn ask() -> Result<Zeroizing<String>, String> {
    let mut line = Zeroizing::new(String::new());
    let mut input = io::BufReader::new(io::stdin().take(LONGEST_INPUT));
    io::BufRead::read_line(&mut input, &mut line)
        .map_err(|error| format!("The passphrase cannot be read ({error})."))?;
    Ok(Zeroizing::new(line.trim_end_matches(['\r', '\n']).to_owned()))
}

fn receipt_for(archive: &Archive, now: Moment) -> Receipt {
    let (visits, addenda) = (receipt::refs(&archive.visits), receipt::addendum_refs(&archive.addenda));
    let id = Receipt::of("", now, visits.clone(), addenda.clone())
        .digest()
        .iter()
        .take(8)
        .map(|byte| format!("{byte:02x}"))
        .collect::<String>();
    Receipt::of(&id, now, visits, addenda)
}

/// What is printed, and lies in the folder too.
fn report(files: usize, damaged: usize, archive: &Archive, receipt: &Receipt) -> String {
    let open = archive.visits.iter().filter(|visit| visit.closed.is_none()).count();
    let digest: String = receipt.digest().iter().map(|byte| format!("{byte:02x}")).collect();
    let mut said = format!(
        "Files: {files}\nPeople: {}\nVisits: {}, of these still open: {open}\nAddenda: {}\n",
        archive.people.len(),
        archive.visits.len(),
        archive.addenda.len()
    );
    if damaged > 0 {
        said += &format!("Left out: {} changed after being closed\n", visits(damaged, "that was", "that were"));
    }
    for (one, other) in merge::likely_same(&archive.people, &archive.joins) {
        said += &format!("Perhaps the same person: {one} and {other}\n");
    }
    said + &format!(
        "Receipt for closed visits: {}\nWords: {}\nDigest: {digest}\nCode: {}\n",
        receipt.visits.len(),
        receipt.words(),
        receipt::code(receipt)
    )
}

fn visits(count: usize, one: &str, more: &str) -> String {
    if count == 1 { format!("1 visit {one}") } else { format!("{count} visits {more}") }
}

/// Files by their path in the folder. Summaries are numbered in the order of the archive, and named after nobody.
fn parts(archive: &Archive, said: &str, now: Moment) -> Result<Vec<(String, Vec<u8>)>, Fault> {
    let cases = merge::cases(archive);
    if cases.len() < archive.visits.len() {
        return Err(Fault::of_file(vec!["A visit names nobody. Have it handed over again.".to_owned()]));
    }
    let mut parts = vec![
        ("archive.json".to_owned(), archive::write(archive)),
        ("receipt.txt".to_owned(), said.as_bytes().to_vec()),
    ];
    for (case, number) in cases.iter().zip(1..) {
        let (text, html) = summary(archive, case, &case.sheets_before(&cases));
        parts.push((format!("summaries/{number:05}.txt"), text.into_bytes()));
        parts.push((format!("summaries/{number:05}.html"), html.into_bytes()));
    }
    bundles(archive, &cases, now, &mut parts);
    tables(archive, &cases, now, &mut parts)?;
    Ok(parts)
}

fn summary(archive: &Archive, case: &Case<'_>, before: &[Visit]) -> (String, String) {
    let Case { person, visit } = case;
    let options = Options::new(PROGRAM).with_addenda(&archive.addenda).with_visits(before);
    let document = compose(person, visit, &assess(person, visit), &options);
    (text::render(&document), html::render(&document))
}

fn bundles(archive: &Archive, cases: &[Case<'_>], now: Moment, parts: &mut Vec<(String, Vec<u8>)>) {
    for (mode, word) in [(Mode::Collection, "collection"), (Mode::Transaction, "transaction")] {
        let options = fhir::Options { mode, written: now, program: PROGRAM, addenda: &archive.addenda };
        let taken: Vec<Case<'_>> = cases.iter().copied().filter(|case| fhir::takes(mode, case.visit)).collect();
        for (some, number) in taken.chunks(IN_A_BUNDLE).zip(1..) {
            parts.push((format!("fhir/{word}-{number:03}.json"), fhir::bytes(some, &options)));
        }
    }
}

fn tables(archive: &Archive, cases: &[Case<'_>], now: Moment, parts: &mut Vec<(String, Vec<u8>)>) -> Result<(), Fault> {
    let codes = code::draw(cases, &mut |bytes: &mut [u8]| getrandom::fill(bytes))
        .map_err(|error| Fault::of_file(vec![format!("There are no random numbers for study codes ({error}).")]))?;
    for (folder, who) in [("named", Who::Named), ("coded", Who::Coded(&codes))] {
        let options = table::Options { who, addenda: &archive.addenda, bom: false, program: PROGRAM, written: now };
        let files = table::write(cases, &options).map_err(|why| Fault::of_file(vec![why.to_string()]))?;
        parts.extend(files.into_iter().map(|file| (format!("tables/{folder}/{}", file.name), file.bytes)));
    }
    let list = code::list(cases, &codes);
    parts.push((list.name, list.bytes));
    Ok(())
}

/// Into a folder beside the wanted one, which then takes its name: nobody ever sees half of it.
fn write_all(out: &Path, parts: &[(String, Vec<u8>)]) -> Result<(), Fault> {
    let mut name = out.file_name().unwrap_or_default().to_os_string();
    name.push(format!(".part-{}", std::process::id()));
    let part = out.with_file_name(name);
    let written = write_parts(&part, parts).and_then(|()| fs::rename(&part, out));
    written.map_err(|error| {
        let _ = fs::remove_dir_all(&part);
        Fault::of_folder("The folder cannot be written", &error)
    })
}

fn write_parts(folder: &Path, parts: &[(String, Vec<u8>)]) -> io::Result<()> {
    fs::create_dir(folder)?;
    for (name, bytes) in parts {
        let path = folder.join(name);
        fs::create_dir_all(path.parent().unwrap_or(folder))?;
        let mut file = fs::OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes)?;
        file.sync_all()?;
    }
    Ok(())
}

fn now() -> Moment {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    Moment { unix_ms: i64::try_from(since.as_millis()).unwrap_or(i64::MAX), offset_minutes: 0 }
}
