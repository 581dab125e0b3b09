//! Writes the golden visits as FHIR bundles, and mutants of one, for outside validators; checks a file with our own checks.
//!
//! `cargo run --quiet -p sidelight-tests --bin fhir_bundles -- --out DIR`
//! `cargo run --quiet -p sidelight-tests --bin fhir_bundles -- --check FILE`
//! `cargo run --profile bench -p sidelight-tests --bin fhir_bundles -- --time 1000`

use std::fs;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

use serde_json::{Value, json};
use sidelight_core::archive::Archive;
use sidelight_core::export::fhir::{Mode, check};
use sidelight_tests::{fhir_bundles, fhir_mutants};

const USAGE: &str = "Usage: fhir_bundles --out DIR | --check FILE | --time VISITS";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["--out", folder] => write(Path::new(folder)),
        ["--check", file] => look(Path::new(file)),
        ["--time", visits] => visits.parse().map_err(|_| USAGE.to_string()).and_then(time),
        _ => Err(USAGE.to_string()),
    };
    match done {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(said) => {
            eprintln!("{said}");
            ExitCode::FAILURE
        }
    }
}

/// `good/` holds what must pass, `mutants/` what must not, `own.json` what our own checks say of each mutant.
fn write(folder: &Path) -> Result<String, String> {
    let (good, mutants) = (folder.join("good"), folder.join("mutants"));
    let put = |path: &Path, value: &Value| {
        fs::write(path, value.to_string()).map_err(|error| format!("{} cannot be written: {error}", path.display()))
    };
    for folder in [&good, &mutants] {
        fs::create_dir_all(folder).map_err(|error| format!("{} cannot be made: {error}", folder.display()))?;
    }
    let mut written = 0;
    for (name, archive) in fhir_bundles::visits() {
        for (mode, word) in [(Mode::Collection, "collection"), (Mode::Transaction, "transaction")] {
            put(&good.join(format!("{name}.{word}.json")), &fhir_bundles::of(&archive, mode))?;
            written += 1;
        }
    }
    for (bundle, word) in fhir_mutants::base().iter().zip(["collection", "transaction"]) {
        put(&good.join(format!("short.{word}.json")), bundle)?;
        written += 1;
    }
    let mut own = serde_json::Map::new();
    let all = fhir_mutants::all();
    for mutant in &all {
        put(&mutants.join(format!("{}.json", mutant.name)), &mutant.bundle)?;
        let faults: Vec<String> = check::faults(&mutant.bundle).iter().map(ToString::to_string).collect();
        own.insert(mutant.name.to_string(), json!(faults));
    }
    put(&folder.join("own.json"), &Value::Object(own))?;
    Ok(format!("{written} bundles and {} mutants written", all.len()))
}

fn look(file: &Path) -> Result<String, String> {
    let bytes = fs::read(file).map_err(|error| format!("{} cannot be read: {error}", file.display()))?;
    let bundle = serde_json::from_slice(&bytes).map_err(|error| format!("{} is no JSON: {error}", file.display()))?;
    let faults = check::faults(&bundle);
    if faults.is_empty() {
        return Ok("no fault".to_string());
    }
    Err(faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
}

/// Golden visits over and over, each under an id of its own.
fn time(visits: usize) -> Result<String, String> {
    let golden: Vec<Archive> = fhir_bundles::visits().into_iter().map(|(_, archive)| archive).collect();
    let mut whole = Archive::default();
    for (at, archive) in golden.iter().cycle().enumerate().take_while(|(at, _)| *at < visits * 2) {
        if whole.visits.len() >= visits {
            break;
        }
        let (Some(person), Some(visit)) = (archive.people.first(), archive.visits.last()) else { continue };
        let (mut person, mut visit) = (person.clone(), visit.clone());
        person.id = format!("person-{at}");
        (visit.id, visit.person) = (format!("visit-{at}"), person.id.clone());
        whole.people.push(person);
        whole.visits.push(visit);
    }
    let begun = Instant::now();
    let bytes = fhir_bundles::bytes_of(&whole, Mode::Transaction).len();
    let seconds = begun.elapsed().as_secs_f64();
    Ok(format!("{} visits, {:.1} MB, {seconds:.2} s", whole.visits.len(), bytes as f64 / 1e6))
}
