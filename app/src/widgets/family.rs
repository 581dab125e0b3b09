//! The family's page as it is read and printed, inside a screen of the practice.

use leptos::prelude::*;
use sidelight_core::family;
use sidelight_core::sheet::Sheet;

#[component]
pub fn FamilyPage(sheet: Sheet) -> impl IntoView {
    let language = sheet.language;
    // Core makes it of our own texts and numbers alone, escaped.
    let inside = family::inside(&sheet, language);
    view! {
        <article class="family" lang=language.tag() data-test="family-page">
            <h2 class="family-title">{family::title(language)}</h2>
            <div inner_html=inside></div>
        </article>
    }
}
