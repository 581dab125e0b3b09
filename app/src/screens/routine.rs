//! One routine of the practice's own: its name, its tasks and their order, by buttons that a keyboard reaches too.

use leptos::prelude::*;
use sidelight_core::capture::unread::Unread;
use sidelight_core::routine;
use sidelight_core::routine::own::{LONGEST, OwnRoutine};
use sidelight_core::task::{self, Task};

use super::routines::length;
use crate::platform::{focus, ids};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

#[component]
pub fn RoutineScreen(routine: String) -> impl IntoView {
    let app = App::get();
    let known = app.routines.with_untracked(|all| all.iter().find(|own| own.id == routine).cloned());
    let is_kept = known.is_some();
    let draft = RwSignal::new(known.unwrap_or_else(|| begun(&routine)));
    let title = RwSignal::new(draft.with_untracked(|draft| draft.title.clone()));
    let refused = RwSignal::new(None::<String>);
    let moved = RwSignal::new(String::new());
    let back = Callback::new(move |()| app.show(Route::Routines));
    let keep = move |_| {
        let typed = OwnRoutine { title: title.get_untracked(), ..draft.get_untracked() };
        match app.routines.with_untracked(|others| typed.checked(others)) {
            Ok(routine) => {
                app.keep_routine(routine);
                app.show(Route::Routines);
            }
            Err(why) => refused.set(Some(why.to_string())),
        }
    };
    let line = move || {
        draft.with(|draft| match draft.known().count() {
            0 => say!("None yet.").to_string(),
            tasks => length(tasks, draft.minutes()),
        })
    };
    let change = move |said: String, run: &dyn Fn(&mut OwnRoutine)| {
        draft.update(run);
        refused.set(None);
        moved.set(said);
    };
    let hand = Draft { draft, change: StoredValue::new_local(Box::new(change)) };
    view! {
        <main class="screen" data-screen="routine">
            <Head title=(if is_kept { say!("Change a routine") } else { say!("Make a routine") }).to_string() back=(say!("Back without keeping"), back) />
            <div class="body">
                <TextBox
                    id="routine-name"
                    label=say!("Name")
                    text=title
                    max=LONGEST
                    refused_by="routine-refused"
                    on_typed=Callback::new(move |()| refused.set(None))
                />
                <p class="refused" id="routine-refused" role="alert" data-test="refused">{move || refused.get()}</p>
                <h2>{say!("Tasks in order")}</h2>
                <p class="soft" data-test="length">{line}</p>
                <ol class="order" data-test="order">
                    <For each=move || draft.get().tasks key=Clone::clone let:id>
                        <Placed hand id />
                    </For>
                </ol>
                <p class="sr-only" role="status" data-test="moved">{move || moved.get()}</p>
                <Addable hand />
                {is_kept.then(|| view! { <Delete draft /> })}
            </div>
            <footer>
                <button type="button" class="btn main" data-test="keep" on:click=keep>{say!("Keep the routine")}</button>
            </footer>
        </main>
    }
}

type Change = Box<dyn Fn(String, &dyn Fn(&mut OwnRoutine))>;

/// The routine in hand and the one way to change it.
#[derive(Clone, Copy)]
struct Draft {
    draft: RwSignal<OwnRoutine>,
    change: StoredValue<Change, LocalStorage>,
}

impl Draft {
    fn change(self, said: String, run: impl Fn(&mut OwnRoutine)) {
        self.change.with_value(|change| change(said, &run));
    }

    /// Place of a task, counted from 1, and the number of tasks.
    fn place(self, id: &str) -> (usize, usize) {
        self.draft.with(|draft| {
            let at = draft.tasks.iter().position(|task| task == id).map_or(0, |at| at + 1);
            (at, draft.tasks.len())
        })
    }
}

/// One task of the routine, with its buttons.
#[component]
fn Placed(hand: Draft, id: String) -> impl IntoView {
    let title = task::by_id(&id).map_or(say!("A task of a newer version"), |task| words::of(task.title));
    let id = StoredValue::new(id);
    let place = move || id.with_value(|id| hand.place(id));
    let step = move |to: &'static str, run: fn(&mut OwnRoutine, &str)| {
        let id = id.get_value();
        hand.change(String::new(), |draft| run(draft, &id));
        let (at, of) = untrack(|| hand.place(&id));
        hand.change(say!("{title} is now {at} of {of}.", title, at, of), |_| {});
        // The button may have reached its end; then the other one keeps the keyboard.
        let other = if to == "up" { "down" } else { "up" };
        focus::on_first_enabled(&[&format!("{to}-{id}"), &format!("{other}-{id}")]);
    };
    let remove = move |_| {
        let id = id.get_value();
        hand.change(say!("{title} was taken out.", title), |draft| draft.remove(&id));
        focus::on_first_enabled(&[&format!("add-{id}")]);
    };
    view! {
        <li>
            <span class="order-title">{title}</span>
            <button
                type="button"
                class="btn quiet"
                id=format!("up-{}", id.get_value())
                data-test=format!("up-{}", id.get_value())
                aria-label=say!("{title}: one place up", title)
                disabled=move || place().0 <= 1
                on:click=move |_| step("up", OwnRoutine::up)
            >
                {say!("Up")}
            </button>
            <button
                type="button"
                class="btn quiet"
                id=format!("down-{}", id.get_value())
                data-test=format!("down-{}", id.get_value())
                aria-label=say!("{title}: one place down", title)
                disabled=move || place().0 == place().1
                on:click=move |_| step("down", OwnRoutine::down)
            >
                {say!("Down")}
            </button>
            <button
                type="button"
                class="btn quiet"
                data-test=format!("remove-{}", id.get_value())
                aria-label=say!("{title}: take it out", title)
                on:click=remove
            >
                {say!("Out")}
            </button>
        </li>
    }
}

/// Tasks that are not in the routine yet.
#[component]
fn Addable(hand: Draft) -> impl IntoView {
    let add = move |task: &'static Task| {
        let put = move |_| {
            hand.change(say!("{title} was added.", title = words::of(task.title)), |draft| draft.add(task.id));
            focus::on_first_enabled(&[&format!("up-{}", task.id), &format!("down-{}", task.id)]);
        };
        view! {
            <button
                type="button"
                class="btn"
                id=format!("add-{}", task.id)
                data-test=format!("add-{}", task.id)
                aria-label=say!("Add {title}", title = words::of(task.title))
                on:click=put
            >
                {words::of(task.title)}
            </button>
        }
    };
    let tasks = move || hand.draft.with(|draft| draft.addable().map(add).collect_view());
    let any = move || hand.draft.with(|draft| draft.addable().next().is_some());
    view! {
        <Show when=any>
            <h2>{say!("Add")}</h2>
            <div class="reasons" data-test="addable">{tasks}</div>
        </Show>
    }
}

/// Deleting takes two taps in two places. Visits made with the routine keep their own list.
#[component]
fn Delete(draft: RwSignal<OwnRoutine>) -> impl IntoView {
    let app = App::get();
    let delete = move |_| {
        app.delete_routine(&draft.with_untracked(|draft| draft.id.clone()));
        app.show(Route::Routines);
    };
    view! {
        <details class="fold" data-test="delete-fold">
            <summary>{say!("Delete this routine")}</summary>
            <p>{say!("Visits made with it stay as they are.")}</p>
            <button type="button" class="btn wide" data-test="delete" on:click=delete>{say!("Delete it for good")}</button>
        </details>
    }
}

/// A new routine: empty, or a copy of one that is always there.
fn begun(id: &str) -> OwnRoutine {
    let tasks = routine::ALL.iter().find(|routine| routine.id == id).map(routine::Routine::plan).unwrap_or_default();
    OwnRoutine { id: ids::uuid(), title: String::new(), tasks, changed: None, unread: Unread::default() }
}
