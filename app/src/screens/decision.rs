//! What the practitioner decides. The program proposes nothing here.

use leptos::prelude::*;
use sidelight_core::capture::decision;
use sidelight_core::capture::record::State;
use sidelight_core::flow::Step;

use super::plan::ToPlan;
use super::step_head::StepHead;
use crate::state::App;
use crate::widgets::field::Fields;

#[component]
pub fn Decision(step: Step) -> impl IntoView {
    let app = App::get();
    let closing = RwSignal::new(false);
    let close = move |_| {
        closing.set(true);
        app.mark(decision::SLOT, State::Done);
        leptos::task::spawn_local(async move {
            app.close().await;
            closing.set(false);
        });
    };
    view! {
        <main class="screen" data-screen="decision">
            <StepHead step />
            <div class="body">
                <Fields record=decision::SLOT form=&decision::FORM />
                <ToPlan />
                <p class="soft">{say!("A closed visit stays as it is. Until then everything can be changed.")}</p>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="preview" on:click=move |_| app.go(Step::Summary)>{say!("Read first")}</button>
                <button type="button" class="btn main" data-test="close" disabled=move || closing.get() on:click=close>
                    {say!("Close the visit")}
                </button>
            </footer>
        </main>
    }
}
