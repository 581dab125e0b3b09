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
    let now =
        memo(move |_| app.current.with(|visit| symptoms::rated(visit.as_ref()?, &slot.get_value()).map(<[_]>::to_vec)));
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
    // One slider was moved: the others look like 0, and are not rated until somebody says so.
    let rest = memo(move |_| symptoms::with_the_rest(&now.get()?, last.get().as_deref()));
    let take_rest = move || {
        if let Some(ratings) = rest.get_untracked() {
            app.edit(&slot.get_value(), Edit::Answer("now".into(), Some(Answer::Ratings(ratings))));
        }
        app.end(&step, State::Done);
    };
    let rest_label = move || if last.with(Option::is_some) { say!("The rest as before") } else { say!("The rest: 0") };
    let same_label =
        move || if last.with(Option::is_some) { say!("No change") } else { words::of(symptoms::FORM.usual_label) };
    let last_line = move || {
        let ratings = last.get()?;
        let item = |(id, value): &(String, u8)| format!("{} {value}", words::label(symptoms::ITEMS, id).to_lowercase());
        Some(say!("Last time: {ratings}.", ratings = ratings.iter().map(item).collect::<Vec<_>>().join(", ")))
    };
    let about = match step {
        Step::After(task) => say!("After “{task}”: is anything stronger, weaker or new?", task = words::of(task.title)),
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
                {move || {
                    let go_on = move |_| app.end(&step, State::Done);
                    match (now.with(Option::is_some), rest.with(Option::is_some)) {
                        (false, _) => {
                            view! {
                                <button type="button" class="btn quiet" data-test="skip" on:click=move |_| skipping.update(|open| *open = !*open)>
                                    {say!("Not asked…")}
                                </button>
                                <button type="button" class="btn main" data-test="no-change" on:click=move |_| same()>{same_label}</button>
                            }
                                .into_any()
                        }
                        (true, true) => {
                            view! {
                                <button type="button" class="btn quiet" data-test="next" on:click=go_on>{say!("Rest not asked")}</button>
                                <button type="button" class="btn main" data-test="the-rest" on:click=move |_| take_rest()>{rest_label}</button>
                            }
                                .into_any()
                        }
                        (true, false) => {
                            view! {
                                <button type="button" class="btn main" data-test="next" on:click=go_on>{say!("Next")}</button>
                            }
                                .into_any()
                        }
                    }
                }}
            </footer>
        </main>
    }
}
