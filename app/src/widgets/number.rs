//! A bounded number: typed, stepped, or slid along a ruler with the thumb.

use leptos::prelude::*;
use sidelight_core::capture::answer::Answer;
use sidelight_core::quantity::Quantity;

use super::draft::Draft;
use super::entry::Entry;
use crate::words;

#[component]
pub fn NumberField(entry: Entry, quantity: &'static Quantity) -> impl IntoView {
    let key = entry.field.key;
    let value = entry.read(move |answers| answers.number(key));
    let put = move |value: Option<f64>| entry.set(value.map(Answer::Number));
    view! {
        <div class="ask" data-test=key>
            <label for=entry.name()>{words::of(entry.field.ask)}</label>
            <Typed
                id=entry.name()
                quantity
                value=Signal::derive(move || value.get())
                on_value=put
            />
        </div>
    }
}

/// A number box with its unit; what cannot be true is refused in a sentence below it and nothing is stored.
#[component]
pub fn Typed(
    #[prop(into)] id: String,
    quantity: &'static Quantity,
    value: Signal<Option<f64>>,
    on_value: impl Fn(Option<f64>) + Send + Sync + 'static,
    #[prop(optional)] large: bool,
) -> AnyView {
    typed_in(&id, quantity, value, Callback::new(on_value), large)
}

fn typed_in(
    id: &str,
    quantity: &'static Quantity,
    value: Signal<Option<f64>>,
    on_value: Callback<Option<f64>>,
    large: bool,
) -> AnyView {
    let draft = Draft::new(quantity, value, on_value);
    let note = format!("{id}-note");
    view! {
        <div class="number" class:number-large=large>
            <input
                type="text"
                inputmode="decimal"
                autocomplete="off"
                id=id.to_string()
                data-test="number"
                placeholder="–"
                aria-describedby=note.clone()
                aria-invalid=move || draft.refused().is_some().to_string()
                prop:value=move || draft.shown()
                on:input=move |event| draft.typed(event_target_value(&event))
                on:change=move |event| draft.left(&event_target_value(&event))
            />
            <span class="unit">{words::of(quantity.unit)}</span>
        </div>
        <p class="refused" id=note role="alert" data-test="refused">{move || draft.refused()}</p>
    }
    .into_any()
}

/// A ruler for the thumb: a slider drawn as a scale, with a step to either side for the last half centimetre.
#[component]
pub fn Ruler(
    /// What is being set, for those who cannot see it.
    #[prop(into)]
    label: Signal<String>,
    quantity: &'static Quantity,
    /// Right end of the ruler; larger numbers are typed.
    reach: f64,
    value: Signal<Option<f64>>,
    on_value: impl Fn(f64) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let at = move || value.get().unwrap_or(quantity.min).min(reach);
    let put = move |number: f64| on_value(number.clamp(quantity.min, quantity.max));
    let slid = move |event: web_sys::Event| {
        if let Ok(number) = event_target_value(&event).parse::<f64>() {
            put(number);
        }
    };
    let step = move |by: f64| put(value.get_untracked().unwrap_or(quantity.min) + by);
    let text = move || value.get().map_or(say!("not set").to_string(), |number| quantity.show(number));
    view! {
        <div class="ruler" class:ruler-unset=move || value.get().is_none()>
            <button type="button" class="btn quiet" data-test="nearer" aria-label=say!("nearer by half a step") on:click=move |_| step(-quantity.step)>
                "−"
            </button>
            <input
                type="range"
                autocomplete="off"
                data-test="ruler"
                min=quantity.min
                max=reach
                step=quantity.step
                aria-label=move || label.get()
                aria-valuetext=text
                prop:value=at
                on:input=slid
            />
            <button type="button" class="btn quiet" data-test="farther" aria-label=say!("farther by half a step") on:click=move |_| step(quantity.step)>
                "+"
            </button>
        </div>
    }
}
