//! Reads what LevelDB writes: tables, whose blocks are compressed and whose keys leave out what they share with the key
//! before, and logs, whose records are cut at block ends.
//!
//! After the format pages of LevelDB itself (doc/table_format.md and doc/log_format.md of github.com/google/leveldb).

use anyhow::{Context, Result, bail};

const MAGIC: [u8; 8] = 0xdb47_7524_8b80_fb57_u64.to_le_bytes();
const FOOTER: usize = 48;
/// Compression and checksum behind each block.
const TRAILER: usize = 5;
const LOG_BLOCK: usize = 32 * 1024;
const LOG_HEAD: usize = 7;

/// Whether the bytes end as a table does.
pub fn is_table(bytes: &[u8]) -> bool {
    bytes.len() >= FOOTER && bytes.ends_with(&MAGIC)
}

/// The blocks of a table with data and with the index, unpacked.
pub fn blocks(table: &[u8]) -> Result<Vec<Vec<u8>>> {
    let mut footer = &table[table.len() - FOOTER..];
    let (_, _) = (varint(&mut footer)?, varint(&mut footer)?);
    let index = block(table, varint(&mut footer)?, varint(&mut footer)?)?;
    let mut all = Vec::new();
    for (_, handle) in entries(&index) {
        let mut handle = handle;
        all.push(block(table, varint(&mut handle)?, varint(&mut handle)?)?);
    }
    all.push(index);
    Ok(all)
}

/// The entries of a block, with whole keys. It ends where the bytes make no sense any more.
pub fn entries(block: &[u8]) -> Vec<(Vec<u8>, &[u8])> {
    let mut all: Vec<(Vec<u8>, &[u8])> = Vec::new();
    let Some((body, count)) = block.split_last_chunk::<4>() else { return all };
    let restarts = (u32::from_le_bytes(*count) as usize).saturating_mul(4);
    let Some(mut left) = body.len().checked_sub(restarts).map(|end| &body[..end]) else { return all };
    while !left.is_empty() {
        let Ok((shared, own, length)) = lengths(&mut left) else { break };
        let before = all.last().map(|(key, _)| key.as_slice()).unwrap_or_default();
        let (Some(start), Some(rest)) = (before.get(..shared), left.get(..own)) else { break };
        let key = [start, rest].concat();
        let Some(value) = left.get(own..own + length) else { break };
        left = &left[own + length..];
        all.push((key, value));
    }
    all
}

/// The records of a log, put together from their parts. A torn end is left out.
pub fn records(log: &[u8]) -> Vec<Vec<u8>> {
    let mut all = Vec::new();
    let mut open: Vec<u8> = Vec::new();
    for block in log.chunks(LOG_BLOCK) {
        let mut left = block;
        while let Some((head, rest)) = left.split_at_checked(LOG_HEAD) {
            let length = usize::from(u16::from_le_bytes([head[4], head[5]]));
            let Some(part) = rest.get(..length) else { break };
            left = &rest[length..];
            match head[6] {
                1 => all.push(part.to_vec()),
                2 => open = part.to_vec(),
                3 => open.extend(part),
                4 => {
                    open.extend(part);
                    all.push(std::mem::take(&mut open));
                }
                // The rest of the block was only filled up.
                _ => break,
            }
        }
    }
    all
}

/// The values that a record of a log writes.
pub fn batch(record: &[u8]) -> Vec<&[u8]> {
    let mut all = Vec::new();
    // A number in the order of writing, and the count of changes.
    let Some(mut left) = record.get(12..) else { return all };
    while let Some((&kind, rest)) = left.split_first() {
        left = rest;
        let Ok(_key) = slice(&mut left) else { break };
        if kind == 1 {
            let Ok(value) = slice(&mut left) else { break };
            all.push(value);
        }
    }
    all
}

fn block(table: &[u8], offset: usize, length: usize) -> Result<Vec<u8>> {
    let end = offset.checked_add(length).context("a block has no end")?;
    let (Some(bytes), Some(trailer)) = (table.get(offset..end), table.get(end..end.saturating_add(TRAILER))) else {
        bail!("a block lies outside the table");
    };
    match trailer[0] {
        0 => Ok(bytes.to_vec()),
        1 => Ok(snap::raw::Decoder::new().decompress_vec(bytes)?),
        // Not looking into it would be to miss what is there.
        other => bail!("a block is compressed in a way not known here: {other}"),
    }
}

fn lengths(left: &mut &[u8]) -> Result<(usize, usize, usize)> {
    Ok((varint(left)?, varint(left)?, varint(left)?))
}

fn slice<'b>(left: &mut &'b [u8]) -> Result<&'b [u8]> {
    let length = varint(left)?;
    let (slice, rest) = left.split_at_checked(length).context("cut off")?;
    *left = rest;
    Ok(slice)
}

fn varint(left: &mut &[u8]) -> Result<usize> {
    let mut value = 0_u64;
    for shift in (0..64).step_by(7) {
        let (&byte, rest) = left.split_first().context("cut off")?;
        *left = rest;
        value |= u64::from(byte & 0x7f) << shift;
        if byte < 0x80 {
            return Ok(usize::try_from(value)?);
        }
    }
    bail!("a number is too long")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A table of one block with the keys "person-1" and "person-2", the second told by its last letter.
    fn table() -> Vec<u8> {
        let data = block_of(&[(0, b"person-1", b"value one"), (7, b"2", b"value two")]);
        let packed = snap::raw::Encoder::new().compress_vec(&data).expect("packs");
        let mut table = packed.clone();
        table.extend([1, 0, 0, 0, 0]);
        let index_at = table.len();
        let index = block_of(&[(0, b"z", &[0, u8::try_from(packed.len()).expect("short")])]);
        table.extend(&index);
        table.extend([0, 0, 0, 0, 0]);
        let mut footer = vec![0, 0, u8::try_from(index_at).expect("short"), u8::try_from(index.len()).expect("short")];
        footer.resize(FOOTER - MAGIC.len(), 0);
        table.extend(footer);
        table.extend(MAGIC);
        table
    }

    fn block_of(entries: &[(u8, &[u8], &[u8])]) -> Vec<u8> {
        let mut block = Vec::new();
        for (shared, own, value) in entries {
            let length = |bytes: &[u8]| u8::try_from(bytes.len()).expect("short");
            block.extend([*shared, length(own), length(value)]);
            block.extend(*own);
            block.extend(*value);
        }
        block.extend(0_u32.to_le_bytes());
        block.extend(1_u32.to_le_bytes());
        block
    }

    #[test]
    fn keys_are_whole_and_values_unpacked() {
        let table = table();
        assert!(is_table(&table));
        let blocks = blocks(&table).expect("a table");
        assert_eq!(
            entries(&blocks[0]),
            [(b"person-1".to_vec(), &b"value one"[..]), (b"person-2".to_vec(), &b"value two"[..])]
        );
    }

    #[test]
    fn a_record_that_runs_over_a_block_end_is_whole() {
        let long = vec![7_u8; LOG_BLOCK - LOG_HEAD - 3];
        let (first, last) = long.split_at(LOG_BLOCK - LOG_HEAD - 20 - LOG_HEAD);
        let part = |kind: u8, bytes: &[u8]| {
            let length = u16::try_from(bytes.len()).expect("short").to_le_bytes();
            [&[0, 0, 0, 0, length[0], length[1], kind], bytes].concat()
        };
        let mut log = part(1, &[1; 20]);
        log.extend(part(2, first));
        assert_eq!(log.len(), LOG_BLOCK);
        log.extend(part(4, last));
        assert_eq!(records(&log), [vec![1; 20], long]);
    }

    #[test]
    fn values_of_a_batch_are_told_and_deletions_skipped() {
        let mut record = vec![0; 12];
        record.extend([1, 1, b'k', 3, b'a', b'b', b'c', 0, 1, b'k', 1, 1, b'm', 1, b'd']);
        assert_eq!(batch(&record), [&b"abc"[..], b"d"]);
    }
}
