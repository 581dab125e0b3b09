//! Puts the keyboard somewhere after the page was drawn anew.

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
