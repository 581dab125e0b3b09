//! Which visits are written: the one or the person one came from, chosen people, or all.

use std::collections::BTreeSet;

use leptos::prelude::*;
use sidelight_core::keeping::{Selection, Wanted};

use super::super::hand_over::people::Choose;
use super::super::hand_over::{selected, stay_out};
use super::super::safe::visits;
use crate::state::App;
use crate::widgets::pick::Pick;
use crate::widgets::show::Show;
use crate::words;

/// What stands beside the choice among people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Choice {
    Visit,
    Person,
    People,
    All,
}

#[component]
pub fn What(came_with: Wanted, selection: Memo<Selection>) -> impl IntoView {
    let app = App::get();
    let visit = match &came_with {
        Wanted::Visit(id) => Some(id.clone()),
        Wanted::People(_) | Wanted::New | Wanted::All => None,
    };
    let person = match &came_with {
        Wanted::People(people) => Some(people.clone()).filter(|people| one_person(app, people)),
        Wanted::Visit(id) => of_visit(app, id),
        Wanted::New | Wanted::All => None,
    };
    let now_wanted = app.wanted.get_untracked();
    let choice = RwSignal::new(match &now_wanted {
        Wanted::Visit(_) => Choice::Visit,
        Wanted::People(people) if person.as_ref() == Some(people) => Choice::Person,
        Wanted::People(_) => Choice::People,
        Wanted::New | Wanted::All => Choice::All,
    });
    if now_wanted == Wanted::New {
        app.wanted.set(Wanted::All);
    }
    let pick = move |one: Choice, wanted: Wanted, test: &'static str, label: &'static str| {
        let on = Signal::derive(move || choice.get() == one);
        let set = move || {
            choice.set(one);
            app.wanted.set(wanted.clone());
        };
        view! { <Pick name="what" test label on pick=set /> }
    };
    let visit = visit.map(|id| pick(Choice::Visit, Wanted::Visit(id), "what-visit", say!("This one visit")));
    let person = person.map(|ids| pick(Choice::Person, Wanted::People(ids), "what-person", say!("This person")));
    let none = Wanted::People(BTreeSet::new());
    view! {
        <fieldset class="ask">
            <legend>{say!("What")}</legend>
            <div class="chips">
                {visit}
                {person}
                {pick(Choice::People, none, "what-people", say!("Chosen people"))}
                {pick(Choice::All, Wanted::All, "what-all", say!("All closed visits"))}
            </div>
        </fieldset>
        <Show when=move || choice.get() == Choice::People>
            <Choose />
        </Show>
        <p data-test="selected">{move || selection.with(|selection| told(app, selection))}</p>
    }
}

/// Whether these are the entries of one person.
pub fn one_person(app: App, people: &BTreeSet<String>) -> bool {
    people.first().is_some_and(|one| app.entries_of(one) == *people)
}

/// Everyone who is the person of this visit.
fn of_visit(app: App, id: &str) -> Option<BTreeSet<String>> {
    let person = app.listed.with_untracked(|all| {
        let of = all.iter().find(|one| one.entry.id == id)?;
        Some(of.entry.person.clone())
    })?;
    Some(app.entries_of(&person))
}

/// The same as of a hand over, with the person's code or name when the visits are of one.
fn told(app: App, selection: &Selection) -> AnyView {
    let mut ids = selection.people.iter();
    let only = ids.next().filter(|_| ids.next().is_none());
    let label = only.and_then(|only| {
        app.people.with(|people| people.iter().find(|one| one.id == *only).map(|one| one.label.clone()))
    });
    match label {
        Some(label) => {
            let told = say!("{visits} of {name}.", visits = visits(selection.visits.len()), name = words::HERE);
            let (before, after) = words::around(&told);
            view! { {before}<bdi>{label}</bdi>{after}" "{stay_out(selection.open)} }.into_any()
        }
        None => selected(selection).into_any(),
    }
}
