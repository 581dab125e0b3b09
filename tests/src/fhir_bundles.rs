//! Bundles of the golden visits, for golden files and for outside validators.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::export::Case;
use sidelight_core::export::fhir::{self, Mode, Options};

/// When golden bundles say that they were written: 2026-06-01T12:00:00+02:00.
pub const WRITTEN: Moment = Moment { unix_ms: 1_780_308_000_000, offset_minutes: 120 };

/// A bundle of everybody and everything in an archive.
pub fn of(archive: &Archive, mode: Mode) -> Value {
    fhir::bundle(&cases(archive), &options(archive, mode))
}

/// The same as bytes.
pub fn bytes_of(archive: &Archive, mode: Mode) -> Vec<u8> {
    fhir::bytes(&cases(archive), &options(archive, mode))
}

fn options(archive: &Archive, mode: Mode) -> Options<'_> {
    Options { mode, written: WRITTEN, program: "Sidelight 0.1.0", addenda: &archive.addenda }
}

fn cases(archive: &Archive) -> Vec<Case<'_>> {
    let visits = archive.visits.iter();
    let with_person = visits.filter_map(|visit| {
        let person = archive.people.iter().find(|person| person.id == visit.person)?;
        Some(Case { person, visit })
    });
    with_person.collect()
}

/// The collection as it stands in a golden file: without the code list, which is the same everywhere, and without the
/// report's text, which stands beside it as `summary.txt`.
pub fn golden(archive: &Archive) -> String {
    let mut bundle = of(archive, Mode::Collection);
    if let Some(entries) = bundle["entry"].as_array_mut() {
        entries.retain(|entry| entry["resource"]["resourceType"] != "CodeSystem");
        for entry in entries {
            if let Some(report) = entry["resource"].as_object_mut().filter(|each| each.contains_key("presentedForm")) {
                report.retain(|member, _| member != "presentedForm" && member != "text");
            }
        }
    }
    pretty(&bundle)
}

/// The code list.
pub fn code_list() -> Value {
    of(&Archive::default(), Mode::Collection)["entry"][0]["resource"].clone()
}

/// JSON with two-blank indents.
pub fn pretty(value: &Value) -> String {
    format!("{value:#}\n")
}

/// Every golden visit with the name of its folder, in order.
pub fn visits() -> Vec<(String, Archive)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("visits");
    let entries = fs::read_dir(folder).expect("there are golden visits");
    let mut folders: Vec<PathBuf> =
        entries.filter_map(|entry| Some(entry.ok()?.path())).filter(|p| p.is_dir()).collect();
    folders.sort();
    let read = |folder: PathBuf| {
        let name = folder.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let bytes = fs::read(folder.join("visit.json")).expect("a golden visit has its file");
        (name, archive::read(&bytes).expect("a golden visit can be read"))
    };
    folders.into_iter().map(read).collect()
}
