//! Tables of visits for a spreadsheet or a statistics program: one row a visit, a measure, a trial or tap, a showing on
//! a screen, a rating of symptoms, an answer, an exercise given, a log that came back; with what each column may hold beside them, in two open forms that programs can check.
//!
//! Lines end with CR LF and cells are quoted by RFC 4180; numbers have a point and no quotes; days and moments are those
//! of ISO 8601. An empty cell is absent, never zero, and a column beside it says why. Text that a spreadsheet could take
//! for a formula is guarded, and [`read_text`] takes the guard off again.

mod addenda;
mod answers;
mod clean;
pub mod code;
mod column;
mod guard;
mod home;
mod measures;
mod order;
mod people;
mod read;
mod schema;
mod showings;
mod symptoms;
mod trials;
mod visits;
mod words;

pub use column::{Cell, Column, Kind, Table};
pub use guard::{read_text, write_text};
pub use order::TableError;
pub use read::{MAX_BYTES, Read, ReadError, read};

use std::collections::BTreeMap;

use super::Case;
use crate::assess::{Assessment, assess};
use crate::calendar::{Date, Moment};
use crate::capture::addendum::Addendum;
use crate::capture::visit::{Person, Visit};

/// What is said wherever tables without names are made. General Data Protection Regulation, article 4(5): data that can be
/// tied to a person again with a list that is kept elsewhere stay personal data.
pub const PSEUDONYMISED: &str = "Pseudonymised, not anonymous: names, dates and free text are left out, but whoever has \
                                 the list of codes, or knows a person well, can still tell who it is. Treat the tables \
                                 as personal health data.";

/// Who the tables show.
#[derive(Debug, Clone, Copy)]
pub enum Who<'a> {
    /// People by name, with dates and free text.
    Named,
    /// People by a study code each: no names, no free text, no ids of ours, no dates but days since the first visit, no
    /// age over 89. By person id; the codes are drawn at random by the caller, four to sixteen letters and digits.
    Coded(&'a BTreeMap<String, String>),
}

/// How the tables are written.
#[derive(Debug, Clone, Copy)]
pub struct Options<'a> {
    /// Who they show.
    pub who: Who<'a>,
    /// Addenda of the visits, and of others, in any order.
    pub addenda: &'a [Addendum],
    /// Whether files begin with a byte order mark, by which spreadsheets know UTF-8; off for reading by a program.
    pub bom: bool,
    /// Name and version of the program.
    pub program: &'a str,
    /// When they are written; only tables with names tell it.
    pub written: Moment,
}

/// One file of the tables.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Its name, the same for every export.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// Writes the tables of these visits and the two descriptions of them.
///
/// # Errors
/// [`TableError`] when people without names lack a usable code.
pub fn write(cases: &[Case<'_>], options: &Options<'_>) -> Result<Vec<File>, TableError> {
    let mark: &[u8] = if options.bom { b"\xEF\xBB\xBF" } else { b"" };
    let tables = tables(options.who);
    let mut sheets: Vec<csv::Writer<Vec<u8>>> = tables.iter().map(|table| sheet(table, mark)).collect();
    let mut cells = Vec::new();
    each_row(cases, options, &tables, &mut |at, row| {
        cells.clear();
        cells.extend(row.iter().map(Cell::print));
        put(&mut sheets[at], &cells);
    })?;
    let mut files = Vec::new();
    for (table, sheet) in tables.iter().zip(sheets) {
        files.push(File { name: table.file(), bytes: sheet.into_inner().unwrap_or_default() });
    }
    files.push(File { name: schema::PACKAGE.to_string(), bytes: schema::package(&tables, options).into_bytes() });
    files.push(File { name: schema::METADATA.to_string(), bytes: schema::metadata(&tables, options).into_bytes() });
    Ok(files)
}

/// Every row of every table, by the table's place in [`tables`], to whatever takes them.
///
/// # Errors
/// As [`write()`].
pub fn each_row(
    cases: &[Case<'_>],
    options: &Options<'_>,
    tables: &[Table],
    take: &mut dyn FnMut(usize, &[Cell]),
) -> Result<(), TableError> {
    let who = options.who;
    let mut addenda: BTreeMap<&str, Vec<&Addendum>> = BTreeMap::new();
    for addendum in options.addenda {
        addenda.entry(addendum.visit.as_str()).or_default().push(addendum);
    }
    addenda.values_mut().for_each(|of_visit| of_visit.sort_by_key(|addendum| (addendum.written, &addendum.id)));
    for place in order::of(cases, who)? {
        let case = cases[place.at];
        let (visit, left_out) = clean::visit(case.visit, who);
        let person = clean::person(case.person, &place, who);
        let assessment = assess(&person, &visit);
        let addenda = addenda.get(case.visit.id.as_str()).map_or(&[][..], Vec::as_slice);
        let seen = Seen { who, place, person: &person, visit: &visit, assessment: &assessment, addenda, left_out };
        for (at, (table, (_, fill))) in tables.iter().zip(made(who)).enumerate() {
            fill(&seen, table, &mut |row| take(at, row));
        }
    }
    Ok(())
}

/// The tables in the order of their files.
#[must_use]
pub fn tables(who: Who<'_>) -> Vec<Table> {
    made(who).map(|(table, _)| table().shown_to(who)).collect()
}

type Fill = fn(&Seen<'_>, &Table, &mut dyn FnMut(&[Cell]));

fn made(who: Who<'_>) -> impl Iterator<Item = (fn() -> Table, Fill)> {
    let people: Option<(fn() -> Table, Fill)> = match who {
        Who::Named => Some((people::table, people::fill)),
        Who::Coded(_) => None,
    };
    let others: [(fn() -> Table, Fill); 9] = [
        (visits::table, visits::fill),
        (measures::table, measures::fill),
        (trials::table, trials::fill),
        (showings::table, showings::fill),
        (symptoms::table, symptoms::fill),
        (answers::table, answers::fill),
        (home::given_table, home::given),
        (home::practised_table, home::practised),
        (addenda::table, addenda::fill),
    ];
    people.into_iter().chain(others)
}

/// One visit as the tables see it: only what its forms know, and without what may not be shown.
struct Seen<'a> {
    who: Who<'a>,
    place: order::Placed,
    person: &'a Person,
    visit: &'a Visit,
    assessment: &'a Assessment,
    addenda: &'a [&'a Addendum],
    /// Parts of the visit that the forms do not know.
    left_out: u32,
}

impl Seen<'_> {
    fn key(&self) -> Cell {
        Cell::Text(self.place.key.clone())
    }

    /// Days from the person's first visit to this day.
    fn days_to(&self, day: Date) -> Cell {
        Cell::Whole((day - self.place.first).whole_days())
    }
}

fn sheet(table: &Table, mark: &[u8]) -> csv::Writer<Vec<u8>> {
    let mut sheet = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(mark.to_vec());
    let names: Vec<&str> = table.columns.iter().map(|column| column.name.as_str()).collect();
    put(&mut sheet, &names);
    sheet
}

/// Writing into memory fails only for rows of unequal length, and each row has a cell for every column.
fn put<T: AsRef<[u8]>>(sheet: &mut csv::Writer<Vec<u8>>, cells: &[T]) {
    let written = sheet.write_record(cells);
    debug_assert!(written.is_ok(), "{written:?}");
}

#[cfg(test)]
mod tests;
