//! What it is, what it is not, and how each task is done; from here to every published range with its source.

use leptos::prelude::*;
use sidelight_core::summary::NOT_A_DIAGNOSIS;
use sidelight_core::task::{self, Task};

use crate::route::Route;
use crate::state::{App, PROGRAM};
use crate::widgets::bar::Head;
use crate::words;

#[component]
pub fn About() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    view! {
        <main class="screen" data-screen="about">
            <Head title=say!("Ranges, sources, cautions").to_string() back=(say!("Back to the start"), back) />
            <div class="body document" tabindex="0">
                <p>{words::of(NOT_A_DIAGNOSIS)}" "{say!("Local rules and licensed practice go first. A normal eye examination never shows that nothing is wrong.")}</p>
                <button type="button" class="btn wide" data-test="norms" on:click=move |_| app.show(Route::Norms)>
                    {say!("All ranges and where they come from")}
                </button>
                {task::ALL.iter().map(|task| view! { <TaskHelp task /> }).collect_view()}
                <p class="note">{PROGRAM}" · "{say!("MIT licence · nothing is sent anywhere after installation")}</p>
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Home)>{say!("Done")}</button>
            </footer>
        </main>
    }
}

#[component]
fn TaskHelp(task: &'static Task) -> impl IntoView {
    let setup = &task.setup;
    let cautions = task.cautions.iter().map(|caution| view! { <li>{words::of(caution.says)}</li> }).collect_view();
    view! {
        <section id=task.id>
            <h2>{words::of(task.title)}</h2>
            <p class="soft">{words::of(task.term)}</p>
            <p>{words::of(setup.position)}" "{words::of(setup.target)}" "{words::of(setup.motion)}</p>
            <p>{say!("Say: “{words}” Watch: {watch}", words = words::of(setup.say), watch = words::of(setup.watch))}</p>
            {(!task.cautions.is_empty()).then(|| view! { <ul>{cautions}</ul> })}
        </section>
    }
}
