//! The first run: try it with invented people, or start empty.

use leptos::prelude::*;
use sidelight_core::demo;

use crate::state::{App, now};

#[component]
pub fn FirstRun() -> impl IntoView {
    let app = App::get();
    let welcomed = move || app.set_settings(|settings| settings.welcomed = true);
    let try_demo = move |_| {
        let (people, visits) = demo::people(now());
        leptos::task::spawn_local(async move {
            match app.take_in(people, visits).await {
                Ok(_) => welcomed(),
                Err(why) => app.said.set(Some(why)),
            }
        });
    };
    view! {
        <main class="screen first" data-screen="first-run">
            <div class="body" tabindex="0">
                <img src="icon.svg" alt="" width="72" height="72" class="mark" />
                <h1 tabindex="-1" data-test="title">"Sidelight"</h1>
                <p class="lead">"Examine eye movements at the bedside, at school or on the sideline, with one free hand and no network."</p>
                <ul class="plain">
                    <li>"Danger signs come first, and one of them stops the examination."</li>
                    <li>"What you tap is kept at once, on this device only. Nothing is sent anywhere."</li>
                    <li>"It gives no diagnosis and no clearance to play. Local rules and licensed practice go first."</li>
                </ul>
                <p class="refused" role="alert">{move || app.said.get()}</p>
            </div>
            <footer class="stack">
                <button type="button" class="btn main" data-test="demo" on:click=try_demo>
                    "Try with demo people"
                    <small>"all of them invented"</small>
                </button>
                <button type="button" class="btn" data-test="empty" on:click=move |_| welcomed()>"Start empty"</button>
            </footer>
        </main>
    }
}
