//! One tab writes. The others know it, and one of them takes over when it closes.
//!
//! Built on the Web Locks API (Chromium 69, Firefox 96, Safari 15.4), reached through reflection since the bindings are
//! unstable. Where it is missing every tab believes itself to be the only one.

use js_sys::{Function, Promise, Reflect};
use leptos::prelude::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

const NAME: &str = "sidelight-writer";

/// Who may write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ownership {
    /// This tab.
    Mine,
    /// Another one.
    OtherTab,
}

/// Claims the writer's place for the life of the page. The first answer comes within a few milliseconds.
#[must_use]
pub fn claim() -> ReadSignal<Ownership> {
    let ownership = RwSignal::new(Ownership::Mine);
    let Some(locks) = locks() else { return ownership.read_only() };
    let at_once = js_sys::Object::new();
    let _ = Reflect::set(&at_once, &"ifAvailable".into(), &JsValue::TRUE);
    let waiting = locks.clone();
    let answer = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() {
            ownership.set(Ownership::OtherTab);
            wait(&waiting, ownership);
            return JsValue::UNDEFINED;
        }
        for_ever()
    });
    request(&locks, &[NAME.into(), at_once.into(), answer]);
    ownership.read_only()
}

/// Waits for the other tab to close, then loads the page again: the records may have changed meanwhile.
fn wait(locks: &JsValue, ownership: RwSignal<Ownership>) {
    let granted = Closure::once_into_js(move |_lock: JsValue| -> JsValue {
        ownership.set(Ownership::Mine);
        let _ = window().location().reload();
        for_ever()
    });
    request(locks, &[NAME.into(), granted]);
}

fn request(locks: &JsValue, arguments: &[JsValue]) {
    let Some(request) = Reflect::get(locks, &"request".into()).ok().and_then(|f| f.dyn_into::<Function>().ok()) else {
        return;
    };
    let arguments: js_sys::Array = arguments.iter().collect();
    let _ = request.apply(locks, &arguments);
}

fn locks() -> Option<JsValue> {
    Reflect::get(&window().navigator(), &"locks".into()).ok().filter(JsValue::is_object)
}

/// A promise that is never kept: the lock is held until the page goes.
fn for_ever() -> JsValue {
    Promise::new(&mut |_, _| {}).into()
}
