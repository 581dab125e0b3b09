//! Any task: what to do and what was recorded above, pads below, undo in place, and a way to leave it out.

use leptos::prelude::*;
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::record::State;
use sidelight_core::capture::showing;
use sidelight_core::flow::Step;
use sidelight_core::stage::{self, Offer};
use sidelight_core::task::Task;

use super::step_head::StepHead;
use crate::memo::memo;
use crate::platform::clock::monotonic;
use crate::platform::wake_lock::WakeLock;
use crate::route::Route;
use crate::state::App;
use crate::widgets::beat_bar::BeatBar;
use crate::widgets::field::Fields;
use crate::widgets::setup::SetupCard;
use crate::widgets::show::Show;
use crate::widgets::skip::SkipPanel;
use crate::words;

/// Two taps closer together than this are one nervous tap.
const DOUBLE_TAP_MS: f64 = 600.0;

#[component]
pub fn TaskScreen(step: Step, task: &'static Task) -> impl IntoView {
    let app = App::get();
    let skipping = RwSignal::new(false);
    let awake = StoredValue::new_local(Some(WakeLock::keep()));
    on_cleanup(move || awake.set_value(None));
    let record = memo(move |_| {
        app.current.with(|visit| {
            let record = visit.as_ref().and_then(|visit| visit.record(task.id));
            record.map(|record| (record.state.clone(), record.answers.is_empty()))
        })
    });
    let left_out = move || match record.get() {
        Some((State::NotDone(reason), _)) => Some(say!("Not done: {reason}", reason = words::of(&reason))),
        Some((State::NotTestable(reason), _)) => {
            Some(say!("Tried, could not be judged: {reason}", reason = words::of(&reason)))
        }
        Some((State::Open | State::Done, _)) | None => None,
    };
    let nothing = move || record.get().is_none_or(|(_, empty)| empty);
    // The same place first says "all as expected" and then "done": a double tap must not do both.
    let filled_at = StoredValue::new(f64::NEG_INFINITY);
    let usual = move |_| {
        app.edit(task.id, Edit::Usual);
        filled_at.set_value(monotonic());
    };
    let done = move |_| {
        if monotonic() - filled_at.get_value() > DOUBLE_TAP_MS {
            app.end(&step, State::Done);
        }
    };
    let has_usual = !task.form.usual_label.is_empty();
    let main = move || {
        if has_usual && nothing() {
            return view! { <button type="button" class="btn main" data-test="usual" on:click=usual>{words::of(task.form.usual_label)}</button> }
                .into_any();
        }
        view! { <button type="button" class="btn main" data-test="next" disabled=nothing on:click=done>{say!("Done")}</button> }
            .into_any()
    };
    view! {
        <main class="screen" data-screen="task" data-slot=task.id>
            <StepHead step />
            <div class="body">
                <SetupCard task small=Signal::derive(move || !nothing())>{stage::of_task(task.id).map(|offer| view! { <ToStage offer small=Signal::derive(move || !nothing()) /> })}</SetupCard>
                <Show when=move || left_out().is_some()>
                    <p class="notice" data-test="left-out">{left_out}</p>
                </Show>
                <div class="fields">
                    <Fields record=task.id form=task.form />
                </div>
                <ShownSoFar task=task.id />
            </div>
            {task.pace.map(|pace| view! { <BeatBar pace /> })}
            <Show when=move || skipping.get()>
                <SkipPanel open=skipping on_skip=move |state| app.end(&step, state) />
            </Show>
            <footer>
                <button type="button" class="btn quiet" data-test="undo" disabled=move || !app.can_undo(task.id) on:click=move |_| app.undo(task.id)>
                    {say!("Undo")}
                </button>
                <button type="button" class="btn quiet" data-test="skip" on:click=move |_| skipping.update(|open| *open = !*open)>
                    {say!("Not done…")}
                </button>
                {main}
            </footer>
        </main>
    }
}

/// The way to the stage, where there is no target at hand.
#[component]
fn ToStage(offer: &'static Offer, small: Signal<bool>) -> impl IntoView {
    let app = App::get();
    view! {
        <button type="button" class="btn quiet" data-test="to-stage" on:click=move |_| app.show(Route::Stage(Some(offer.task.to_string())))>
            {move || if small.get() { say!("Show it here") } else { say!("Show on this screen") }}
        </button>
    }
}

/// What was shown on a screen for this task, with what a reader of its results must know.
#[component]
fn ShownSoFar(task: &'static str) -> impl IntoView {
    let app = App::get();
    let shown = memo(move |_| {
        app.current.with(|visit| {
            let record = visit.as_ref().and_then(|visit| visit.record(task));
            record.map(|record| record.showings.iter().map(showing::says).collect::<Vec<_>>()).unwrap_or_default()
        })
    });
    let title = move || counted!(shown.with(Vec::len), "Shown on a screen once", "Shown on a screen {count} times");
    view! {
        <Show when=move || !shown.with(Vec::is_empty)>
            <details class="fold" data-test="shown-so-far">
                <summary>{title}</summary>
                {move || shown.get().into_iter().map(|says| view! { <p>{says.join(" ")}</p> }).collect_view()}
            </details>
        </Show>
    }
}
