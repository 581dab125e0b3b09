//! Which engine the page runs in, where a defect or a gift of one engine alone makes a difference.
//!
//! Limits: told by what it offers, not by its name.

use js_sys::Reflect;
use leptos::prelude::window;

/// Whether it is Chromium, in any of the browsers made of it.
#[must_use]
pub fn is_chromium() -> bool {
    Reflect::has(&window().navigator(), &"userAgentData".into()).unwrap_or(false)
}
