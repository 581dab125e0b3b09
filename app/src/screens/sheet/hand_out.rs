//! The link and the file. Neither carries a name.

use leptos::prelude::*;
use sidelight_core::sheet::Sheet;

use crate::platform::{clipboard, download, share, sheet_file};
use crate::state::App;
use crate::words;

#[component]
pub fn LinkOut(link: String) -> impl IntoView {
    let app = App::get();
    let copied = link.clone();
    view! {
        <section class="no-print">
            <h2>{say!("As a link")}</h2>
            <p class="soft">{say!("In a message. The plan stands behind the # and reaches no server. Whoever has the link can read it.")}</p>
            <p class="key-text" data-test="link">{link}</p>
            <button type="button" class="btn" data-test="copy-link" on:click=move |_| copy(app, copied.clone())>{say!("Copy the link")}</button>
        </section>
    }
}

#[component]
pub fn FileOut(sheet: Sheet) -> impl IntoView {
    let app = App::get();
    let making = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let save = move |_| {
        if making.get_untracked() {
            return;
        }
        making.set(true);
        let (sheet, name) = (sheet.clone(), sheet_file::name(&sheet));
        leptos::task::spawn_local(async move {
            let made = sheet_file::html(&sheet).await;
            if making.is_disposed() {
                return;
            }
            making.set(false);
            let saved = made.map_err(|why| why.to_string()).and_then(|bytes| {
                download::save(name, "text/html", &bytes).map_err(|_| words::of(NOT_SAVED).to_string())
            });
            match saved {
                Ok(()) => {
                    refused.set(None);
                    app.said.set(Some(say!("Saved as {name} to the downloads of this device.", name)));
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    };
    view! {
        <section class="no-print">
            <h2>{say!("As a file")}</h2>
            <p class="soft">{say!("One file that opens on any phone or computer without a network.")}</p>
            <button type="button" class="btn" data-test="save-sheet" disabled=move || making.get() on:click=save>{say!("Save the file")}</button>
            <p class="refused" role="alert" data-test="file-refused">{move || refused.get()}</p>
        </section>
    }
}

const NOT_SAVED: &str = text!("This browser did not save the file. Copy the link instead.");

/// The share sheet where there is one, else the clipboard.
pub fn send(app: App, link: String) {
    if !share::available() {
        return copy(app, link);
    }
    leptos::task::spawn_local(async move {
        match share::share(say!("Exercises"), &link, None).await {
            share::Outcome::Done | share::Outcome::Cancelled => {}
            share::Outcome::Failed => {
                app.said.set(Some(say!("This browser could not share. Copy the link.").to_string()));
            }
        }
    });
}

fn copy(app: App, link: String) {
    leptos::task::spawn_local(async move {
        let said = match clipboard::copy(&link).await {
            Ok(()) => say!("Copied. Paste it into a message."),
            Err(_) => say!("This browser did not allow copying. Mark the link with a finger, or save the file."),
        };
        app.said.set(Some(said.to_string()));
    });
}
