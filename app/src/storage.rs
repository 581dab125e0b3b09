//! The storage port: opaque bytes under a kind and an id, behind one trait. What the bytes mean is
//! decided above it, so sealing them later touches neither this port nor a screen.

pub mod error;
pub mod indexed_db;
pub mod memory;
pub mod writer;
#[cfg(test)]
mod tests;

use futures_util::future::LocalBoxFuture;

pub use error::StorageError;

/// What a stored value is. Each kind is an object store of its own, so listing visits never reads
/// preferences.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Who is examined.
    Person,
    /// A closed visit with its addenda.
    Visit,
    /// The visit that is open now.
    Draft,
    /// A practice setting that belongs to the records rather than to this device.
    Setting,
    /// Facts about the store itself.
    Meta,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 5] = [Self::Person, Self::Visit, Self::Draft, Self::Setting, Self::Meta];

    /// The object store's name; it is part of the stored form and never changes.
    #[must_use]
    pub const fn store_name(self) -> &'static str {
        match self {
            Self::Person => "person",
            Self::Visit => "visit",
            Self::Draft => "draft",
            Self::Setting => "setting",
            Self::Meta => "meta",
        }
    }
}

/// Where a value lies.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// What the value is.
    pub kind: Kind,
    /// Unique within its kind.
    pub id: String,
}

impl Key {
    /// The key of `id` within `kind`.
    pub fn new(kind: Kind, id: impl Into<String>) -> Self {
        Self { kind, id: id.into() }
    }
}

/// One change to the store.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// Write these bytes, replacing what was there.
    Put(Key, Vec<u8>),
    /// Remove the value; removing what is not there is no error.
    Delete(Key),
}

impl Change {
    /// The key that is changed.
    #[must_use]
    pub const fn key(&self) -> &Key {
        match self {
            Self::Put(key, _) | Self::Delete(key) => key,
        }
    }
}

/// How far a write must have come before it counts as done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Durability {
    /// Handed to the operating system: outlives a killed browser, not a lost battery.
    Relaxed,
    /// Flushed to the disk: outlives a lost battery too, as far as the device is honest.
    Strict,
}

/// A storage operation under way. It belongs to the page's one thread.
pub type Pending<'a, T> = LocalBoxFuture<'a, Result<T, StorageError>>;

/// A store of opaque bytes.
pub trait Store {
    /// Reads every value of a kind, ordered by id.
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Vec<u8>)>>;

    /// Makes all of these changes or none of them.
    fn apply<'a>(&'a self, changes: &'a [Change], durability: Durability) -> Pending<'a, ()>;
}
