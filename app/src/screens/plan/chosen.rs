//! The chosen exercises in the order they are done.

use leptos::prelude::*;
use sidelight_core::exercise::{self, Exercise};
use sidelight_core::plan::{Edit, NotYet};

use super::card::Glance;
use super::desk::Desk;
use super::dose::DoseEditor;
use super::evidence::Evidence;
use crate::memo::memo;
use crate::widgets::show::Show;
use crate::words;

/// Longest reason in characters.
const LONGEST: usize = 300;

#[component]
pub fn Chosen(desk: Desk) -> impl IntoView {
    let ids =
        memo(move |_| desk.choice.with(|choice| choice.items.iter().map(|item| item.exercise.id).collect::<Vec<_>>()));
    view! {
        <Show when=move || ids.with(Vec::is_empty)>
            <p class="soft" data-test="none-chosen">{say!("No exercise is chosen yet.")}</p>
        </Show>
        <ol class="exercises">
            <For each=move || ids.get() key=|id| *id let:id>
                {exercise::by_id(id).map(|exercise| view! { <Item desk exercise /> })}
            </For>
        </ol>
    }
}

#[component]
fn Item(desk: Desk, exercise: &'static Exercise) -> impl IntoView {
    let first =
        memo(move |_| desk.choice.with(|choice| choice.items.first().is_some_and(|item| item.exercise == exercise)));
    view! {
        <li class="exercise" data-test=format!("chosen-{}", exercise.id)>
            <Glance desk exercise />
            <Despite desk exercise />
            <DoseEditor desk exercise />
            <Evidence exercise />
            <div class="row-buttons">
                <button
                    type="button"
                    class="btn quiet"
                    aria-label=say!("Move up: {exercise}", exercise = words::of(exercise.title))
                    data-test=format!("up-{}", exercise.id)
                    disabled=move || first.get()
                    on:click=move |_| desk.edit(Edit::Up(exercise))
                >
                    {say!("Move up")}
                </button>
                <button
                    type="button"
                    class="btn quiet"
                    aria-label=say!("Take off: {exercise}", exercise = words::of(exercise.title))
                    data-test=format!("remove-{}", exercise.id)
                    on:click=move |_| desk.edit(Edit::Remove(exercise))
                >
                    {say!("Take off")}
                </button>
            </div>
        </li>
    }
}

/// What speaks against it, and why it is given all the same.
#[component]
fn Despite(desk: Desk, exercise: &'static Exercise) -> impl IntoView {
    let against = memo(move |_| desk.against(exercise));
    let why =
        move || desk.choice.with(|choice| choice.item(exercise).map(|item| item.despite.clone()).unwrap_or_default());
    let refused = move || {
        desk.not_yet.with(|not_yet| match not_yet {
            Some(NotYet::Barred { title, .. }) if *title == exercise.title => not_yet.as_ref().map(NotYet::to_string),
            _ => None,
        })
    };
    let id = format!("despite-{}", exercise.id);
    let refused_id = format!("not-yet-{id}");
    view! {
        <Show when=move || !against.with(Vec::is_empty)>
            <div class="alert against" data-test=format!("against-{}", exercise.id)>
                {move || against.get().into_iter().map(|why| view! { <p>{words::sentence(&why)}</p> }).collect_view()}
            </div>
            <div class="ask">
                <label for=id.clone()>{say!("Why it is given all the same")}</label>
                <input
                    type="text"
                    id=id.clone()
                    data-test=id.clone()
                    dir="auto"
                    autocomplete="off"
                    maxlength=LONGEST
                    aria-describedby=refused_id.clone()
                    prop:value=why
                    on:input=move |event| desk.edit(Edit::Despite(exercise, event_target_value(&event)))
                />
                <p class="refused" id=refused_id.clone() role="alert">{refused}</p>
            </div>
        </Show>
    }
}
