//! All routines: those of the practice, to change, and those that come with the program, to copy.

use leptos::prelude::*;
use sidelight_core::routine::own::OwnRoutine;
use sidelight_core::routine::{self, Routine};
use sidelight_core::task::Task;

use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;

/// The id in the address of a routine that is being made.
pub const NEW: &str = "new";

#[component]
pub fn Routines() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    let own = move || app.routines.get().into_iter().map(|routine| view! { <OwnRow routine /> }).collect_view();
    view! {
        <main class="screen" data-screen="routines">
            <Head title="Routines".to_string() back=("Back to the start", back) />
            <div class="body">
                <h2>"Your own"</h2>
                <Show when=move || app.routines.with(Vec::is_empty)>
                    <p class="soft">"None yet. Make one from the tasks you use, in the order you use them."</p>
                </Show>
                <div class="rows" data-test="own">{own}</div>
                <h2>"Always there"</h2>
                {routine::ALL.iter().map(|routine| view! { <Card routine /> }).collect_view()}
            </div>
            <footer>
                <button type="button" class="btn main" data-test="make" on:click=move |_| app.show(Route::Routine(NEW.to_string()))>
                    "Make a routine"
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
            <span class="row-end">"Change"</span>
        </button>
    }
}

#[component]
fn Card(routine: &'static Routine) -> impl IntoView {
    let app = App::get();
    let line = format!("{} · {}", length(routine.tasks().count(), routine.minutes()), titles(routine.tasks()));
    view! {
        <section class="routine" data-test=format!("routine-{}", routine.id)>
            <h3>{routine.title}</h3>
            <p>{routine.about}</p>
            <p class="soft">{line}</p>
            <button
                type="button"
                class="link"
                data-test=format!("copy-{}", routine.id)
                aria-label=format!("Copy and change: {}", routine.title)
                on:click=move |_| app.show(Route::Routine(routine.id.to_string()))
            >
                "Copy and change"
            </button>
        </section>
    }
}

/// "5 tasks, about 4 minutes".
pub fn length(tasks: usize, minutes: u32) -> String {
    let plural = |n: u64, one: &str| if n == 1 { format!("{n} {one}") } else { format!("{n} {one}s") };
    format!("{}, about {}", plural(tasks as u64, "task"), plural(minutes.into(), "minute"))
}

fn titles(tasks: impl Iterator<Item = &'static Task>) -> String {
    tasks.map(|task| task.title).collect::<Vec<_>>().join(", ")
}
