//! Writes the summary of a visit file natively: `cargo run -p sidelight-core --example assess -- VISIT.json --as text`.
//!
//! The file is an archive the app exported. With several visits in it, text takes all of them in order, and `--visit`
//! picks one by its id or by its number in the file.

use sidelight_core::archive::{self, Archive, ArchiveError};
use sidelight_core::assess::assess;
use sidelight_core::capture::visit::Visit;
use sidelight_core::export::{html, text};
use sidelight_core::summary::{Options, compose};
use std::fs;
use std::io::{self, Write};
use std::process::ExitCode;

const USAGE: &str = "Usage: assess VISIT.json --as text|html [--visit NUMBER-OR-ID]";
const PROGRAM: &str = concat!("Sidelight ", env!("CARGO_PKG_VERSION"));

fn main() -> ExitCode {
    match run(std::env::args().skip(1)) {
        Ok(written) => match io::stdout().write_all(written.as_bytes()) {
            // A reader that has seen enough (`| head`) closes the pipe; that is no error of ours.
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
                fail(&format!("The summary cannot be written: {error}."))
            }
            Ok(()) | Err(_) => ExitCode::SUCCESS,
        },
        Err(message) => fail(&message),
    }
}

fn fail(message: &str) -> ExitCode {
    eprintln!("{message}");
    ExitCode::from(2)
}

#[derive(Clone, Copy, PartialEq)]
enum Format {
    Text,
    Html,
}

struct Request {
    path: String,
    format: Format,
    visit: Option<String>,
}

fn run(arguments: impl Iterator<Item = String>) -> Result<String, String> {
    let request = parse(arguments)?;
    let archive = open(&request.path)?;
    let visits = picked(&archive, request.visit.as_deref())?;
    if request.format == Format::Html && visits.len() > 1 {
        return Err(format!(
            "The file holds {} visits and an HTML file shows one. Add --visit with a number from 1 to {}.",
            visits.len(),
            visits.len()
        ));
    }
    let summaries: Result<Vec<String>, String> =
        visits.iter().map(|visit| write(&archive, visit, request.format)).collect();
    Ok(summaries?.join("\n\n"))
}

fn parse(mut arguments: impl Iterator<Item = String>) -> Result<Request, String> {
    let (mut path, mut format, mut visit) = (None, Format::Text, None);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--as" => {
                format = match arguments.next().as_deref() {
                    Some("text") => Format::Text,
                    Some("html") => Format::Html,
                    _ => return Err(format!("--as takes text or html. {USAGE}")),
                }
            }
            "--visit" => {
                visit = Some(arguments.next().ok_or(format!("--visit takes a number or an id. {USAGE}"))?);
            }
            option if option.starts_with("--") => return Err(format!("There is no option {option}. {USAGE}")),
            _ if path.is_some() => return Err(format!("Only one file is read at a time. {USAGE}")),
            _ => path = Some(argument),
        }
    }
    let path = path.ok_or(format!("Name the visit file to read. {USAGE}"))?;
    Ok(Request { path, format, visit })
}

/// Reads the file. Its size is looked at before its content; the path is not repeated, for it may hold a name.
fn open(path: &str) -> Result<Archive, String> {
    let unreadable = |error: io::Error| format!("The file cannot be opened ({error}). Check its path and try again.");
    let size = fs::metadata(path).map_err(unreadable)?.len();
    if usize::try_from(size).map_or(true, |size| size > archive::MAX_BYTES) {
        return Err(ArchiveError::TooLarge { limit: archive::MAX_BYTES }.to_string());
    }
    archive::read(&fs::read(path).map_err(unreadable)?).map_err(|error| error.to_string())
}

fn picked<'a>(archive: &'a Archive, wanted: Option<&str>) -> Result<Vec<&'a Visit>, String> {
    if archive.visits.is_empty() {
        return Err("The file holds no visit. Export it again from the visit itself.".to_string());
    }
    let Some(wanted) = wanted else { return Ok(archive.visits.iter().collect()) };
    let by_id = archive.visits.iter().find(|visit| visit.id == wanted);
    let by_number = || archive.visits.get(wanted.parse::<usize>().ok()?.checked_sub(1)?);
    let visit = by_id.or_else(by_number);
    visit.map(|visit| vec![visit]).ok_or(format!(
        "The file has no such visit. Give a number from 1 to {}, in the order of the file.",
        archive.visits.len()
    ))
}

fn write(archive: &Archive, visit: &Visit, format: Format) -> Result<String, String> {
    let person = archive.people.iter().find(|person| person.id == visit.person);
    let person = person.ok_or("The file names nobody for this visit. Export it again with its person.")?;
    let options = Options::new(PROGRAM).with_addenda(&archive.addenda).with_visits(&archive.visits);
    let document = compose(person, visit, &assess(person, visit), &options);
    Ok(match format {
        Format::Text => text::render(&document),
        Format::Html => html::render(&document),
    })
}
