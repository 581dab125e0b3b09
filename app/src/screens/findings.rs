//! What stands out: emergency first, then what is outside a range, then everything else in fewer words.

use leptos::prelude::*;
use sidelight_core::flow::{self, Step};
use sidelight_core::summary::{self, Options};
use sidelight_core::task::Task;

use super::home_practice::HomePracticeLink;
use super::step_head::StepHead;
use crate::memo::memo;
use crate::state::{App, PROGRAM};
use crate::widgets::document::DocumentView;
use crate::widgets::show::Show;
use crate::words;

#[component]
pub fn Findings(step: Step) -> impl IntoView {
    let app = App::get();
    let line = memo(move |_| {
        let (done, of) = app.with_context(flow::done)?;
        Some(say!("{done} of {of} tasks done", done, of))
    });
    let page = move || {
        app.changes.with(|changes| {
            let options = Options::new(PROGRAM).with_working_model(app.settings.with(|s| s.working_model));
            let options = changes.as_ref().map_or(options, |changes| options.with_changes(changes));
            app.earlier.with(|earlier| {
                let options = options.with_visits(earlier);
                app.assessment.with(|assessment| {
                    app.current.with(|visit| Some(summary::findings(visit.as_ref()?, assessment.as_ref()?, &options)))
                })
            })
        })
    };
    view! {
        <main class="screen" data-screen="findings">
            <StepHead step />
            <div class="body document" tabindex="0">
                <p class="soft" data-test="done-line">{move || line.get()}</p>
                <HomePracticeLink />
                {move || page().map(|document| view! { <DocumentView document fold=true /> })}
                <AddTask />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="next" on:click=move |_| app.go_on_from(&step)>{say!("Decide")}</button>
            </footer>
        </main>
    }
}

/// Any task that is not in the visit and that no answer leaves out: what was found may call for it.
#[component]
fn AddTask() -> impl IntoView {
    let app = App::get();
    let tasks = memo(move |_| app.with_context(flow::addable).unwrap_or_default());
    let add = move |task: &'static Task| {
        view! {
            <button type="button" class="btn" data-test=format!("add-{}", task.id) on:click=move |_| app.go(Step::Task(task))>
                {words::of(task.title)}
            </button>
        }
    };
    view! {
        <Show when=move || !tasks.with(Vec::is_empty)>
            <details class="fold" data-test="add-task">
                <summary>{say!("Add a task")}</summary>
                <div class="reasons">{move || tasks.get().into_iter().map(add).collect_view()}</div>
            </details>
        </Show>
    }
}
