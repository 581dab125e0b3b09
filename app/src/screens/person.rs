//! One person: what changed last, values over time, every visit, and what can be taken along.

use leptos::prelude::*;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::document::Document;
use sidelight_core::export::{html, text};
use sidelight_core::keeping::Wanted;
use sidelight_core::summary::{self, Options};

use super::home::VisitRows;
use super::joined::JoinedEntries;
use super::summary::{copy, file_name, saved};
use super::who::{LONGEST, read_born, read_label};
use crate::memo::memo;
use crate::platform::{download, print};
use crate::route::Route;
use crate::state::{App, Listed, PROGRAM, now};
use crate::widgets::bar::Head;
use crate::widgets::document::DocumentView;
use crate::widgets::more::{More, PAGE};
use crate::widgets::text_box::TextBox;
use crate::words;

#[component]
pub fn PersonPane(id: String) -> impl IntoView {
    let app = App::get();
    let Some(person) = untrack(|| app.whose(&id)) else { return view! { <Unknown /> }.into_any() };
    let id = StoredValue::new(person.id.clone());
    let known = memo(move |_| id.with_value(|id| app.whose(id)));
    let listed = memo(move |_| {
        let own = |one: &&Listed| id.with_value(|id| one.entry.person == *id);
        app.listed.with(|all| all.iter().filter(own).cloned().collect::<Vec<_>>())
    });
    Effect::new(move |_| {
        listed.track();
        id.with_value(|id| app.want_person(id));
    });
    // Nothing is said of the values over time before every visit was read: part of them could tell another story.
    let visits: Memo<Option<Vec<Visit>>> = memo(move |_| id.with_value(|id| app.visits_of(id)));
    let over_time = move || {
        let person = known.get()?;
        visits.with(|visits| Some(summary::person::over_time(&person, visits.as_ref()?)))
    };
    let page = move || {
        let person = known.get_untracked()?;
        let options = Options::new(PROGRAM).printed_at(now());
        visits.with_untracked(|visits| Some(summary::person::compose(&person, visits.as_ref()?, &options)))
    };
    let shown = RwSignal::new(PAGE);
    let rows = move || {
        let rows: Vec<Listed> = listed.with(|own| own.iter().take(shown.get()).cloned().collect());
        view! { <VisitRows rows why=true /> }
    };
    let with = move |run: fn(App, &Document)| {
        if let Some(document) = page() {
            run(app, &document);
        }
    };
    let back = Callback::new(move |()| app.show(Route::People));
    let label = Signal::derive(move || known.with(|person| person.as_ref().map_or(String::new(), |p| p.label.clone())));
    let hand_over = move |_| {
        app.wanted.set(Wanted::People([id.get_value()].into()));
        app.show(Route::HandOver);
    };
    let export = move |_| {
        app.wanted.set(Wanted::People(id.with_value(|id| app.entries_of(id))));
        app.show(Route::Export);
    };
    let begin = move |_| app.show(Route::WhoFor(id.get_value()));
    let (before, after) = words::around(&say!("Start a visit for {name}", name = words::HERE));
    view! {
        <section class="pane pane-person" aria-label=say!("The chosen person") data-test="person">
            <Head title=label place=Signal::derive(move || born_line(known.get().as_ref())) back=(say!("Back to people"), back) />
            <div class="body document" tabindex="0">
                <h2 class="print-only document-title">{move || say!("{name}, examinations over time", name = label.get())}</h2>
                {move || over_time().map(|document| view! { <DocumentView document fold=true /> })}
                <h2>{say!("Visits")}</h2>
                <div class="rows" data-test="visits">{rows}</div>
                <More shown total=Signal::derive(move || listed.with(Vec::len)) />
                <JoinedEntries id=id.get_value() />
                <Edit person=known />
                <p class="note">{summary::NOT_A_DIAGNOSIS}</p>
                <div class="more no-print">
                    <h2>{say!("Take it along")}</h2>
                    <div class="reasons">
                        <button type="button" class="btn" data-test="print" on:click=move |_| print::print()>{say!("Print")}</button>
                        <button type="button" class="btn" data-test="copy" on:click=move |_| with(|app, page| copy(app, &text::render(page)))>{say!("Copy as text")}</button>
                        <button type="button" class="btn" data-test="html" on:click=move |_| with(save)>{say!("Save as a page")}</button>
                    </div>
                    <p class="soft">{say!("Files and text leave this device unsealed: whoever gets them can read them.")}</p>
                    <button type="button" class="link" data-test="hand-over-person" on:click=hand_over>{say!("Hand over, sealed")}</button>
                    <button type="button" class="link" data-test="export" on:click=export>{say!("Other formats")}</button>
                    <button type="button" class="link" data-test="erase-person" on:click=move |_| app.show(Route::Erase(id.get_value()))>{say!("Erase this person")}</button>
                </div>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="start-for" on:click=begin><span>{before}<bdi>{label}</bdi>{after}</span></button>
            </footer>
        </section>
    }
    .into_any()
}

/// Changes the code or name and the birth. Visits are read anew by it: ranges differ by age.
#[component]
fn Edit(person: Memo<Option<Person>>) -> impl IntoView {
    let app = App::get();
    let now_called = person.get_untracked();
    let label = RwSignal::new(now_called.as_ref().map(|person| person.label.clone()).unwrap_or_default());
    let born = RwSignal::new(now_called.and_then(|person| person.born).map(|born| born.text()).unwrap_or_default());
    let refused = RwSignal::new(None::<String>);
    let keep = move |_| {
        let Some(known) = person.get_untracked() else { return };
        let read = read_label(&label.get_untracked()).and_then(|label| Ok((label, read_born(&born.get_untracked())?)));
        match read {
            Ok((label, born)) => {
                refused.set(None);
                app.keep_person(Person { label, born, ..known });
                app.said.set(Some(say!("Changed. Every visit is read by it.").to_string()));
            }
            Err(why) => refused.set(Some(why)),
        }
    };
    view! {
        <details class="fold no-print" data-test="edit">
            <summary>{say!("Change code, name or birth")}</summary>
            <TextBox id="edit-label" label=say!("A code or a name") text=label max=LONGEST refused_by="edit-refused" />
            <TextBox
                id="edit-born"
                label=say!("Birth year, or date")
                help=say!("Such as 2012 or 2012-05-31. Published ranges differ by age, so every visit is read anew.")
                text=born
                max=10
                digits=true
                refused_by="edit-refused"
            />
            <p class="refused" id="edit-refused" role="alert" data-test="refused">{move || refused.get()}</p>
            <button type="button" class="btn" data-test="keep" on:click=keep>{say!("Keep the change")}</button>
        </details>
    }
}

#[component]
pub fn Unknown() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::People));
    view! {
        <section class="pane pane-person" aria-label=say!("The chosen person")>
            <Head title=say!("Not known here").to_string() back=(say!("Back to people"), back) />
            <div class="body"><p>{say!("This person is not among those kept on this device.")}</p></div>
        </section>
    }
}

fn born_line(person: Option<&Person>) -> String {
    let Some(person) = person else { return String::new() };
    let age = person.born.and_then(|born| born.age(now().date()));
    let years = age.map(|age| say!("{years} years", years = age.years));
    let born = person.born.map(super::likely::born_on);
    let invented = person.invented.then(|| say!("invented").to_string());
    [years, born, invented].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

fn save(app: App, document: &Document) {
    saved(app, download::save(&file_name("html"), "text/html", html::render(document).as_bytes()));
}
