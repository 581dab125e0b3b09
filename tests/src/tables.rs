//! Tables of odd visits: every cell fits its column and reads back as what was written, keys hold, and without names no
//! typed word, id or date is left.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use sidelight_core::archive;
use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::export::Case;
use sidelight_core::export::table::{
    Cell, Kind, Options, Table, Who, each_row, read, read_text, tables, write, write_text,
};

use crate::dice::Dice;
use crate::odd_records::{MARK, addenda, codes, fill_with_text, odd_text, some};
use crate::odd_visit::{Oddness, odd};
use crate::repository::root;

const WRITTEN: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn cases(of: &[(Person, Visit)]) -> Vec<Case<'_>> {
    of.iter().map(|(person, visit)| Case { person, visit }).collect()
}

fn options<'a>(who: Who<'a>, addenda: &'a [Addendum]) -> Options<'a> {
    Options { who, addenda, bom: false, program: "Sidelight, test", written: WRITTEN }
}

/// Every cell that the writer is given, by table.
fn given(cases: &[Case<'_>], options: &Options<'_>) -> Vec<(Table, Vec<Vec<Cell>>)> {
    let tables = tables(options.who);
    let mut rows = vec![Vec::new(); tables.len()];
    each_row(cases, options, &tables, &mut |at, row| rows[at].push(row.to_vec())).expect("tables");
    tables.into_iter().zip(rows).collect()
}

#[test]
fn every_cell_fits_its_column_and_reads_back_as_it_was() {
    let mut cells = 0;
    for seed in 0..40 {
        let mut all = some(seed);
        if seed % 3 == 0 {
            fill_with_text(&mut all, &mut |dice| odd_text(dice), seed);
        }
        let (cases, codes) = (cases(&all), codes(&all));
        let addenda = addenda(&all, &mut |dice| odd_text(dice));
        for who in [Who::Named, Who::Coded(&codes)] {
            let options = Options { bom: seed % 2 == 0, ..options(who, &addenda) };
            let files = write(&cases, &options).expect("tables");
            for (table, rows) in given(&cases, &options) {
                let file = files.iter().find(|file| file.name == table.file()).expect("its file");
                let back = read(&file.bytes).expect("a table");
                assert_eq!(back.header, table.columns.iter().map(|column| column.name.clone()).collect::<Vec<_>>());
                assert_eq!(back.rows.len(), rows.len(), "{seed} {}", table.name);
                for (row, texts) in rows.iter().zip(&back.rows) {
                    for ((column, cell), text) in table.columns.iter().zip(row).zip(texts) {
                        let at = format!("{seed} {} {}: {cell:?} as {text:?}", table.name, column.name);
                        assert!(column.takes(cell), "does not fit: {at}");
                        assert_eq!(column.read(text), Some(as_printed(cell)), "{at}");
                        cells += 1;
                    }
                }
            }
        }
    }
    assert!(cells > 200_000, "only {cells} cells were read back");
}

/// What a file holds of a cell: moments to the second, no NUL, and no difference between empty text and none.
fn as_printed(cell: &Cell) -> Cell {
    match cell {
        Cell::Moment(moment) => Cell::Moment(Moment {
            unix_ms: moment.unix_ms.div_euclid(1000) * 1000,
            offset_minutes: moment.offset_minutes,
        }),
        Cell::Text(text) if text.is_empty() => Cell::Empty,
        Cell::Text(text) => Cell::Text(text.replace('\0', "\u{FFFD}")),
        other => other.clone(),
    }
}

#[test]
fn keys_stand_once_and_what_they_refer_to_exists() {
    for seed in 0..25 {
        let all = some(seed);
        let codes = codes(&all);
        let addenda = addenda(&all, &mut |_| "more".to_string());
        for who in [Who::Named, Who::Coded(&codes)] {
            let given = given(&cases(&all), &options(who, &addenda));
            let column = |table: &Table, name: &str| table.columns.iter().position(|column| column.name == name);
            for (table, rows) in &given {
                let key: Vec<usize> = table.key.iter().map(|name| column(table, name).expect("a column")).collect();
                let keys: BTreeSet<String> = rows
                    .iter()
                    .map(|row| format!("{:?}", key.iter().map(|at| &row[*at]).collect::<Vec<_>>()))
                    .collect();
                assert_eq!(keys.len(), rows.len(), "{seed}: a key of {} stands twice", table.name);
                let Some((name, other)) = table.refers else { continue };
                let Some((other, others)) = given.iter().find(|(table, _)| table.name == other) else { continue };
                let there: BTreeSet<String> =
                    others.iter().map(|row| row[column(other, name).expect("a column")].print()).collect();
                let at = column(table, name).expect("a column");
                assert!(
                    rows.iter().all(|row| there.contains(&row[at].print())),
                    "{seed}: {} refers to none",
                    table.name
                );
            }
        }
    }
}

/// A measure stands once in a visit, has a unit, and is the same with and without names.
#[test]
fn measures_are_those_of_the_assessment() {
    for seed in 0..150 {
        let (person, visit) = odd(seed, Oddness::Valid);
        let codes = BTreeMap::from([(person.id.clone(), "X4KQ".to_string())]);
        let cases = [Case { person: &person, visit: &visit }];
        let expected: Vec<String> = assess(&person, &visit).measures().map(|measure| measure.key.clone()).collect();
        let measured = |who| {
            let tables = given(&cases, &options(who, &[]));
            let (table, rows) = tables.iter().find(|(table, _)| table.name == "measures").expect("measures");
            let cell = |row: &[Cell], name: &str| {
                row[table.columns.iter().position(|column| column.name == name).expect("a column")].print()
            };
            let rows: Vec<[String; 5]> = rows
                .iter()
                .filter(|row| !cell(row, "measure").is_empty())
                .map(|row| ["measure", "value", "unit", "grade", "norm"].map(|name| cell(row, name)))
                .collect();
            rows
        };
        let named = measured(Who::Named);
        assert_eq!(named.iter().map(|row| row[0].clone()).collect::<Vec<_>>(), expected);
        assert_eq!(expected.iter().collect::<BTreeSet<_>>().len(), expected.len(), "{seed}: a measure stands twice");
        assert!(named.iter().all(|row| !row[2].is_empty()), "{seed}: a value without a unit");
        assert_eq!(named, measured(Who::Coded(&codes)), "{seed}");
    }
}

/// 45 CFR 164.514(b)(2)(i), each letter beside where it could stand in a record. Nothing of it may be in tables without
/// names: every text, id and date of the record is replaced by a mark, and no mark may appear.
const SAFE_HARBOR: [(&str, &str); 18] = [
    ("A", "names: label, notes, who agreed, who examined, who was told"),
    ("B", "places smaller than a state: notes, referred to"),
    ("C", "dates but the year, ages over 89: moments, days, birth"),
    ("D", "telephone numbers: names or numbers of those told"),
    ("E", "fax numbers: notes"),
    ("F", "electronic mail addresses: notes"),
    ("G", "social security numbers: notes, label"),
    ("H", "medical record numbers: label, ids"),
    ("I", "health plan numbers: notes"),
    ("J", "account numbers: notes"),
    ("K", "licence numbers: examined by"),
    ("L", "vehicle numbers: notes"),
    ("M", "device identifiers: program, parts of another version"),
    ("N", "addresses of web pages: notes"),
    ("O", "internet addresses: notes"),
    ("P", "biometric identifiers: none is recorded"),
    ("Q", "photographs: none is recorded"),
    ("R", "any other number or code: ids of people, visits and routines, time zone"),
];

#[test]
fn without_names_nothing_of_the_safe_harbor_list_is_left() {
    assert_eq!(SAFE_HARBOR.map(|(letter, _)| letter).concat(), "ABCDEFGHIJKLMNOPQR");
    let mut kept = 0;
    for seed in 0..40 {
        let mut all = some(seed);
        fill_with_text(&mut all, &mut |_| MARK.to_string(), seed);
        let codes = codes(&all);
        let addenda = addenda(&all, &mut |_| MARK.to_string());
        let coded = write(&cases(&all), &options(Who::Coded(&codes), &addenda)).expect("tables");
        for file in &coded {
            let text = String::from_utf8(file.bytes.clone()).expect("UTF-8").to_lowercase();
            assert!(!text.contains(&MARK.to_lowercase()), "{seed}: {} tells a mark", file.name);
            assert_eq!(dates_in(&text), Vec::<String>::new(), "{seed}: {}", file.name);
            assert!(!file.name.ends_with(".csv") || !text.contains("sidelight"), "{seed}: {}", file.name);
        }
        kept += coded.iter().map(|file| file.bytes.len()).sum::<usize>();
        for column in tables(Who::Coded(&codes)).iter().flat_map(|table| &table.columns) {
            let dated = matches!(column.kind, Kind::Day | Kind::Moment);
            assert!(!dated, "{} is a date", column.name);
        }
        // The mark is found where it may stand.
        let named = write(&cases(&all), &options(Who::Named, &addenda)).expect("tables");
        assert!(named.iter().any(|file| String::from_utf8_lossy(&file.bytes).contains(MARK)), "{seed}");
    }
    assert!(kept > 1_000_000, "hardly anything was written");
}

/// What looks like a date: a year with a month, or a time of day.
fn dates_in(text: &str) -> Vec<String> {
    let bytes = text.as_bytes();
    let digits =
        |from: usize, n: usize| bytes.get(from..from + n).is_some_and(|part| part.iter().all(u8::is_ascii_digit));
    let date = |at: &usize| digits(*at, 4) && bytes.get(at + 4) == Some(&b'-') && digits(at + 5, 2);
    let time = |at: &usize| digits(*at, 2) && bytes.get(at + 2) == Some(&b':') && digits(at + 3, 2);
    (0..bytes.len()).filter(|at| date(at) || time(at)).map(|at| text[at..].chars().take(10).collect()).collect()
}

#[test]
fn guarded_text_reads_back_and_no_program_takes_it_for_a_formula() {
    let mut dice = Dice::new(11);
    for _ in 0..100_000 {
        let text = odd_text(&mut dice);
        let cell = write_text(&text);
        assert_eq!(read_text(&cell), text.replace('\0', "\u{FFFD}"));
        // However a program splits the line, no piece begins with what could be run.
        for separator in [',', ';', '|', '"', '\t', '\r', '\n'] {
            for piece in cell.split(separator) {
                let first = piece.trim_start_matches(' ').chars().next();
                let runs = first.is_some_and(|first| "=+-@＝＋－＠".contains(first));
                assert!(!runs, "{cell:?} split at {separator:?} begins with {first:?}");
            }
        }
    }
}

/// Any bytes are a table or an error, never a panic, and the answer is no larger than what was read.
#[test]
fn changed_bytes_are_read_or_refused() {
    let all = some(3);
    let options = Options { bom: true, ..options(Who::Named, &[]) };
    let files = write(&cases(&all), &options).expect("tables");
    let mut dice = Dice::new(5);
    for _ in 0..3_000 {
        let file = &files[dice.below(files.len() as u64) as usize];
        let mut bytes = file.bytes[..dice.below(file.bytes.len().min(4_000) as u64) as usize].to_vec();
        for _ in 0..=dice.below(6) {
            let at = dice.below(bytes.len() as u64) as usize;
            let byte = dice.pick(b"\",;\r\n\0'=\xFFa");
            if let Some(place) = bytes.get_mut(at) {
                *place = byte;
            }
        }
        if let Ok(table) = read(&bytes) {
            let held: usize = table.rows.iter().flatten().map(String::len).sum();
            assert!(held <= bytes.len());
            let unguarded: usize = table.rows.iter().flatten().map(|cell| read_text(cell).len()).sum();
            assert!(unguarded <= held);
        }
    }
}

/// The tables of some golden visits, word for word; read the difference after `SIDELIGHT_BLESS=1`.
#[test]
fn golden_tables_are_written_as_they_were() {
    let mut all = Vec::new();
    for folder in ["knock-after-baseline", "reading-tires-convergence", "stopped-neck-pain", "vertigo-steady-impulse"] {
        let bytes = fs::read(root().join("tests/visits").join(folder).join("visit.json")).expect("a golden visit");
        let read = archive::read(&bytes).expect("an archive");
        for visit in read.visits {
            let person = read.people.iter().find(|person| person.id == visit.person).expect("its person").clone();
            // Golden people share their ids.
            let id = format!("{folder}.{}", person.id);
            all.push((Person { id: id.clone(), ..person }, Visit { person: id, ..visit }));
        }
    }
    let codes = codes(&all);
    let cases = cases(&all);
    let mut differing = Vec::new();
    for (name, who) in [("named", Who::Named), ("coded", Who::Coded(&codes))] {
        let folder = root().join("tests/tables").join(name);
        for file in write(&cases, &options(who, &[])).expect("tables") {
            let path = folder.join(&file.name);
            if std::env::var_os("SIDELIGHT_BLESS").is_some() {
                fs::create_dir_all(&folder).expect("a folder can be made");
                fs::write(&path, &file.bytes).expect("golden tables can be written");
            }
            let expected = fs::read_to_string(&path).unwrap_or_default().replace("\r\n", "\n");
            if String::from_utf8_lossy(&file.bytes).replace("\r\n", "\n") != expected {
                differing.push(path.display().to_string());
            }
        }
    }
    assert!(differing.is_empty(), "these differ; look with SIDELIGHT_BLESS=1 and git diff:\n{}", differing.join("\n"));
}
