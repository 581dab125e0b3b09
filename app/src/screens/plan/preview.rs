//! The family's words, before they are given.

use leptos::prelude::*;
use sidelight_core::sheet::Sheet;

use super::desk::Desk;
use crate::widgets::family::FamilyPage;
use crate::widgets::show::Show;

#[component]
pub fn Preview(desk: Desk) -> impl IntoView {
    let open = RwSignal::new(false);
    let sheet = move || desk.choice.with(Sheet::unsigned);
    view! {
        <h2>{say!("What the family reads")}</h2>
        <button
            type="button"
            class="btn wide"
            data-test="preview-sheet"
            aria-expanded=move || open.get().to_string()
            on:click=move |_| open.update(|open| *open = !*open)
        >
            {move || if open.get() { say!("Fold it away") } else { say!("Show it") }}
        </button>
        <Show when=move || open.get()>
            {move || view! { <FamilyPage sheet=sheet() /> }}
        </Show>
    }
}
