//! Opens a visit file: read whole and checked before anything is written, then written all or nothing.

use leptos::prelude::*;
use sidelight_core::archive;

use crate::platform::file_in;
use crate::state::App;

#[component]
pub fn OpenFile() -> impl IntoView {
    let app = App::get();
    let input = NodeRef::<leptos::html::Input>::new();
    let chosen = move |_| {
        let Some(input) = input.get_untracked() else { return };
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        leptos::task::spawn_local(async move {
            let said = match file_in::read(&file, archive::MAX_BYTES).await {
                Ok(bytes) => take_in(app, &bytes).await,
                Err(refused) => refused.to_string(),
            };
            app.said.set(Some(said));
            // The same file can be chosen again after it was mended.
            input.set_value("");
        });
    };
    view! {
        <label class="link file">
            "Open a visit file"
            <input type="file" accept=".json,application/json" data-test="open-file" node_ref=input on:change=chosen />
        </label>
    }
}

async fn take_in(app: App, bytes: &[u8]) -> String {
    let read = match archive::read(bytes) {
        Ok(read) => read,
        Err(refused) => return refused.to_string(),
    };
    match app.take_in(read.people, read.visits).await {
        Ok((0, 0)) => "Everything in this file is here already. Nothing was changed.".to_string(),
        Ok((people, visits)) => format!("Taken in: {people} new people, {visits} new visits."),
        Err(why) => why,
    }
}
