//! A short vibration. Limits: Chromium on Android only; never on iOS.

use leptos::prelude::window;

/// Vibrates for some milliseconds where the device can.
pub fn pulse(milliseconds: u32) {
    let navigator = window().navigator();
    if js_sys::Reflect::has(&navigator, &"vibrate".into()).unwrap_or(false) {
        let _ = navigator.vibrate_with_duration(milliseconds);
    }
}
