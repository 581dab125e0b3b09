//! Taps in their order, one shape each: a pattern should be seen before it is computed.

use crate::words;
use leptos::prelude::*;
use sidelight_core::capture::answer::{Made, Tap};
use sidelight_core::capture::form::{SeriesForm, Shape};

/// The taps on one pad.
#[component]
pub fn Strip(form: &'static SeriesForm, pad: &'static str, label: &'static str, taps: Memo<Vec<Tap>>) -> impl IntoView {
    let mine = move || taps.with(|all| all.iter().filter(|tap| tap.pad == pad).cloned().collect::<Vec<_>>());
    let expected = form.marks.first().map_or("", |mark| mark.choice.id);
    let expected_label = form.marks.first().map_or("", |mark| words::of(mark.choice.label));
    let count = move || {
        let all = mine();
        let hits = all.iter().filter(|tap| tap.mark == expected).count();
        match all.len() {
            0 => say!("none yet").to_string(),
            // With one mark only there is nothing to be a part of.
            n if form.marks.len() == 1 => n.to_string(),
            n => say!("{hits} of {count} {label}", hits, count = n, label = expected_label),
        }
    };
    view! {
        <div class="strip" data-test=format!("strip-{pad}") data-count=move || mine().len()>
            <div class="strip-head">
                <span>{label}</span>
                <strong>{count}</strong>
            </div>
            <div class="dots" aria-hidden="true">
                {move || mine().iter().map(|tap| dot(form, tap)).collect_view()}
            </div>
        </div>
    }
}

fn dot(form: &'static SeriesForm, tap: &Tap) -> impl IntoView + use<> {
    let shape = form.marks.iter().find(|mark| mark.choice.id == tap.mark).map(|mark| mark.shape);
    let shape = match shape {
        Some(Shape::Disc) => "disc",
        Some(Shape::Wedge) => "wedge",
        Some(Shape::Arrow) => "arrow",
        Some(Shape::Cross) => "cross",
        Some(Shape::Ring) | None => "ring",
    };
    let made = match tap.made {
        Made::Tapped => "tapped",
        Made::Paced => "paced",
        Made::PacedThenTapped => "changed",
    };
    let also = !tap.also.is_empty();
    view! { <i class=format!("dot dot-{shape}") class:dot-also=also data-made=made></i> }
}
