//! Who is examined: someone known, or a new code or name with a birth year or date.

use std::collections::{BTreeMap, BTreeSet};

use leptos::prelude::*;
use sidelight_core::calendar::Born;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::Person;
use sidelight_core::routine;
use sidelight_core::sorted;

use super::routines::length;
use crate::lock::{Keeping, Lock};
use crate::platform::ids;
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::Head;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;

/// Longest code or name, in characters.
pub const LONGEST: usize = 80;

#[component]
pub fn Who(
    /// The id of someone known who is chosen already.
    chosen: Option<String>,
) -> impl IntoView {
    let app = App::get();
    let before = chosen.and_then(|id| untrack(|| app.whose(&id)));
    let name = before.as_ref().map(|person| person.label.clone());
    let label = RwSignal::new(name.unwrap_or_else(|| next_code(&untrack(|| app.names()))));
    let born = RwSignal::new(String::new());
    let known = RwSignal::new(before.map(|person| person.id));
    let routine = RwSignal::new(routine::ALL[0].id.to_string());
    let refused = RwSignal::new(None::<String>);
    let back = Callback::new(move |()| app.show(Route::Home));
    let start = move |person: &str| {
        let routine = routine.get_untracked();
        app.begin(person, &routine, plan_of(app, &routine));
    };
    let begin = move |_| {
        if let Some(id) = known.get_untracked() {
            start(&id);
            return;
        }
        match new_person(&label.get_untracked(), &born.get_untracked()) {
            Ok(person) => {
                let id = person.id.clone();
                app.keep_person(person);
                start(&id);
            }
            Err(why) => refused.set(Some(why)),
        }
    };
    // What was refused is typed anew; the sentence about it goes with the first letter.
    let unsay = Callback::new(move |()| refused.set(None));
    let matches = move || {
        let wanted = label.get();
        let found = if wanted.trim().is_empty() { Vec::new() } else { app.people_seen(&wanted) };
        found.into_iter().take(6).map(|seen| seen.person).collect::<Vec<_>>()
    };
    let pick = move |person: Person| {
        let id = person.id.clone();
        let of = id.clone();
        let before = match person.born {
            Some(born) => say!("seen before, born {day}", day = born.text()),
            None => say!("seen before").to_string(),
        };
        view! {
            <button
                type="button"
                class="row"
                data-test="known"
                aria-pressed=move || (known.get().as_deref() == Some(of.as_str())).to_string()
                on:click=move |_| {
                    label.set(person.label.clone());
                    known.set(Some(id.clone()));
                    refused.set(None);
                }
            >
                <bdi>{person.label.clone()}</bdi>
                <small>{before}</small>
            </button>
        }
    };
    view! {
        <main class="screen" data-screen="who">
            <Head title=say!("Who").to_string() back=(say!("Back to the start"), back) />
            <div class="body">
                <TextBox
                    id="label"
                    label=say!("A code or a name")
                    help=say!("A code of your own tells a finder of this device nothing.")
                    text=label
                    max=LONGEST
                    on_typed=Callback::new(move |()| {
                        known.set(None);
                        refused.set(None);
                    })
                />
                <div data-test="matches">{move || matches().into_iter().map(pick).collect_view()}</div>
                <Show when=move || known.with(Option::is_none)>
                    <TextBox
                        id="born"
                        label=say!("Birth year, or date")
                        help=say!("Published ranges differ by age. Such as 2012 or 2012-05-31.")
                        text=born
                        max=10
                        digits=true
                        refused_by="who-refused"
                        on_typed=unsay
                    />
                </Show>
                <p class="refused" id="who-refused" role="alert" data-test="refused">{move || refused.get()}</p>
                <Routines routine />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="begin" on:click=begin>{say!("Begin")}</button>
            </footer>
        </main>
    }
}

/// The routines to choose from: those of the practice first, since they were made to be used.
#[component]
fn Routines(routine: RwSignal<String>) -> impl IntoView {
    let own = App::get().routines.get_untracked();
    let own = own.into_iter().map(|own| {
        let length = length(own.known().count(), own.minutes());
        view! { <RoutineChip routine id=own.id title=own.title length /> }
    });
    let fixed = routine::ALL.iter().map(|one| {
        let length = length(one.tasks().count(), one.minutes());
        view! { <RoutineChip routine id=one.id.to_string() title=one.title.to_string() length /> }
    });
    view! {
        <fieldset class="ask" data-test="routine">
            <legend>{say!("Routine")}</legend>
            <div class="chips">{own.collect_view()}{fixed.collect_view()}</div>
        </fieldset>
    }
}

#[component]
fn RoutineChip(routine: RwSignal<String>, id: String, title: String, length: String) -> impl IntoView {
    let (of, picked) = (id.clone(), id.clone());
    view! {
        <label class="chip" data-test=id>
            <input
                type="radio"
                name="routine"
                prop:checked=move || routine.with(|chosen| *chosen == of)
                on:change=move |_| routine.set(picked.clone())
            />
            <span><bdi>{title}</bdi><small>{length}</small></span>
        </label>
    }
}

/// The list of tasks behind a routine's id.
fn plan_of(app: App, id: &str) -> Vec<String> {
    let own = app.routines.with_untracked(|all| all.iter().find(|own| own.id == id).map(|own| own.tasks.clone()));
    own.unwrap_or_else(|| routine::by_id(id).plan())
}

fn new_person(label: &str, born: &str) -> Result<Person, String> {
    let (label, born) = (read_label(label)?, read_born(born)?);
    Ok(Person {
        id: ids::uuid(),
        label,
        born,
        invented: Lock::get().keeping() == Some(Keeping::Demo),
        changed: None,
        unread: Unread::default(),
    })
}

/// A code or name that is not blank.
pub fn read_label(typed: &str) -> Result<String, String> {
    let label: String = typed.trim().chars().take(LONGEST).collect();
    if label.is_empty() {
        return Err(say!("Type a code or a name, so that this visit can be found again.").to_string());
    }
    Ok(label)
}

/// A birth year or date. An unknown one is allowed; published ranges by age are then left out and said to be.
pub fn read_born(typed: &str) -> Result<Option<Born>, String> {
    match typed.trim() {
        "" => Ok(None),
        typed => Born::parse(typed, now().date()).map(Some).map_err(|refused| refused.to_string()),
    }
}

/// The next code that nobody has, in joined entries neither: "P-01", "P-02" and so on.
fn next_code(names: &BTreeMap<String, String>) -> String {
    let taken: BTreeSet<&str> = sorted::set(names.values().flat_map(|names| names.lines()));
    let mut number = names.len() + 1;
    loop {
        let code = format!("P-{number:02}");
        if !taken.contains(code.to_lowercase().as_str()) {
            return code;
        }
        number += 1;
    }
}
