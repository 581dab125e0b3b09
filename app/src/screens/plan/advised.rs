//! Advice for the family, on or off, with what is known of it.

use leptos::prelude::*;
use sidelight_core::advice::{self, Advice};
use sidelight_core::exercise::Published;
use sidelight_core::plan::Edit;

use super::desk::Desk;
use crate::memo::memo;
use crate::widgets::pick::Tick;
use crate::words;

#[component]
pub fn AdviceList(desk: Desk) -> impl IntoView {
    view! {
        <h2>{say!("Advice")}</h2>
        <ul class="advice-list">{advice::ALL.iter().copied().map(|advice| view! { <Piece desk advice /> }).collect_view()}</ul>
    }
}

#[component]
fn Piece(desk: Desk, advice: &'static Advice) -> impl IntoView {
    let on = memo(move |_| desk.choice.with(|choice| choice.advice.contains(&advice)));
    let because = memo(move |_| {
        desk.plan.with(|plan| {
            let advised = plan.advice.iter().find(|advised| advised.advice == advice);
            advised.map(|advised| advised.because.iter().map(|one| one.says.clone()).collect::<Vec<_>>())
        })
    });
    let facts = advice.facts.iter().map(Published::in_words);
    view! {
        <li>
            <Tick test=format!("advice-{}", advice.id) label=words::of(advice.title).to_string() on=on flip=move || desk.edit(Edit::Advice(advice, !on.get_untracked())) />
            {move || because.get().map(|because| view! { <p class="soft">{because.join(". ")}</p> })}
            <details class="why">
                <summary>{say!("What is known")}</summary>
                <ul class="plain">{facts.map(|fact| view! { <li>{fact}</li> }).collect_view()}</ul>
            </details>
        </li>
    }
}
