//! Relaxed commits through rexie: several changes in one transaction, all or nothing.

use futures_util::future::{join, poll_immediate, try_join_all};
use js_sys::Uint8Array;
use rexie::{Error, Rexie, Store, Transaction, TransactionMode};

use super::super::{Change, StorageError};
use super::strict::store_names;

/// How a relaxed commit ended.
pub enum Outcome {
    /// Every change is with the operating system.
    Committed,
    /// No change was made.
    Failed(StorageError),
    /// No change was made, and rexie does not say why.
    AbortedWithoutReason,
}

/// Commits all of these changes or none.
pub async fn commit(rexie: &Rexie, changes: &[Change]) -> Outcome {
    let names = store_names(changes.iter().map(|change| change.key().kind));
    match write(rexie, &names, changes).await {
        Ok(()) => Outcome::Committed,
        Err(Error::TransactioncommitFailed | Error::TransactionAbortFailed) => Outcome::AbortedWithoutReason,
        Err(error) => Outcome::Failed(StorageError::from_rexie(&error)),
    }
}

async fn write(rexie: &Rexie, names: &[&str], changes: &[Change]) -> rexie::Result<()> {
    let transaction = rexie.transaction(names, TransactionMode::ReadWrite)?;
    let stores = changes
        .iter()
        .map(|change| transaction.store(change.key().kind.store_name()))
        .collect::<rexie::Result<Vec<_>>>()?;
    let mut requests = try_join_all(changes.iter().zip(&stores).map(|(c, store)| issue(c, store)));
    // The first poll places every request. A request that cannot even be placed does not abort the
    // transaction by itself, and what was placed before it would be committed.
    if let Some(Err(error)) = poll_immediate(&mut requests).await {
        abort(transaction).await;
        return Err(error);
    }
    // Committing now saves a turn of the event loop against waiting for the last answer.
    let (answered, committed) = join(requests, transaction.commit()).await;
    answered?;
    committed
}

async fn issue(change: &Change, store: &Store) -> rexie::Result<()> {
    match change {
        Change::Put(key, bytes, _) => {
            let value = Uint8Array::from(bytes.as_slice());
            store.put(&value, Some(&key.id.as_str().into())).await?;
        }
        Change::Delete(key) => store.delete(key.id.as_str().into()).await?,
    }
    Ok(())
}

async fn abort(transaction: Transaction) {
    // An abort that fails means the transaction has ended already, which is what is wanted.
    let _ended: rexie::Result<()> = transaction.abort().await;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::storage::{Key, Kind};
    use rexie::ObjectStore;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn one_change_that_cannot_be_placed_leaves_nothing() {
        // The second object store makes its own keys from a path, so a put with a key is refused.
        let visit = ObjectStore::new("visit");
        let person = ObjectStore::new("person").key_path("id");
        let builder = Rexie::builder("test-relaxed-atomic").version(1);
        let rexie = builder.add_object_store(visit).add_object_store(person).build().await.expect("opens");
        let changes =
            [Change::put(Key::new(Kind::Visit, "v"), vec![1]), Change::put(Key::new(Kind::Person, "p"), vec![2])];
        assert!(matches!(commit(&rexie, &changes).await, Outcome::Failed(StorageError::Other(_))));
        let transaction = rexie.transaction(&["visit"], TransactionMode::ReadOnly).expect("begins");
        let kept = transaction.store("visit").expect("is there").get_all(None, None).await.expect("reads");
        assert!(kept.is_empty());
        assert!(matches!(commit(&rexie, &changes[..1]).await, Outcome::Committed));
        rexie.close();
    }
}
