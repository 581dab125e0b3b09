//! All routines: those of the practice, to change, and those that come with the program, to copy.

use leptos::prelude::*;
use sidelight_core::routine::own::OwnRoutine;
use sidelight_core::routine::{self, Routine};
use sidelight_core::task::Task;

use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;
use crate::words;

/// The id in the address of a routine that is being made.
pub const NEW: &str = "new";

#[component]
pub fn Routines() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    let own = move || app.routines.get().into_iter().map(|routine| view! { <OwnRow routine /> }).collect_view();
    view! {
        <main class="screen" data-screen="routines">
            <Head title=say!("Routines").to_string() back=(say!("Back to the start"), back) />
            <div class="body">
                <h2>{say!("Your own")}</h2>
                <Show when=move || app.routines.with(Vec::is_empty)>
                    <p class="soft">{say!("None yet. Make one from the tasks you use, in the order you use them.")}</p>
                </Show>
                <div class="rows" data-test="own">{own}</div>
                <h2>{say!("Always there")}</h2>
                {routine::ALL.iter().map(|routine| view! { <Card routine /> }).collect_view()}
            </div>
            <footer>
                <button type="button" class="btn main" data-test="make" on:click=move |_| app.show(Route::Routine(NEW.to_string()))>
                    {say!("Make a routine")}
                </button>
            </footer>
        </main>
    }
}

#[component]
fn OwnRow(routine: OwnRoutine) -> impl IntoView {
    let app = App::get();
    let line = format!("{} · {}", length(routine.known().count(), routine.minutes()), titles(routine.known()));
    let id = routine.id.clone();
    view! {
        <button type="button" class="row" data-test="own-routine" on:click=move |_| app.show(Route::Routine(id.clone()))>
            <span>
                <strong><bdi>{routine.title}</bdi></strong>
                <small>{line}</small>
            </span>
            <span class="row-end">{say!("Change")}</span>
        </button>
    }
}

#[component]
fn Card(routine: &'static Routine) -> impl IntoView {
    let app = App::get();
    let line = format!("{} · {}", length(routine.tasks().count(), routine.minutes()), titles(routine.tasks()));
    view! {
        <section class="routine" data-test=format!("routine-{}", routine.id)>
            <h3>{words::of(routine.title)}</h3>
            <p>{words::of(routine.about)}</p>
            <p class="soft">{line}</p>
            <button
                type="button"
                class="link"
                data-test=format!("copy-{}", routine.id)
                aria-label=say!("Copy and change: {title}", title = words::of(routine.title))
                on:click=move |_| app.show(Route::Routine(routine.id.to_string()))
            >
                {say!("Copy and change")}
            </button>
        </section>
    }
}

/// "5 tasks, about 4 minutes".
pub fn length(tasks: usize, minutes: u32) -> String {
    let tasks = counted!(tasks, "1 task", "{count} tasks");
    let minutes = counted!(minutes, "1 minute", "{count} minutes");
    say!("{tasks}, about {minutes}", tasks, minutes)
}

fn titles(tasks: impl Iterator<Item = &'static Task>) -> String {
    tasks.map(|task| words::of(task.title)).collect::<Vec<_>>().join(", ")
}
