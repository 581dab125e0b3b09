//! What was written: saved or shared.

use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::ledger::HandedOver;
use sidelight_core::export::fhir;
use sidelight_core::hand_over::file_stem;

use super::super::hand_over::made::{lacking, size};
use super::super::safe::visits;
use super::{Form, POSTED_TWICE};
use crate::platform::{download, share};
use crate::state::App;
use crate::words;

/// One file.
#[derive(Clone)]
struct File {
    name: String,
    kind: &'static str,
    bytes: Rc<Vec<u8>>,
}

impl File {
    fn new(stem: &str, rest: &str, kind: &'static str, bytes: Vec<u8>) -> File {
        File { name: format!("{stem}-{rest}"), kind, bytes: Rc::new(bytes) }
    }

    /// Under which name and kind the share sheet takes it, if at all: where JSON is refused, the same as text may go.
    fn shared_as(&self) -> Option<(String, &'static str)> {
        let own = (self.name.clone(), self.kind);
        let text = (self.name.ends_with(".json")).then(|| (format!("{}.txt", self.name), "text/plain"));
        let takes = |(name, kind): &(String, &'static str)| {
            // The answer hangs on name and kind alone.
            share::takes(&share::File { name: name.clone(), kind, bytes: vec![b' '] })
        };
        share::available().then(|| std::iter::once(own).chain(text).find(takes)).flatten()
    }
}

/// Everything that was written.
#[derive(Clone)]
pub struct Written {
    form: Form,
    visits: usize,
    /// Visits that did not fit.
    left: usize,
    /// Visits that cannot be read.
    damaged: usize,
    file: File,
    /// Whose the study codes are.
    codes: Option<File>,
}

impl Written {
    /// Files carry the day, a word, and what they are.
    pub fn of(
        form: Form,
        note: &HandedOver,
        [left, damaged]: [usize; 2],
        parts: Vec<Vec<u8>>,
    ) -> Result<Written, String> {
        let mut parts = parts.into_iter();
        let first = parts.next().ok_or(say!("The file could not be written. Load the page again."))?;
        let stem = file_stem(note.made.date(), &note.word);
        let codes = parts.next().map(|list| File::new(&stem, "study-codes.csv", "text/csv", list));
        let file = match form {
            Form::Server => File::new(&stem, "fhir-transaction.json", "application/json", first),
            Form::Program => File::new(&stem, "fhir-collection.json", "application/json", first),
            Form::Spreadsheet | Form::Statistics if codes.is_some() => {
                File::new(&stem, "tables-coded.zip", "application/zip", first)
            }
            Form::Spreadsheet | Form::Statistics => File::new(&stem, "tables-named.zip", "application/zip", first),
        };
        Ok(Written { form, visits: note.visits.len(), left, damaged, file, codes })
    }
}

#[component]
pub fn Files(files: Written, again: Callback<()>) -> impl IntoView {
    let app = App::get();
    let Written { form, visits: count, left, damaged, file, codes } = files;
    let (name, length) = (file.name.clone(), size(file.bytes.len()));
    let rest = (left > 0).then(|| {
        say!(
            "{visits} more did not fit: a file is made from at most {size}. Choose fewer people at a time.",
            visits = visits(left),
            size = size(archive::MAX_BYTES)
        )
    });
    let post = (form == Form::Server).then(|| fhir::post_command(&file.name));
    let shared = file.shared_as();
    let file = StoredValue::new_local(file);
    let save_main = move |_| file.with_value(|file| save(app, file));
    let share = shared.map(|(name, kind)| {
        let send = move |_| {
            let bytes = file.with_value(|file| file.bytes.to_vec());
            send(app, share::File { name: name.clone(), kind, bytes });
        };
        view! { <button type="button" class="btn quiet grow" data-test="share-file" on:click=send>{say!("Share")}</button> }
    });
    view! {
        <div class="body" tabindex="0">
            <p class="lead" data-test="file-ready">{say!("The file is ready: {visits}, not sealed.", visits = visits(count))}</p>
            <p class="file-name" data-test="file-name">{name}</p>
            <p class="soft" data-test="file-size">{length}</p>
            {rest.map(|rest| view! { <p class="notice" data-test="did-not-fit">{rest}</p> })}
            {lacking(damaged).map(|lacks| view! { <p class="notice" data-test="lacks">{lacks}</p> })}
            {post.map(|command| view! { <Post command /> })}
            {codes.map(|codes| view! { <Codes codes /> })}
            <p class="soft">{say!("Nothing is kept here of this file, and its visits do not count as handed over by it.")}</p>
            <button type="button" class="link" data-test="again" on:click=move |_| again.run(())>{say!("Make another file")}</button>
        </div>
        <footer>
            {share}
            <button type="button" class="btn main" data-test="save-file" on:click=save_main>{say!("Save the file")}</button>
        </footer>
    }
}

#[component]
fn Post(command: String) -> impl IntoView {
    view! {
        <section class="ask" aria-labelledby="post-title">
            <h2 id="post-title">{say!("To a server")}</h2>
            <p>{say!("On a computer, in the folder of the file, with the address of your own server:")}</p>
            <p class="key-text" data-test="command">{command}</p>
            <p class="soft">{words::of(POSTED_TWICE)}</p>
        </section>
    }
}

/// The list of codes is saved and never shared: it undoes what the tables leave out.
#[component]
fn Codes(codes: File) -> impl IntoView {
    let app = App::get();
    let (name, length) = (codes.name.clone(), size(codes.bytes.len()));
    let codes = StoredValue::new_local(codes);
    view! {
        <section class="caution" aria-labelledby="codes-title" data-test="codes">
            <h2 id="codes-title">{say!("Whose the codes are")}</h2>
            <p>{say!("A second file, with names: it stays with the clinic and never goes along with the tables. Codes are drawn anew for each file, so keep this list if you must ever find a person again.")}</p>
            <p class="file-name" data-test="codes-name">{name}</p>
            <p class="soft">{length}</p>
            <button type="button" class="btn" data-test="save-codes" on:click=move |_| codes.with_value(|codes| save(app, codes))>{say!("Save the list of codes")}</button>
        </section>
    }
}

fn save(app: App, file: &File) {
    let said = match download::save(&file.name, file.kind, &file.bytes) {
        Ok(()) => say!("Saved to the downloads of this device. Delete it there when it has arrived."),
        Err(_) => say!("This browser did not save the file. Choose fewer visits, or use another browser."),
    };
    app.said.set(Some(said.to_string()));
}

fn send(app: App, file: share::File) {
    leptos::task::spawn_local(async move {
        let said = match share::share_file(file).await {
            share::Outcome::Done => return,
            share::Outcome::Cancelled => say!("Not shared."),
            share::Outcome::Failed => say!("This device does not share such a file. Save it instead."),
        };
        app.said.set(Some(said.to_string()));
    });
}
