//! Leaving a task out, with a reason. "Not done" and "could not be judged" are two different things.

use leptos::prelude::*;
use sidelight_core::capture::record::State;

use super::text_box::TextBox;
use crate::words;

/// Reasons that fit on one screen; anything else is typed.
const REASONS: &[&str] = &[
    text!("No time"),
    text!("Declined"),
    text!("Nothing at hand for it"),
    text!("Would hurt or provoke"),
    text!("Too drowsy or upset"),
    text!("Too young to follow it"),
];

#[component]
pub fn SkipPanel(open: RwSignal<bool>, on_skip: impl Fn(State) + Copy + Send + Sync + 'static) -> impl IntoView {
    let tried = RwSignal::new(false);
    let other = RwSignal::new(String::new());
    let leave = move |reason: String| {
        open.set(false);
        on_skip(if tried.get_untracked() { State::NotTestable(reason) } else { State::NotDone(reason) });
    };
    let other_typed = move || !other.with(|text| text.trim().is_empty());
    let chip = move |on: bool, test: &'static str, label: &'static str| {
        view! {
            <label class="chip" data-test=test>
                <input type="radio" name="skip-kind" autocomplete="off" prop:checked=move || tried.get() == on on:change=move |_| tried.set(on) />
                <span>{label}</span>
            </label>
        }
    };
    view! {
        <section class="skip" aria-label=say!("Leave this task out") data-test="skip-panel">
            <div class="chips">
                {chip(false, "not-done", say!("Not done"))}
                {chip(true, "not-testable", say!("Tried, could not be judged"))}
            </div>
            <p class="soft">{say!("Because:")}</p>
            <div class="reasons">
                {REASONS
                    .iter()
                    .map(|reason| {
                        view! {
                            <button type="button" class="btn" data-test="reason" on:click=move |_| leave((*reason).to_string())>
                                {words::of(reason)}
                            </button>
                        }
                    })
                    .collect_view()}
            </div>
            <TextBox id="skip-other" label=say!("Another reason") text=other max=160 />
            <div class="reasons">
                <button type="button" class="btn" on:click=move |_| open.set(false)>{say!("Back to the task")}</button>
                <button
                    type="button"
                    class="btn main"
                    data-test="skip-typed"
                    disabled=move || !other_typed()
                    on:click=move |_| leave(other.get_untracked().trim().to_string())
                >
                    {say!("Leave it out")}
                </button>
            </div>
        </section>
    }
}
