//! Tells when the page is hidden: the last moment at which a phone lets a page work.

use gloo_events::EventListener;
use leptos::prelude::{document, window};
use web_sys::VisibilityState;

/// Calls back whenever the page is hidden or left, for as long as the listeners live.
pub fn on_hidden(run: impl Fn() + Clone + 'static) -> [EventListener; 2] {
    let left = run.clone();
    let hidden = EventListener::new(&document(), "visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Hidden {
            run();
        }
    });
    [hidden, EventListener::new(&window(), "pagehide", move |_| left())]
}

/// Calls back whenever the page is shown again, for as long as the listener lives.
pub fn on_shown(run: impl Fn() + 'static) -> EventListener {
    EventListener::new(&document(), "visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Visible {
            run();
        }
    })
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::rc::Rc;

    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn tell(target: &web_sys::EventTarget, name: &str) {
        target.dispatch_event(&web_sys::Event::new(name).expect("constructs")).expect("dispatches");
    }

    #[wasm_bindgen_test]
    fn leaving_calls_back_and_a_page_in_sight_is_not_hidden() {
        let calls: Rc<Cell<u32>> = Rc::default();
        let counted = Rc::clone(&calls);
        let listeners = on_hidden(move || counted.set(counted.get() + 1));
        tell(&document(), "visibilitychange");
        assert_eq!(calls.get(), 0);
        tell(&window(), "pagehide");
        assert_eq!(calls.get(), 1);
        drop(listeners);
        tell(&window(), "pagehide");
        assert_eq!(calls.get(), 1);
    }

    #[wasm_bindgen_test]
    fn being_shown_calls_back_until_the_listener_is_dropped() {
        let calls: Rc<Cell<u32>> = Rc::default();
        let counted = Rc::clone(&calls);
        let listener = on_shown(move || counted.set(counted.get() + 1));
        tell(&document(), "visibilitychange");
        assert_eq!(calls.get(), 1);
        drop(listener);
        tell(&document(), "visibilitychange");
        assert_eq!(calls.get(), 1);
    }
}
