//! Puts the keyboard, or what is seen, somewhere after the page was drawn anew.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Focuses the first of these elements, by id, that is there and not disabled.
pub fn on_first_enabled(ids: &[&str]) {
    let ids: Vec<String> = ids.iter().map(|id| (*id).to_string()).collect();
    request_animation_frame(move || {
        let found = ids.iter().filter_map(|id| document().get_element_by_id(id));
        let enabled = found.filter(|element| !element.has_attribute("disabled"));
        if let Some(element) = enabled.filter_map(|element| element.dyn_into::<HtmlElement>().ok()).next() {
            // An element that cannot take the focus leaves it where it was.
            let _ = element.focus();
        }
    });
}

/// Brings an element into view, by its id: what was said about a tap must not stand below the edge of the screen.
pub fn show(id: &'static str) {
    request_animation_frame(move || {
        if let Some(element) = document().get_element_by_id(id) {
            element.scroll_into_view_with_bool(false);
        }
    });
}
