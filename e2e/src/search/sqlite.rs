//! Reads the rows of an SQLite database page by page, those of pages that are in use no more among them: long values
//! are spread over several pages, where a plain search does not see them whole.
//!
//! After the file format page of SQLite itself (sqlite.org/fileformat2.html).

use std::collections::BTreeMap;

const MAGIC: &[u8] = b"SQLite format 3\0";
const WAL_HEAD: usize = 32;
const FRAME_HEAD: usize = 24;
/// A leaf of a table.
const TABLE_LEAF: u8 = 0x0d;
/// A leaf and an inner page of an index, which hold rows too.
const INDEX_LEAF: u8 = 0x0a;
const INDEX_INNER: u8 = 0x02;

/// Whether the bytes begin as a database does.
pub fn is_database(bytes: &[u8]) -> bool {
    bytes.starts_with(MAGIC) && bytes.len() >= 100
}

/// Every text and blob in the rows of a database and of the log beside it.
pub fn values(database: &[u8], wal: &[u8]) -> Vec<Vec<u8>> {
    let size = match u16::from_be_bytes([database[16], database[17]]) {
        1 => 65_536,
        size => usize::from(size),
    };
    if size < 512 {
        return Vec::new();
    }
    let usable = size - usize::from(database[20]);
    let main: BTreeMap<u32, &[u8]> = (1..).zip(database.chunks_exact(size)).collect();
    let frames: Vec<(u32, &[u8])> = frames(wal, size);
    let mut newest = main.clone();
    newest.extend(frames.iter().copied());
    let mut all = Vec::new();
    for (number, page) in main.into_iter().chain(frames) {
        let reader = Reader { pages: &newest, usable };
        all.extend(reader.rows(number, page).iter().flat_map(|row| columns(row)).map(<[u8]>::to_vec));
    }
    all
}

/// The pages in a log of changes, older ones first.
fn frames(wal: &[u8], size: usize) -> Vec<(u32, &[u8])> {
    let frames = wal.get(WAL_HEAD..).unwrap_or_default().chunks_exact(FRAME_HEAD + size);
    frames.map(|frame| (u32::from_be_bytes([frame[0], frame[1], frame[2], frame[3]]), &frame[FRAME_HEAD..])).collect()
}

struct Reader<'p> {
    pages: &'p BTreeMap<u32, &'p [u8]>,
    usable: usize,
}

impl Reader<'_> {
    /// The rows on one page, whole. Anything that is no page of rows gives none.
    fn rows(&self, number: u32, page: &[u8]) -> Vec<Vec<u8>> {
        let head = if number == 1 { 100 } else { 0 };
        let kind = page[head];
        let (skip, cells_at) = match kind {
            TABLE_LEAF | INDEX_LEAF => (0, head + 8),
            INDEX_INNER => (4, head + 12),
            _ => return Vec::new(),
        };
        let count = usize::from(u16::from_be_bytes([page[head + 3], page[head + 4]]));
        let places = page[cells_at..].chunks_exact(2).take(count);
        places
            .filter_map(|place| {
                let at = usize::from(u16::from_be_bytes([place[0], place[1]])) + skip;
                self.row(page.get(at..self.usable)?, kind == TABLE_LEAF)
            })
            .collect()
    }

    fn row(&self, mut cell: &[u8], in_table: bool) -> Option<Vec<u8>> {
        let length = usize::try_from(varint(&mut cell)?).ok()?;
        if in_table {
            varint(&mut cell)?;
        }
        let most = if in_table { self.usable - 35 } else { (self.usable - 12) * 64 / 255 - 23 };
        if length <= most {
            return cell.get(..length).map(<[u8]>::to_vec);
        }
        let least = (self.usable - 12) * 32 / 255 - 23;
        let fitting = least + (length - least) % (self.usable - 4);
        let here = if fitting <= most { fitting } else { least };
        let mut row = cell.get(..here)?.to_vec();
        let mut next = u32::from_be_bytes(*cell.get(here..)?.first_chunk()?);
        // A chain that leads in a circle ends with the length.
        while row.len() < length {
            let page = self.pages.get(&next)?;
            next = u32::from_be_bytes(*page.first_chunk()?);
            let part = (length - row.len()).min(self.usable - 4);
            row.extend(page.get(4..4 + part)?);
        }
        Some(row)
    }
}

/// The texts and blobs of a row.
fn columns(row: &[u8]) -> Vec<&[u8]> {
    let mut left = row;
    let Some(head) = varint(&mut left).and_then(|length| usize::try_from(length).ok()) else { return Vec::new() };
    let used = row.len() - left.len();
    let Some(mut types) = head.checked_sub(used).and_then(|length| left.get(..length)) else { return Vec::new() };
    let mut at = head;
    let mut all = Vec::new();
    while !types.is_empty() {
        let Some(kind) = varint(&mut types).and_then(|kind| usize::try_from(kind).ok()) else { break };
        let length = match kind {
            0 | 8 | 9 | 10 | 11 => 0,
            1..=4 => kind,
            5 => 6,
            6 | 7 => 8,
            _ => (kind - 12) / 2,
        };
        let Some(value) = at.checked_add(length).and_then(|end| row.get(at..end)) else { break };
        at += length;
        if kind >= 12 && length > 0 {
            all.push(value);
        }
    }
    all
}

fn varint(left: &mut &[u8]) -> Option<u64> {
    let mut value = 0_u64;
    for index in 0..9 {
        let (&byte, rest) = left.split_first()?;
        *left = rest;
        if index == 8 {
            return Some(value << 8 | u64::from(byte));
        }
        value = value << 7 | u64::from(byte & 0x7f);
        if byte < 0x80 {
            break;
        }
    }
    Some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: usize = 512;

    /// A database of two pages: a leaf whose one row has a text of 900 bytes, and the page that takes what is over.
    fn database(text: &[u8]) -> Vec<u8> {
        let kind = u16::try_from(13 + 2 * text.len()).expect("short");
        let head = [3, 0x80 | (kind >> 7) as u8, (kind & 0x7f) as u8];
        let row = [&head[..], text].concat();
        let least = (PAGE - 12) * 32 / 255 - 23;
        let fitting = least + (row.len() - least) % (PAGE - 4);
        let here = if fitting <= PAGE - 35 { fitting } else { least };
        let length = u16::try_from(row.len()).expect("short");
        let mut cell = vec![0x80 | (length >> 7) as u8, (length & 0x7f) as u8, 1];
        cell.extend(&row[..here]);
        cell.extend(2_u32.to_be_bytes());
        let mut first = vec![0; PAGE];
        first[..16].copy_from_slice(MAGIC);
        first[16..18].copy_from_slice(&512_u16.to_be_bytes());
        let at = PAGE - cell.len();
        first[100] = TABLE_LEAF;
        first[104] = 1;
        first[108..110].copy_from_slice(&u16::try_from(at).expect("short").to_be_bytes());
        first[at..].copy_from_slice(&cell);
        let mut second = vec![0; PAGE];
        second[4..4 + row.len() - here].copy_from_slice(&row[here..]);
        [first, second].concat()
    }

    #[test]
    fn a_value_spread_over_pages_is_whole() {
        let text: Vec<u8> = (0..900_u32).map(|i| b'a' + (i % 23) as u8).collect();
        let database = database(&text);
        assert!(is_database(&database));
        assert_eq!(values(&database, &[]), [text]);
    }

    #[test]
    fn a_page_of_the_log_is_read_too() {
        let database = database(&[b'o'; 900]);
        let newer = &self::database(&[b'n'; 900])[..PAGE];
        let wal = [&[0; WAL_HEAD][..], &1_u32.to_be_bytes(), &[0; FRAME_HEAD - 4], newer].concat();
        let found = values(&database, &wal);
        assert_eq!(found.len(), 2);
        assert!(found[1].starts_with(b"nnn"));
    }

    #[test]
    fn pages_that_hold_no_rows_give_none() {
        let mut database = database(&[b'x'; 900]);
        database[100] = 5;
        assert!(values(&database, &[]).is_empty());
    }
}
