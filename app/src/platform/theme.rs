//! Marks on the page's root element that the style sheet reads: theme, hand.

use leptos::prelude::document;

use super::settings::Theme;

/// Shows a theme; "auto" leaves it to the device.
pub fn show(theme: Theme) {
    mark(
        "theme",
        match theme {
            Theme::Auto => "auto",
            Theme::Light => "light",
            Theme::Dark => "dark",
        },
    );
}

/// Sets `data-<name>` on the root element.
pub fn mark(name: &str, value: &str) {
    if let Some(root) = document().document_element() {
        let _ = root.set_attribute(&format!("data-{name}"), value);
    }
}
