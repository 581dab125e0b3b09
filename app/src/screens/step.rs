//! The step of the visit in hand, or the emergency stop in front of it.

use leptos::prelude::*;
use sidelight_core::flow::{self, Step};
use sidelight_core::task::Context;

use super::decision::Decision;
use super::findings::Findings;
use super::frame::Frame;
use super::safety::Safety;
use super::step_head::StepHead;
use super::stop::Stop;
use super::summary::Summary;
use super::symptoms::Symptoms;
use super::task::TaskScreen;
use crate::memo::memo;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::words;

#[component]
pub fn StepScreen(record: String) -> impl IntoView {
    let app = App::get();
    let step = Step::from_slot(&record);
    let closed = app.is_closed_now();
    let there = app.current.with_untracked(Option::is_some);
    let Some(step) = step.filter(|_| there) else {
        return view! { <Missing /> }.into_any();
    };
    // A closed visit stays as it is: only what was made of it is shown.
    if closed {
        return view! { <Summary /> }.into_any();
    }
    let barred = untrack(|| app.with_context(|context| barred(context, step)).flatten());
    // The summary keeps on showing while a danger sign is open; everything else waits behind the stop.
    let stopped = memo(move |_| app.assessment.with(|a| a.as_ref().is_some_and(|a| !a.open_flags.is_empty())));
    view! {
        {move || if stopped.get() { view! { <Stop from=step /> }.into_any() } else { screen(step, barred) }}
    }
    .into_any()
}

/// Why the step's task is left out of this visit, if it is.
fn barred(context: &Context<'_>, step: Step) -> Option<&'static str> {
    match step {
        Step::Task(task) => flow::barred(context, task),
        Step::Frame | Step::Safety | Step::Before | Step::After(_) => None,
        Step::Findings | Step::Decision | Step::Summary => None,
    }
}

fn screen(step: Step, barred: Option<&'static str>) -> AnyView {
    if let Some(reason) = barred {
        return view! { <LeftOut step reason /> }.into_any();
    }
    match step {
        Step::Frame => view! { <Frame step /> }.into_any(),
        Step::Safety => view! { <Safety step /> }.into_any(),
        Step::Before | Step::After(_) => view! { <Symptoms step /> }.into_any(),
        Step::Task(task) => view! { <TaskScreen step task /> }.into_any(),
        Step::Findings => view! { <Findings step /> }.into_any(),
        Step::Decision => view! { <Decision step /> }.into_any(),
        Step::Summary => view! { <Summary /> }.into_any(),
    }
}

/// A task that an answer leaves out: an old address or the browser's own back button can still lead to it.
#[component]
fn LeftOut(step: Step, reason: &'static str) -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen" data-screen="left-out" data-slot=step.slot()>
            <StepHead step />
            <div class="body">
                <p class="notice" data-test="left-out">{say!("Left out today ({reason}).", reason = words::of(reason))}</p>
                <p>{say!("It follows from an answer of this visit. Change that answer if it was a slip.")}</p>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="next" on:click=move |_| app.go_on_from(&step)>{say!("Next")}</button>
            </footer>
        </main>
    }
}

#[component]
fn Missing() -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen">
            <Head title=say!("No visit in hand").to_string() />
            <div class="body">
                <p>{say!("There is no open visit here. Start one, or open one from the list.")}</p>
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Home)>{say!("To the start")}</button>
            </footer>
        </main>
    }
}
