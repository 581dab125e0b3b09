//! Records that cannot be read: each is told, and everything else can be saved as one file.

use std::collections::BTreeSet;

use leptos::prelude::*;
use sidelight_core::archive::{self, Archive};

use super::summary::file_name;
use crate::memo::memo;
use crate::platform::download;
use crate::platform::hash_route::reload;
use crate::state::App;
use crate::widgets::pick::Tick;
use crate::widgets::show::Show;
use crate::words;

/// What could not be read, as far as it was asked for, and what to do about it.
#[component]
pub fn Unreadable() -> impl IntoView {
    let app = App::get();
    let damaged = memo(move |_| app.damaged.with(BTreeSet::len));
    let counted = move || match damaged.get() {
        0 => None,
        1 => Some(say!("1 record cannot be read. All others can be used.")),
        _ => Some(say!("Some records cannot be read. All others can be used.")),
    };
    view! {
        <Show when=move || !app.unreadable.with(Vec::is_empty)>
            <section class="notice notice-strong" aria-label=say!("What cannot be read") data-test="unreadable">
                <div role="alert">
                    {move || counted().map(|counted| view! { <p><strong>{counted}</strong></p> })}
                    {move || app.unreadable.get().into_iter().map(|said| view! { <p>{said}</p> }).collect_view()}
                </div>
                <button type="button" class="btn" on:click=move |_| reload()>{say!("Try again")}</button>
                <Show when=move || 0 < damaged.get()>
                    <p class="soft">{say!("What was handed over before can be brought back: take that file in.")}</p>
                    <SaveReadable />
                </Show>
            </section>
        </Show>
    }
}

/// A file with everything that can be read, behind its warning. It needs no room in the store, and no other tab closed.
#[component]
pub fn SaveReadable() -> impl IntoView {
    let app = App::get();
    let understood = RwSignal::new(false);
    let refused = RwSignal::new(None::<&'static str>);
    let working = RwSignal::new(false);
    let save = move |_| {
        if !understood.get_untracked() {
            return refused.set(Some(say!("Tick that you save it unsealed. Nothing was saved.")));
        }
        refused.set(None);
        working.set(true);
        leptos::task::spawn_local(async move {
            let archive = app.everything().await;
            let bytes = archive::write_compact(&archive);
            let outcome = download::save(&file_name("json"), "application/json", &bytes);
            if working.try_set(false).is_some() {
                return;
            }
            app.said.set(Some(match outcome {
                Ok(()) => told(&archive, app.damaged.with_untracked(BTreeSet::len), bytes.len()),
                Err(_) => say!("This browser did not save the file. Allow downloads, then try again.").to_string(),
            }));
        });
    };
    view! {
        <details class="fold" data-test="save-readable">
            <summary>{say!("Save what can be read")}</summary>
            <div class="caution">
                <p>{say!("Every person and visit that can be read, open visits too, in one file that is not sealed: whoever gets it reads names and findings.")}</p>
                <div class="chips">
                    <Tick test="save-understood" label=say!("I know, and save it unsealed") on=understood flip=move || understood.update(|on| *on = !*on) />
                </div>
            </div>
            <p class="refused" role="alert" data-test="save-refused">{move || refused.get()}</p>
            <button type="button" class="btn" data-test="save-now" disabled=move || working.get() on:click=save>
                {move || if working.get() { say!("Reading…") } else { say!("Save the file") }}
            </button>
        </details>
    }
}

fn told(archive: &Archive, damaged: usize, bytes: usize) -> String {
    let visits = counted!(archive.visits.len(), "1 visit", "{count} visits");
    let people = counted!(archive.people.len(), "1 person", "{count} people");
    let lacks = match damaged {
        0 => String::new(),
        1 => say!("1 record cannot be read and is not in it.").to_string(),
        _ => say!("{damaged} records cannot be read and are not in it.", damaged),
    };
    let large = if bytes > archive::MAX_BYTES {
        say!("It is larger than Sidelight takes in again: hand over in parts too.")
    } else {
        ""
    };
    let saved = say!("Saved to the downloads of this device: {visits} of {people}.", visits, people);
    words::sentences(&[&saved, &lacks, large])
}
