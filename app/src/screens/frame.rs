//! The visit's frame: most of it one tap, all of it changeable later.

use leptos::prelude::*;
use sidelight_core::capture::frame;
use sidelight_core::capture::record::State;
use sidelight_core::capture::visit::Person;
use sidelight_core::flow::{self, Dropped, Step};

use super::home_practice::HomePracticeLink;
use super::step_head::StepHead;
use super::who::{LONGEST, read_born, read_label};
use crate::memo::memo;
use crate::state::App;
use crate::widgets::field::Fields;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

#[component]
pub fn Frame(step: Step) -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen" data-screen="frame">
            <StepHead step />
            <div class="body">
                <HomePracticeLink />
                <Fields record=frame::SLOT form=&frame::FORM />
                <LeftOut />
                <PersonEdit />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="next" on:click=move |_| app.end(&step, State::Done)>{say!("Next")}</button>
            </footer>
        </main>
    }
}

/// Tasks that an answer leaves out today, with the reason, as soon as it is given.
#[component]
fn LeftOut() -> impl IntoView {
    let app = App::get();
    let left_out = memo(move |_| app.with_context(flow::dropped).unwrap_or_default());
    let line = |dropped: Dropped| view! { <li><strong>{words::of(dropped.task.title)}</strong>": "{words::of(dropped.reason)}</li> };
    view! {
        <div role="status" data-test="left-out-today">
            <Show when=move || !left_out.with(Vec::is_empty)>
                <div class="notice">
                    <p>{say!("Left out today:")}</p>
                    <ul class="plain">{move || left_out.get().into_iter().map(line).collect_view()}</ul>
                </div>
            </Show>
        </div>
    }
}

/// The person's code or name and birth, for when they were mistyped.
#[component]
fn PersonEdit() -> impl IntoView {
    let app = App::get();
    let Some(person) = app.person_now() else { return ().into_any() };
    let label = RwSignal::new(person.label.clone());
    let born = RwSignal::new(person.born.map(|born| born.text()).unwrap_or_default());
    let said = RwSignal::new(None::<String>);
    let keep = move |_| {
        let read = read_label(&label.get_untracked()).and_then(|label| Ok((label, read_born(&born.get_untracked())?)));
        match read {
            Ok((label, born)) => {
                app.keep_person(Person { label, born, ..person.clone() });
                said.set(Some(say!("Changed, in all visits of this person.").to_string()));
            }
            Err(why) => said.set(Some(why)),
        }
    };
    view! {
        <details class="fold" data-test="person-edit">
            <summary>{say!("Change code, name or birth")}</summary>
            <TextBox id="edit-label" label=say!("A code or a name") text=label max=LONGEST />
            <TextBox id="edit-born" label=say!("Birth year, or date") text=born max=10 digits=true />
            <p class="refused" role="status" data-test="person-said">{move || said.get()}</p>
            <button type="button" class="btn wide" data-test="person-keep" on:click=keep>{say!("Keep the change")}</button>
        </details>
    }
    .into_any()
}
