//! The sheet on paper, A4 or A5, and how large its letters are there.

use leptos::prelude::*;
use sidelight_core::family::{self, Fit};
use sidelight_core::sheet::Sheet;

use crate::platform::print;
use crate::widgets::family::FamilyPage;
use crate::widgets::pick::Pick;
use crate::words;

#[component]
pub fn Paper(sheet: Sheet) -> impl IntoView {
    let small = RwSignal::new(false);
    // Folded away it is printed all the same.
    let open = RwSignal::new(false);
    let fit = |paper| family::on_paper(&sheet, sheet.language, paper);
    let (a4, a5) = (fit(family::Paper::A4), fit(family::Paper::A5));
    view! {
        <section class="no-print">
            <h2>{say!("On paper")}</h2>
            <div class="chips" role="group" aria-label=say!("Size of the paper")>
                <Pick name="paper" test="a4" label=say!("A4") on=Signal::derive(move || !small.get()) pick=move || small.set(false) />
                <Pick name="paper" test="a5" label=say!("A5") on=Signal::derive(move || small.get()) pick=move || small.set(true) />
            </div>
            <p class=("notice", move || small.get() && a5.short) data-test="letters">
                {move || if small.get() { on_a5(a5, a4) } else { size(a4) }}
            </p>
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

/// The size of the letters and the pages they take.
fn size(fit: Fit) -> String {
    if fit.two_pages {
        say!("Two pages at most, in letters of {points} points.", points = fit.points)
    } else {
        say!(
            "More than two pages, in letters of {points} points. Fewer exercises are easier to follow.",
            points = fit.points
        )
    }
}

/// What A5 leaves out, and what A4 would give.
fn on_a5(a5: Fit, a4: Fit) -> String {
    if !a5.short {
        return size(a5);
    }
    let left_out = say!("The reasons and the advice do not fit and stand on the screen only.");
    let better = say!("A4 has all of it, in letters of {points} points.", points = a4.points);
    words::sentences(&[&size(a5), left_out, &better])
}
