//! The safety check: one yes ends it and shows what to do now.

use leptos::prelude::*;
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::record::State;
use sidelight_core::capture::safety;
use sidelight_core::flow::Step;

use super::step_head::StepHead;
use crate::memo::memo;
use crate::state::App;
use crate::widgets::field::Fields;
use crate::words;

#[component]
pub fn Safety(step: Step) -> impl IntoView {
    let app = App::get();
    let asked = memo(move |_| {
        app.current.with(|visit| {
            let record = visit.as_ref().and_then(|visit| visit.record(safety::SLOT));
            record.map_or(0, |record| record.answers.iter().count())
        })
    });
    let all = safety::FORM.fields.len();
    view! {
        <main class="screen" data-screen="safety">
            <StepHead step />
            <div class="body">
                <p>{say!("Has any of these been seen or told, since it happened or today? One yes stops here and shows what to do now.")}</p>
                <Fields record=safety::SLOT form=&safety::FORM />
            </div>
            <footer>
                <button
                    type="button"
                    class="btn quiet grow"
                    data-test="usual"
                    on:click=move |_| app.edit(safety::SLOT, Edit::Usual)
                >
                    {words::of(safety::FORM.usual_label)}
                </button>
                <button
                    type="button"
                    class="btn main"
                    data-test="next"
                    on:click=move |_| app.end(&step, State::Done)
                >
                    {move || if asked.get() < all { say!("Next, {asked} of {all} asked", asked = asked.get(), all) } else { say!("Next").to_string() }}
                </button>
            </footer>
        </main>
    }
}
