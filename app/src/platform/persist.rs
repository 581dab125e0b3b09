//! Asks the browser not to clear the records by itself.
//!
//! Limits: Chromium decides silently, Firefox asks its user, WebKit favours apps on the home screen. A refusal changes
//! nothing at once; the records are then kept for as long as the browser sees fit.

use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;

/// Asks; whether it was granted is the browser's to say.
pub async fn ask() -> bool {
    let navigator = window().navigator();
    let manager = js_sys::Reflect::get(&navigator, &"storage".into());
    if !manager.is_ok_and(|manager| js_sys::Reflect::has(&manager, &"persist".into()).unwrap_or(false)) {
        return false;
    }
    let Ok(asked) = navigator.storage().persist() else { return false };
    JsFuture::from(asked).await.is_ok_and(|granted| granted.as_bool().unwrap_or(false))
}
