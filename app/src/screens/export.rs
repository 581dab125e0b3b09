//! Other formats: FHIR for other programs, tables for spreadsheets and statistics. None of them is sealed, and nothing
//! here counts as handed over.

mod files;
mod what;

use leptos::prelude::*;
use sidelight_core::export::fhir;
use sidelight_core::export::table::PSEUDONYMISED;
use sidelight_core::flow::Step;
use sidelight_core::keeping::{Selection, Wanted};
use sidelight_worker::{Ask, Made};

use self::files::{Files, Written};
use self::what::What;
use super::safe::visits;
use crate::memo::memo;
use crate::platform::worker;
use crate::route::Route;
use crate::state::{App, PROGRAM, now};
use crate::widgets::bar::Head;
use crate::widgets::pick::{Pick, Tick};
use crate::widgets::show::Show;
use crate::words;

/// What the file is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    Server,
    Program,
    Spreadsheet,
    Statistics,
}

impl Form {
    const ALL: [Form; 4] = [Form::Server, Form::Program, Form::Spreadsheet, Form::Statistics];

    fn is_table(self) -> bool {
        match self {
            Form::Spreadsheet | Form::Statistics => true,
            Form::Server | Form::Program => false,
        }
    }

    fn test(self) -> &'static str {
        match self {
            Form::Server => "form-server",
            Form::Program => "form-program",
            Form::Spreadsheet => "form-spreadsheet",
            Form::Statistics => "form-statistics",
        }
    }

    fn label(self) -> &'static str {
        match self {
            Form::Server => say!("A records server (FHIR)"),
            Form::Program => say!("Another program (FHIR)"),
            Form::Spreadsheet => say!("A spreadsheet"),
            Form::Statistics => say!("Statistics"),
        }
    }

    /// What it is for, in one line.
    fn says(self) -> &'static str {
        match self {
            Form::Server => {
                say!(
                    "A FHIR R4 transaction, to be posted to a server. It keeps each visit once, however often it is posted."
                )
            }
            Form::Program => {
                say!("A FHIR R4 collection: one file to keep, or for programs that read FHIR. Not to be posted.")
            }
            Form::Spreadsheet => {
                say!("Tables (CSV) in one zip file, marked so that spreadsheets read every letter right.")
            }
            Form::Statistics => {
                say!("The same tables (CSV) in one zip file, unmarked, each column described for statistics programs.")
            }
        }
    }
}

/// What was chosen beside the visits.
#[derive(Clone, Copy)]
struct Choices {
    form: RwSignal<Form>,
    named: RwSignal<bool>,
    understood: RwSignal<bool>,
}

impl Choices {
    /// Whether names stand in the file.
    fn names(self) -> bool {
        !self.form.get().is_table() || self.named.get()
    }
}

#[component]
pub fn Export() -> impl IntoView {
    let app = App::get();
    let came_with = app.wanted.get_untracked();
    let (name, back) = way_back(app, came_with.clone());
    let choices =
        Choices { form: RwSignal::new(Form::Server), named: RwSignal::new(false), understood: RwSignal::new(false) };
    let written = RwSignal::new_local(None::<Written>);
    view! {
        <main class="screen" data-screen="export" data-made=move || written.with(Option::is_some).to_string()>
            <Head title=say!("Other formats").to_string() back=(name, back) />
            {move || match written.get() {
                None => view! { <Asked choices came_with=came_with.clone() written /> }.into_any(),
                Some(files) => view! { <Files files again=Callback::new(move |()| written.set(None)) /> }.into_any(),
            }}
        </main>
    }
}

/// Back to the visit or the person one came from.
fn way_back(app: App, came_with: Wanted) -> (&'static str, Callback<()>) {
    let in_hand = app.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.id.clone()));
    match came_with {
        Wanted::Visit(id) if in_hand.as_ref() == Some(&id) => {
            (say!("Back to the summary"), Callback::new(move |()| app.go(Step::Summary)))
        }
        Wanted::People(people) if what::one_person(app, &people) => {
            let person = people.into_iter().next().unwrap_or_default();
            (say!("Back to the person"), Callback::new(move |()| app.show(Route::Person(person.clone()))))
        }
        Wanted::Visit(_) | Wanted::People(_) | Wanted::New | Wanted::All => {
            (say!("Back to safe keeping"), Callback::new(move |()| app.show(Route::Safe)))
        }
    }
}

/// What is asked before anything is written.
#[component]
fn Asked(choices: Choices, came_with: Wanted, written: RwSignal<Option<Written>, LocalStorage>) -> impl IntoView {
    let app = App::get();
    let refused = RwSignal::new(None::<String>);
    let working = RwSignal::new(None::<usize>);
    let selection = memo(move |_| app.wanted.with(|wanted| app.selection(wanted)));
    Effect::new(move |_| {
        selection.track();
        choices.form.track();
        choices.named.track();
        choices.understood.track();
        refused.set(None);
    });
    let make = move |_| {
        let selection = selection.get_untracked();
        if let Some(why) = missing(&selection, choices) {
            return refused.set(Some(why.to_string()));
        }
        refused.set(None);
        working.set(Some(selection.visits.len()));
        leptos::task::spawn_local(async move {
            let made = write(app, &selection, choices).await;
            working.try_set(None);
            match made {
                Ok(files) => drop(written.try_set(Some(files))),
                Err(why) => drop(refused.try_set(Some(why))),
            }
        });
    };
    view! {
        <div class="body" tabindex="0">
            <What came_with selection />
            <For choices />
            <Warning choices />
            <button type="button" class="link" data-test="instead" on:click=move |_| app.show(Route::HandOver)>
                {say!("Hand over instead: sealed, or unsealed as Sidelight itself reads it")}
            </button>
        </div>
        <div class="home-notes">
            <p class="refused" role="alert" data-test="refused">{move || refused.get()}</p>
            <div role="status" data-test="working">
                {move || working.get().map(|count| view! { <p>{say!("Writing {visits}…", visits = visits(count))}</p> })}
            </div>
        </div>
        <footer>
            <button type="button" class="btn main" data-test="make" disabled=move || working.get().is_some() on:click=make>{say!("Make the file")}</button>
        </footer>
    }
}

#[component]
fn For(choices: Choices) -> impl IntoView {
    let Choices { form, named, .. } = choices;
    let pick = move |one: Form| {
        let on = Signal::derive(move || form.get() == one);
        view! { <Pick name="form" test=one.test() label=one.label() on pick=move || form.set(one) /> }
    };
    view! {
        <fieldset class="ask">
            <legend>{say!("What for")}</legend>
            <div class="chips">{Form::ALL.map(pick).into_iter().collect_view()}</div>
        </fieldset>
        <p class="soft" data-test="says">{move || form.get().says()}</p>
        <Show when=move || form.get() == Form::Server>
            <details class="fold" data-test="how-to-post">
                <summary>{say!("How it reaches a server")}</summary>
                <p>{say!("On a computer, in the folder of the file, with its name and the address of your own server:")}</p>
                <p class="key-text" data-test="command">{fhir::post_command("FILE")}</p>
                <p class="soft">{words::of(POSTED_TWICE)}</p>
            </details>
        </Show>
        <Show when=move || form.get().is_table()>
            <fieldset class="ask">
                <legend>{say!("Who the tables name")}</legend>
                <div class="chips">
                    <Pick name="who" test="coded" label=say!("No one: study codes") on=Signal::derive(move || !named.get()) pick=move || named.set(false) />
                    <Pick name="who" test="named" label=say!("People, with dates") on=named pick=move || named.set(true) />
                </div>
            </fieldset>
        </Show>
    }
}

/// What a server does with a bundle it had before.
const POSTED_TWICE: &str = text!(
    "Posting the same file again creates nothing new. A correction written since takes the place of the earlier report."
);

#[component]
fn Warning(choices: Choices) -> impl IntoView {
    let Choices { understood, .. } = choices;
    let who_reads = move || {
        if choices.names() {
            say!(
                "The file is not sealed: whoever gets it reads names and findings. Make it on the computer where it is needed, send it by no mail and no chat, and delete it from the downloads when it has arrived."
            )
        } else {
            say!(
                "The file is not sealed: whoever gets it reads findings, without names. Make it on the computer where it is needed, send it by no mail and no chat, and delete it from the downloads when it has arrived."
            )
        }
    };
    view! {
        <div class="caution ask" data-test="unsealed">
            <p>{who_reads}</p>
            <Show when=move || !choices.names()>
                <p data-test="pseudonymised">{words::of(PSEUDONYMISED)}</p>
            </Show>
            <div class="chips">
                <Tick test="understood" label=say!("I know, and make it unsealed") on=understood flip=move || understood.update(|on| *on = !*on) />
            </div>
        </div>
    }
}

/// What has to be done first.
fn missing(selection: &Selection, choices: Choices) -> Option<&'static str> {
    if selection.visits.is_empty() {
        return Some(say!("There is no closed visit to write. Choose other visits, or close the open one first."));
    }
    (!choices.understood.get_untracked()).then_some(say!("Tick that you make it unsealed, or hand over instead."))
}

async fn write(app: App, selection: &Selection, choices: Choices) -> Result<Written, String> {
    let (form, named) = (choices.form.get_untracked(), choices.named.get_untracked());
    let packed = app.pack(selection).await?;
    let at = now();
    let made = Made { program: PROGRAM.to_string(), unix_ms: at.unix_ms, offset_minutes: at.offset_minutes };
    let ask = match form {
        Form::Server => Ask::Fhir { transaction: true, made },
        Form::Program => Ask::Fhir { transaction: false, made },
        Form::Spreadsheet => Ask::Tables { named, bom: true, made },
        Form::Statistics => Ask::Tables { named, bom: false, made },
    };
    let (_, parts) = worker::ask(ask, vec![packed.bytes]).await.map_err(|trouble| trouble.to_string())?;
    Written::of(form, &packed.note, [packed.left, packed.damaged], parts)
}
