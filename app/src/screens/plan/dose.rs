//! A dose, part by part, each a number within bounds.

use leptos::prelude::*;
use sidelight_core::exercise::{Exercise, Part};
use sidelight_core::plan::{Edit, NotYet};

use super::desk::Desk;
use crate::memo::memo;
use crate::widgets::number::Typed;
use crate::words;

#[component]
pub fn DoseEditor(desk: Desk, exercise: &'static Exercise) -> impl IntoView {
    let dose = memo(move |_| desk.choice.with(|choice| choice.item(exercise).map_or(exercise.start, |item| item.dose)));
    let part = move |part: Part| {
        let id = format!("dose-{}-{part:?}", exercise.id).to_lowercase();
        let quantity = exercise.start.quantity(part);
        let name = words::sentence(quantity.name).trim_end_matches('.').to_string();
        let put = move |value: Option<f64>| match dose.get_untracked().with(part, value) {
            Ok(dose) => desk.edit(Edit::Dose(exercise, dose)),
            Err(refused) => desk.not_yet.set(Some(NotYet::Dose { title: exercise.title, refused })),
        };
        view! {
            <div class="ask">
                <label for=id.clone()>{name}</label>
                <Typed id quantity value=Signal::derive(move || dose.with(|dose| dose.part(part))) on_value=put />
            </div>
        }
    };
    let refused = move || {
        desk.not_yet.with(|not_yet| match not_yet {
            Some(NotYet::Dose { title, refused }) if *title == exercise.title => Some(refused.to_string()),
            _ => None,
        })
    };
    let id = format!("not-yet-dose-{}", exercise.id);
    view! {
        <p class="dose-line" data-test=format!("dose-{}", exercise.id)>{move || dose.with(|dose| words::sentence(&dose.in_words()))}</p>
        <p class="refused" id=id tabindex="-1" role="alert">{refused}</p>
        <details class="fold" data-test=format!("change-dose-{}", exercise.id)>
            <summary>{say!("Change how much")}</summary>
            <p class="soft">{say!("An empty beat means none.")}</p>
            <div class="dose-parts">{Part::ALL.map(part).collect_view()}</div>
        </details>
    }
}
