//! People: the list with search, and the chosen person beside it where the view is wide enough, else in its place.

use leptos::prelude::*;
use sidelight_core::calendar::long_date;
use sidelight_core::people::Seen;

use super::likely::LikelyNote;
use super::person::PersonPane;
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::Head;
use crate::widgets::more::{More, PAGE};
use crate::widgets::text_box::TextBox;

#[component]
pub fn People() -> impl IntoView {
    let app = App::get();
    let chosen = Memo::new(move |_| match app.route.get() {
        Route::Person(id) => Some(app.stands(&id)),
        _ => None,
    });
    let pane = move || match chosen.get() {
        Some(id) => view! { <PersonPane id /> }.into_any(),
        None => view! { <p class="soft pane-hint">"Choose someone from the list."</p> }.into_any(),
    };
    view! {
        <main class="screen screen-wide" data-screen="people" data-chosen=move || chosen.with(Option::is_some).to_string()>
            <List chosen />
            {pane}
        </main>
    }
}

#[component]
fn List(chosen: Memo<Option<String>>) -> impl IntoView {
    let app = App::get();
    let wanted = RwSignal::new(String::new());
    let back = Callback::new(move |()| app.show(Route::Home));
    let shown = RwSignal::new(PAGE);
    // What a search finds is drawn from its first page on.
    Effect::new(move |_| {
        wanted.track();
        shown.set(PAGE);
    });
    let found = Memo::new(move |_| app.people_seen(&wanted.get()));
    let row = move |seen: Seen| {
        let (id, of) = (seen.person.id.clone(), seen.person.id.clone());
        let is_chosen = move || chosen.with(|chosen| chosen.as_deref() == Some(of.as_str()));
        let age = seen.person.born.and_then(|born| born.age(now().date()));
        view! {
            <button
                type="button"
                class="row"
                data-test="person-row"
                aria-current=move || is_chosen().then_some("true")
                on:click=move |_| app.show(Route::Person(id.clone()))
            >
                <span>
                    <strong><bdi>{seen.person.label.clone()}</bdi></strong>
                    {age.map(|age| format!(", {} y", age.years))}
                    {also(&seen)}
                    <small>{line(&seen)}</small>
                </span>
            </button>
        }
    };
    let rows = move || found.get().into_iter().take(shown.get()).map(row).collect_view();
    view! {
        <section class="pane pane-list no-print" aria-label="People">
            <Head title="People".to_string() back=("Back to the start", back) />
            <div class="body" tabindex="-1">
                <LikelyNote />
                <TextBox id="find" label="Find by code or name" text=wanted max=80 />
                <div class="rows" data-test="people">{rows}</div>
                <More shown total=Signal::derive(move || found.with(Vec::len)) />
                <p class="soft" role="status" data-test="found">
                    {move || match found.with(Vec::len) {
                        0 => "No one fits.".to_string(),
                        1 => "1 person.".to_string(),
                        n => format!("{n} people."),
                    }}
                </p>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="seen" on:click=move |_| app.show(Route::Seen)>"All visits"</button>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Who)>"Start a visit"</button>
            </footer>
        </section>
    }
}

/// What else the person is called, in entries that were joined.
fn also(seen: &Seen) -> Option<impl IntoView + use<>> {
    let names = seen.also.join(", ");
    (!names.is_empty()).then(|| view! { <small>"also "<bdi>{names}</bdi></small> })
}

/// "4 visits · last 6 April 2026", or that no visit is kept here.
fn line(seen: &Seen) -> String {
    let visits = match seen.visits {
        0 => return "no visit here".to_string(),
        1 => "1 visit".to_string(),
        n => format!("{n} visits"),
    };
    let last = seen.last.map(|last| format!(" · last {}", long_date(last.date()))).unwrap_or_default();
    let invented = if seen.person.invented { " · invented" } else { "" };
    format!("{visits}{last}{invented}")
}
