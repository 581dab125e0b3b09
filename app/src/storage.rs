//! The storage port: opaque bytes under a kind and an id, behind one trait. What the bytes mean is
//! decided above it, so sealing them later touches neither this port nor a screen.

pub mod error;
pub mod indexed_db;
pub mod memory;
pub mod sealed;
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
    /// A closed visit.
    Visit,
    /// A visit that is open.
    Draft,
    /// A practice setting that belongs to the records rather than to this device.
    Setting,
    /// Facts about the store itself.
    Meta,
    /// What lists need to know of a visit, without the visit.
    Entry,
    /// A key that seals records, itself sealed.
    Key,
    /// A correction of a closed visit.
    Addendum,
    /// What was handed over, confirmed, joined and erased.
    Ledger,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 9] = [
        Self::Person,
        Self::Visit,
        Self::Draft,
        Self::Setting,
        Self::Meta,
        Self::Entry,
        Self::Key,
        Self::Addendum,
        Self::Ledger,
    ];

    /// The object store's name; it is part of the stored form and never changes.
    #[must_use]
    pub const fn store_name(self) -> &'static str {
        match self {
            Self::Person => "person",
            Self::Visit => "visit",
            Self::Draft => "draft",
            Self::Setting => "setting",
            Self::Meta => "meta",
            Self::Entry => "entry",
            Self::Key => "key",
            Self::Addendum => "addendum",
            Self::Ledger => "ledger",
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

/// Whom a value is about, which decides what erases it: whatever a person owns becomes unreadable with that person.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Owner {
    /// Nobody in particular.
    Practice,
    /// The person of this id.
    Person(String),
}

/// One change to the store.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// Write these bytes, replacing what was there.
    Put(Key, Vec<u8>, Owner),
    /// Remove the value; removing what is not there is no error.
    Delete(Key),
}

impl Change {
    /// Writes bytes that are about nobody in particular.
    #[must_use]
    pub const fn put(key: Key, bytes: Vec<u8>) -> Self {
        Self::Put(key, bytes, Owner::Practice)
    }

    /// Writes bytes about a person.
    #[must_use]
    pub fn put_of(person: &str, key: Key, bytes: Vec<u8>) -> Self {
        Self::Put(key, bytes, Owner::Person(person.to_owned()))
    }

    /// The key that is changed.
    #[must_use]
    pub const fn key(&self) -> &Key {
        match self {
            Self::Put(key, ..) | Self::Delete(key) => key,
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

/// What one row holds. A row that cannot be read hides no other.
pub type Held = Result<Vec<u8>, StorageError>;

/// A store of opaque bytes.
pub trait Store {
    /// Reads every value of a kind, ordered by id.
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Held)>>;

    /// Gives the ids of a kind, in order, without reading any value.
    fn ids(&self, kind: Kind) -> Pending<'_, Vec<String>>;

    /// Reads the values under these keys, in their order; `None` where nothing is.
    fn get<'a>(&'a self, keys: &'a [Key]) -> Pending<'a, Vec<Option<Held>>>;

    /// Makes all of these changes or none of them.
    fn apply<'a>(&'a self, changes: &'a [Change], durability: Durability) -> Pending<'a, ()>;
}
