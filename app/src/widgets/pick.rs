//! A choice among a few, and a tick, outside the forms of a visit.

use leptos::prelude::*;

#[component]
pub fn Pick(
    name: &'static str,
    test: &'static str,
    #[prop(into)] label: Signal<String>,
    #[prop(into)] on: Signal<bool>,
    pick: impl Fn() + 'static,
) -> impl IntoView {
    view! {
        <label class="chip" data-test=test>
            <input type="radio" name=name prop:checked=move || on.get() on:change=move |_| pick() />
            <span>{move || label.get()}</span>
        </label>
    }
}

#[component]
pub fn Tick(
    #[prop(into)] test: String,
    #[prop(into)] label: Signal<String>,
    #[prop(into)] on: Signal<bool>,
    flip: impl Fn() + 'static,
) -> impl IntoView {
    view! {
        <label class="chip" data-test=test>
            <input type="checkbox" prop:checked=move || on.get() on:change=move |_| flip() />
            <span>{move || label.get()}</span>
        </label>
    }
}
