//! One tab writes. The others know it, and one of them takes over when it closes.
//!
//! A page that is left may be kept by the browser for the way back, with its locks. It gives up the writer's place as it is
//! left, or the page opened next in the same tab would take it for another tab; on the way back it starts again.
//!
//! Built on the Web Locks API (Chromium 69, Firefox 96, Safari 15.4), reached through reflection since the bindings are
//! unstable. Where it is missing every tab believes itself to be the only one.

use gloo_events::EventListener;
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

/// Claims the writer's place for the life of the page. The first answer comes within a few milliseconds. When another tab
/// has it and closes, the page is loaded again.
#[must_use]
pub fn claim() -> ReadSignal<Ownership> {
    let start_again = || {
        let _ = window().location().reload();
    };
    let shown = EventListener::new(&window(), "pageshow", move |event| {
        if is_kept(event) {
            start_again();
        }
    });
    shown.forget();
    // A page that waited has seen records that may be old, so it starts again, and asks again as it does.
    claim_named(NAME, start_again)
}

fn claim_named(name: &'static str, freed: impl FnOnce() + 'static) -> ReadSignal<Ownership> {
    let ownership = RwSignal::new(Ownership::Mine);
    let Some(locks) = locks() else { return ownership.read_only() };
    let at_once = js_sys::Object::new();
    let _ = Reflect::set(&at_once, &"ifAvailable".into(), &JsValue::TRUE);
    let waiting = locks.clone();
    let answer = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        if lock.is_null() {
            ownership.set(Ownership::OtherTab);
            wait(&waiting, name, freed);
            return JsValue::UNDEFINED;
        }
        until_left()
    });
    request(&locks, &[name.into(), at_once.into(), answer]);
    ownership.read_only()
}

/// Waits for the other tab to close. The place is not held on to: it would be lost by starting again, which would call the
/// next waiting tab, and three tabs would call each other without end.
fn wait(locks: &JsValue, name: &str, freed: impl FnOnce() + 'static) {
    let granted = Closure::once_into_js(move |_lock: JsValue| freed());
    request(locks, &[name.into(), granted]);
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

/// A promise that is kept when the page is left: the lock is held until then.
fn until_left() -> JsValue {
    Promise::new(&mut |resolve, _| {
        let left = EventListener::once(&window(), "pagehide", move |_| {
            let _ = resolve.call0(&JsValue::UNDEFINED);
        });
        left.forget();
    })
    .into()
}

/// Whether a page is shown that was kept while another one was shown.
fn is_kept(event: &web_sys::Event) -> bool {
    Reflect::get(event, &"persisted".into()).is_ok_and(|persisted| persisted.is_truthy())
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::rc::Rc;

    use super::*;
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    /// Takes the place as another tab would; the function that comes back closes that tab.
    fn other_tab(name: &str) -> Function {
        let close: Rc<Cell<Option<Function>>> = Rc::default();
        let kept = Rc::clone(&close);
        let held = Promise::new(&mut |resolve, _| kept.set(Some(resolve)));
        let granted = Closure::once_into_js(move |_lock: JsValue| -> JsValue { held.into() });
        request(&locks().expect("the test browser has locks"), &[name.into(), granted]);
        close.take().expect("a promise calls back at once")
    }

    #[wasm_bindgen_test]
    async fn the_first_tab_has_the_place_and_the_second_does_not() {
        let (first, second) = (claim_named("test-two", || {}), claim_named("test-two", || {}));
        TimeoutFuture::new(100).await;
        assert_eq!(first.get_untracked(), Ownership::Mine);
        assert_eq!(second.get_untracked(), Ownership::OtherTab);
    }

    #[wasm_bindgen_test]
    async fn every_waiting_tab_is_told_once_when_the_place_is_free_and_none_keeps_it() {
        let close = other_tab("test-three");
        let freed: Rc<Cell<u32>> = Rc::default();
        let claim = || {
            let freed = Rc::clone(&freed);
            claim_named("test-three", move || freed.set(freed.get() + 1))
        };
        let waiting = [claim(), claim()];
        TimeoutFuture::new(100).await;
        assert!(waiting.iter().all(|claim| claim.get_untracked() == Ownership::OtherTab));
        assert_eq!(freed.get(), 0);
        close.call0(&JsValue::NULL).expect("closes");
        TimeoutFuture::new(100).await;
        assert_eq!(freed.get(), 2);
        // Until it has started again, a page that waited must not write.
        assert!(waiting.iter().all(|claim| claim.get_untracked() == Ownership::OtherTab));
        let again = claim_named("test-three", || {});
        TimeoutFuture::new(100).await;
        assert_eq!(again.get_untracked(), Ownership::Mine);
    }
}
