//! The write queue: the latest bytes of each key win, one write is in flight, none waits for a pause.
//! What could not be written stays in memory and is tried again.

mod queue;
#[cfg(test)]
mod tests;

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use futures_channel::oneshot;
use gloo_timers::callback::Timeout;
use leptos::prelude::{ReadSignal, RwSignal, Set, WithUntracked};
use send_wrapper::SendWrapper;
use wasm_bindgen_futures::spawn_local;

use self::queue::Queue;
use super::{Change, StorageError, Store};
use crate::platform::clock::monotonic;

/// Where the latest taps are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Saving {
    /// Everything is in the store.
    Saved,
    /// A write has been issued and is under way.
    Writing,
    /// The last write failed; its bytes are kept in memory.
    Failed(StorageError),
}

/// Writes changes to a store in the background. Clones share one queue.
#[derive(Clone)]
pub struct Writer {
    inner: SendWrapper<Rc<Inner>>,
}

struct Inner {
    store: Rc<dyn Store>,
    state: RwSignal<Saving>,
    queue: RefCell<Queue>,
    running: Cell<bool>,
    failures: Cell<u32>,
    timer: RefCell<Option<Timeout>>,
    waiting: RefCell<Vec<oneshot::Sender<Result<(), StorageError>>>>,
}

impl Writer {
    /// A writer to `store`. Its state belongs to the reactive owner it is made under, so make it at
    /// the root of the program.
    #[must_use]
    pub fn new(store: Rc<dyn Store>) -> Self {
        Self {
            inner: SendWrapper::new(Rc::new(Inner {
                store,
                state: RwSignal::new(Saving::Saved),
                queue: RefCell::default(),
                running: Cell::new(false),
                failures: Cell::new(0),
                timer: RefCell::default(),
                waiting: RefCell::default(),
            })),
        }
    }

    /// Where the latest taps are.
    #[must_use]
    pub fn state(&self) -> ReadSignal<Saving> {
        self.inner.state.read_only()
    }

    /// Makes these changes together: a crash leaves all of them or none. The write is issued before the browser paints again,
    /// or as soon as the one in flight ends; later changes of the same keys meanwhile replace these.
    pub fn change(&self, changes: impl IntoIterator<Item = Change>) {
        self.inner.queue.borrow_mut().add(changes);
        self.inner.show_writing();
        start(&self.inner);
    }

    /// Makes these changes together with everything that waits, and returns once all of it is on the disk. Used to close a
    /// visit and to take in a file. On failure these changes are forgotten, so that what was reported as failed is not done
    /// later after all; what waited before them is tried again.
    pub async fn close(&self, changes: impl IntoIterator<Item = Change>) -> Result<(), StorageError> {
        let (sender, receiver) = oneshot::channel();
        self.inner.queue.borrow_mut().add_once(changes);
        self.inner.waiting.borrow_mut().push(sender);
        self.inner.show_writing();
        start(&self.inner);
        receiver.await.unwrap_or(Err(StorageError::Closed))
    }

    /// Asks for everything to be flushed to the disk now, for example when the page is hidden.
    pub fn flush(&self) {
        self.inner.queue.borrow_mut().want_strict();
        start(&self.inner);
    }

    /// Tries again at once after a failure.
    pub fn retry(&self) {
        start(&self.inner);
    }
}

/// Starts the loop unless it runs already.
fn start(inner: &Rc<Inner>) {
    if inner.running.replace(true) {
        return;
    }
    inner.timer.replace(None);
    // A local task runs before the browser turns to anything else, so the write is issued in the same
    // turn as the tap.
    spawn_local(run(Rc::clone(inner)));
}

async fn run(inner: Rc<Inner>) {
    loop {
        let taken = inner.queue.borrow_mut().take(monotonic());
        // Whoever waits now waits for this batch; later ones wait for a later batch.
        let waiting = inner.waiting.take();
        let Some(batch) = taken else {
            answer(waiting, &Ok(()));
            break;
        };
        inner.show_writing();
        let outcome = inner.store.apply(&batch.changes, batch.durability).await;
        let mut queue = inner.queue.borrow_mut();
        match &outcome {
            Ok(()) => queue.written(batch, monotonic()),
            Err(_) => queue.refused(batch),
        }
        drop(queue);
        answer(waiting, &outcome);
        if let Err(error) = outcome {
            return fail(&inner, error);
        }
        inner.failures.set(0);
    }
    inner.running.set(false);
    inner.show(Saving::Saved);
    let wait = inner.queue.borrow().flush_in(monotonic());
    if let Some(wait) = wait {
        start_after(&inner, wait);
    }
}

fn fail(inner: &Rc<Inner>, error: StorageError) {
    inner.running.set(false);
    if inner.queue.borrow().is_empty() {
        // Whoever asked for these changes has heard that they were refused, and nothing else waits.
        inner.show(Saving::Saved);
        return;
    }
    let failures = inner.failures.get().saturating_add(1);
    inner.failures.set(failures);
    if error.recoverable() {
        start_after(inner, queue::back_off(failures));
    }
    inner.show(Saving::Failed(error));
}

fn start_after(inner: &Rc<Inner>, wait_ms: u32) {
    let later: Weak<Inner> = Rc::downgrade(inner);
    let timer = Timeout::new(wait_ms, move || {
        if let Some(inner) = later.upgrade() {
            start(&inner);
        }
    });
    inner.timer.replace(Some(timer));
}

fn answer(waiting: Vec<oneshot::Sender<Result<(), StorageError>>>, outcome: &Result<(), StorageError>) {
    for sender in waiting {
        // Whoever asked may be gone with its screen; the bytes are written all the same.
        let _listener_gone: Result<(), _> = sender.send(outcome.clone());
    }
}

impl Inner {
    /// A failure stays on screen until a write succeeds, so that it does not flicker with each retry.
    fn show_writing(&self) {
        let failed = self.state.with_untracked(|state| matches!(state, Saving::Failed(_)));
        if !failed {
            self.show(Saving::Writing);
        }
    }

    fn show(&self, state: Saving) {
        if self.state.with_untracked(|shown| *shown != state) {
            self.state.set(state);
        }
    }
}
