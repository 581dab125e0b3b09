//! Numbers of so many bits, the most significant first; the last byte is filled up with zeros.

use super::code::Unreadable;

/// Writes numbers one behind the other.
#[derive(Debug, Default)]
pub(super) struct Writer {
    bytes: Vec<u8>,
    free: u32,
}

impl Writer {
    /// The lowest `count` bits of a number, 32 at most.
    pub(super) fn bits(&mut self, value: u32, count: u32) {
        for at in (0..count).rev() {
            if self.free == 0 {
                self.bytes.push(0);
                self.free = 8;
            }
            self.free -= 1;
            let bit = (value >> at & 1) as u8;
            if let Some(last) = self.bytes.last_mut() {
                *last |= bit << self.free;
            }
        }
    }

    pub(super) fn finish(self) -> Vec<u8> {
        self.bytes
    }
}

/// Reads them back.
#[derive(Debug)]
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    pub(super) fn new(bytes: &'a [u8]) -> Reader<'a> {
        Reader { bytes, at: 0 }
    }

    /// A number of so many bits, 32 at most.
    pub(super) fn bits(&mut self, count: usize) -> Result<u32, Unreadable> {
        let mut value = 0;
        for _ in 0..count {
            let byte = self.bytes.get(self.at / 8).ok_or(Unreadable::Damaged)?;
            value = value << 1 | u32::from(byte >> (7 - self.at % 8) & 1);
            self.at += 1;
        }
        Ok(value)
    }

    /// A number of 8 bits at most.
    pub(super) fn small(&mut self, count: usize) -> Result<u8, Unreadable> {
        u8::try_from(self.bits(count)?).map_err(|_| Unreadable::Damaged)
    }

    /// A number of 16 bits at most.
    pub(super) fn wide(&mut self, count: usize) -> Result<u16, Unreadable> {
        u16::try_from(self.bits(count)?).map_err(|_| Unreadable::Damaged)
    }
}
