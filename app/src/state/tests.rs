//! The state over stores that are full, damaged, old, sealed or in use elsewhere.

mod joins;
mod plan;

use std::collections::BTreeSet;
use std::rc::Rc;

use gloo_timers::future::TimeoutFuture;
use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::decision;
use sidelight_core::capture::edit::Edit;
use sidelight_core::demo;
use sidelight_core::keeping::Wanted;
use sidelight_core::seal;
use wasm_bindgen_test::wasm_bindgen_test;

use super::{App, Read, now, owner_of};
use crate::platform::settings;
use crate::storage::memory::MemoryStore;
use crate::storage::sealed::{Fate, NewLock, PASSPHRASE, SealedStore};
use crate::storage::writer::Saving;
use crate::storage::{Change, Durability, Key, Kind, Owner, StorageError, Store};

/// A program over a store, as after a start. Its signals live as long as the reactive owner that is returned with it.
async fn start(store: Rc<dyn Store>) -> (App, leptos::reactive::owner::Owner) {
    let owner = leptos::reactive::owner::Owner::new();
    let app = owner.with(|| App::new(store, settings::load()));
    app.load().await;
    (app, owner)
}

async fn demo_store() -> Rc<MemoryStore> {
    let store = Rc::new(MemoryStore::new());
    let (app, _owner) = start(store.clone()).await;
    let (people, visits) = demo::people(now());
    app.take_in(people, visits).await.expect("is taken in");
    store
}

/// Waits until a visit was read.
async fn read(app: App, key: &str) -> Read {
    app.want(vec![key.to_owned()]);
    for _ in 0..200 {
        if let Some(read) = untrack(|| app.read_of(key)) {
            return read;
        }
        TimeoutFuture::new(5).await;
    }
    panic!("{key} was not read");
}

async fn bytes(store: &dyn Store, kind: Kind, id: &str) -> Option<Vec<u8>> {
    let held = store.get(&[Key::new(kind, id)]).await.expect("reads").pop().flatten();
    held.map(|held| held.expect("is bytes"))
}

async fn put(store: &dyn Store, kind: Kind, id: &str, bytes: &[u8]) {
    store.apply(&[Change::put(Key::new(kind, id), bytes.to_vec())], Durability::Strict).await.expect("writes");
}

fn keys(app: App) -> Vec<String> {
    app.listed.with_untracked(|all| all.iter().map(|one| one.key.clone()).collect())
}

#[wasm_bindgen_test]
async fn a_start_reads_the_index_and_a_visit_when_it_is_asked_for() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    let (people, visits) = demo::people(now());
    assert_eq!(app.people.with_untracked(Vec::len), people.len());
    assert_eq!(keys(app).len(), visits.len());
    assert_eq!(store.ids(Kind::Entry).await.map(|ids| ids.len()), Ok(visits.len()), "a row for every visit");
    assert!(untrack(|| app.read_of("demo-visit-1")).is_none(), "nothing was read that no one asked for");
    assert_eq!(untrack(|| app.visits_of("demo-person-6")), None);
    let read = read(app, "demo-visit-1").await;
    assert_eq!(read.visit().map(|visit| visit.person.as_str()), Some("demo-person-1"));
    app.want_person("demo-person-6");
    TimeoutFuture::new(50).await;
    assert_eq!(untrack(|| app.visits_of("demo-person-6")).map(|visits| visits.len()), Some(4));
    let sorted = app.listed.with_untracked(|all| all.is_sorted_by(|a, b| a.entry.started >= b.entry.started));
    assert!(sorted, "the latest stands first");
}

#[wasm_bindgen_test]
async fn a_visit_and_its_index_row_are_written_together_from_the_first_tap_to_the_close() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.begin("demo-person-1", "sideline", Vec::new());
    TimeoutFuture::new(30).await;
    let id = app.current.with_untracked(|visit| visit.as_ref().expect("is open").id.clone());
    assert!(bytes(&*store, Kind::Draft, &id).await.is_some());
    let entry = archive::read_entry(&bytes(&*store, Kind::Entry, &id).await.expect("is there")).expect("reads");
    assert_eq!((entry.closed, entry.sha256, entry.person.as_str()), (None, None, "demo-person-1"));
    assert_eq!(keys(app)[0], id, "it is the latest");
    app.edit(decision::SLOT, Edit::Answer("action".into(), Some(Answer::One("advice".into()))));
    app.close().await;
    assert!(bytes(&*store, Kind::Draft, &id).await.is_none());
    assert!(bytes(&*store, Kind::Visit, &id).await.is_some());
    let entry = archive::read_entry(&bytes(&*store, Kind::Entry, &id).await.expect("is there")).expect("reads");
    assert!(entry.closed.is_some() && entry.sha256.is_some());
    app.put_away();
    let (again, _owner) = start(store).await;
    assert!(again.current.get_untracked().is_none());
    assert!(read(again, &id).await.visit().is_some_and(|visit| visit.closed.is_some()));
}

#[wasm_bindgen_test]
async fn an_open_visit_is_in_hand_again_after_a_start() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.begin("demo-person-2", "sideline", Vec::new());
    TimeoutFuture::new(30).await;
    let open = app.current.get_untracked();
    let (again, _owner) = start(store).await;
    assert_eq!(again.current.get_untracked(), open);
    let id = open.expect("is open").id;
    again.put_away();
    assert!(untrack(|| again.read_of(&id)).is_some(), "put away it stays in memory");
    again.open(&id);
    assert_eq!(again.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.id.clone())), Some(id));
}

#[wasm_bindgen_test]
async fn a_missing_or_damaged_index_row_is_made_anew_from_its_visit() {
    let store = demo_store().await;
    let before = store.list(Kind::Entry).await;
    store.apply(&[Change::Delete(Key::new(Kind::Entry, "demo-visit-1"))], Durability::Strict).await.expect("deletes");
    put(&*store, Kind::Entry, "demo-visit-2", b"{\"format\":").await;
    put(&*store, Kind::Entry, "of-no-visit", &bytes(&*store, Kind::Entry, "demo-visit-3").await.expect("is there"))
        .await;
    let (app, _owner) = start(store.clone()).await;
    assert_eq!(keys(app).len(), demo::people(now()).1.len());
    assert!(app.unreadable.with_untracked(Vec::is_empty), "nobody has to know");
    TimeoutFuture::new(50).await;
    assert_eq!(store.list(Kind::Entry).await, before);
}

#[wasm_bindgen_test]
async fn records_of_a_version_without_an_index_are_indexed_at_the_first_start() {
    let store = Rc::new(MemoryStore::new());
    let (people, visits) = demo::people(now());
    for person in &people {
        put(&*store, Kind::Person, &person.id, &archive::write_person(person)).await;
    }
    for visit in &visits {
        put(&*store, Kind::Visit, &visit.id, &archive::write_visit(visit)).await;
    }
    let (app, _owner) = start(store.clone()).await;
    assert_eq!(keys(app).len(), visits.len());
    TimeoutFuture::new(50).await;
    assert_eq!(store.ids(Kind::Entry).await.map(|ids| ids.len()), Ok(visits.len()));
}

#[wasm_bindgen_test]
async fn a_damaged_visit_is_told_once_left_where_it_is_and_everything_else_can_be_saved() {
    let store = demo_store().await;
    let broken = b"{\"format\":\"sidelight-visit\",\"version\":1,\"vis";
    put(&*store, Kind::Visit, "demo-visit-1", broken).await;
    let (app, _owner) = start(store.clone()).await;
    assert!(matches!(read(app, "demo-visit-1").await, Read::Damaged(_)));
    assert!(read(app, "demo-visit-2").await.visit().is_some(), "the others are read");
    let said = app.unreadable.get_untracked();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].starts_with("A stored visit cannot be read and was left as it is. "), "{said:?}");
    let place = BTreeSet::from([Key::new(Kind::Visit, "demo-visit-1")]);
    assert_eq!(app.damaged.get_untracked(), place);
    app.open("demo-visit-1");
    assert!(app.current.get_untracked().is_none() && app.said.get_untracked().is_some());
    let saved = app.everything().await;
    let (people, visits) = demo::people(now());
    assert_eq!((saved.people.len(), saved.visits.len()), (people.len(), visits.len() - 1));
    assert_eq!(archive::read(&archive::write_compact(&saved)).expect("opens again").visits.len(), visits.len() - 1);
    assert_eq!(bytes(&*store, Kind::Visit, "demo-visit-1").await.as_deref(), Some(&broken[..]));
}

#[wasm_bindgen_test]
async fn visits_of_a_person_who_cannot_be_read_are_saved_all_the_same() {
    let store = demo_store().await;
    put(&*store, Kind::Person, "demo-person-1", b"{").await;
    store.apply(&[Change::Delete(Key::new(Kind::Person, "demo-person-2"))], Durability::Strict).await.expect("deletes");
    let (app, _owner) = start(store.clone()).await;
    let nameless = |id: &str| {
        app.people.with_untracked(|all| all.iter().any(|one| one.id == id && one.label == "name not readable"))
    };
    assert!(nameless("demo-person-1") && nameless("demo-person-2"), "someone stands in for them");
    assert_eq!(app.damaged.with_untracked(BTreeSet::len), 2);
    app.open("demo-visit-1");
    TimeoutFuture::new(30).await;
    assert!(untrack(|| app.assessment.get()).is_some(), "the visit can be seen");
    app.put_away();
    let saved = app.everything().await;
    let (people, visits) = demo::people(now());
    assert_eq!((saved.people.len(), saved.visits.len()), (people.len(), visits.len()));
    assert!(archive::read(&archive::write_compact(&saved)).is_ok(), "an archive names everyone in it");
    assert!(app.here().people.iter().all(|one| one.label != "name not readable"), "a file brings their names back");
    assert_eq!(
        bytes(&*store, Kind::Person, "demo-person-1").await.as_deref(),
        Some(&b"{"[..]),
        "stand-ins are not written"
    );
}

#[wasm_bindgen_test]
async fn a_damaged_visit_is_left_out_of_a_hand_over_and_comes_back_with_a_file() {
    let store = demo_store().await;
    put(&*store, Kind::Visit, "demo-visit-1", b"{").await;
    let (app, _owner) = start(store.clone()).await;
    let all = untrack(|| app.selection(&Wanted::All));
    let packed = app.pack(&all).await.expect("the others are handed over");
    assert_eq!((packed.damaged, packed.note.visits.len()), (1, all.visits.len() - 1));
    let one = untrack(|| app.selection(&Wanted::Visit("demo-visit-1".to_owned())));
    let refused = app.pack(&one).await.err().unwrap_or_default();
    assert!(refused.contains("None of these visits can be read"), "{refused}");
    let here = app.here();
    assert!(here.closed.iter().all(|visit| visit.id != "demo-visit-1"), "what cannot be read is not here");
    assert_eq!(here.closed.len(), all.visits.len() - 1);
    assert_eq!(app.check().await, all.visits.len() - 1);
}

#[wasm_bindgen_test]
async fn of_an_open_visit_that_cannot_be_read_the_index_still_tells() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.begin("demo-person-1", "sideline", Vec::new());
    TimeoutFuture::new(30).await;
    let broken = app.current.with_untracked(|visit| visit.as_ref().expect("is open").id.clone());
    app.begin("demo-person-2", "sideline", Vec::new());
    TimeoutFuture::new(30).await;
    let whole = app.current.with_untracked(|visit| visit.as_ref().expect("is open").id.clone());
    put(&*store, Kind::Draft, &broken, b"{").await;
    let (again, _owner) = start(store.clone()).await;
    assert!(keys(again).contains(&broken));
    assert_eq!(again.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.id.clone())), Some(whole));
    TimeoutFuture::new(30).await;
    assert!(bytes(&*store, Kind::Entry, &broken).await.is_some());
    assert!(matches!(read(again, &broken).await, Read::Damaged(_)));
}

#[wasm_bindgen_test]
async fn a_flipped_byte_in_a_sealed_record_is_told_and_hides_no_other() {
    let memory = demo_store().await;
    let lock = NewLock { key: seal::Key::from_bytes([3; 32]), kdf: seal::Kdf::default(), salt: vec![3; 16] };
    let sealed = Rc::new(SealedStore::create(memory.clone(), None, &lock, owner_of).await.expect("creates"));
    let mut row = bytes(&*memory, Kind::Visit, "demo-visit-1").await.expect("is there");
    row[100] ^= 4;
    put(&*memory, Kind::Visit, "demo-visit-1", &row).await;
    let (app, _owner) = start(sealed).await;
    let changed = StorageError::Seal(seal::SealError::Changed).to_string();
    assert_eq!(read(app, "demo-visit-1").await, Read::Damaged(changed.clone()));
    assert_eq!(app.unreadable.get_untracked(), [changed]);
    assert!(read(app, "demo-visit-2").await.visit().is_some());
    assert_eq!(bytes(&*memory, Kind::Visit, "demo-visit-1").await, Some(row), "it was left as it is");
}

#[wasm_bindgen_test]
async fn a_full_store_says_so_keeps_the_visit_open_and_everything_that_was_there() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.begin("demo-person-1", "sideline", Vec::new());
    TimeoutFuture::new(30).await;
    let before = store.list(Kind::Visit).await;
    store.set_limit(Some(0));
    app.edit(decision::SLOT, Edit::Answer("action".into(), Some(Answer::One("advice".into()))));
    TimeoutFuture::new(30).await;
    assert_eq!(app.saving().get_untracked(), Saving::Failed(StorageError::Full));
    app.close().await;
    assert_eq!(app.said.get_untracked(), Some(StorageError::Full.to_string()));
    assert!(!app.is_closed_now(), "it is not closed before it is on the disk");
    let (people, visits) = demo::people(now());
    let mut more = visits[0].clone();
    more.id = "one-more".into();
    assert_eq!(app.take_in(people, vec![more]).await, Err(StorageError::Full.to_string()));
    assert_eq!(store.list(Kind::Visit).await, before, "nothing half-written");
    assert!(read(app, "demo-visit-1").await.visit().is_some(), "the others stay readable");
    store.set_limit(None);
    app.close().await;
    assert!(app.is_closed_now());
}

#[wasm_bindgen_test]
async fn a_second_tab_reads_and_writes_nothing() {
    let store = demo_store().await;
    store.apply(&[Change::Delete(Key::new(Kind::Entry, "demo-visit-1"))], Durability::Strict).await.expect("deletes");
    let owner = leptos::reactive::owner::Owner::new();
    let app = owner.with(|| App::new(store.clone(), settings::load()));
    app.elsewhere.set(true);
    app.load().await;
    assert!(read(app, "demo-visit-1").await.visit().is_some());
    app.begin("demo-person-1", "sideline", Vec::new());
    let (people, visits) = demo::people(now());
    let refused = app.take_in(people, visits).await.expect_err("another tab records");
    assert!(refused.contains("another tab"), "{refused}");
    TimeoutFuture::new(30).await;
    assert_eq!(store.ids(Kind::Draft).await, Ok(vec![]));
    assert!(bytes(&*store, Kind::Entry, "demo-visit-1").await.is_none(), "not even the index is mended");
}

#[wasm_bindgen_test]
async fn someone_is_erased_with_every_row_and_the_key() {
    let memory = demo_store().await;
    let lock = NewLock { key: seal::Key::from_bytes([3; 32]), kdf: seal::Kdf::default(), salt: vec![3; 16] };
    let sealed = Rc::new(SealedStore::create(memory.clone(), None, &lock, owner_of).await.expect("creates"));
    let (app, _owner) = start(sealed.clone()).await;
    app.use_sealed(sealed.clone());
    app.begin("demo-person-6", "sideline", Vec::new());
    let tombstone = Change::put(Key::new(Kind::Ledger, "erased-demo-person-6"), b"{}".to_vec());
    let fate = app.remove(&BTreeSet::new(), &["demo-person-6".to_owned()], vec![tombstone]).await;
    assert_eq!(fate, Ok(Some(Fate::UntilOverwritten)), "this store has no secret of a device");
    TimeoutFuture::new(30).await;
    let again = SealedStore::unlock(memory, None, PASSPHRASE, &lock.key).await.expect("unlocks");
    let (app_again, _owner) = start(Rc::new(again)).await;
    for app in [app, app_again] {
        assert!(app.people.with_untracked(|all| all.iter().all(|person| person.id != "demo-person-6")));
        assert!(app.listed.with_untracked(|all| all.iter().all(|one| one.entry.person != "demo-person-6")));
        assert!(app.current.get_untracked().is_none());
        assert_eq!(app.people.with_untracked(Vec::len), 5);
        assert!(read(app, "demo-visit-1").await.visit().is_some());
    }
    assert_eq!(sealed.ids(Kind::Ledger).await, Ok(vec!["erased-demo-person-6".to_owned()]));
}

#[wasm_bindgen_test]
async fn visits_alone_are_removed_and_their_person_stays() {
    let store = demo_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.open("demo-visit-1");
    TimeoutFuture::new(30).await;
    let removed = BTreeSet::from(["demo-visit-1".to_owned()]);
    assert_eq!(app.remove(&removed, &[], Vec::new()).await, Ok(None));
    assert!(bytes(&*store, Kind::Visit, "demo-visit-1").await.is_none());
    assert!(bytes(&*store, Kind::Entry, "demo-visit-1").await.is_none());
    assert!(app.current.get_untracked().is_none() && !keys(app).contains(&"demo-visit-1".to_owned()));
    assert_eq!(app.people.with_untracked(Vec::len), 6);
}

#[wasm_bindgen_test]
fn what_is_in_clear_says_whom_it_is_about() {
    let (people, visits) = demo::people(now());
    let of = |kind, id: &str, bytes: &[u8]| owner_of(&Key::new(kind, id), bytes);
    let person = |id: &str| Owner::Person(id.to_owned());
    let visit = archive::write_visit(&visits[0]);
    assert_eq!(of(Kind::Person, &people[0].id, b""), person(&people[0].id));
    assert_eq!(of(Kind::Visit, "any", &visit), person(&visits[0].person));
    assert_eq!(of(Kind::Draft, "any", &visit), person(&visits[0].person));
    let entry = archive::write_entry(&super::visits::entry_of(&visits[0]));
    assert_eq!(of(Kind::Entry, "any", &entry), person(&visits[0].person));
    assert_eq!(of(Kind::Visit, "any", b"broken"), Owner::Practice);
    assert_eq!(of(Kind::Setting, "routine-1", b"{}"), Owner::Practice);
}
