//! Looks for words in everything a browser has left on the disk: as plain bytes in every file, in file names, and inside
//! the files that hide bytes from a plain search: tables and logs of LevelDB, SQLite, and Mozilla's LZ4 files.
//!
//! What it cannot look into: files that the system itself compresses or encrypts, and memory.

mod leveldb;
mod needle;
mod sqlite;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use self::needle::Needles;

/// What was found and what was looked through.
#[derive(Debug, Default)]
pub struct Found {
    /// Each word with the places where it stands.
    pub hits: BTreeMap<String, BTreeSet<Hit>>,
    files: usize,
    bytes: u64,
    table_blocks: usize,
    log_records: usize,
    sqlite_cells: usize,
    unpacked: usize,
}

/// A place where a word stands.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hit {
    /// The file, below the folder that was searched.
    pub file: PathBuf,
    /// Where in it.
    pub place: Place,
}

/// Where in a file a word stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// In its name or in that of a folder above it.
    Name,
    /// Among its bytes as they are.
    Bytes,
    /// In a block of a LevelDB table, unpacked.
    Table,
    /// In a record of a LevelDB log, put together again.
    Log,
    /// In a row of an SQLite database, put together again.
    Row,
    /// In what was compressed inside any of these.
    Packed,
}

/// Looks for each of `words` in every file below `folder`.
pub fn search(folder: &Path, words: &[&str]) -> Result<Found> {
    let mut look = Look { needles: Needles::new(words), root: folder.to_owned(), found: Found::default() };
    look.folder(folder)?;
    Ok(look.found)
}

/// How many of these strings of bytes stand somewhere below `folder`.
pub fn count_of_bytes(folder: &Path, all: &[Vec<u8>]) -> Result<usize> {
    let mut look = Look { needles: Needles::of_bytes(all), root: folder.to_owned(), found: Found::default() };
    look.folder(folder)?;
    Ok(look.found.hits.len())
}

impl Found {
    /// The places where a word stands.
    pub fn of(&self, word: &str) -> Vec<&Hit> {
        self.hits.get(word).into_iter().flatten().collect()
    }

    /// Whether a word stands at this kind of place.
    pub fn is_at(&self, word: &str, place: Place) -> bool {
        self.of(word).iter().any(|hit| hit.place == place)
    }
}

impl fmt::Display for Found {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} files, {} KiB, {} blocks of tables, {} records of logs, {} cells of SQLite, {} unpacked values",
            self.files,
            self.bytes / 1024,
            self.table_blocks,
            self.log_records,
            self.sqlite_cells,
            self.unpacked
        )
    }
}

impl fmt::Display for Hit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({:?})", self.file.display(), self.place)
    }
}

struct Look {
    needles: Needles,
    root: PathBuf,
    found: Found,
}

impl Look {
    fn folder(&mut self, folder: &Path) -> Result<()> {
        for entry in fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))? {
            let entry = entry?;
            let (path, kind) = (entry.path(), entry.file_type()?);
            self.name(&path);
            if kind.is_dir() {
                self.folder(&path)?;
            } else if kind.is_file() {
                self.file(&path)?;
            }
        }
        Ok(())
    }

    fn name(&mut self, path: &Path) {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        self.bytes(path, Place::Name, name.as_bytes());
    }

    fn file(&mut self, path: &Path) -> Result<()> {
        let bytes = fs::read(path).with_context(|| format!("cannot read {}", path.display()))?;
        self.found.files += 1;
        self.found.bytes += bytes.len() as u64;
        self.bytes(path, Place::Bytes, &bytes);
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if leveldb::is_table(&bytes) {
            for block in leveldb::blocks(&bytes).with_context(|| format!("{} is no whole table", path.display()))? {
                self.found.table_blocks += 1;
                self.bytes(path, Place::Table, &block);
                for (key, value) in leveldb::entries(&block) {
                    self.bytes(path, Place::Table, &key);
                    self.value(path, value);
                }
            }
        } else if name.ends_with(".log") || name.starts_with("MANIFEST-") {
            for record in leveldb::records(&bytes) {
                self.found.log_records += 1;
                self.bytes(path, Place::Log, &record);
                for value in leveldb::batch(&record) {
                    self.value(path, value);
                }
            }
        } else if sqlite::is_database(&bytes) {
            let mut beside = path.as_os_str().to_owned();
            beside.push("-wal");
            let wal = fs::read(beside).unwrap_or_default();
            for value in sqlite::values(&bytes, &wal) {
                self.found.sqlite_cells += 1;
                self.bytes(path, Place::Row, &value);
                self.value(path, &value);
            }
        } else if let Some(text) = unpack_mozilla(&bytes) {
            self.found.unpacked += 1;
            self.bytes(path, Place::Packed, &text);
        }
        Ok(())
    }

    /// A stored value, which may be compressed as a whole or behind a short head.
    fn value(&mut self, path: &Path, value: &[u8]) {
        if let Some(plain) = unpack(value) {
            self.found.unpacked += 1;
            self.bytes(path, Place::Packed, &plain);
        }
        // Chromium marks a compressed value by these bytes, behind the version of its row.
        let marked = value.windows(3).take(16).position(|bytes| bytes == [0xff, 0x11, 0x02]);
        if let Some(plain) = marked.and_then(|at| unpack(&value[at + 3..])) {
            self.found.unpacked += 1;
            self.bytes(path, Place::Packed, &plain);
        }
    }

    fn bytes(&mut self, path: &Path, place: Place, bytes: &[u8]) {
        for word in self.needles.in_bytes(bytes) {
            let file = path.strip_prefix(&self.root).unwrap_or(path).to_owned();
            self.found.hits.entry(word).or_default().insert(Hit { file, place });
        }
    }
}

/// Undoes Snappy's compression; what is not compressed is refused by its sums.
fn unpack(bytes: &[u8]) -> Option<Vec<u8>> {
    let length = snap::raw::decompress_len(bytes).ok()?;
    // Snappy packs at most about 1 to 21; a greater length is that of something else.
    if length == 0 || length > bytes.len().saturating_mul(32) {
        return None;
    }
    snap::raw::Decoder::new().decompress_vec(bytes).ok()
}

/// Undoes the compression of Firefox's session files.
fn unpack_mozilla(bytes: &[u8]) -> Option<Vec<u8>> {
    let packed = bytes.strip_prefix(b"mozLz40\0")?;
    let (length, packed) = packed.split_first_chunk::<4>()?;
    lz4_flex::block::decompress(packed, u32::from_le_bytes(*length) as usize).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_is_found_in_names_bytes_and_what_is_packed() {
        let folder = tempfile::tempdir().expect("a folder");
        let text = format!("half-one half-two and then {} half-onehalf-two", "x".repeat(40));
        let packed = snap::raw::Encoder::new().compress_vec(text.as_bytes()).expect("packs");
        fs::write(folder.path().join("half-onehalf-two.bin"), &packed).expect("writes");
        fs::write(folder.path().join("plain"), &text).expect("writes");
        let mut session = b"mozLz40\0".to_vec();
        session.extend(u32::try_from(text.len()).expect("short").to_le_bytes());
        session.extend(lz4_flex::block::compress(text.as_bytes()));
        fs::write(folder.path().join("session"), session).expect("writes");
        let word = "half-onehalf-two";
        assert!(!packed.windows(word.len()).any(|bytes| bytes == word.as_bytes()), "packing hides the word");
        assert_eq!(unpack(&packed).as_deref(), Some(text.as_bytes()));
        let found = search(folder.path(), &[word, "absent"]).expect("searches");
        let at = |file: &str, place| Hit { file: file.into(), place };
        let name = "half-onehalf-two.bin";
        let places = [at(name, Place::Name), at("plain", Place::Bytes), at("session", Place::Packed)];
        assert_eq!(found.of(word), places.iter().collect::<Vec<_>>());
        assert!(found.of("absent").is_empty());
    }

    #[test]
    fn random_bytes_are_not_unpacked() {
        let noise: Vec<u8> = (0..200_u32).map(|i| (i.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
        assert_eq!(unpack(&noise), None);
    }
}
