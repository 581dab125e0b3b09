//! Writes the tables of every golden visit, and of some odd ones, for outside programs to check:
//! `cargo run -p sidelight-tests --bin tables -- OUT`. Beside each set stands `given.json` with the values that were written.

use std::fs;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

use serde_json::{Value, json};
use sidelight_core::archive;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::export::Case;
use sidelight_core::export::table::{Cell, Options, Who, each_row, tables, write};
use sidelight_tests::dice::Dice;
use sidelight_tests::odd_records::{addenda, codes, fill_with_text, odd_text, some};
use sidelight_tests::odd_visit::{Oddness, odd};

/// Sets of odd people that are written beside the golden ones.
const ODD: u64 = 6;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["--time", visits] => visits.parse().map_err(|_| "Say how many visits as a whole number.".into()).map(time),
        [out] => write_all(Path::new(out)),
        _ => Err("Usage: tables OUT | tables --time VISITS".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}

type Done = Result<(), String>;

fn write_all(out: &Path) -> Done {
    let golden = Path::new(env!("CARGO_MANIFEST_DIR")).join("visits");
    let mut sets = 0;
    for entry in fs::read_dir(golden).map_err(|error| error.to_string())?.flatten() {
        let Ok(bytes) = fs::read(entry.path().join("visit.json")) else { continue };
        let read = archive::read(&bytes).map_err(|error| error.to_string())?;
        let person = |visit: &Visit| read.people.iter().find(|person| person.id == visit.person).cloned();
        let all: Vec<(Person, Visit)> = read.visits.iter().filter_map(|v| Some((person(v)?, v.clone()))).collect();
        write_set(&out.join(entry.file_name()), &all, &read.addenda)?;
        sets += 1;
    }
    for seed in 0..ODD {
        let mut all = some(seed);
        fill_with_text(&mut all, &mut |dice: &mut Dice| odd_text(dice), seed);
        let addenda = addenda(&all, &mut |dice: &mut Dice| odd_text(dice));
        write_set(&out.join(format!("odd-{seed}")), &all, &addenda)?;
    }
    println!("wrote the tables of {sets} golden and {ODD} odd sets");
    Ok(())
}

fn write_set(folder: &Path, all: &[(Person, Visit)], addenda: &[Addendum]) -> Done {
    let cases: Vec<Case<'_>> = all.iter().map(|(person, visit)| Case { person, visit }).collect();
    let codes = codes(all);
    for (name, who) in [("named", Who::Named), ("coded", Who::Coded(&codes))] {
        for (ending, bom) in [("", false), ("-bom", true)] {
            let folder = folder.join(format!("{name}{ending}"));
            fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
            let written = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
            let options = Options { who, addenda, bom, program: "Sidelight", written };
            for file in write(&cases, &options).map_err(|error| error.to_string())? {
                fs::write(folder.join(file.name), file.bytes).map_err(|error| error.to_string())?;
            }
            let given = given(&cases, &options).to_string();
            fs::write(folder.join("given.json"), given).map_err(|error| error.to_string())?;
        }
    }
    Ok(())
}

/// Every value by table, column names first.
fn given(cases: &[Case<'_>], options: &Options<'_>) -> Value {
    let tables = tables(options.who);
    let mut rows: Vec<Vec<Value>> = tables
        .iter()
        .map(|table| vec![json!(table.columns.iter().map(|column| &column.name).collect::<Vec<_>>())])
        .collect();
    let taken = each_row(cases, options, &tables, &mut |at, row| {
        rows[at].push(row.iter().map(value).collect());
    });
    debug_assert!(taken.is_ok());
    tables.iter().zip(rows).map(|(table, rows)| (table.file(), Value::from(rows))).collect()
}

fn value(cell: &Cell) -> Value {
    match cell {
        Cell::Empty => Value::Null,
        Cell::Text(text) | Cell::Word(text) => json!(text),
        Cell::Words(words) => json!(words),
        Cell::Whole(value) => json!(value),
        Cell::Number(value) => json!(value),
        Cell::Yes(value) => json!(value),
        Cell::Day(_) | Cell::Moment(_) => json!(cell.print()),
    }
}

/// How long so many visits take, and half as many.
fn time(visits: u64) {
    for number in [visits / 2, visits] {
        let all: Vec<(Person, Visit)> = (0..number).map(|seed| odd(seed, Oddness::Valid)).collect();
        let all: Vec<(Person, Visit)> = all
            .into_iter()
            .zip(0..)
            .map(|((person, visit), n)| {
                let id = format!("p{}", n / 4);
                (Person { id: id.clone(), ..person }, Visit { id: format!("v{n}"), person: id, ..visit })
            })
            .collect();
        let cases: Vec<Case<'_>> = all.iter().map(|(person, visit)| Case { person, visit }).collect();
        let written = Moment { unix_ms: 0, offset_minutes: 0 };
        let options = Options { who: Who::Named, addenda: &[], bom: false, program: "Sidelight", written };
        let start = Instant::now();
        let files = write(&cases, &options).map_or(Vec::new(), |files| files);
        let bytes: usize = files.iter().map(|file| file.bytes.len()).sum();
        println!("{number} visits: {:.2} s, {:.1} MB", start.elapsed().as_secs_f64(), bytes as f64 / 1e6);
    }
}
