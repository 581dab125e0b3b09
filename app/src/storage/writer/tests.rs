//! The queue at work on stores that are slow, full or ended.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use futures_util::FutureExt;
use gloo_timers::future::TimeoutFuture;
use leptos::prelude::GetUntracked;
use wasm_bindgen_test::wasm_bindgen_test;

use super::super::memory::MemoryStore;
use super::super::tests::read;
use super::super::{Change, Durability, Held, Key, Kind, Pending, StorageError, Store};
use super::{Saving, Writer};

/// A store that takes a while and notes what was asked of it.
#[derive(Default)]
struct Slow {
    memory: MemoryStore,
    asked: RefCell<Vec<(Vec<u8>, Durability)>>,
    in_flight: Cell<u32>,
    most_in_flight: Cell<u32>,
}

impl Store for Slow {
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
        async move {
            let bytes = changes.iter().flat_map(|change| match change {
                Change::Put(_, bytes, _) => bytes.clone(),
                Change::Delete(_) => vec![],
            });
            self.asked.borrow_mut().push((bytes.collect(), durability));
            self.in_flight.set(self.in_flight.get() + 1);
            self.most_in_flight.set(self.most_in_flight.get().max(self.in_flight.get()));
            TimeoutFuture::new(20).await;
            self.in_flight.set(self.in_flight.get() - 1);
            self.memory.apply(changes, durability).await
        }
        .boxed_local()
    }
}

fn draft() -> Key {
    Key::new(Kind::Draft, "open")
}

async fn settle(writer: &Writer) {
    for _ in 0..200 {
        if writer.state().get_untracked() == Saving::Saved {
            return;
        }
        TimeoutFuture::new(10).await;
    }
    panic!("still not saved: {:?}", writer.state().get_untracked());
}

#[wasm_bindgen_test]
async fn the_latest_bytes_win_and_one_write_is_in_flight() {
    let store = Rc::new(Slow::default());
    let writer = Writer::new(Rc::<Slow>::clone(&store));
    for byte in 1..=9 {
        writer.change([Change::put(draft(), vec![byte])]);
        // The first write is issued in the turn of its tap, before the next tap can come.
        TimeoutFuture::new(1).await;
    }
    settle(&writer).await;
    assert_eq!(read(&*store, &draft()).await, Ok(Some(vec![9])));
    assert_eq!(store.most_in_flight.get(), 1);
    let asked = store.asked.borrow();
    assert_eq!(asked.first(), Some(&(vec![1], Durability::Relaxed)));
    assert!(asked.len() >= 2 && asked.len() < 9, "{asked:?}");
}

#[wasm_bindgen_test]
async fn a_write_is_issued_before_the_next_turn() {
    let store = Rc::new(Slow::default());
    let writer = Writer::new(Rc::<Slow>::clone(&store));
    writer.change([Change::put(draft(), vec![1])]);
    assert_eq!(writer.state().get_untracked(), Saving::Writing, "at once");
    // A resolved promise is answered in the same turn of the event loop, after what came before it.
    let same_turn = js_sys::Promise::resolve(&wasm_bindgen::JsValue::NULL);
    wasm_bindgen_futures::JsFuture::from(same_turn).await.expect("resolves");
    assert_eq!(store.asked.borrow().len(), 1);
    assert_eq!(writer.state().get_untracked(), Saving::Writing);
    settle(&writer).await;
}

#[wasm_bindgen_test]
async fn closing_is_strict_and_takes_along_what_waits() {
    let store = Rc::new(Slow::default());
    let writer = Writer::new(Rc::<Slow>::clone(&store));
    writer.change([Change::put(draft(), vec![1])]);
    writer.change([Change::put(Key::new(Kind::Person, "p"), vec![2])]);
    let visit = Change::put(Key::new(Kind::Visit, "v"), vec![3]);
    let closed = writer.close([visit, Change::Delete(draft())]).await;
    assert_eq!(closed, Ok(()));
    assert_eq!(store.asked.borrow().last().map(|asked| asked.1), Some(Durability::Strict));
    assert_eq!(read(&*store, &draft()).await, Ok(None));
    assert_eq!(store.list(Kind::Visit).await, Ok(vec![("v".to_owned(), Ok(vec![3]))]));
    assert_eq!(store.list(Kind::Person).await, Ok(vec![("p".to_owned(), Ok(vec![2]))]));
    assert_eq!(writer.close([]).await, Ok(()), "with nothing to do");
}

#[wasm_bindgen_test]
async fn the_last_tap_is_flushed_without_another() {
    let store = Rc::new(Slow::default());
    let writer = Writer::new(Rc::<Slow>::clone(&store));
    writer.change([Change::put(draft(), vec![5])]);
    TimeoutFuture::new(3_300).await;
    let expected = [(vec![5], Durability::Relaxed), (vec![5], Durability::Strict)];
    assert_eq!(*store.asked.borrow(), expected);
}

#[wasm_bindgen_test]
async fn a_full_store_keeps_the_bytes_and_is_tried_again() {
    let store = Rc::new(MemoryStore::new());
    store.set_limit(Some(0));
    let writer = Writer::new(Rc::<MemoryStore>::clone(&store));
    writer.change([Change::put(draft(), vec![1])]);
    let visit = Change::put(Key::new(Kind::Visit, "v"), vec![2]);
    let closed = writer.close([visit.clone(), Change::Delete(draft())]).await;
    assert_eq!(closed, Err(StorageError::Full));
    assert_eq!(writer.state().get_untracked(), Saving::Failed(StorageError::Full));
    assert_eq!(read(&*store, &draft()).await, Ok(None));
    store.set_limit(None);
    settle(&writer).await;
    assert_eq!(read(&*store, &draft()).await, Ok(Some(vec![1])), "after the pause, by itself");
    assert_eq!(store.list(Kind::Visit).await, Ok(vec![]), "what was reported as failed is not done after all");
    store.set_limit(Some(1));
    assert_eq!(writer.close([visit]).await, Err(StorageError::Full));
    assert_eq!(writer.state().get_untracked(), Saving::Saved, "nothing else waits");
    writer.change([Change::put(Key::new(Kind::Draft, "more"), vec![3])]);
    TimeoutFuture::new(20).await;
    assert_eq!(writer.state().get_untracked(), Saving::Failed(StorageError::Full));
    store.set_limit(None);
    writer.retry();
    TimeoutFuture::new(20).await;
    assert_eq!(writer.state().get_untracked(), Saving::Saved, "on demand, without a pause");
    assert_eq!(read(&*store, &Key::new(Kind::Draft, "more")).await, Ok(Some(vec![3])));
}
