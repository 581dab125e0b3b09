//! Tells when the page is hidden: the last moment at which a phone lets a page work.

use gloo_events::EventListener;
use leptos::prelude::{document, window};
use web_sys::VisibilityState;

/// Calls back whenever the page is hidden or left.
pub fn on_hidden(run: impl Fn() + Clone + 'static) {
    let left = run.clone();
    EventListener::new(&document(), "visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Hidden {
            run();
        }
    })
    .forget();
    EventListener::new(&window(), "pagehide", move |_| left()).forget();
}

/// Calls back whenever the page is shown again, for as long as the listener lives.
pub fn on_shown(run: impl Fn() + 'static) -> EventListener {
    EventListener::new(&document(), "visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Visible {
            run();
        }
    })
}
