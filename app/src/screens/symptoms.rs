//! The four symptoms before the first task and after each provoking one; "no change" is one tap.

use leptos::prelude::*;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::record::State;
use sidelight_core::capture::symptoms;
use sidelight_core::flow::Step;

use super::step_head::StepHead;
use crate::memo::memo;
use crate::state::App;
use crate::widgets::field::Fields;
use crate::widgets::show::Show;
use crate::widgets::skip::SkipPanel;
use crate::words;

#[component]
pub fn Symptoms(step: Step) -> impl IntoView {
    let app = App::get();
    let slot = StoredValue::new(step.slot());
    let skipping = RwSignal::new(false);
    let rated = memo(move |_| {
        app.current.with(|visit| {
            let slot = slot.get_value();
            visit.as_ref().and_then(|visit| symptoms::rated(visit, &slot)).is_some()
        })
    });
    let last = memo(move |_| {
        let slot = slot.get_value();
        app.current.with(|visit| symptoms::last_rated(visit.as_ref()?, &slot))
    });
    let same = move || {
        let edit = match last.get_untracked() {
            Some(ratings) => Edit::Answer("now".into(), Some(Answer::Ratings(ratings))),
            None => Edit::Usual,
        };
        app.edit(&slot.get_value(), edit);
        app.end(&step, State::Done);
    };
    let same_label =
        move || if last.with(Option::is_some) { say!("No change") } else { words::of(symptoms::FORM.usual_label) };
    let last_line = move || {
        let ratings = last.get()?;
        let item = |(id, value): &(String, u8)| format!("{} {value}", words::label(symptoms::ITEMS, id).to_lowercase());
        Some(say!("Last time: {ratings}.", ratings = ratings.iter().map(item).collect::<Vec<_>>().join(", ")))
    };
    let about = match step {
        Step::After(task) => say!("After “{task}”: has anything grown, shrunk or begun?", task = words::of(task.title)),
        _ => say!("Before the first task, so that a change can be told from what was there.").to_string(),
    };
    view! {
        <main class="screen" data-screen="symptoms" data-slot=slot.get_value()>
            <StepHead step />
            <div class="body">
                <p class="soft">{about}" "{last_line}</p>
                <Fields record=slot.get_value() form=&symptoms::FORM />
            </div>
            <Show when=move || skipping.get()>
                <SkipPanel open=skipping on_skip=move |state| app.end(&step, state) />
            </Show>
            <footer>
                <button type="button" class="btn quiet" data-test="undo" disabled=move || !app.can_undo(&slot.get_value()) on:click=move |_| app.undo(&slot.get_value())>
                    {say!("Undo")}
                </button>
                <button type="button" class="btn quiet" data-test="skip" on:click=move |_| skipping.update(|open| *open = !*open)>
                    {say!("Not asked…")}
                </button>
                {move || {
                    if rated.get() {
                        view! {
                            <button type="button" class="btn main" data-test="next" on:click=move |_| app.end(&step, State::Done)>{say!("Next")}</button>
                        }
                            .into_any()
                    } else {
                        view! {
                            <button type="button" class="btn main" data-test="no-change" on:click=move |_| same()>{same_label}</button>
                        }
                            .into_any()
                    }
                }}
            </footer>
        </main>
    }
}
