//! Today: the open visit first, then who was seen, and the one thing to do next.

use leptos::prelude::*;
use sidelight_core::assess::{assess, overview};
use sidelight_core::calendar::long_date;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::due::{self, Due};
use sidelight_core::flow;
use sidelight_core::{routine, summary};

use super::first_run::FirstRun;
use super::open_file::OpenFile;
use crate::platform::hash_route::reload;
use crate::platform::{persist, service_worker};
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::{Head, Saved};
use crate::widgets::grade::GradeMark;

#[component]
pub fn Home() -> impl IntoView {
    let app = App::get();
    // Records that cannot be read are no fresh start.
    let nothing = move || app.people.with(Vec::is_empty) && app.unreadable.with(Vec::is_empty);
    let fresh = move || nothing() && !app.settings.with(|settings| settings.welcomed);
    view! { {move || if fresh() { view! { <FirstRun /> }.into_any() } else { view! { <Today /> }.into_any() }} }
}

#[component]
fn Today() -> impl IntoView {
    let app = App::get();
    let offline: Signal<bool> = Signal::from(service_worker::ready());
    let start = move |_| {
        // The browser may ask its user; it is asked once there is something to keep.
        leptos::task::spawn_local(async {
            persist::ask().await;
        });
        app.show(Route::Who);
    };
    view! {
        <main class="screen" data-screen="home" data-ready=move || app.ready.get().to_string()>
            <header class="home-head">
                <h1 tabindex="-1" data-test="title">"Today"</h1>
                <span class="place" data-test="offline" data-ready=move || offline.get().to_string()>
                    {move || if offline.get() { "works offline · " } else { "" }}
                    <Saved />
                </span>
            </header>
            <Notes />
            <div class="body">
                <Update />
                <Open />
                <DueNow />
                <Lists />
                <nav class="more" aria-label="More">
                    <button type="button" class="link" data-test="seen" on:click=move |_| app.show(Route::Seen)>"All visits"</button>
                    <button type="button" class="link" data-test="settings" on:click=move |_| app.show(Route::Settings)>"Settings"</button>
                    <button type="button" class="link" data-test="routines" on:click=move |_| app.show(Route::Routines)>"Routines"</button>
                    <button type="button" class="link" data-test="about" on:click=move |_| app.show(Route::About)>"Ranges, sources, cautions"</button>
                    <OpenFile />
                </nav>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="people" on:click=move |_| app.show(Route::People)>"People"</button>
                <button type="button" class="btn main" data-test="start" on:click=start>"Start a visit"</button>
            </footer>
        </main>
    }
}

#[component]
fn Notes() -> impl IntoView {
    let app = App::get();
    view! {
        <div class="home-notes"><Head title=String::new() /></div>
        <Show when=move || !app.unreadable.with(Vec::is_empty)>
            <div class="notice notice-strong" role="alert" data-test="unreadable">
                {move || app.unreadable.get().into_iter().map(|said| view! { <p>{said}</p> }).collect_view()}
                <button type="button" class="btn" on:click=move |_| reload()>"Try again"</button>
            </div>
        </Show>
    }
}

/// A new version is offered here only, never during a visit.
#[component]
fn Update() -> impl IntoView {
    let waiting = service_worker::update_waiting();
    view! {
        <Show when=move || waiting.get()>
            <div class="card" data-test="update">
                <p>"A new version of Sidelight is ready."</p>
                <button type="button" class="btn" on:click=move |_| service_worker::activate_update()>"Use it now"</button>
            </div>
        </Show>
    }
}

#[component]
fn Open() -> impl IntoView {
    let app = App::get();
    let line = move || {
        let line = app.with_context(|context| {
            let visit = context.visit;
            let step = flow::resume(context);
            let place = match flow::progress(context, &step) {
                Some((at, of)) => format!("{}, task {at} of {of}", step.title()),
                None => step.title().to_string(),
            };
            let open = visit.closed.is_none();
            open.then(|| (visit.id.clone(), format!("{place} · begun {}", visit.started.clock())))
        });
        line.flatten()
    };
    let label = move || app.person().map(|person| person.label).unwrap_or_default();
    move || {
        line().map(|(id, line)| {
            view! {
                <section class="card card-open" data-test="open-visit">
                    <div>
                        <strong>"Visit open: "<bdi>{label}</bdi></strong>
                        <span>{line}</span>
                    </div>
                    <button type="button" class="btn" data-test="go-on" on:click=move |_| app.open(&id)>"Go on"</button>
                </section>
            }
        })
    }
}

/// Re-tests that are due stand above who was seen.
#[component]
fn DueNow() -> impl IntoView {
    let app = App::get();
    let list = Memo::new(move |_| due::list(&app.every_visit(), now().date()));
    let row = move |due: Due| {
        let label = app.people.with(|all| all.iter().find(|person| person.id == due.person).map(|p| p.label.clone()));
        view! {
            <button type="button" class="row" data-test="due-row" on:click=move |_| app.show(Route::Person(due.person.clone()))>
                <span>
                    <strong><bdi>{label.unwrap_or_else(|| "Someone not known here".to_string())}</bdi></strong>
                    <small>{format!("set for {}", long_date(due.on))}</small>
                </span>
            </button>
        }
    };
    view! {
        <Show when=move || !list.with(Vec::is_empty)>
            <section data-test="due" aria-labelledby="due-title">
                <h2 id="due-title">"Re-tests due"</h2>
                <div class="rows">{move || list.get().into_iter().map(row).collect_view()}</div>
            </section>
        </Show>
    }
}

#[component]
fn Lists() -> impl IntoView {
    let app = App::get();
    let today = now().date();
    let all = Memo::new(move |_| {
        let closed = app.current.get().into_iter().filter(|visit| visit.closed.is_some());
        let mut visits: Vec<Visit> = app.others.get().into_iter().chain(closed).collect();
        visits.sort_by_key(|visit| std::cmp::Reverse(visit.started));
        visits
    });
    let list = move |title: &'static str, is_today: bool, most: usize| {
        let rows: Vec<_> = all
            .get()
            .into_iter()
            .filter(|visit| (visit.started.date() == today) == is_today)
            .take(most)
            .map(|visit| view! { <VisitRow visit /> })
            .collect();
        (!rows.is_empty()).then(|| {
            view! {
                <h2>{title}</h2>
                <div class="rows">{rows}</div>
            }
        })
    };
    view! {
        {move || list("Seen today", true, 40)}
        {move || list("Before", false, 8)}
        <Show when=move || all.with(Vec::is_empty) && app.current.with(Option::is_none)>
            <p class="soft">"No visit yet."</p>
        </Show>
    }
}

/// One visit in a list: who, why, and how it came out.
#[component]
pub fn VisitRow(
    visit: Visit,
    /// On the page of one person the day and the reason stand where the name does elsewhere.
    #[prop(optional)]
    why: bool,
) -> impl IntoView {
    let app = App::get();
    let person = app.people.with_untracked(|people| people.iter().find(|person| person.id == visit.person).cloned());
    let (label, age, over) = match &person {
        Some(person) => (person.label.clone(), age(person, &visit), Some(overview(&assess(person, &visit)))),
        None => ("Someone not known here".to_string(), String::new(), None),
    };
    let day = visit.started.date();
    let clock = visit.started.clock();
    let when = if day == now().date() { clock } else { format!("{}, {clock}", long_date(day)) };
    let state = if visit.closed.is_none() { "still open · " } else { "" };
    let invented = person.is_some_and(|person| person.invented && !why).then_some(" · invented");
    let (label, age, when) = if why {
        let reason = summary::person::reason(&visit).unwrap_or_else(|| "no reason noted".to_string());
        let routine = routine::title_of(&visit).to_lowercase();
        (long_date(day), String::new(), format!("{reason} · {routine} · {}", visit.started.clock()))
    } else {
        (label, age, when)
    };
    let id = visit.id.clone();
    view! {
        <button type="button" class="row" data-test="visit-row" on:click=move |_| app.open(&id)>
            <span>
                <strong><bdi>{label}</bdi></strong>
                {age}
                <small>{state}{when}{invented}</small>
            </span>
            {over.map(|over| view! { <GradeMark grade=over.grade word=over.text /> })}
        </button>
    }
}

fn age(person: &Person, visit: &Visit) -> String {
    let age = person.born.and_then(|born| born.age(visit.started.date()));
    age.map(|age| format!(", {} y", age.years)).unwrap_or_default()
}
