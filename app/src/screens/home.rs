//! Today: the open visit first, then who was seen, and the one thing to do next.

use leptos::prelude::*;
use sidelight_core::assess::{Overview, assess, overview};
use sidelight_core::calendar::{Date, long_date};
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::due::{self, Due};
use sidelight_core::flow;
use sidelight_core::keeping::Wanted;
use sidelight_core::{routine, summary};

use super::rescue::Unreadable;
use super::safe::only_here;
use crate::lock::{Keeping, Lock};
use crate::memo::memo;
use crate::platform::{persist, service_worker};
use crate::route::Route;
use crate::state::{App, Listed, Read, now};
use crate::widgets::bar::{Head, Saved};
use crate::widgets::grade::GradeMark;
use crate::widgets::more::{More, PAGE};
use crate::widgets::show::Show;
use crate::words;

#[component]
pub fn Home() -> impl IntoView {
    let (app, lock) = (App::get(), Lock::get());
    let keeping = lock.keeping();
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
                <h1 tabindex="-1" data-test="title">{say!("Today")}</h1>
                <span class="place" data-test="offline" data-ready=move || offline.get().to_string()>
                    {move || offline.get().then(|| format!("{} · ", say!("works offline")))}
                    <Saved />
                </span>
            </header>
            <Notes />
            {(keeping == Some(Keeping::Demo)).then(|| view! { <Demo /> })}
            <div class="body">
                <Update />
                <Open />
                <DueNow />
                <Lists />
                <OnlyHere />
                <nav class="more home-links" aria-label=say!("More")>
                    <button type="button" class="link" data-test="seen" on:click=move |_| app.show(Route::Seen)>{say!("All visits")}</button>
                    <button type="button" class="link" data-test="take-in" on:click=move |_| app.show(Route::TakeIn)>{say!("Take in files")}</button>
                    <button type="button" class="link" data-test="safe" on:click=move |_| app.show(Route::Safe)>{say!("Safe keeping")}</button>
                    <button type="button" class="link" data-test="stage" on:click=move |_| app.show(Route::Stage(None))>{say!("Targets on this screen")}</button>
                    <button type="button" class="link" data-test="routines" on:click=move |_| app.show(Route::Routines)>{say!("Routines")}</button>
                    <button type="button" class="link" data-test="about" on:click=move |_| app.show(Route::About)>{say!("Ranges, sources, cautions")}</button>
                    <button type="button" class="link" data-test="settings" on:click=move |_| app.show(Route::Settings)>{say!("Settings")}</button>
                    {(keeping == Some(Keeping::Sealed)).then(|| view! { <LockNow /> })}
                </nav>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="people" on:click=move |_| app.show(Route::People)>{say!("People")}</button>
                <button type="button" class="btn main" data-test="start" on:click=start>{say!("Start a visit")}</button>
            </footer>
        </main>
    }
}

/// The demo says what it is, and how to leave it.
#[component]
fn Demo() -> impl IntoView {
    let lock = Lock::get();
    view! {
        <div class="home-notes">
            <div class="notice card" data-test="demo-note">
                <span>{say!("Demo: everyone here is invented, and nothing is sealed.")}</span>
                <button type="button" class="btn quiet" data-test="leave-demo" on:click=move |_| leptos::task::spawn_local(lock.leave_demo())>
                    {say!("Leave and erase it")}
                </button>
            </div>
        </div>
    }
}

#[component]
fn LockNow() -> impl IntoView {
    let (app, lock) = (App::get(), Lock::get());
    let close = move |_| {
        leptos::task::spawn_local(async move {
            if let Err(error) = lock.lock().await {
                app.said.set(Some(error.to_string()));
            }
        });
    };
    view! { <button type="button" class="link" data-test="lock" on:click=close>{say!("Lock now")}</button> }
}

#[component]
fn Notes() -> impl IntoView {
    view! {
        <div class="home-notes"><Head title=String::new() /></div>
        <Unreadable />
    }
}

/// A new version is offered here only, never during a visit.
#[component]
fn Update() -> impl IntoView {
    let waiting = service_worker::update_waiting();
    view! {
        <Show when=move || waiting.get()>
            <div class="card" data-test="update">
                <p>{say!("A new version of Sidelight is ready.")}</p>
                <button type="button" class="btn" on:click=move |_| service_worker::activate_update()>{say!("Use it now")}</button>
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
                Some((at, of)) => say!("{step}, task {at} of {of}", step = words::of(step.title()), at, of),
                None => words::of(step.title()).to_string(),
            };
            let open = visit.closed.is_none();
            open.then(|| (visit.id.clone(), say!("{place} · begun {time}", place, time = visit.started.clock())))
        });
        line.flatten()
    };
    let label = move || app.person().map(|person| person.label).unwrap_or_default();
    move || {
        line().map(|(id, line)| {
            let (before, after) = words::around(&say!("Visit open: {name}", name = words::HERE));
            view! {
                <section class="card card-open" data-test="open-visit">
                    <div>
                        <strong>{before}<bdi>{label}</bdi>{after}</strong>
                        <span>{line}</span>
                    </div>
                    <button type="button" class="btn" data-test="go-on" on:click=move |_| app.open(&id)>{say!("Go on")}</button>
                </section>
            }
        })
    }
}

/// Re-tests that are due stand above who was seen.
#[component]
fn DueNow() -> impl IntoView {
    let app = App::get();
    let list = memo(move |_| app.listed.with(|all| due::list(all.iter().map(|one| &one.entry), now().date())));
    let row = move |due: Due| {
        let label = app.whose(&due.person).map(|person| person.label);
        view! {
            <button type="button" class="row" data-test="due-row" on:click=move |_| app.show(Route::Person(due.person.clone()))>
                <span>
                    <strong><bdi>{label.unwrap_or_else(|| say!("Someone not known here").to_string())}</bdi></strong>
                    <small>{say!("set for {day}", day = long_date(due.on))}</small>
                </span>
            </button>
        }
    };
    view! {
        <Show when=move || !list.with(Vec::is_empty)>
            <section data-test="due" aria-labelledby="due-title">
                <h2 id="due-title">{say!("Re-tests due")}</h2>
                <div class="rows">{move || list.get().into_iter().map(row).collect_view()}</div>
            </section>
        </Show>
    }
}

/// What a lost phone would take along.
#[component]
fn OnlyHere() -> impl IntoView {
    let app = App::get();
    let never = memo(move |_| app.counts().never);
    let hand_over = move |_| {
        app.wanted.set(Wanted::New);
        app.show(Route::HandOver);
    };
    view! {
        <Show when=move || 0 < never.get()>
            <div class="only-here">
                <p class="soft" data-test="only-here">{move || only_here(never.get())}</p>
                <button type="button" class="link" data-test="hand-over-new" on:click=hand_over>{say!("Hand over")}</button>
            </div>
        </Show>
    }
}

#[component]
fn Lists() -> impl IntoView {
    let app = App::get();
    let today = now().date();
    let shown = RwSignal::new(PAGE);
    let of_day = move |is_today: bool| {
        memo(move |_| {
            let fits = |one: &&Listed| one.entry.closed.is_some() && (one.entry.started.date() == today) == is_today;
            app.listed.with(|all| all.iter().filter(fits).cloned().collect::<Vec<_>>())
        })
    };
    let (seen_today, before) = (of_day(true), of_day(false));
    let list = move |title: &'static str, list: Memo<Vec<Listed>>, most: usize| {
        let rows: Vec<Listed> = list.with(|all| all.iter().take(most).cloned().collect());
        (!rows.is_empty()).then(|| {
            view! {
                <h2>{title}</h2>
                <div class="rows"><VisitRows rows /></div>
            }
        })
    };
    view! {
        {move || list(say!("Seen today"), seen_today, shown.get())}
        <More shown total=Signal::derive(move || seen_today.with(Vec::len)) />
        {move || list(say!("Before"), before, 8)}
        <Show when=move || seen_today.with(Vec::is_empty) && before.with(Vec::is_empty) && app.current.with(Option::is_none)>
            <p class="soft">{say!("No visit yet.")}</p>
        </Show>
    }
}

/// Visits of a list, which are read now that they are in sight.
#[component]
pub fn VisitRows(rows: Vec<Listed>, #[prop(optional)] why: bool) -> impl IntoView {
    App::get().want(rows.iter().map(|one| one.key.clone()).collect());
    rows.into_iter().map(|listed| view! { <VisitRow listed why /> }).collect_view()
}

/// One visit in a list: who, why, and how it came out.
#[component]
fn VisitRow(
    listed: Listed,
    /// On the page of one person the day and the reason stand where the name does elsewhere.
    why: bool,
) -> impl IntoView {
    let app = App::get();
    let Listed { key, entry } = listed;
    let person = untrack(|| app.whose(&entry.person));
    let whose = entry.person.clone();
    let (day, clock) = (entry.started.date(), entry.started.clock());
    let state = entry.closed.is_none().then(|| format!("{} · ", say!("still open")));
    let of = key.clone();
    // The person is looked up each time: with another birth the visit is read by other ranges.
    let read = memo(move |_| match app.read_of(&of)? {
        Read::Visit(visit) => Some(Ok(Row::of(app.whose(&whose).as_ref(), &visit))),
        Read::Damaged(_) => Some(Err(())),
    });
    let row = move || read.get().and_then(Result::ok);
    let (label, age) = match (&person, why) {
        (_, true) => (long_date(day), String::new()),
        (Some(person), false) => (person.label.clone(), age(person, day)),
        (None, false) => (say!("Someone not known here").to_string(), String::new()),
    };
    let invented = person.is_some_and(|person| person.invented && !why).then(|| format!(" · {}", say!("invented")));
    let when = move || {
        let about = row().map(|row| format!("{} · ", row.about)).filter(|_| why).unwrap_or_default();
        let day = if why || day == now().date() { String::new() } else { format!("{}, ", long_date(day)) };
        format!("{about}{day}{clock}")
    };
    let over = move || match read.get() {
        Some(Ok(row)) => row.over.map(|over| view! { <GradeMark grade=over.grade word=over.text /> }.into_any()),
        Some(Err(())) => Some(view! { <small data-test="damaged">{say!("cannot be read")}</small> }.into_any()),
        None => None,
    };
    view! {
        <button type="button" class="row" data-test="visit-row" on:click=move |_| app.open(&key)>
            <span>
                <strong><bdi>{label}</bdi></strong>
                {age}
                <small>{state}{when}{invented}</small>
            </span>
            {over}
        </button>
    }
}

/// What a row shows once its visit was read.
#[derive(Clone, PartialEq)]
struct Row {
    about: String,
    over: Option<Overview>,
}

impl Row {
    fn of(person: Option<&Person>, visit: &Visit) -> Row {
        let reason = summary::person::reason(visit).unwrap_or_else(|| say!("no reason noted").to_string());
        Row {
            about: format!("{reason} · {}", words::of(routine::title_of(visit)).to_lowercase()),
            over: person.map(|person| overview(&assess(person, visit))),
        }
    }
}

fn age(person: &Person, day: Date) -> String {
    let age = person.born.and_then(|born| born.age(day));
    age.map(|age| say!(", {years} y", years = age.years)).unwrap_or_default()
}
