//! What every store must do, tried on each of them in a real browser.

use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::DomException;

use super::indexed_db::IndexedDb;
use super::memory::MemoryStore;
use super::{Change, Durability, Key, Kind, StorageError, Store};

/// The value under one key.
pub async fn read(store: &dyn Store, key: &Key) -> Result<Option<Vec<u8>>, StorageError> {
    store.get(std::slice::from_ref(key)).await?.pop().flatten().transpose()
}

fn put(kind: Kind, id: &str, bytes: &[u8]) -> Change {
    Change::put(Key::new(kind, id), bytes.to_vec())
}

async fn fresh(name: &'static str) -> IndexedDb {
    IndexedDb::erase(name).await.expect("erases");
    IndexedDb::open_named(name).await.expect("opens")
}

/// Puts, reads, lists, replaces and deletes, with each durability.
pub async fn keeps_what_it_is_given(store: &dyn Store) {
    for durability in [Durability::Relaxed, Durability::Strict] {
        let key = Key::new(Kind::Person, "p1");
        assert_eq!(read(store, &key).await, Ok(None));
        let first = [put(Kind::Person, "p2", &[2, 0, 255]), put(Kind::Person, "p1", &[1]), put(Kind::Visit, "p1", &[])];
        assert_eq!(store.apply(&first, durability).await, Ok(()));
        assert_eq!(read(store, &key).await, Ok(Some(vec![1])));
        let listed = vec![("p1".to_owned(), Ok(vec![1])), ("p2".to_owned(), Ok(vec![2, 0, 255]))];
        assert_eq!(store.list(Kind::Person).await, Ok(listed));
        assert_eq!(store.list(Kind::Visit).await, Ok(vec![("p1".to_owned(), Ok(vec![]))]));
        assert_eq!(store.list(Kind::Draft).await, Ok(vec![]));
        assert_eq!(store.ids(Kind::Person).await, Ok(vec!["p1".to_owned(), "p2".to_owned()]));
        let some = [Key::new(Kind::Visit, "p1"), Key::new(Kind::Entry, "p1"), Key::new(Kind::Person, "p2")];
        assert_eq!(store.get(&some).await, Ok(vec![Some(Ok(vec![])), None, Some(Ok(vec![2, 0, 255]))]));
        assert_eq!(store.get(&[]).await, Ok(vec![]));
        let second = [
            put(Kind::Person, "p1", &[9]),
            Change::Delete(Key::new(Kind::Person, "p2")),
            Change::Delete(Key::new(Kind::Meta, "was never there")),
        ];
        assert_eq!(store.apply(&second, durability).await, Ok(()));
        assert_eq!(store.list(Kind::Person).await, Ok(vec![("p1".to_owned(), Ok(vec![9]))]));
        let third = [Change::Delete(key), Change::Delete(Key::new(Kind::Visit, "p1"))];
        assert_eq!(store.apply(&third, durability).await, Ok(()));
        assert_eq!(store.apply(&[], durability).await, Ok(()));
    }
}

#[wasm_bindgen_test]
async fn memory_keeps_what_it_is_given() {
    keeps_what_it_is_given(&MemoryStore::new()).await;
}

#[wasm_bindgen_test]
async fn the_database_keeps_what_it_is_given() {
    keeps_what_it_is_given(&fresh("test-keeps").await).await;
}

#[wasm_bindgen_test]
async fn a_full_memory_refuses_all_changes_together() {
    let store = MemoryStore::new();
    store.set_limit(Some(3));
    let changes = [put(Kind::Visit, "a", &[1]), put(Kind::Visit, "b", &[2, 3, 4])];
    assert_eq!(store.apply(&changes, Durability::Strict).await, Err(StorageError::Full));
    assert_eq!(store.list(Kind::Visit).await, Ok(vec![]));
}

#[wasm_bindgen_test]
async fn opening_again_finds_what_was_written() {
    let name = "test-reopen";
    let store = fresh(name).await;
    let changes = [put(Kind::Draft, "open", &[7; 70_000]), put(Kind::Visit, "v", &[8])];
    assert_eq!(store.apply(&changes, Durability::Relaxed).await, Ok(()));
    drop(store);
    let store = IndexedDb::open_named(name).await.expect("opens again");
    assert_eq!(read(&store, &Key::new(Kind::Draft, "open")).await, Ok(Some(vec![7; 70_000])));
    assert_eq!(store.list(Kind::Visit).await, Ok(vec![("v".to_owned(), Ok(vec![8]))]));
}

#[wasm_bindgen_test]
async fn a_database_of_the_first_form_keeps_its_records_and_takes_the_new_kinds() {
    let name = "test-first-form";
    IndexedDb::erase(name).await.expect("erases");
    let first = ["person", "visit", "draft", "setting", "meta"];
    let builder = first.iter().fold(rexie::Rexie::builder(name).version(1), |builder, kind| {
        builder.add_object_store(rexie::ObjectStore::new(kind))
    });
    let old = builder.build().await.expect("opens");
    let transaction = old.transaction(&["visit"], rexie::TransactionMode::ReadWrite).expect("begins");
    let value = js_sys::Uint8Array::from(&[4_u8, 5][..]);
    transaction.store("visit").expect("is there").put(&value, Some(&"v".into())).await.expect("puts");
    transaction.commit().await.expect("commits");
    old.close();
    let store = IndexedDb::open_named(name).await.expect("upgrades");
    assert_eq!(store.list(Kind::Visit).await, Ok(vec![("v".to_owned(), Ok(vec![4, 5]))]));
    for kind in Kind::ALL {
        assert_eq!(store.apply(&[put(kind, "new", &[6])], Durability::Strict).await, Ok(()), "{kind:?}");
    }
    assert_eq!(read(&store, &Key::new(Kind::Ledger, "new")).await, Ok(Some(vec![6])));
}

#[wasm_bindgen_test]
async fn a_value_that_is_not_bytes_hides_no_other() {
    let name = "test-foreign-value";
    let store = fresh(name).await;
    assert_eq!(store.apply(&[put(Kind::Visit, "good", &[1])], Durability::Strict).await, Ok(()));
    let other = rexie::Rexie::builder(name).build().await.expect("opens beside it");
    let transaction = other.transaction(&["visit"], rexie::TransactionMode::ReadWrite).expect("begins");
    transaction.store("visit").expect("is there").put(&"text".into(), Some(&"bad".into())).await.expect("puts");
    transaction.commit().await.expect("commits");
    other.close();
    let odd = StorageError::Other("a value is not bytes".to_owned());
    let expected = vec![("bad".to_owned(), Err(odd.clone())), ("good".to_owned(), Ok(vec![1]))];
    assert_eq!(store.list(Kind::Visit).await, Ok(expected));
    let keys = [Key::new(Kind::Visit, "good"), Key::new(Kind::Visit, "bad")];
    assert_eq!(store.get(&keys).await, Ok(vec![Some(Ok(vec![1])), Some(Err(odd))]));
}

#[wasm_bindgen_test]
async fn an_ended_connection_is_opened_again() {
    let name = "test-ended";
    let store = fresh(name).await;
    assert_eq!(store.apply(&[put(Kind::Draft, "open", &[1])], Durability::Strict).await, Ok(()));
    // Erasing takes the connections away, as a phone does with a page in the background.
    IndexedDb::erase(name).await.expect("erases although it is open");
    for durability in [Durability::Relaxed, Durability::Strict] {
        assert_eq!(store.apply(&[put(Kind::Draft, "open", &[2])], durability).await, Ok(()));
    }
    assert_eq!(store.list(Kind::Draft).await, Ok(vec![("open".to_owned(), Ok(vec![2]))]));
}

#[wasm_bindgen_test]
async fn a_newer_database_is_refused_and_left_alone() {
    let name = "test-newer";
    IndexedDb::erase(name).await.expect("erases");
    let newer = rexie::Rexie::builder(name).version(99).build().await.expect("opens");
    newer.close();
    let refused = IndexedDb::open_named(name).await.err();
    assert_eq!(refused, Some(StorageError::NewerSchema));
}

#[wasm_bindgen_test]
async fn an_upgrade_in_another_tab_is_let_through_and_reported() {
    let name = "test-upgraded";
    let store = fresh(name).await;
    assert_eq!(store.apply(&[put(Kind::Draft, "open", &[1])], Durability::Strict).await, Ok(()));
    let upgraded = rexie::Rexie::builder(name).version(99).build().await.expect("is not blocked");
    let change = [put(Kind::Draft, "open", &[2])];
    for durability in [Durability::Relaxed, Durability::Strict] {
        assert_eq!(store.apply(&change, durability).await, Err(StorageError::NewerSchema));
    }
    upgraded.close();
}

#[wasm_bindgen_test]
fn the_browsers_exceptions_are_understood() {
    let thrown = |name: &str| DomException::new_with_message_and_name("words", name).expect("constructs").into();
    let cases = [
        ("QuotaExceededError", StorageError::Full),
        ("VersionError", StorageError::NewerSchema),
        ("InvalidStateError", StorageError::Closed),
        ("UnknownError", StorageError::Closed),
        ("DataError", StorageError::Other("DataError: words".to_owned())),
    ];
    for (name, understood) in cases {
        assert_eq!(StorageError::from_thrown(&thrown(name)), understood, "{name}");
    }
    assert_eq!(StorageError::from_opening(&thrown("InvalidStateError")), StorageError::Unavailable);
    assert_eq!(StorageError::from_thrown(&"odd".into()), StorageError::Other("no reason given".to_owned()));
}

#[wasm_bindgen_test]
fn each_error_is_one_sentence() {
    let errors = [
        StorageError::Full,
        StorageError::Blocked,
        StorageError::NewerSchema,
        StorageError::Unavailable,
        StorageError::Closed,
        StorageError::Locked,
        StorageError::LockDamaged,
        StorageError::NoDevice,
        StorageError::Seal(sidelight_core::seal::SealError::Changed),
        StorageError::Other("DataError: words".to_owned()),
    ];
    for error in errors {
        let text = error.to_string();
        assert!(text.ends_with('.') && text.matches(". ").count() == 0 && text.contains(": "), "{text}");
    }
}
