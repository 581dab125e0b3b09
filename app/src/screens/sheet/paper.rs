//! The sheet on paper, A4 or A5.

use leptos::prelude::*;
use sidelight_core::sheet::Sheet;

use crate::platform::print;
use crate::widgets::family::FamilyPage;
use crate::widgets::pick::Pick;

#[component]
pub fn Paper(sheet: Sheet) -> impl IntoView {
    let small = RwSignal::new(false);
    // Folded away it is printed all the same.
    let open = RwSignal::new(false);
    view! {
        <section class="no-print">
            <h2>{say!("On paper")}</h2>
            <div class="chips" role="group" aria-label=say!("Size of the paper")>
                <Pick name="paper" test="a4" label=say!("A4") on=Signal::derive(move || !small.get()) pick=move || small.set(false) />
                <Pick name="paper" test="a5" label=say!("A5") on=Signal::derive(move || small.get()) pick=move || small.set(true) />
            </div>
            <p class="soft">{say!("Choose the same size in the print window.")}</p>
            <button type="button" class="btn" data-test="print-sheet" on:click=move |_| print::print()>{say!("Print")}</button>
        </section>
        <div class="no-print">
            <button
                type="button"
                class="btn"
                data-test="on-paper"
                aria-expanded=move || open.get().to_string()
                on:click=move |_| open.update(|open| *open = !*open)
            >
                {move || if open.get() { say!("Fold away what the family reads") } else { say!("What the family reads") }}
            </button>
        </div>
        <div class="paper" class:folded=move || !open.get() class=("paper-a5", move || small.get())>
            <FamilyPage sheet />
        </div>
    }
}
