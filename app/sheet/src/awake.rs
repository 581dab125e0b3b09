//! Keeps the screen awake while a value of this type lives.
//!
//! Limits: absent before Safari 16.4 and Firefox 126, and on pages opened from a file in some browsers; refused on low
//! battery. Given back by the browser when the page is hidden, which also stops the clock, so it is asked for anew then.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// A wish to keep the screen awake; dropped, it is given up.
pub struct Awake(Rc<RefCell<Held>>);

#[derive(Default)]
struct Held {
    lock: Option<JsValue>,
    given_up: bool,
}

impl Awake {
    /// Asks for it.
    pub fn keep() -> Awake {
        let held = Rc::new(RefCell::new(Held::default()));
        if let Some(asked) = ask() {
            let granted = Rc::clone(&held);
            spawn_local(async move {
                // A refusal leaves the screen to the phone's own habits.
                let Ok(lock) = JsFuture::from(asked).await else { return };
                let mut held = granted.borrow_mut();
                if held.given_up {
                    call(&lock, "release", None);
                } else {
                    held.lock = Some(lock);
                }
            });
        }
        Awake(held)
    }
}

impl Drop for Awake {
    fn drop(&mut self) {
        let mut held = self.0.borrow_mut();
        held.given_up = true;
        if let Some(lock) = held.lock.take() {
            call(&lock, "release", None);
        }
    }
}

fn ask() -> Option<Promise> {
    let navigator = web_sys::window()?.navigator();
    let lock = Reflect::get(&navigator, &"wakeLock".into()).ok().filter(JsValue::is_object)?;
    call(&lock, "request", Some(&"screen".into()))?.dyn_into().ok()
}

/// The bindings of this browser interface are not stable, so its functions are reached by name.
fn call(of: &JsValue, name: &str, with: Option<&JsValue>) -> Option<JsValue> {
    let function: Function = Reflect::get(of, &name.into()).ok()?.dyn_into().ok()?;
    match with {
        Some(with) => function.call1(of, with),
        None => function.call0(of),
    }
    .ok()
}
