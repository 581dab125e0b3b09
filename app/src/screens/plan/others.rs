//! Exercises that are not on the sheet: proposed ones, those that were left out and why, and all the rest.

use leptos::prelude::*;
use sidelight_core::exercise::{self, Exercise};
use sidelight_core::plan::Edit;

use super::card::Glance;
use super::desk::Desk;
use super::evidence::Evidence;
use crate::memo::memo;
use crate::widgets::show::Show;
use crate::words;

#[component]
pub fn Others(desk: Desk) -> impl IntoView {
    let open = move |exercise: &Exercise| desk.choice.with(|choice| choice.item(exercise).is_none());
    let proposed = memo(move |_| {
        desk.plan.with(|plan| plan.proposed.iter().map(|one| one.exercise).filter(|one| open(one)).collect::<Vec<_>>())
    });
    let removed = memo(move |_| {
        desk.plan.with(|plan| plan.removed.iter().map(|one| one.exercise).filter(|one| open(one)).collect::<Vec<_>>())
    });
    let rest = memo(move |_| {
        let told = |one: &Exercise| {
            desk.plan.with(|plan| {
                plan.proposed.iter().any(|other| other.exercise == one)
                    || plan.removed.iter().any(|other| other.exercise == one)
            })
        };
        exercise::ALL.iter().copied().filter(|one| open(one) && !told(one)).collect::<Vec<_>>()
    });
    view! {
        <Show when=move || !proposed.with(Vec::is_empty)>
            <section data-test="proposed">
                <h2>{say!("The findings speak for")}</h2>
                <Rows desk exercises=proposed />
            </section>
        </Show>
        <Show when=move || !removed.with(Vec::is_empty)>
            <section data-test="removed">
                <h2>{say!("Left out, and why")}</h2>
                <Rows desk exercises=removed />
            </section>
        </Show>
        <details class="fold" data-test="all-exercises">
            <summary>{say!("All other exercises")}</summary>
            <p class="soft">{say!("Nothing found today speaks for these.")}</p>
            <Rows desk exercises=rest />
        </details>
    }
}

#[component]
fn Rows(desk: Desk, exercises: Memo<Vec<&'static Exercise>>) -> impl IntoView {
    view! {
        <ul class="exercises">
            <For each=move || exercises.get() key=|exercise| exercise.id let:exercise>
                <Row desk exercise />
            </For>
        </ul>
    }
}

#[component]
fn Row(desk: Desk, exercise: &'static Exercise) -> impl IntoView {
    let against = memo(move |_| {
        let held = desk.plan.with(|plan| plan.held.clone());
        desk.against(exercise).into_iter().chain(held).collect::<Vec<_>>()
    });
    let words = move || if against.with(Vec::is_empty) { say!("Add") } else { say!("Add all the same") };
    view! {
        <li class="exercise" data-test=format!("offered-{}", exercise.id)>
            <Glance desk exercise />
            <Show when=move || !against.with(Vec::is_empty)>
                <div class="against" data-test=format!("left-out-{}", exercise.id)>
                    {move || against.get().into_iter().map(|why| view! { <p><strong>{words::sentence(&why)}</strong></p> }).collect_view()}
                </div>
            </Show>
            <Evidence exercise />
            <div class="row-buttons">
                <button
                    type="button"
                    class="btn quiet"
                    aria-label=move || say!("{what}: {exercise}", what = words(), exercise = crate::words::of(exercise.title))
                    data-test=format!("add-{}", exercise.id)
                    on:click=move |_| desk.edit(Edit::Add(exercise))
                >
                    {words}
                </button>
            </div>
        </li>
    }
}
