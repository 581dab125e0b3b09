//! Choosing a whole folder instead of files.
//!
//! Limits: `webkitdirectory` is in every engine on a computer since 2025; phones have it and may offer single files all
//! the same, or none. The browser asks before it gives a folder's files; what lies deeper comes too.

use wasm_bindgen::JsValue;
use web_sys::HtmlInputElement;

/// Whether a file input of this browser can choose a folder.
#[must_use]
pub fn available() -> bool {
    let made = leptos::prelude::document().create_element("input");
    made.is_ok_and(|input| js_sys::Reflect::has(&input, &JsValue::from_str("webkitdirectory")).unwrap_or(false))
}

/// Has this input choose a folder.
pub fn choose_folder(input: &HtmlInputElement) {
    // A browser that refuses the attribute offers single files.
    let _ = input.set_attribute("webkitdirectory", "");
}
