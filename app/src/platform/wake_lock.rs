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
