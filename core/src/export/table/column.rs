//! Tables as data: columns, what each may hold, and the cells of a row.

use super::Who;
use super::guard::{read_text, write_text};
use crate::calendar::{Date, Moment, iso_date, parse_date};

/// A table: its columns, its key and the tables it refers to.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Name, and name of its file without the ending.
    pub name: &'static str,
    /// What a row is.
    pub says: &'static str,
    /// Columns in order.
    pub columns: Vec<Column>,
    /// Columns that together stand once.
    pub key: &'static [&'static str],
    /// A column that stands for a row of another table, and that table; the column has the same name there.
    pub refers: Option<(&'static str, &'static str)>,
}

/// One column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Name in the first line.
    pub name: String,
    /// What it holds, in words.
    pub says: String,
    /// What its cells may be.
    pub kind: Kind,
    /// UCUM code of its numbers; empty for none.
    pub unit: &'static str,
    /// Whether no cell of it is empty.
    pub required: bool,
    /// Where it is shown.
    pub shown: Shown,
}

/// Which tables have a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// All.
    Always,
    /// Those with names.
    Named,
    /// Those without.
    Coded,
}

/// What the cells of a column may be.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// Text, guarded; also ids that a file brought.
    Text,
    /// One of these words.
    Word(Vec<&'static str>),
    /// Any of these words with a semicolon between, or "none_of_these" when it was asked and none applies.
    Words(Vec<&'static str>),
    /// A name the program gives: small letters, digits, points and low lines.
    Id,
    /// Such names with a semicolon between, or "none_of_these".
    Ids,
    /// A whole number from the first to the second, ends included.
    Whole(i64, i64),
    /// A number within these bounds, if there are any.
    Number(Option<(f64, f64)>),
    /// true or false.
    Yes,
    /// A day.
    Day,
    /// A moment with its offset from UTC.
    Moment,
    /// Completed years up to 89, or "90+".
    Age,
}

/// One cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Absent.
    Empty,
    /// Text.
    Text(String),
    /// A word or a name.
    Word(String),
    /// Some words or names.
    Words(Vec<String>),
    /// A whole number.
    Whole(i64),
    /// A number.
    Number(f64),
    /// True or false.
    Yes(bool),
    /// A day.
    Day(Date),
    /// A moment.
    Moment(Moment),
}

/// The word for "asked, and none of them"; no choice has it as its id.
pub(super) const NONE: &str = "none_of_these";

/// Days between two visits that a table can tell: twice the calendar's ten thousand years, both ways.
pub(super) const DAYS: Kind = Kind::Whole(-7_305_000, 7_305_000);

impl Table {
    /// Name of its file.
    #[must_use]
    pub fn file(&self) -> String {
        format!("{}.csv", self.name)
    }

    pub(super) fn shown_to(mut self, who: Who<'_>) -> Table {
        self.columns.retain(|column| match (column.shown, who) {
            (Shown::Always, _) | (Shown::Named, Who::Named) | (Shown::Coded, Who::Coded(_)) => true,
            (Shown::Named, Who::Coded(_)) | (Shown::Coded, Who::Named) => false,
        });
        self
    }

    /// An empty row.
    pub(super) fn row(&self) -> Row<'_> {
        Row { table: self, cells: vec![Cell::Empty; self.columns.len()] }
    }
}

/// A row that is being filled.
pub(super) struct Row<'a> {
    table: &'a Table,
    pub(super) cells: Vec<Cell>,
}

impl Row<'_> {
    /// Fills a cell; a column that this export does not show takes nothing.
    pub(super) fn put(&mut self, name: &str, cell: Cell) -> &mut Self {
        if let Some(at) = self.table.columns.iter().position(|column| column.name == name) {
            self.cells[at] = cell;
        }
        self
    }
}

/// A column that every export shows and that may be empty.
pub(super) fn column(name: impl Into<String>, kind: Kind, says: impl Into<String>) -> Column {
    Column { name: name.into(), says: says.into(), kind, unit: "", required: false, shown: Shown::Always }
}

impl Column {
    pub(super) fn required(self) -> Column {
        Column { required: true, ..self }
    }

    pub(super) fn named(self) -> Column {
        Column { shown: Shown::Named, ..self }
    }

    pub(super) fn coded(self) -> Column {
        Column { shown: Shown::Coded, ..self }
    }

    pub(super) fn unit(self, unit: &'static str) -> Column {
        Column { unit, ..self }
    }

    /// Whether the cell may stand in this column.
    #[must_use]
    pub fn takes(&self, cell: &Cell) -> bool {
        match (cell, &self.kind) {
            (Cell::Empty, _) => !self.required,
            (Cell::Text(text), Kind::Text) => !self.required || !text.is_empty(),
            (Cell::Word(word), Kind::Word(words)) => words.contains(&word.as_str()),
            (Cell::Word(word), Kind::Id) => is_name(word),
            (Cell::Word(word), Kind::Age) => is_age(word),
            (Cell::Words(some), Kind::Words(words)) => some.iter().all(|word| words.contains(&word.as_str())),
            (Cell::Words(some), Kind::Ids) => some.iter().all(|word| is_name(word)),
            (Cell::Whole(value), Kind::Whole(min, max)) => (min..=max).contains(&value),
            (Cell::Number(value), Kind::Number(bounds)) => {
                value.is_finite() && bounds.is_none_or(|(min, max)| (min..=max).contains(value))
            }
            (Cell::Yes(_), Kind::Yes) | (Cell::Day(_), Kind::Day) | (Cell::Moment(_), Kind::Moment) => true,
            _ => false,
        }
    }

    /// Reads a cell of this column back; `None` when it cannot stand there. A moment is read back to the second.
    #[must_use]
    pub fn read(&self, text: &str) -> Option<Cell> {
        if text.is_empty() {
            return Some(Cell::Empty).filter(|cell| self.takes(cell));
        }
        let some = || if text == NONE { Vec::new() } else { text.split(';').map(String::from).collect() };
        let cell = match &self.kind {
            Kind::Text => Cell::Text(read_text(text)),
            Kind::Word(_) | Kind::Id | Kind::Age => Cell::Word(text.to_string()),
            Kind::Words(_) | Kind::Ids => Cell::Words(some()),
            Kind::Whole(..) => Cell::Whole(text.parse().ok()?),
            Kind::Number(_) => Cell::Number(text.parse().ok()?),
            Kind::Yes => Cell::Yes(text.parse().ok()?),
            Kind::Day => Cell::Day(parse_date(text)?),
            Kind::Moment => Cell::Moment(read_moment(text)?),
        };
        Some(cell).filter(|cell| self.takes(cell))
    }
}

impl Cell {
    /// As it stands in the file, before quoting.
    #[must_use]
    pub fn print(&self) -> String {
        match self {
            Cell::Empty => String::new(),
            Cell::Text(text) => write_text(text),
            Cell::Word(word) => word.clone(),
            Cell::Words(words) if words.is_empty() => NONE.to_string(),
            Cell::Words(words) => words.join(";"),
            Cell::Whole(value) => value.to_string(),
            // The shortest digits that read back as the same number; adding zero takes the sign off a negative zero.
            Cell::Number(value) => (value + 0.0).to_string(),
            Cell::Yes(value) => value.to_string(),
            Cell::Day(day) => iso_date(*day),
            Cell::Moment(moment) => moment.iso(),
        }
    }

    /// A word, if there is one.
    pub(super) fn word(word: Option<impl Into<String>>) -> Cell {
        word.map_or(Cell::Empty, |word| Cell::Word(word.into()))
    }

    /// Words, if it was asked.
    pub(super) fn words(words: Option<&[String]>) -> Cell {
        words.map_or(Cell::Empty, |words| Cell::Words(words.to_vec()))
    }

    /// Text that is not blank.
    pub(super) fn text(text: Option<impl Into<String>>) -> Cell {
        text.map(Into::into).filter(|text: &String| !text.trim().is_empty()).map_or(Cell::Empty, Cell::Text)
    }

    /// A count.
    pub(super) fn count(number: usize) -> Cell {
        i64::try_from(number).map_or(Cell::Empty, Cell::Whole)
    }

    /// A measured number, to six decimals as in the other export of values.
    pub(super) fn measured(value: f64) -> Cell {
        Some(value).filter(|value| value.is_finite()).map_or(Cell::Empty, |v| Cell::Number((v * 1e6).round() / 1e6))
    }

    /// A day of the calendar's four-digit years.
    pub(super) fn day(day: Date) -> Cell {
        if (1..=9999).contains(&day.year()) { Cell::Day(day) } else { Cell::Empty }
    }

    /// A moment in such a year, with an offset that the world has.
    pub(super) fn moment(moment: Moment) -> Cell {
        let real = (1..=9999).contains(&moment.date().year()) && moment.offset_minutes.abs() <= 14 * 60;
        if real { Cell::Moment(moment) } else { Cell::Empty }
    }
}

fn is_name(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_' || b == b'.')
}

fn is_age(word: &str) -> bool {
    word == "90+" || word.parse::<u8>().is_ok_and(|years| years <= 89 && years.to_string() == word)
}

/// 2026-03-02T15:52:08+01:00 and nothing else.
fn read_moment(text: &str) -> Option<Moment> {
    let (day, rest) = text.split_at_checked(10)?;
    let part = |from: usize, to: usize| rest.get(from..to)?.parse::<i64>().ok();
    let (hours, minutes, seconds) = (part(1, 3)?, part(4, 6)?, part(7, 9)?);
    let sign = match rest.get(9..10)? {
        "+" => 1,
        "-" => -1,
        _ => return None,
    };
    let offset = sign * (part(10, 12)? * 60 + part(13, 15)?);
    let days = (parse_date(day)? - parse_date("1970-01-01")?).whole_days();
    let unix_ms = (((days * 24 + hours) * 60 + minutes - offset) * 60 + seconds) * 1000;
    let moment = Moment { unix_ms, offset_minutes: i16::try_from(offset).ok()? };
    (moment.iso() == text).then_some(moment)
}
