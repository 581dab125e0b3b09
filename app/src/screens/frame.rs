//! The visit's frame: most of it one tap, all of it changeable later.

use leptos::prelude::*;
use sidelight_core::capture::frame;
use sidelight_core::capture::record::State;
use sidelight_core::flow::Step;

use super::step::StepHead;
use crate::state::App;
use crate::widgets::field::Fields;

#[component]
pub fn Frame(step: Step) -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen" data-screen="frame">
            <StepHead step />
            <div class="body">
                <Fields record=frame::SLOT form=&frame::FORM />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="next" on:click=move |_| app.end(&step, State::Done)>"Next"</button>
            </footer>
        </main>
    }
}
