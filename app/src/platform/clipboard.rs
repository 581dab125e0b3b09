//! Copies text. Limits: needs a secure page and a tap; some browsers ask their user.

use leptos::prelude::window;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

/// Puts the text on the clipboard.
pub async fn copy(text: &str) -> Result<(), JsValue> {
    let navigator = window().navigator();
    // Absent on pages that are not secure; the call would throw there.
    if js_sys::Reflect::get(&navigator, &"clipboard".into())?.is_undefined() {
        return Err(JsValue::from_str("no clipboard"));
    }
    JsFuture::from(navigator.clipboard().write_text(text)).await.map(|_| ())
}
