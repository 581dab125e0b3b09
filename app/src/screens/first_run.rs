//! The first run: try it with invented people, or start empty.

use leptos::prelude::*;

use crate::lock::Lock;

#[component]
pub fn FirstRun() -> impl IntoView {
    let lock = Lock::get();
    let try_demo = move |_| leptos::task::spawn_local(lock.open_demo());
    view! {
        <main class="screen first" data-screen="first-run">
            <div class="body" tabindex="0">
                <img src="icon.svg" alt="" width="72" height="72" class="mark" />
                <h1 tabindex="-1" data-test="title">"Sidelight"</h1>
                <p class="lead">{say!("Examine eye movements at the bedside, at school or on the sideline, with one free hand and no network.")}</p>
                <ul class="plain">
                    <li>{say!("Danger signs come first, and one of them stops the examination.")}</li>
                    <li>{say!("What you tap is kept at once, on this device only, sealed by your passphrase. Nothing is sent anywhere.")}</li>
                    <li>{say!("It gives no diagnosis and no clearance to play. Local rules and licensed practice go first.")}</li>
                </ul>
                <p class="refused" role="alert">{move || lock.trouble.get()}</p>
            </div>
            <footer class="stack">
                <button type="button" class="btn main" data-test="demo" on:click=try_demo>
                    {say!("Try with demo people")}
                    <small>{say!("all of them invented, nothing sealed")}</small>
                </button>
                <button type="button" class="btn" data-test="empty" on:click=move |_| lock.begin()>{say!("Start empty")}</button>
            </footer>
        </main>
    }
}
