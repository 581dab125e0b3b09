//! An exercise at a glance: its drawing, its name, how well it is supported and what speaks for it.

use leptos::prelude::*;
use sidelight_core::catalogue::Language;
use sidelight_core::drawing;
use sidelight_core::exercise::Exercise;

use super::desk::Desk;
use crate::memo::memo;
use crate::words;

#[component]
pub fn Glance(desk: Desk, exercise: &'static Exercise) -> impl IntoView {
    let because = memo(move |_| desk.because(exercise));
    // The drawing is made by core from lines alone; no text reaches this as markup.
    let picture = drawing::svg(exercise, Language::English);
    let (letter, means) = (format!("{:?}", exercise.support), exercise.support.words());
    let support = say!("Support {letter}: {means}", letter, means);
    view! {
        <div class="glance">
            <div class="picture" inner_html=picture></div>
            <div>
                <h3>{words::of(exercise.title)}</h3>
                <p>{support}</p>
                {move || because.get().into_iter().map(|one| view! { <p class="soft">{one.says}</p> }).collect_view()}
            </div>
        </div>
    }
}
