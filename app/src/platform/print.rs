//! The browser's own print dialogue. Limits: absent in some installed apps on phones, where nothing happens.

use leptos::prelude::window;

/// Prints the page as it stands, by the print style sheet.
pub fn print() {
    let _ = window().print();
}
