//! The part of the address behind "#", which static hosts never see.

use gloo_events::EventListener;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// The hash as it stands, with its "#".
#[must_use]
pub fn get() -> String {
    window().location().hash().unwrap_or_default()
}

/// Sets the hash as a new entry of the history.
pub fn set(hash: &str) {
    // A refusal leaves the old address, which the next navigation mends.
    let _ = window().location().set_hash(hash);
}

/// Sets the hash in place of the entry that is there, without a word to those who follow it.
pub fn replace(hash: &str) {
    if let Ok(history) = window().history() {
        // As above.
        let _ = history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(hash));
    }
}

/// The hash, followed for the life of the page.
#[must_use]
pub fn signal() -> ReadSignal<String> {
    let hash = RwSignal::new(get());
    EventListener::new(&window(), "hashchange", move |_| hash.set(get())).forget();
    hash.read_only()
}

/// Loads the page again, at the same address.
pub fn reload() {
    let _ = window().location().reload();
}

/// Puts the keyboard and the screen reader at the title of the new screen, unless something on it is in use already.
pub fn to_title() {
    request_animation_frame(|| {
        let document = document();
        let in_use = document.active_element().is_some_and(|element| element.tag_name() != "BODY");
        let Ok(Some(title)) = document.query_selector("h1[tabindex]") else { return };
        if let (false, Some(title)) = (in_use, title.dyn_ref::<HtmlElement>()) {
            let _ = title.focus();
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn the_signal_follows_the_address_whoever_changes_it() {
        let before = get();
        let hash = signal();
        assert_eq!(hash.get_untracked(), before);
        set("#/step/a%20b");
        assert_eq!(get(), "#/step/a%20b");
        TimeoutFuture::new(50).await;
        assert_eq!(hash.get_untracked(), "#/step/a%20b");
        window().history().expect("is there").back().expect("goes back");
        TimeoutFuture::new(200).await;
        assert_eq!(hash.get_untracked(), before);
    }
}
