//! A choice among a few, and a tick, outside the forms of a visit.

use leptos::prelude::*;

#[component]
pub fn Pick(
    name: &'static str,
    test: &'static str,
    #[prop(into)] label: Signal<String>,
    #[prop(into)] on: Signal<bool>,
    pick: impl Fn() + 'static,
) -> AnyView {
    chip("radio", Some(name), test.to_string(), label, on, Box::new(pick))
}

#[component]
pub fn Tick(
    #[prop(into)] test: String,
    #[prop(into)] label: Signal<String>,
    #[prop(into)] on: Signal<bool>,
    flip: impl Fn() + 'static,
) -> AnyView {
    chip("checkbox", None, test, label, on, Box::new(flip))
}

fn chip(
    kind: &'static str,
    name: Option<&'static str>,
    test: String,
    label: Signal<String>,
    on: Signal<bool>,
    change: Box<dyn Fn()>,
) -> AnyView {
    view! {
        <label class="chip" data-test=test>
            <input type=kind name=name prop:checked=move || on.get() on:change=move |_| change() />
            <span>{move || label.get()}</span>
        </label>
    }
    .into_any()
}
