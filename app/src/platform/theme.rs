//! Marks on the page's root element: theme and hand, which the style sheet reads, and the language.

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

/// Says which language the page is in, for screen readers and hyphens.
pub fn language(tag: &str) {
    if let Some(root) = document().document_element() {
        let _ = root.set_attribute("lang", tag);
    }
}

/// Sets `data-<name>` on the root element.
pub fn mark(name: &str, value: &str) {
    if let Some(root) = document().document_element() {
        let _ = root.set_attribute(&format!("data-{name}"), value);
    }
}
