//! Who is examined: someone known, or a new code or name with a birth year or date.

use leptos::prelude::*;
use sidelight_core::calendar::Born;
use sidelight_core::capture::visit::{Person, Unread};
use sidelight_core::routine;

use crate::platform::ids;
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::Head;
use crate::widgets::text_box::TextBox;

/// Longest code or name, in characters.
pub const LONGEST: usize = 80;

#[component]
pub fn Who() -> impl IntoView {
    let app = App::get();
    let label = RwSignal::new(app.people.with_untracked(|people| next_code(people)));
    let born = RwSignal::new(String::new());
    let known = RwSignal::new(None::<String>);
    let routine = RwSignal::new(routine::ALL[0].id);
    let refused = RwSignal::new(None::<String>);
    let back = Callback::new(move |()| app.show(Route::Home));
    let begin = move |_| {
        if let Some(id) = known.get_untracked() {
            app.begin(&id, routine.get_untracked());
            return;
        }
        match new_person(&label.get_untracked(), &born.get_untracked()) {
            Ok(person) => {
                let id = person.id.clone();
                app.keep_person(person);
                app.begin(&id, routine.get_untracked());
            }
            Err(why) => refused.set(Some(why)),
        }
    };
    let matches = move || {
        let wanted = label.get().trim().to_lowercase();
        app.people.with(|people| {
            let fits = |person: &&Person| !wanted.is_empty() && person.label.to_lowercase().contains(&wanted);
            people.iter().filter(fits).take(6).cloned().collect::<Vec<_>>()
        })
    };
    let pick = move |person: Person| {
        let id = person.id.clone();
        let of = id.clone();
        let age = person.born.map(|born| format!(", born {}", born.text())).unwrap_or_default();
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
                <small>{format!("seen before{age}")}</small>
            </button>
        }
    };
    view! {
        <main class="screen" data-screen="who">
            <Head title="Who".to_string() back=("Back to the start", back) />
            <div class="body">
                <TextBox
                    id="label"
                    label="A code or a name"
                    help="A code of your own tells nothing to a finder of this phone."
                    text=label
                    max=LONGEST
                    on_typed=Callback::new(move |()| known.set(None))
                />
                <div data-test="matches">{move || matches().into_iter().map(pick).collect_view()}</div>
                <Show when=move || known.with(Option::is_none)>
                    <TextBox
                        id="born"
                        label="Birth year, or date"
                        help="Published ranges differ by age. Such as 2012 or 2012-05-31."
                        text=born
                        max=10
                        digits=true
                        refused_by="who-refused"
                    />
                </Show>
                <p class="refused" id="who-refused" role="alert" data-test="refused">{move || refused.get()}</p>
                <Routines routine />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="begin" on:click=begin>"Begin"</button>
            </footer>
        </main>
    }
}

#[component]
fn Routines(routine: RwSignal<&'static str>) -> impl IntoView {
    let chip = move |one: &'static routine::Routine| {
        view! {
            <label class="chip" data-test=one.id>
                <input
                    type="radio"
                    name="routine"
                    prop:checked=move || routine.get() == one.id
                    on:change=move |_| routine.set(one.id)
                />
                <span>
                    {one.title}
                    <small>{format!("{} tasks, about {} minutes", one.tasks.len(), one.minutes())}</small>
                </span>
            </label>
        }
    };
    view! {
        <fieldset class="ask" data-test="routine">
            <legend>"Routine"</legend>
            <div class="chips">{routine::ALL.iter().map(chip).collect_view()}</div>
        </fieldset>
    }
}

fn new_person(label: &str, born: &str) -> Result<Person, String> {
    let (label, born) = (read_label(label)?, read_born(born)?);
    Ok(Person { id: ids::uuid(), label, born, invented: false, unread: Unread::default() })
}

/// A code or name that is not blank.
pub fn read_label(typed: &str) -> Result<String, String> {
    let label: String = typed.trim().chars().take(LONGEST).collect();
    if label.is_empty() {
        return Err("Type a code or a name, so that this visit can be found again.".to_string());
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

/// The next free code: "P-01", "P-02" and so on.
fn next_code(people: &[Person]) -> String {
    let mut number = people.len() + 1;
    loop {
        let code = format!("P-{number:02}");
        if !people.iter().any(|person| person.label == code) {
            return code;
        }
        number += 1;
    }
}
