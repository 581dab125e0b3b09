//! The summary: read, printed, pasted, shared or saved.

use leptos::prelude::*;
use sidelight_core::document::Document;
use sidelight_core::export::{html, text};
use sidelight_core::flow::Step;
use sidelight_core::keeping::Wanted;
use sidelight_core::summary::{self, Options};

use super::addendum::AddCorrection;
use super::plan::ToPlan;
use crate::memo::memo;
use crate::platform::{clipboard, download, focus, print, share};
use crate::route::Route;
use crate::state::{App, PROGRAM, now};
use crate::widgets::bar::Head;
use crate::widgets::document::DocumentView;
use crate::widgets::show::Show;

#[component]
pub fn Summary() -> impl IntoView {
    let app = App::get();
    // Asked anew each time, because whoever reads the summary may take the model for a reading of a lesion.
    let model = RwSignal::new(false);
    let document = memo(move |_| {
        let person = app.person()?;
        app.changes.with(|changes| {
            let options = Options::new(PROGRAM).printed_at(now()).with_working_model(model.get());
            let options = changes.as_ref().map_or(options, |changes| options.with_changes(changes));
            let page = |options: &Options<'_>| {
                app.assessment.with(|assessment| {
                    app.current
                        .with(|visit| Some(summary::compose(&person, visit.as_ref()?, assessment.as_ref()?, options)))
                })
            };
            app.addenda
                .with(|addenda| app.earlier.with(|earlier| page(&options.with_addenda(addenda).with_visits(earlier))))
        })
    });
    let closed = move || app.is_closed();
    let with = move |run: fn(App, &Document)| {
        document.with_untracked(|document| {
            if let Some(document) = document {
                run(app, document);
            }
        });
    };
    let back =
        Callback::new(move |()| if app.is_closed_now() { app.show(Route::Home) } else { app.go(Step::Decision) });
    let person = memo(move |_| app.person().map(|person| person.label).unwrap_or_default());
    view! {
        <main class="screen" data-screen="summary" data-closed=move || closed().to_string()>
            <Head title=say!("Summary").to_string() place=Signal::derive(move || person.get()) back=(say!("Back"), back) />
            <div class="body document" data-test="summary">
                <Show when=move || !closed()>
                    <p class="notice" data-test="still-open">{say!("This visit is still open. Close it to fix what stands here.")}</p>
                </Show>
                <Show when=closed>
                    <button type="button" class="link no-print" data-test="to-ways" on:click=move |_| to_ways()>{say!("Correct, print, hand over")}</button>
                </Show>
                {move || document.get().map(|document| view! { <h2 class="document-title">{document.title.clone()}</h2> <DocumentView document /> })}
                <Show when=closed>
                    <AddCorrection />
                </Show>
                <div class="more no-print" id=WAYS tabindex="-1">
                    <ToPlan />
                    <h2>{say!("Take it along")}</h2>
                    <Show when=move || app.settings.with(|settings| settings.working_model)>
                        <label class="chip" data-test="with-model">
                            <input type="checkbox" prop:checked=move || model.get() on:change=move |_| model.update(|on| *on = !*on) />
                            <span>{say!("Add the working model to what leaves this device")}</span>
                        </label>
                    </Show>
                    <div class="reasons">
                        <button type="button" class="btn" data-test="copy" on:click=move |_| with(copy_all)>{say!("Copy as text")}</button>
                        <button type="button" class="btn" data-test="html" on:click=move |_| with(save_html)>{say!("Save as a page")}</button>
                        <button type="button" class="btn" data-test="print" on:click=move |_| print::print()>{say!("Print")}</button>
                        <button type="button" class="btn" data-test="hand-over-visit" on:click=move |_| to(app, Route::HandOver)>{say!("Hand over")}</button>
                        <button type="button" class="btn" data-test="export" on:click=move |_| to(app, Route::Export)>{say!("Other formats")}</button>
                    </div>
                    <p class="soft">{say!("Only a hand over can be sealed. Whoever gets any other file, or the text, can read it.")}</p>
                </div>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="home" on:click=move |_| app.show(Route::Home)>{say!("To the start")}</button>
                <button type="button" class="btn main" data-test="share" on:click=move |_| with(send)>
                    {if share::available() { say!("Share") } else { say!("Copy as text") }}
                </button>
            </footer>
        </main>
    }
}

/// Where the ways out of this device stand, below all of the summary.
const WAYS: &str = "summary-ways";

/// A summary is many screens long: the way to its end is one tap.
fn to_ways() {
    focus::on_first_enabled(&[WAYS]);
    focus::show(WAYS);
}

fn copy_all(app: App, document: &Document) {
    copy(app, &text::render(document));
}

/// Puts words on the clipboard and says how it went.
pub fn copy(app: App, words: &str) {
    let words = words.to_string();
    leptos::task::spawn_local(async move {
        let said = match clipboard::copy(&words).await {
            Ok(()) => say!("Copied. Paste it into the note."),
            Err(_) => say!("This browser did not allow copying. Save it as a page instead."),
        };
        app.said.set(Some(said.to_string()));
    });
}

/// The share sheet takes the page and its text; where there is none, the text is copied.
fn send(app: App, document: &Document) {
    if !share::available() {
        return copy_all(app, document);
    }
    let (words, page) = (text::render(document), html::render(document));
    let title = document.title.clone();
    leptos::task::spawn_local(async move {
        let file = share::File { name: file_name("html"), kind: "text/html", bytes: page.into_bytes() };
        match share::share(&title, &words, Some(file)).await {
            share::Outcome::Done | share::Outcome::Cancelled => {}
            share::Outcome::Failed => {
                app.said.set(Some(say!("This browser could not share. Copy it as text, or save it as a page.").into()));
            }
        }
    });
}

fn save_html(app: App, document: &Document) {
    saved(app, download::save(&file_name("html"), "text/html", html::render(document).as_bytes()));
}

/// A screen that is about this one visit then.
fn to(app: App, route: Route) {
    let Some(id) = app.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.id.clone())) else { return };
    app.wanted.set(Wanted::Visit(id));
    app.show(route);
}

/// Says whether a file was saved.
pub fn saved<E>(app: App, outcome: Result<(), E>) {
    let said = match outcome {
        Ok(()) => say!("Saved to the downloads of this device."),
        Err(_) => say!("This browser did not save the file. Copy it as text instead."),
    };
    app.said.set(Some(said.to_string()));
}

/// File names carry the day, never a person.
pub fn file_name(ending: &str) -> String {
    format!("sidelight-{}.{ending}", sidelight_core::calendar::iso_date(now().date()))
}
