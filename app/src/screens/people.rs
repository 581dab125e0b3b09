//! People: the list with search, and the chosen person beside it where the view is wide enough, else in its place.

use leptos::prelude::*;
use sidelight_core::calendar::long_date;
use sidelight_core::people::Seen;

use super::likely::LikelyNote;
use super::person::PersonPane;
use crate::memo::memo;
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::Head;
use crate::widgets::more::{More, PAGE};
use crate::widgets::text_box::TextBox;
use crate::words;

#[component]
pub fn People() -> impl IntoView {
    let app = App::get();
    let chosen = memo(move |_| match app.route.get() {
        Route::Person(id) => Some(app.stands(&id)),
        _ => None,
    });
    let pane = move || match chosen.get() {
        Some(id) => view! { <PersonPane id /> }.into_any(),
        None => view! { <p class="soft pane-hint">{say!("Choose someone from the list.")}</p> }.into_any(),
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
    let found = memo(move |_| app.people_seen(&wanted.get()));
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
                    {age.map(|age| say!(", {years} y", years = age.years))}
                    {also(&seen)}
                    <small>{line(&seen)}</small>
                </span>
            </button>
        }
    };
    let rows = move || found.get().into_iter().take(shown.get()).map(row).collect_view();
    view! {
        <section class="pane pane-list no-print" aria-label=say!("People")>
            <Head title=say!("People").to_string() back=(say!("Back to the start"), back) />
            <div class="body" tabindex="-1">
                <LikelyNote />
                <TextBox id="find" label=say!("Find by code or name") text=wanted max=80 />
                <div class="rows" data-test="people">{rows}</div>
                <More shown total=Signal::derive(move || found.with(Vec::len)) />
                <p class="soft" role="status" data-test="found">
                    {move || match found.with(Vec::len) {
                        0 => say!("No one fits.").to_string(),
                        1 => say!("1 person.").to_string(),
                        n => say!("{n} people.", n),
                    }}
                </p>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="seen" on:click=move |_| app.show(Route::Seen)>{say!("All visits")}</button>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Who)>{say!("Start a visit")}</button>
            </footer>
        </section>
    }
}

/// What else the person is called, in entries that were joined.
fn also(seen: &Seen) -> Option<impl IntoView + use<>> {
    let names = seen.also.join(", ");
    let (before, after) = words::around(&say!("also {names}", names = words::HERE));
    (!names.is_empty()).then(|| view! { <small>{before}<bdi>{names}</bdi>{after}</small> })
}

/// "4 visits · last 6 April 2026", or that no visit is kept here.
fn line(seen: &Seen) -> String {
    let visits = match seen.visits {
        0 => return say!("no visit here").to_string(),
        count => super::safe::visits(count),
    };
    let last = seen.last.map(|last| say!("last {day}", day = long_date(last.date())));
    let invented = seen.person.invented.then(|| say!("invented").to_string());
    [Some(visits), last, invented].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}
