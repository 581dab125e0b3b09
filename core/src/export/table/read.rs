//! Reads a table back as text: for tests, and for whoever wants to see that nothing was lost.

use std::fmt;

/// The largest file that is read.
pub const MAX_BYTES: usize = 64 * 1024 * 1024;

/// A table as text; cells as they stand in the file, guards included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Read {
    /// Names of the columns.
    pub header: Vec<String>,
    /// Rows in order.
    pub rows: Vec<Vec<String>>,
}

/// Why a file is no table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadError {
    /// Larger than [`MAX_BYTES`].
    TooLarge,
    /// Not UTF-8.
    NotText,
    /// Not even names of columns.
    Empty,
    /// A row has another number of cells than the first line; by its number, counted from 1.
    Uneven(u64),
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadError::TooLarge => write!(f, "The table is larger than 64 MiB."),
            ReadError::NotText => write!(f, "The table is not text in UTF-8."),
            ReadError::Empty => write!(f, "The table has no first line with the names of its columns."),
            ReadError::Uneven(row) => write!(f, "Row {row} has not as many cells as the first line."),
        }
    }
}

impl std::error::Error for ReadError {}

/// Reads a file of the form this program writes, with or without a byte order mark.
///
/// # Errors
/// [`ReadError`] when it is none.
pub fn read(bytes: &[u8]) -> Result<Read, ReadError> {
    if bytes.len() > MAX_BYTES {
        return Err(ReadError::TooLarge);
    }
    let text = std::str::from_utf8(bytes).map_err(|_| ReadError::NotText)?;
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let mut lines = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut read: Vec<Vec<String>> = Vec::new();
    for line in lines.records() {
        let line = line.map_err(|_| ReadError::NotText)?;
        let cells: Vec<String> = line.iter().map(String::from).collect();
        if read.first().is_some_and(|header| header.len() != cells.len()) {
            return Err(ReadError::Uneven(read.len() as u64));
        }
        read.push(cells);
    }
    let mut read = read.into_iter();
    let header = read.next().ok_or(ReadError::Empty)?;
    Ok(Read { header, rows: read.collect() })
}
