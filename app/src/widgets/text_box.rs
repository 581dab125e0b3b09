//! A labelled line of text that no form of the visit holds: a search, a name, a reason.

use leptos::prelude::*;

#[component]
pub fn TextBox(
    id: &'static str,
    label: &'static str,
    /// A sentence of help below the label; none when empty.
    #[prop(optional)]
    help: &'static str,
    text: RwSignal<String>,
    /// Longest text in characters.
    max: usize,
    /// Whether a phone shows its digits first.
    #[prop(optional)]
    digits: bool,
    /// The id of what says why a text was refused.
    #[prop(optional)]
    refused_by: &'static str,
    /// Called after each stroke.
    #[prop(optional)]
    on_typed: Option<Callback<()>>,
) -> impl IntoView {
    let typed = move |event| {
        text.set(event_target_value(&event));
        if let Some(told) = on_typed {
            told.run(());
        }
    };
    view! {
        <div class="ask">
            <label for=id>{label}</label>
            {(!help.is_empty()).then(|| view! { <p class="soft">{help}</p> })}
            <input
                type="text"
                id=id
                data-test=id
                dir="auto"
                autocomplete="off"
                inputmode=if digits { "numeric" } else { "text" }
                maxlength=max
                aria-describedby=(!refused_by.is_empty()).then_some(refused_by)
                prop:value=move || text.get()
                on:input=typed
            />
        </div>
    }
    .into_any()
}
