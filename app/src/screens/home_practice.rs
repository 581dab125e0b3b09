//! Practice at home since the last visit: its log comes back as a code, a file, a message, or six numbers read aloud.

use leptos::html::Input;
use leptos::prelude::*;
use sidelight_core::calendar::long_date;
use sidelight_core::capture::exchange::Edit;
use sidelight_core::capture::home::{How, Returned};
use sidelight_core::capture::unread::Unread;
use sidelight_core::home_practice::{NUMBERS, fits, sheets_before, taken};
use sidelight_core::sheet::Sheet;
use sidelight_core::summary;

use crate::memo::memo;
use crate::platform::{file_in, focus};
use crate::route::Route;
use crate::state::{App, now};
use crate::widgets::bar::Head;
use crate::widgets::document::DocumentView;
use crate::widgets::scan::Scan;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

/// A log has fewer than a thousand letters; a larger file is none.
const LARGEST_FILE: usize = 64 * 1024;

#[component]
pub fn HomePractice() -> impl IntoView {
    let app = App::get();
    let open = app.current.with_untracked(|visit| visit.as_ref().is_some_and(|visit| visit.closed.is_none()));
    let back = Callback::new(move |()| leave(app));
    let refused = RwSignal::new(None::<String>);
    let took = RwSignal::new(None::<&'static str>);
    let typed: [RwSignal<String>; NUMBERS] = std::array::from_fn(|_| RwSignal::new(String::new()));
    let take = Callback::new(move |(how, text): (How, String)| {
        took.set(None);
        refused.set(None);
        let text = match taken(how, &text) {
            Ok(text) => text,
            Err(why) => return refused.set(Some(why.to_string())),
        };
        let known = app.current.with_untracked(|v| v.as_ref().is_some_and(|v| v.logs.iter().any(|l| l.text == text)));
        if app.at_home(Edit::Return(Returned { at: now(), how, text, unread: Unread::default() })) {
            typed.iter().for_each(|number| number.set(String::new()));
            took.set(Some(if known { say!("It was taken in before.") } else { say!("Taken in.") }));
        }
    });
    view! {
        <main class="screen" data-screen="home-practice">
            <Head title=say!("Home practice").to_string() place=Signal::derive(move || whose(app)) back=(say!("Back to the visit"), back) />
            <div class="body document" tabindex="0">
                {open.then(|| view! { <GivenSheet /> })}
                <CameBack open took />
                {open.then(|| view! { <Ways take refused took typed /> })}
                {(!open).then(|| view! { <p data-test="no-visit">{say!("No visit is open. What was done at home is taken in during a visit.")}</p> })}
            </div>
            <footer>
                <button type="button" class="btn main" data-test="done" on:click=move |_| leave(app)>{say!("Back to the visit")}</button>
            </footer>
        </main>
    }
}

/// The way to it, where an earlier visit gave a sheet: what was given when, and how many logs came back.
#[component]
pub fn HomePracticeLink() -> impl IntoView {
    let app = App::get();
    let since = memo(move |_| {
        app.current.with(|visit| {
            let visit = visit.as_ref()?;
            app.earlier.with(|earlier| {
                let day = sheets_before(visit, earlier).first().map(|given| long_date(given.at.date()));
                let known = visit.logs.len();
                (day.is_some() || known > 0).then_some((day, known))
            })
        })
    });
    let said = move || {
        since.get().map(|(day, known)| {
            let given = day.map_or(String::new(), |day| say!("A sheet for home was given on {day}.", day));
            let back = match known {
                0 => say!("Nothing came back yet.").to_string(),
                known => counted!(known, "1 log is taken in.", "{count} logs are taken in."),
            };
            words::sentences(&[&given, &back])
        })
    };
    view! {
        <Show when=move || since.with(Option::is_some)>
            <section class="notice" data-test="home-practice-link">
                <h2>{say!("Home practice since last time")}</h2>
                <p>{said}</p>
                <button type="button" class="btn" data-test="home-practice" on:click=move |_| app.show(Route::HomePractice)>
                    {say!("Bring in what was done")}
                </button>
            </section>
        </Show>
    }
}

/// What the last sheet asked for, so that it can be talked about.
#[component]
fn GivenSheet() -> impl IntoView {
    let app = App::get();
    let last = memo(move |_| {
        app.current.with(|visit| {
            app.earlier.with(|earlier| {
                let given = *sheets_before(visit.as_ref()?, earlier).first()?;
                let sheet = Sheet::decode(&given.text).ok();
                let titles =
                    sheet.map(|s| s.entries.iter().map(|entry| words::of(entry.exercise.title)).collect::<Vec<_>>());
                Some((long_date(given.at.date()), titles.unwrap_or_default()))
            })
        })
    });
    move || {
        let Some((day, titles)) = last.get() else {
            let none = say!("No earlier visit here gave a sheet. A log can be taken in all the same.");
            return view! { <p data-test="sheet">{none}</p> }.into_any();
        };
        view! {
            <section data-test="sheet">
                <h2>{say!("Sheet of {day}", day)}</h2>
                <p>{titles.join("; ")}</p>
            </section>
        }
        .into_any()
    }
}

/// The ways back.
#[component]
fn Ways(
    take: Callback<(How, String)>,
    refused: RwSignal<Option<String>>,
    took: RwSignal<Option<&'static str>>,
    typed: [RwSignal<String>; NUMBERS],
) -> impl IntoView {
    let file = NodeRef::<Input>::new();
    let chosen = move |_| {
        let Some(input) = file.get_untracked() else { return };
        let first = file_in::all(input.files()).into_iter().next();
        // The same file can be chosen again.
        input.set_value("");
        let Some(first) = first else { return };
        leptos::task::spawn_local(async move {
            match file_in::read(&first, LARGEST_FILE).await {
                Ok(bytes) => {
                    take.try_run((How::File, String::from_utf8_lossy(&bytes).into_owned()));
                }
                Err(_) => {
                    refused
                        .try_set(Some(say!("This file is no log. Choose the one that their page saved.").to_string()));
                }
            }
        });
    };
    let six = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        let numbers = typed.map(|number| number.get_untracked().trim().to_string());
        // One that is too short would shift all behind it.
        let short = numbers.iter().position(|number| number.len() != 3);
        match short {
            Some(at) => refused.set(Some(say!("Number {at} has three digits. Ask for it again.", at = at + 1))),
            None => take.run((How::Numbers, numbers.join(" "))),
        }
    };
    // The camera's button and the numbers stand a screen apart on a phone; what is said stands between them.
    Effect::new(move |_| {
        if refused.with(Option::is_some) || took.with(Option::is_some) {
            focus::show("home-said");
        }
    });
    let pasted = RwSignal::new(String::new());
    let message = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        take.run((How::Message, pasted.get_untracked()));
        if refused.with_untracked(Option::is_none) {
            pasted.set(String::new());
        }
    };
    view! {
        <h2>{say!("From their phone")}</h2>
        <Scan label=say!("Scan their code") on_text=Callback::new(move |text| take.run((How::Code, text))) />
        <div class="reasons">
            <label class="btn file">
                {say!("Open their file")}
                <input type="file" accept=".txt,text/plain" data-test="log-file" node_ref=file on:change=chosen />
            </label>
        </div>
        <form on:submit=message>
            <TextBox id="log-text" label=say!("Or paste their message") text=pasted max=LARGEST_FILE refused_by="home-refused" />
            <button type="submit" class="btn" data-test="message" disabled=move || pasted.with(|text| text.trim().is_empty())>
                {say!("Take in the message")}
            </button>
        </form>
        <div id="home-said">
            <p class="refused" id="home-refused" role="alert" data-test="refused">{move || refused.get()}</p>
            <p role="status" data-test="took">{move || took.get()}</p>
        </div>
        <form on:submit=six>
            <fieldset class="ask" aria-describedby="home-refused">
                <legend>{say!("Or six numbers, read aloud")}</legend>
                <div class="six-numbers">
                    {typed.into_iter().enumerate().map(|(at, number)| view! { <OneNumber at number /> }).collect_view()}
                </div>
                <button type="submit" class="btn" data-test="numbers">{say!("Take in the numbers")}</button>
            </fieldset>
        </form>
    }
}

/// One number of three digits; that it was misheard shows as soon as it is whole.
#[component]
fn OneNumber(at: usize, number: RwSignal<String>) -> impl IntoView {
    let id = format!("number-{}", at + 1);
    let wrong = move || {
        let text = number.get();
        text.len() == 3 && !fits(at, &text)
    };
    let said = format!("misheard-{}", at + 1);
    view! {
        <div class="six-number">
            <label for=id.clone()>{at + 1}</label>
            <input
                type="text"
                id=id.clone()
                data-test=id
                inputmode="numeric"
                autocomplete="off"
                maxlength="3"
                aria-invalid=move || wrong().to_string()
                aria-describedby=said.clone()
                prop:value=move || number.get()
                on:input=move |event| {
                    number.set(event_target_value(&event).chars().filter(char::is_ascii_digit).take(3).collect());
                }
            />
            <span class="misheard" id=said role="status">{move || wrong().then_some(say!("ask again"))}</span>
        </div>
    }
}

/// What came back so far.
#[component]
fn CameBack(open: bool, took: RwSignal<Option<&'static str>>) -> impl IntoView {
    let app = App::get();
    let page = memo(move |_| {
        app.current.with(|visit| {
            let visit = visit.as_ref().filter(|visit| !visit.logs.is_empty())?;
            Some(app.earlier.with(|earlier| summary::home_practice(visit, earlier)))
        })
    });
    let out = move |_| {
        app.at_home(Edit::TakeOutLog);
        took.set(Some(say!("Taken out again.")));
    };
    move || {
        page.get().map(|document| {
            view! {
                <section data-test="came-back">
                    <DocumentView document />
                    {open.then(|| view! {
                        <button type="button" class="btn quiet" data-test="take-out" on:click=out>{say!("Take the last one out again")}</button>
                    })}
                </section>
            }
        })
    }
}

fn whose(app: App) -> String {
    app.person().map(|person| person.label).unwrap_or_default()
}

/// Back to where the visit stands; without one, to the start.
fn leave(app: App) {
    let at = app.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.at.clone()));
    app.show(match at {
        Some(slot) if !slot.is_empty() => Route::Step(slot),
        Some(_) => Route::Step("summary".to_string()),
        None => Route::Home,
    });
}
