//! The file that was made: shared, saved or dragged out. Before any of it the log on the disk says so.

use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::ledger::HandedOver;
use sidelight_core::hand_over::file_name;

use super::visits;
use crate::platform::{download, drag_out, share};
use crate::route::Route;
use crate::state::App;
use crate::state::hand_over::Packed;
use crate::widgets::show::Show;

/// A file that has not left yet.
#[derive(Clone)]
pub struct Made {
    note: HandedOver,
    /// Visits that did not fit, and visits that cannot be read.
    left_out: [usize; 2],
    name: String,
    kind: &'static str,
    sealed: bool,
    bytes: Rc<Vec<u8>>,
    text: Option<Rc<Vec<u8>>>,
}

impl Made {
    /// A file that everyone can read.
    pub fn plain(packed: Packed) -> Made {
        let name = file_name(packed.note.made.date(), &packed.note.word, false);
        let bytes = Rc::new(packed.bytes);
        let text = Some(Rc::clone(&bytes));
        let left_out = [packed.left, packed.damaged];
        Made { note: packed.note, left_out, name, kind: "application/json", sealed: false, text, bytes }
    }

    /// What the second module sealed: the bytes, and the same as text where it was asked for.
    pub fn sealed(note: HandedOver, left_out: [usize; 2], parts: Vec<Vec<u8>>) -> Result<Made, String> {
        let mut parts = parts.into_iter().map(Rc::new);
        let bytes = parts.next().ok_or(say!("The file could not be sealed. Load the page again."))?;
        let name = file_name(note.made.date(), &note.word, true);
        Ok(Made { note, left_out, name, kind: "application/octet-stream", sealed: true, bytes, text: parts.next() })
    }

    /// Share sheets take texts; this is the same file as one.
    fn for_sharing(&self) -> Option<share::File> {
        let text = self.text.as_ref()?;
        Some(share::File { name: format!("{}.txt", self.name), kind: "text/plain", bytes: text.to_vec() })
    }
}

#[component]
pub fn MadeFile(file: Made, again: Callback<()>) -> impl IntoView {
    let app = App::get();
    let left = RwSignal::new(false);
    let can_share = share::available() && file.for_sharing().is_some_and(|file| share::takes(&file));
    let (name, length) = (file.name.clone(), size(file.bytes.len()));
    let what = visits(file.note.visits.len());
    let [unfit, damaged] = file.left_out;
    let rest = (unfit > 0).then(|| {
        say!(
            "{visits} more did not fit: a file holds at most {size}. Hand this one over, then make another of what is new, or of fewer people.",
            visits = visits(unfit),
            size = size(archive::MAX_BYTES)
        )
    });
    let damaged = lacking(damaged);
    let seal = if file.sealed { say!("sealed") } else { say!("not sealed: anyone can read it") };
    let file = StoredValue::new_local(file);
    let save = move |_| {
        leptos::task::spawn_local(async move {
            let file = file.get_value();
            if let Err(why) = app.note_hand_over(file.note.clone()).await {
                return app.said.set(Some(why));
            }
            left.try_set(true);
            super::super::summary::saved(app, download::save(&file.name, file.kind, &file.bytes));
        });
    };
    let send = move |_| {
        leptos::task::spawn_local(async move {
            let file = file.get_value();
            let Some(shared) = file.for_sharing() else { return };
            let before = left.get_untracked();
            if let Err(why) = app.note_hand_over(file.note.clone()).await {
                return app.said.set(Some(why));
            }
            let said = match share::share_file(shared).await {
                share::Outcome::Done => {
                    left.try_set(true);
                    return;
                }
                share::Outcome::Cancelled => say!("Not shared."),
                share::Outcome::Failed => say!("This device does not share such a file. Save it instead."),
            };
            if !before {
                app.take_back(&file.note.id);
            }
            app.said.set(Some(said.to_string()));
        });
    };
    let share = can_share.then(
        || view! { <button type="button" class="btn quiet grow" data-test="share-file" on:click=send>{say!("Share")}</button> },
    );
    view! {
        <div class="body" tabindex="0">
            <p class="lead" data-test="file-ready">{say!("The file is ready: {visits}, {seal}.", visits = what, seal)}</p>
            <p class="file-name" data-test="file-name">{name}</p>
            <p class="soft" data-test="file-size">{length}</p>
            {rest.map(|rest| view! { <p class="notice" data-test="did-not-fit">{rest}</p> })}
            {damaged.map(|damaged| view! { <p class="notice" data-test="lacks">{damaged}</p> })}
            <DragOut file left />
            <Show when=move || left.get()>
                <div class="notice" role="status" data-test="left">
                    <p>{say!("Noted: these visits wait for a receipt. At the clinic, take the file in; then enter the six words here that its screen shows.")}</p>
                    <button type="button" class="btn" data-test="to-receipt" on:click=move |_| app.show(Route::Receipt)>{say!("Enter the receipt")}</button>
                </div>
            </Show>
            <button type="button" class="link" data-test="again" on:click=move |_| again.run(())>{say!("Make another file")}</button>
        </div>
        <footer>
            {share}
            <button type="button" class="btn main" data-test="save-file" on:click=save>{say!("Save the file")}</button>
        </footer>
    }
}

/// A link that leaves the file where it is dropped.
#[component]
fn DragOut(file: StoredValue<Made, LocalStorage>, left: RwSignal<bool>) -> impl IntoView {
    let app = App::get();
    let offered = drag_out::available()
        .then(|| file.with_value(|file| drag_out::Offered::new(&file.name, file.kind, &file.bytes).ok()))
        .flatten();
    let Some(offered) = offered else { return ().into_any() };
    let (address, name) = (offered.address().to_string(), file.with_value(|file| file.name.clone()));
    let offered = StoredValue::new_local(offered);
    let begin = move |event: web_sys::DragEvent| {
        offered.with_value(|offered| offered.begin(&event));
        if !left.get_untracked() {
            app.note_hand_over_soon(file.with_value(|file| file.note.clone()));
        }
    };
    let end = move |event: web_sys::DragEvent| {
        if drag_out::taken(&event) {
            left.set(true);
        } else if !left.get_untracked() {
            app.take_back(&file.with_value(|file| file.note.id.clone()));
        }
    };
    let saved = move |event: web_sys::MouseEvent| {
        // A click would save without the log; the button below does both.
        event.prevent_default();
        app.said.set(Some(say!("Drag it into a folder, or use “Save the file”.").to_string()));
    };
    view! {
        <a class="link drag" href=address download=name draggable="true" data-test="drag-out" on:dragstart=begin on:dragend=end on:click=saved>
            {say!("Drag the file from here into a folder")}
        </a>
    }
    .into_any()
}

/// What a file leaves out because it cannot be read.
pub fn lacking(damaged: usize) -> Option<String> {
    match damaged {
        0 => None,
        1 => Some(say!("1 visit cannot be read and is not in the file.").to_string()),
        _ => Some(say!("{damaged} visits cannot be read and are not in the file.", damaged)),
    }
}

/// "12 kB", "3.4 MB".
pub fn size(bytes: usize) -> String {
    match bytes {
        0..100_000 => say!("{size} kB", size = bytes.div_ceil(1000)),
        _ => say!("{size} MB", size = format!("{:.1}", bytes as f64 / 1e6)),
    }
}
