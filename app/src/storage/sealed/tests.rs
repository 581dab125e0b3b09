//! What must not be readable, what must stay readable, and every moment at which the page may die.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use futures_util::FutureExt;
use futures_util::future::ready;
use sidelight_core::seal::{self, Kdf, SealError};
use wasm_bindgen_test::wasm_bindgen_test;

use super::super::indexed_db::IndexedDb;
use super::super::memory::MemoryStore;
use super::super::tests::{keeps_what_it_is_given, read};
use super::super::{Change, Durability, Held, Key, Kind, Owner, Pending, StorageError, Store};
use super::device::Place;
use super::{DeviceSecret, Erased, Fate, NewLock, PASSPHRASE, SealedStore, header};

/// A device's two places, in memory. It can be told to fail.
#[derive(Default)]
struct Device {
    places: RefCell<[Option<seal::Key>; 2]>,
    writes_left: Cell<Option<usize>>,
}

impl DeviceSecret for Device {
    fn read(&self, place: Place) -> Pending<'_, Option<seal::Key>> {
        ready(Ok(self.places.borrow()[usize::from(place)].clone())).boxed_local()
    }

    fn write<'a>(&'a self, place: Place, secret: Option<&'a seal::Key>) -> Pending<'a, ()> {
        if let Err(error) = spend(&self.writes_left) {
            return ready(Err(error)).boxed_local();
        }
        self.places.borrow_mut()[usize::from(place)] = secret.cloned();
        ready(Ok(())).boxed_local()
    }
}

/// A store that dies after so many writes.
struct Mortal {
    memory: Rc<MemoryStore>,
    writes_left: Cell<Option<usize>>,
}

impl Store for Mortal {
    fn list(&self, kind: Kind) -> Pending<'_, Vec<(String, Held)>> {
        self.memory.list(kind)
    }

    fn ids(&self, kind: Kind) -> Pending<'_, Vec<String>> {
        self.memory.ids(kind)
    }

    fn get<'a>(&'a self, keys: &'a [Key]) -> Pending<'a, Vec<Option<Held>>> {
        self.memory.get(keys)
    }

    fn apply<'a>(&'a self, changes: &'a [Change], durability: Durability) -> Pending<'a, ()> {
        match spend(&self.writes_left) {
            Ok(()) => self.memory.apply(changes, durability),
            Err(error) => ready(Err(error)).boxed_local(),
        }
    }
}

fn spend(left: &Cell<Option<usize>>) -> Result<(), StorageError> {
    match left.get() {
        Some(0) => Err(StorageError::Closed),
        Some(n) => {
            left.set(Some(n - 1));
            Ok(())
        }
        None => Ok(()),
    }
}

/// A key as the derivation would give it; deriving it is tried elsewhere.
fn key(byte: u8) -> seal::Key {
    seal::Key::from_bytes([byte; 32])
}

fn lock(byte: u8) -> NewLock {
    NewLock { key: key(byte), kdf: Kdf::default(), salt: vec![byte; 16] }
}

fn nobody(_: &Key, _: &[u8]) -> Owner {
    Owner::Practice
}

fn of(person: &str, kind: Kind, id: &str, words: &str) -> Change {
    Change::put_of(person, Key::new(kind, id), words.as_bytes().to_vec())
}

struct Bench {
    memory: Rc<MemoryStore>,
    device: Rc<Device>,
    store: SealedStore,
}

impl Bench {
    /// Two people with a visit each, and one thing of the practice.
    async fn new() -> Self {
        let (memory, device) = (Rc::new(MemoryStore::new()), Rc::new(Device::default()));
        let store = SealedStore::create(memory.clone(), Some(device.clone()), &lock(1), nobody).await.expect("creates");
        let changes = [
            of("p1", Kind::Person, "p1", "Yusuf Example"),
            of("p1", Kind::Visit, "v1", "near point of Yusuf"),
            of("p1", Kind::Entry, "v1", "index of Yusuf"),
            of("p2", Kind::Person, "p2", "Marta Invented"),
            of("p2", Kind::Visit, "v2", "pursuit of Marta"),
            Change::put(Key::new(Kind::Setting, "s"), b"routine of Monday".to_vec()),
        ];
        store.apply(&changes, Durability::Relaxed).await.expect("writes");
        Self { memory, device, store }
    }

    async fn again(&self, byte: u8) -> Result<SealedStore, StorageError> {
        SealedStore::unlock(self.memory.clone(), Some(self.device.clone()), PASSPHRASE, &key(byte)).await
    }
}

/// Every row beneath the seal.
async fn rows(memory: &MemoryStore) -> Vec<(Key, Vec<u8>)> {
    let mut all = Vec::new();
    for kind in Kind::ALL {
        let listed = memory.list(kind).await.expect("lists");
        all.extend(listed.into_iter().map(|(id, held)| (Key::new(kind, id), held.expect("is bytes"))));
    }
    all
}

async fn rows_of_records(memory: &MemoryStore) -> Vec<(Key, Vec<u8>)> {
    rows(memory).await.into_iter().filter(|(key, _)| !super::is_own(key)).collect()
}

async fn text(store: &dyn Store, kind: Kind, id: &str) -> Option<String> {
    let bytes = read(store, &Key::new(kind, id)).await.expect("reads")?;
    Some(String::from_utf8(bytes).expect("is text"))
}

fn holds(bytes: &[u8], words: &str) -> bool {
    bytes.windows(words.len()).any(|part| part == words.as_bytes())
}

#[wasm_bindgen_test]
async fn a_sealed_store_keeps_what_it_is_given() {
    let store = SealedStore::create(Rc::new(MemoryStore::new()), None, &lock(1), nobody).await.expect("creates");
    keeps_what_it_is_given(&store).await;
    IndexedDb::erase("test-sealed").await.expect("erases");
    let database = IndexedDb::open_named("test-sealed").await.expect("opens");
    let store = SealedStore::create(Rc::new(database), None, &lock(1), nobody).await.expect("creates");
    keeps_what_it_is_given(&store).await;
}

#[wasm_bindgen_test]
async fn nothing_stands_in_clear_beneath_the_seal() {
    let bench = Bench::new().await;
    let rows = rows(&bench.memory).await;
    let words = ["Yusuf", "Marta", "near point", "pursuit", "Monday", "index"];
    // The search finds what is there to be found.
    assert!(holds(b"a visit of Marta", "Marta"));
    for (key, bytes) in &rows {
        for words in words {
            assert!(!holds(bytes, words), "{key:?} holds {words}");
        }
    }
    let of_kind = |kind| rows.iter().filter(|(key, _)| key.kind == kind).count();
    assert_eq!((of_kind(Kind::Key), of_kind(Kind::Visit), of_kind(Kind::Meta)), (3, 2, 1), "two people, the practice");
    let lock = &rows.iter().find(|(key, _)| *key == header::place()).expect("is there").1;
    for secret in [[1; 32].as_slice(), bench.device.places.borrow()[0].as_ref().expect("is kept").bytes().as_slice()] {
        let digits = super::bytes::digits(secret);
        assert!(!holds(lock, &digits), "the lock holds a key in clear");
    }
}

#[wasm_bindgen_test]
async fn the_right_key_opens_everything_again_and_another_nothing() {
    let bench = Bench::new().await;
    let again = bench.again(1).await.expect("unlocks");
    assert_eq!(text(&again, Kind::Visit, "v1").await.as_deref(), Some("near point of Yusuf"));
    assert_eq!(text(&again, Kind::Setting, "s").await.as_deref(), Some("routine of Monday"));
    assert_eq!(again.ids(Kind::Visit).await, Ok(vec!["v1".to_owned(), "v2".to_owned()]));
    assert_eq!(bench.again(2).await.err(), Some(StorageError::Seal(SealError::WrongKey)));
    let without = SealedStore::unlock(bench.memory.clone(), None, PASSPHRASE, &key(1)).await;
    assert_eq!(without.err(), Some(StorageError::NoDevice), "copied to another device");
}

#[wasm_bindgen_test]
async fn locked_it_refuses_and_unlocked_again_it_goes_on() {
    let bench = Bench::new().await;
    let sealed = rows_of_records(&bench.memory).await;
    bench.store.lock();
    assert!(!bench.store.is_unlocked());
    let write = [of("p1", Kind::Visit, "v3", "more")];
    assert_eq!(bench.store.list(Kind::Visit).await, Err(StorageError::Locked));
    assert_eq!(bench.store.ids(Kind::Visit).await, Err(StorageError::Locked));
    assert_eq!(bench.store.get(&[Key::new(Kind::Visit, "v1")]).await, Err(StorageError::Locked));
    assert_eq!(bench.store.apply(&write, Durability::Strict).await, Err(StorageError::Locked));
    assert_eq!(bench.store.unlock_again(PASSPHRASE, &key(9)).await, Err(StorageError::Seal(SealError::WrongKey)));
    assert!(!bench.store.is_unlocked(), "a wrong passphrase opens nothing");
    assert_eq!(rows_of_records(&bench.memory).await, sealed, "and destroys nothing");
    assert_eq!(bench.store.unlock_again(PASSPHRASE, &key(1)).await, Ok(()));
    assert_eq!(bench.store.apply(&write, Durability::Strict).await, Ok(()));
    assert_eq!(text(&bench.store, Kind::Visit, "v3").await.as_deref(), Some("more"));
}

#[wasm_bindgen_test]
async fn a_flipped_byte_spoils_one_row_only() {
    let bench = Bench::new().await;
    let place = Key::new(Kind::Visit, "v1");
    let mut row = read(&*bench.memory, &place).await.expect("reads").expect("is there");
    *row.last_mut().expect("is long") ^= 1;
    bench.memory.apply(&[Change::put(place.clone(), row)], Durability::Strict).await.expect("writes");
    let changed = Err(StorageError::Seal(SealError::Changed));
    let expected = vec![("v1".to_owned(), changed.clone()), ("v2".to_owned(), Ok(b"pursuit of Marta".to_vec()))];
    assert_eq!(bench.store.list(Kind::Visit).await, Ok(expected));
    assert_eq!(bench.store.get(&[place]).await, Ok(vec![Some(changed)]));
}

#[wasm_bindgen_test]
async fn a_row_that_was_moved_is_refused() {
    let bench = Bench::new().await;
    let row = read(&*bench.memory, &Key::new(Kind::Visit, "v1")).await.expect("reads").expect("is there");
    for place in [Key::new(Kind::Visit, "v2"), Key::new(Kind::Draft, "v1")] {
        bench.memory.apply(&[Change::put(place.clone(), row.clone())], Durability::Strict).await.expect("writes");
        let held = bench.store.get(&[place]).await;
        assert_eq!(held, Ok(vec![Some(Err(StorageError::Seal(SealError::Changed)))]));
    }
}

#[wasm_bindgen_test]
async fn the_lock_and_the_keys_are_out_of_reach_from_above() {
    let bench = Bench::new().await;
    assert_eq!(bench.store.list(Kind::Key).await, Ok(vec![]));
    assert_eq!(bench.store.ids(Kind::Meta).await, Ok(vec![]));
    assert_eq!(bench.store.get(&[header::place()]).await, Ok(vec![None]));
    for place in [header::place(), Key::new(Kind::Key, "any")] {
        for change in [Change::put(place.clone(), vec![1]), Change::Delete(place)] {
            assert!(bench.store.apply(&[change], Durability::Strict).await.is_err());
        }
    }
    assert!(bench.again(1).await.is_ok());
}

#[wasm_bindgen_test]
async fn a_new_passphrase_leaves_every_record_as_it_is() {
    let bench = Bench::new().await;
    let passkey = key(40);
    bench.store.add_wrap("passkey", Some("which one"), &passkey).await.expect("adds");
    let before: Vec<_> = rows(&bench.memory).await.into_iter().filter(|(key, _)| *key != header::place()).collect();
    let old_lock = read(&*bench.memory, &header::place()).await.expect("reads").expect("is there");
    assert_eq!(bench.store.rewrap(&lock(2)).await, Ok(Fate::ForGood));
    let after: Vec<_> = rows(&bench.memory).await.into_iter().filter(|(key, _)| *key != header::place()).collect();
    assert_eq!(before, after, "to the byte");
    assert_eq!(bench.again(1).await.err(), Some(StorageError::Seal(SealError::WrongKey)));
    assert_eq!(
        text(&bench.again(2).await.expect("unlocks"), Kind::Visit, "v1").await.as_deref(),
        Some("near point of Yusuf")
    );
    let by_passkey = SealedStore::unlock(bench.memory.clone(), Some(bench.device.clone()), "passkey", &passkey).await;
    assert!(by_passkey.is_ok(), "the other way to unlock goes on working");
    let header = SealedStore::header(&*bench.memory).await.expect("reads").expect("is there");
    assert_eq!((header.salt(), header.kdf()), (&[2; 16][..], Kdf::default()));
    assert_eq!(header.wraps().iter().map(|wrap| wrap.name.as_str()).collect::<Vec<_>>(), [PASSPHRASE, "passkey"]);
    // Whoever learnt the old passphrase and finds the old lock on the disk misses the old secret of the device.
    bench.memory.apply(&[Change::put(header::place(), old_lock)], Durability::Strict).await.expect("writes");
    assert_eq!(bench.again(1).await.err(), Some(StorageError::NoDevice));
}

#[wasm_bindgen_test]
async fn a_way_to_unlock_can_be_taken_away_but_not_the_passphrase() {
    let bench = Bench::new().await;
    bench.store.add_wrap("passkey", None, &key(40)).await.expect("adds");
    assert_eq!(bench.store.remove_wrap("passkey").await, Ok(Fate::ForGood));
    let by_passkey = SealedStore::unlock(bench.memory.clone(), Some(bench.device.clone()), "passkey", &key(40)).await;
    assert_eq!(by_passkey.err(), Some(StorageError::Seal(SealError::WrongKey)));
    assert!(bench.store.remove_wrap(PASSPHRASE).await.is_err());
    assert!(bench.again(1).await.is_ok());
}

#[wasm_bindgen_test]
async fn who_was_erased_cannot_be_read_from_what_the_disk_still_holds() {
    let bench = Bench::new().await;
    let before = rows(&bench.memory).await;
    let tombstone = Change::put(Key::new(Kind::Ledger, "erased-p1"), b"gone".to_vec());
    let erased = bench.store.forget("p1", &[tombstone]).await.expect("erases");
    assert_eq!(erased.fate, Fate::ForGood);
    let counted: Vec<_> = erased.rows.into_iter().filter(|(_, count)| *count > 0).collect();
    assert_eq!(counted, [(Kind::Person, 1), (Kind::Visit, 1), (Kind::Entry, 1)]);
    for store in [&bench.store, &bench.again(1).await.expect("unlocks")] {
        assert_eq!(text(store, Kind::Visit, "v1").await, None);
        assert_eq!(text(store, Kind::Visit, "v2").await.as_deref(), Some("pursuit of Marta"));
        assert_eq!(text(store, Kind::Setting, "s").await.as_deref(), Some("routine of Monday"));
        assert_eq!(text(store, Kind::Ledger, "erased-p1").await.as_deref(), Some("gone"));
    }
    // With every key that is still around, an old row says nothing.
    let old_row = before.iter().find(|(key, _)| key.kind == Kind::Visit).expect("is there").clone();
    bench.memory.apply(&[Change::put(old_row.0.clone(), old_row.1)], Durability::Strict).await.expect("writes");
    let again = bench.again(1).await.expect("unlocks");
    assert_eq!(again.get(&[old_row.0]).await, Ok(vec![Some(Err(StorageError::Seal(SealError::NoKey)))]));
    // Neither does the row of the erased key, found again on the disk,
    let old_keys = before.iter().filter(|(key, _)| key.kind == Kind::Key);
    let restored: Vec<Change> = old_keys.map(|(key, row)| Change::put(key.clone(), row.clone())).collect();
    bench.memory.apply(&restored, Durability::Strict).await.expect("writes");
    let again = bench.again(1).await.expect("unlocks");
    let visits = again.list(Kind::Visit).await.expect("lists");
    assert_eq!(visits[0].1, Err(StorageError::Seal(SealError::NoKey)));
    // nor everything together as it once was: the secret it hung on is overwritten.
    let all: Vec<Change> = before.into_iter().map(|(key, row)| Change::put(key, row)).collect();
    bench.memory.apply(&all, Durability::Strict).await.expect("writes");
    assert_eq!(bench.again(1).await.err(), Some(StorageError::NoDevice));
}

#[wasm_bindgen_test]
async fn without_a_secret_of_the_device_erasing_says_that_the_disk_may_still_tell() {
    let memory = Rc::new(MemoryStore::new());
    let store = SealedStore::create(memory.clone(), None, &lock(1), nobody).await.expect("creates");
    store.apply(&[of("p1", Kind::Visit, "v1", "words")], Durability::Strict).await.expect("writes");
    assert_eq!(store.forget("p1", &[]).await.map(|erased| erased.fate), Ok(Fate::UntilOverwritten));
    let again = SealedStore::unlock(memory, None, PASSPHRASE, &key(1)).await.expect("unlocks");
    assert_eq!(again.ids(Kind::Visit).await, Ok(vec![]));
}

#[wasm_bindgen_test]
async fn someone_who_comes_back_after_being_erased_has_a_new_key() {
    let bench = Bench::new().await;
    bench.store.forget("p1", &[of("p1", Kind::Person, "p1", "back again")]).await.expect("erases");
    let again = bench.again(1).await.expect("unlocks");
    assert_eq!(text(&again, Kind::Person, "p1").await.as_deref(), Some("back again"));
    assert_eq!(again.ids(Kind::Visit).await, Ok(vec!["v2".to_owned()]));
}

#[wasm_bindgen_test]
async fn a_byte_changed_anywhere_in_the_lock_is_never_taken_for_a_wrong_passphrase() {
    let bench = Bench::new().await;
    let good = read(&*bench.memory, &header::place()).await.expect("reads").expect("is there");
    let (mut opened, mut told) = (0, 0);
    for at in 0..good.len() {
        let mut lock = good.clone();
        lock[at] ^= 1;
        bench.memory.apply(&[Change::put(header::place(), lock)], Durability::Strict).await.expect("writes");
        match bench.again(1).await.err() {
            None => opened += 1,
            Some(StorageError::Seal(SealError::WrongKey)) => panic!("byte {at} makes the passphrase a wrong one"),
            Some(_) => told += 1,
        }
    }
    assert!(opened > 64 && told > 400, "{opened} opened all the same, {told} were told");
    bench.memory.apply(&[Change::put(header::place(), good)], Durability::Strict).await.expect("writes");
    assert_eq!(bench.again(2).await.err(), Some(StorageError::Seal(SealError::WrongKey)), "a wrong one is one");
}

/// The page may die before or after each write to the database and to the device.
#[wasm_bindgen_test]
async fn erasing_can_be_cut_short_anywhere_and_the_store_opens() {
    for database_writes in 0..3 {
        for device_writes in 0..4 {
            let bench = Bench::new().await;
            let inner = Rc::new(Mortal { memory: bench.memory.clone(), writes_left: Cell::new(None) });
            let device = Some(Rc::clone(&bench.device) as Rc<dyn DeviceSecret>);
            let store = SealedStore::unlock(inner.clone(), device, PASSPHRASE, &key(1)).await.expect("unlocks");
            inner.writes_left.set(Some(database_writes));
            bench.device.writes_left.set(Some(device_writes));
            let outcome = store.forget("p1", &[]).await;
            let case = format!("{database_writes} and {device_writes} writes: {outcome:?}");
            let committed = database_writes > 0 && device_writes > 0;
            assert_eq!(outcome.is_ok(), committed, "{case}");
            let fate = outcome.map(|Erased { fate, .. }| fate).ok();
            let expected = committed.then_some(if device_writes > 1 { Fate::ForGood } else { Fate::Unfinished });
            assert_eq!(fate, expected, "{case}");
            drop(store);
            bench.device.writes_left.set(None);
            let again = bench.again(1).await.unwrap_or_else(|error| panic!("{case}: {error}"));
            assert_eq!(text(&again, Kind::Visit, "v1").await.is_none(), committed, "{case}");
            assert_eq!(text(&again, Kind::Visit, "v2").await.as_deref(), Some("pursuit of Marta"), "{case}");
            assert_eq!(bench.device.places.borrow().iter().flatten().count(), 1, "{case}: the other secret is cleared");
            again.apply(&[of("p3", Kind::Visit, "v3", "new")], Durability::Strict).await.expect("writes");
            let again = bench.again(1).await.expect("unlocks once more");
            assert_eq!(text(&again, Kind::Visit, "v3").await.as_deref(), Some("new"), "{case}");
        }
    }
}

#[wasm_bindgen_test]
async fn a_refused_write_leaves_no_key_that_only_memory_knows() {
    let bench = Bench::new().await;
    bench.memory.set_limit(Some(0));
    let change = [of("p9", Kind::Visit, "v9", "late")];
    assert_eq!(bench.store.apply(&change, Durability::Strict).await, Err(StorageError::Full));
    bench.memory.set_limit(None);
    assert_eq!(bench.store.apply(&change, Durability::Strict).await, Ok(()));
    let again = bench.again(1).await.expect("unlocks");
    assert_eq!(text(&again, Kind::Visit, "v9").await.as_deref(), Some("late"));
}

#[wasm_bindgen_test]
async fn records_in_clear_are_sealed_in_one_transaction_when_the_lock_is_made() {
    let memory = Rc::new(MemoryStore::new());
    let clear = [of("", Kind::Visit, "v1", "clear words of p1"), of("", Kind::Setting, "s", "clear routine")];
    memory.apply(&clear, Durability::Strict).await.expect("writes");
    let owner = |key: &Key, bytes: &[u8]| match (key.kind, holds(bytes, "p1")) {
        (Kind::Visit, true) => Owner::Person("p1".to_owned()),
        _ => Owner::Practice,
    };
    let before = rows(&memory).await;
    for writes in [0, 1] {
        let inner = Rc::new(Mortal { memory: memory.clone(), writes_left: Cell::new(Some(writes)) });
        let created = SealedStore::create(inner, None, &lock(1), owner).await;
        assert_eq!(created.is_ok(), writes == 1, "one write does it all");
        if writes == 0 {
            assert_eq!(rows(&memory).await, before, "or nothing is done");
        }
    }
    let sealed = rows(&memory).await;
    assert!(sealed.iter().all(|(_, bytes)| !holds(bytes, "clear")));
    let store = SealedStore::unlock(memory.clone(), None, PASSPHRASE, &key(1)).await.expect("unlocks");
    assert_eq!(text(&store, Kind::Visit, "v1").await.as_deref(), Some("clear words of p1"));
    assert_eq!(text(&store, Kind::Setting, "s").await.as_deref(), Some("clear routine"));
    store.forget("p1", &[]).await.expect("erases");
    assert_eq!(text(&store, Kind::Visit, "v1").await, None, "it was sealed by the person's own key");
    let again = SealedStore::create(memory, None, &lock(2), nobody).await;
    assert!(again.is_err(), "a lock is not made over another");
}

#[wasm_bindgen_test]
async fn erasing_the_device_works_locked_and_says_what_went() {
    let bench = Bench::new().await;
    let before = rows(&bench.memory).await;
    bench.store.lock();
    let erased = SealedStore::erase_all(&*bench.memory, Some(&*bench.device)).await.expect("erases");
    assert_eq!(erased.fate, Fate::ForGood);
    assert_eq!(erased.rows.iter().map(|(_, count)| count).sum::<usize>(), before.len());
    assert_eq!(rows(&bench.memory).await, vec![]);
    assert_eq!(SealedStore::header(&*bench.memory).await, Ok(None));
    let all: Vec<Change> = before.into_iter().map(|(key, row)| Change::put(key, row)).collect();
    bench.memory.apply(&all, Durability::Strict).await.expect("writes");
    assert_eq!(bench.again(1).await.err(), Some(StorageError::NoDevice), "what the disk still holds opens no more");
}

#[wasm_bindgen_test]
async fn a_lock_that_is_newer_damaged_or_too_weak_is_refused_and_left_alone() {
    let bench = Bench::new().await;
    let good = read(&*bench.memory, &header::place()).await.expect("reads").expect("is there");
    let good = String::from_utf8(good).expect("is text");
    let cases = [
        (good.replace("\"version\":1", "\"version\":2"), StorageError::NewerSchema),
        (good.replace("sidelight-lock", "another-lock"), StorageError::LockDamaged),
        (good.replace("argon2id", "argon2d"), StorageError::LockDamaged),
        (good[..good.len() - 1].to_owned(), StorageError::LockDamaged),
        (String::new(), StorageError::LockDamaged),
        (good.replace("\"memory_kib\":65536", "\"memory_kib\":8"), StorageError::Seal(SealError::Kdf)),
        (good.replace("\"memory_kib\":65536", "\"memory_kib\":4000000000"), StorageError::Seal(SealError::Kdf)),
    ];
    for (lock, expected) in cases {
        assert_ne!(lock, good);
        let put = Change::put(header::place(), lock.clone().into_bytes());
        bench.memory.apply(&[put], Durability::Strict).await.expect("writes");
        assert_eq!(bench.again(1).await.err(), Some(expected), "{lock}");
    }
    let put = Change::put(header::place(), good.into_bytes());
    bench.memory.apply(&[put], Durability::Strict).await.expect("writes");
    assert!(bench.again(1).await.is_ok());
    // Sealed records without a lock are not records in clear.
    bench.memory.apply(&[Change::Delete(header::place())], Durability::Strict).await.expect("deletes");
    assert_eq!(SealedStore::header(&*bench.memory).await.err(), Some(StorageError::LockDamaged));
    let again = SealedStore::create(bench.memory.clone(), None, &lock(2), nobody).await;
    assert_eq!(again.err(), Some(StorageError::LockDamaged));
}
