//! Single things as they are stored: a header that names the kind, and the thing, on one line.

use super::error::{ArchiveError, Fault};
use super::fields::Place;
use super::node::Node;
use super::{header, open, v1};
use crate::capture::addendum::Addendum;
use crate::capture::entry::Entry;
use crate::capture::ledger::{HandedOver, Join, Receipt, Tombstone};
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;
use serde_json::value::RawValue;

/// A thing that is kept by itself.
pub trait Kept {
    /// Bytes that two have in common only when they say the same: the canonical ones, then those that are written. They
    /// put things into one order on every device.
    #[must_use]
    fn order(&self) -> Vec<u8>;
}

/// What there is for each kind.
macro_rules! single {
    ($($thing:ident $read:ident $write:ident $name:ident $format:literal;)*) => {$(
        #[doc = concat!("Reads one stored ", stringify!($thing), ".")]
        ///
        /// # Errors
        /// [`ArchiveError`] says what is wrong.
        pub fn $read(bytes: &[u8]) -> Result<$thing, ArchiveError> {
            read(bytes, $format, stringify!($name), v1::read::$name)
        }

        #[doc = concat!("Writes one ", stringify!($thing), " for storage, on one line.")]
        #[must_use]
        pub fn $write(thing: &$thing) -> Vec<u8> {
            write($format, stringify!($name), v1::write::$name(thing))
        }

        impl Kept for $thing {
            fn order(&self) -> Vec<u8> {
                let node = v1::write::$name(self);
                [node.canonical(), node.compact()].join(&0)
            }
        }
    )*};
}

single! {
    Person     read_person      write_person      person      "sidelight-person";
    Visit      read_visit       write_visit       visit       "sidelight-visit";
    Addendum   read_addendum    write_addendum    addendum    "sidelight-addendum";
    OwnRoutine read_routine     write_routine     routine     "sidelight-routine";
    Receipt    read_receipt     write_receipt     receipt     "sidelight-receipt";
    Join       read_join        write_join        join        "sidelight-join";
    HandedOver read_handed_over write_handed_over handed_over "sidelight-handed-over";
    Tombstone  read_tombstone   write_tombstone   tombstone   "sidelight-tombstone";
    Entry      read_entry       write_entry       entry       "sidelight-entry";
}

fn read<T>(
    bytes: &[u8],
    format: &str,
    name: &str,
    read: fn(&RawValue, &Place<'_>) -> Result<T, ArchiveError>,
) -> Result<T, ArchiveError> {
    let root = Place::root();
    let mut fields = open(bytes, format, &root)?;
    let place = root.field(name);
    let raw = fields.raw(name).ok_or_else(|| place.broken(Fault::Missing))?;
    read(raw, &place)
}

fn write(format: &str, name: &'static str, thing: Node) -> Vec<u8> {
    let mut node = header(format);
    node.push(name, thing);
    node.compact()
}

#[cfg(test)]
mod tests;
