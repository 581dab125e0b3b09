//! A store in memory, for trying the program with demo people and for tests. It ends with the page.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use futures_util::FutureExt;
use futures_util::future::ready;

use super::{Change, Durability, Held, Key, Kind, Pending, StorageError, Store};

/// A store in memory. Tests give it a limit, to see what a full device does.
#[derive(Debug, Default)]
pub struct MemoryStore {
    values: RefCell<BTreeMap<Key, Vec<u8>>>,
    limit: Cell<Option<usize>>,
}

impl MemoryStore {
    /// An empty store without a limit.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Sets how many bytes fit in; a change that would pass the limit is refused as a whole.
    #[cfg(test)]
    pub fn set_limit(&self, bytes: Option<usize>) {
        self.limit.set(bytes);
    }

    fn change(&self, changes: &[Change]) -> Result<(), StorageError> {
        let mut changed = self.values.borrow().clone();
        for change in changes {
            match change {
                Change::Put(key, bytes, _) => changed.insert(key.clone(), bytes.clone()),
                Change::Delete(key) => changed.remove(key),
            };
        }
        let size: usize = changed.values().map(Vec::len).sum();
        if self.limit.get().is_some_and(|limit| size > limit) {
            return Err(StorageError::Full);
        }
        self.values.replace(changed);
        Ok(())
    }
}

impl Store for MemoryStore {
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Held)>> {
        let values = self.values.borrow();
        let of_kind = values.iter().filter(|(key, _)| key.kind == kind);
        let listed = of_kind.map(|(key, bytes)| (key.id.clone(), Ok(bytes.clone()))).collect();
        ready(Ok(listed)).boxed_local()
    }

    fn ids(&self, kind: Kind) -> Pending<'_, Vec<String>> {
        let ids = self.values.borrow().keys().filter(|key| key.kind == kind).map(|key| key.id.clone()).collect();
        ready(Ok(ids)).boxed_local()
    }

    fn get<'a>(&'a self, keys: &'a [Key]) -> Pending<'a, Vec<Option<Held>>> {
        let values = self.values.borrow();
        let found = keys.iter().map(|key| values.get(key).cloned().map(Ok)).collect();
        ready(Ok(found)).boxed_local()
    }

    fn apply<'a>(&'a self, changes: &'a [Change], _: Durability) -> Pending<'a, ()> {
        ready(self.change(changes)).boxed_local()
    }
}
