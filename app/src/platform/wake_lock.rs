//! Keeps the screen awake while a value of this type lives.
//!
//! Limits: absent before Safari 16.4 and Firefox 126; refused on low battery; given back by the browser whenever the page is
//! hidden, so it is asked for again when the page is shown. Reached through reflection, since the bindings are unstable.

use std::cell::RefCell;
use std::rc::Rc;

use gloo_events::EventListener;
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

use super::visibility;

/// A wish to keep the screen awake; dropped, it is given up.
pub struct WakeLock {
    held: Rc<RefCell<Held>>,
    _shown: EventListener,
}

#[derive(Default)]
struct Held {
    sentinel: Option<JsValue>,
    given_up: bool,
}

impl WakeLock {
    /// Asks for it, now and whenever the page is shown again.
    #[must_use]
    pub fn keep() -> WakeLock {
        let held = Rc::new(RefCell::new(Held::default()));
        request(&held);
        let again = Rc::clone(&held);
        WakeLock { held, _shown: visibility::on_shown(move || request(&again)) }
    }
}

impl Drop for WakeLock {
    fn drop(&mut self) {
        let mut held = self.held.borrow_mut();
        held.given_up = true;
        if let Some(sentinel) = held.sentinel.take() {
            release(&sentinel);
        }
    }
}

fn request(held: &Rc<RefCell<Held>>) {
    let Some(asked) = ask() else { return };
    let held = Rc::clone(held);
    spawn_local(async move {
        // A refusal leaves the screen to the device's own habits.
        let Ok(sentinel) = JsFuture::from(asked).await else { return };
        let mut held = held.borrow_mut();
        let superseded = if held.given_up { Some(sentinel) } else { held.sentinel.replace(sentinel) };
        // One that is dropped without being released would keep the screen awake for as long as the page lives.
        if let Some(sentinel) = superseded {
            release(&sentinel);
        }
    });
}

fn ask() -> Option<Promise> {
    let lock = Reflect::get(&window().navigator(), &"wakeLock".into()).ok().filter(|lock| lock.is_object())?;
    let request: Function = Reflect::get(&lock, &"request".into()).ok()?.dyn_into().ok()?;
    request.call1(&lock, &"screen".into()).ok()?.dyn_into().ok()
}

fn release(sentinel: &JsValue) {
    if let Some(release) = Reflect::get(sentinel, &"release".into()).ok().and_then(|f| f.dyn_into::<Function>().ok()) {
        let _ = release.call0(sentinel);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    /// Covers the browser's lock with one that counts what is held; a test browser may refuse a real one.
    fn counting_lock() -> JsValue {
        js_sys::Function::new_no_args(
            "const counts = { asked: 0, held: 0 };
             const request = async () => {
               counts.asked += 1;
               await new Promise((resolve) => setTimeout(resolve, 20));
               counts.held += 1;
               let released = false;
               return { release: async () => { if (!released) { released = true; counts.held -= 1; } } };
             };
             Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true });
             return counts;",
        )
        .call0(&JsValue::NULL)
        .expect("covers the lock")
    }

    fn count(counts: &JsValue, name: &str) -> f64 {
        Reflect::get(counts, &name.into()).ok().and_then(|count| count.as_f64()).expect("is a count")
    }

    #[wasm_bindgen_test]
    async fn it_is_asked_for_again_when_shown_and_nothing_is_held_after_the_drop() {
        let counts = counting_lock();
        let lock = WakeLock::keep();
        TimeoutFuture::new(60).await;
        assert_eq!((count(&counts, "asked"), count(&counts, "held")), (1.0, 1.0));
        let shown = web_sys::Event::new("visibilitychange").expect("constructs");
        leptos::prelude::document().dispatch_event(&shown).expect("dispatches");
        TimeoutFuture::new(60).await;
        assert_eq!((count(&counts, "asked"), count(&counts, "held")), (2.0, 1.0), "the first was given back");
        drop(lock);
        TimeoutFuture::new(60).await;
        assert_eq!(count(&counts, "held"), 0.0);

        let given_up_before_it_was_granted = WakeLock::keep();
        drop(given_up_before_it_was_granted);
        TimeoutFuture::new(60).await;
        assert_eq!((count(&counts, "asked"), count(&counts, "held")), (3.0, 0.0));
    }
}
