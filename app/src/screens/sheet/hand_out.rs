//! The link. It carries no name.

use leptos::prelude::*;

use crate::platform::{clipboard, share};
use crate::state::App;

#[component]
pub fn LinkOut(link: String) -> impl IntoView {
    let app = App::get();
    let copied = link.clone();
    view! {
        <section class="no-print">
            <h2>"As a link"</h2>
            <p class="soft">"In a message. The plan stands behind the # and reaches no server. Whoever has the link can read it."</p>
            <p class="key-text" data-test="link">{link}</p>
            <button type="button" class="btn" data-test="copy-link" on:click=move |_| copy(app, copied.clone())>"Copy the link"</button>
        </section>
    }
}

/// The share sheet where there is one, else the clipboard.
pub fn send(app: App, link: String) {
    if !share::available() {
        return copy(app, link);
    }
    leptos::task::spawn_local(async move {
        match share::share("Exercises", &link, None).await {
            share::Outcome::Done | share::Outcome::Cancelled => {}
            share::Outcome::Failed => app.said.set(Some("This browser could not share. Copy the link.".to_string())),
        }
    });
}

fn copy(app: App, link: String) {
    leptos::task::spawn_local(async move {
        let said = match clipboard::copy(&link).await {
            Ok(()) => "Copied. Paste it into a message.",
            Err(_) => "This browser did not allow copying. Mark the link with a finger.",
        };
        app.said.set(Some(said.to_string()));
    });
}
