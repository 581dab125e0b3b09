//! One of a list, as native radio buttons drawn as chips.

use leptos::prelude::*;
use sidelight_core::capture::form::Choice;

use crate::words;

#[component]
pub fn Chips(
    #[prop(into)] name: String,
    choices: &'static [Choice],
    chosen: Signal<Option<String>>,
    on_pick: impl Fn(&'static str) + Send + Sync + 'static,
) -> AnyView {
    chips(&name, choices, chosen, Callback::new(on_pick))
}

fn chips(
    name: &str,
    choices: &'static [Choice],
    chosen: Signal<Option<String>>,
    on_pick: Callback<&'static str>,
) -> AnyView {
    choices
        .iter()
        .map(|choice| {
            let id = choice.id;
            view! {
                <label class="chip" data-test=id>
                    <input
                        type="radio"
                        autocomplete="off"
                        name=name.to_string()
                        value=id
                        prop:checked=move || chosen.with(|chosen| chosen.as_deref() == Some(id))
                        on:change=move |_| on_pick.run(id)
                    />
                    <span>{words::of(choice.label)}{hint(choice)}</span>
                </label>
            }
        })
        .collect_view()
        .into_any()
}

/// What is said beside a choice, if anything.
pub fn hint(choice: &'static Choice) -> Option<impl IntoView> {
    (!choice.hint.is_empty()).then(|| view! { <small>{words::of(choice.hint)}</small> })
}
