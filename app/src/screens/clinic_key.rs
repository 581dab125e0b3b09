//! The clinic key: read once on a phone and checked by eye, made once on the clinic computer.

mod own;

use leptos::prelude::*;
use sidelight_worker::{Answer, Ask, PublicKey};

use self::own::Own;
use crate::platform::worker;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::scan::Scan;
use crate::widgets::text_box::TextBox;

/// A public key has 62 characters; a text pasted by mistake is refused with a sentence, not cut off to look like one.
const LONGEST: usize = 2000;

#[component]
pub fn ClinicKey() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Safe));
    view! {
        <main class="screen" data-screen="clinic-key">
            <Head title=say!("Clinic key").to_string() back=(say!("Back to safe keeping"), back) />
            <div class="body" tabindex="0">
                <p>{say!("What is sealed to the clinic's key can be opened on the clinic computer alone. The key is no secret: it only seals.")}</p>
                <h2>{say!("On a phone: read it")}</h2>
                <Read />
                <h2>{say!("On the clinic computer: make it")}</h2>
                <Own />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="done" on:click=move |_| app.show(Route::HandOver)>{say!("Hand over")}</button>
            </footer>
        </main>
    }
}

/// Reads a public key, and has its words compared before it is kept.
#[component]
fn Read() -> impl IntoView {
    let app = App::get();
    let text = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let found = RwSignal::new(None::<PublicKey>);
    let read = move |text: String| {
        refused.set(None);
        found.set(None);
        leptos::task::spawn_local(async move {
            match public_key(text).await {
                Ok(key) => found.try_set(Some(key)),
                Err(why) => {
                    refused.try_set(Some(why));
                    None
                }
            };
        });
    };
    let keep = move |key: PublicKey| {
        leptos::task::spawn_local(async move {
            match app.keep_clinic_key(&key.text).await {
                Ok(()) => {
                    found.try_set(None);
                    text.try_set(String::new());
                    app.said.set(Some(say!("Kept. Hand overs are sealed to this key from now on.").to_string()));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let differs = move |_| {
        found.set(None);
        let says = say!(
            "Not kept. Read the key again from the clinic's own screen; if the words differ again, do not use it."
        );
        refused.set(Some(says.to_string()));
    };
    view! {
        {move || app.clinic_key.get().map(|key| view! { <Known key /> })}
        <TextBox id="key-text" label=say!("Paste it, or scan it from the clinic's screen") text max=LONGEST refused_by="key-refused" />
        <p class="refused" id="key-refused" role="alert" data-test="refused">{move || refused.get()}</p>
        <div class="reasons">
            <button type="button" class="btn" data-test="read" on:click=move |_| read(text.get_untracked())>{say!("Read what was pasted")}</button>
        </div>
        <Scan label=say!("Scan it with the camera") on_text=Callback::new(read) />
        <div role="status">
            {move || found.get().map(|key| {
                let words = key.words.clone();
                view! {
                    <div class="notice" data-test="compare">
                        <p><strong>{say!("Are these the six words on the clinic's screen?")}</strong></p>
                        <p class="six" data-test="found-words">{words}</p>
                        <div class="reasons">
                            <button type="button" class="btn" data-test="differs" on:click=differs>{say!("No")}</button>
                            <button type="button" class="btn" data-test="same" on:click=move |_| keep(key.clone())>{say!("Yes, keep it")}</button>
                        </div>
                    </div>
                }
            })}
        </div>
    }
}

#[component]
fn Known(key: String) -> impl IntoView {
    let words = RwSignal::new(None::<String>);
    leptos::task::spawn_local(async move {
        let told = public_key(key).await.map_or_else(|why| why, |key| key.words);
        words.try_set(Some(told));
    });
    view! {
        <div data-test="known-key">
            <p class="soft">{say!("This device seals to the key with these words. Reading another one replaces it.")}</p>
            <p class="six">{move || words.get()}</p>
        </div>
    }
}

async fn public_key(text: String) -> Result<PublicKey, String> {
    match worker::ask(Ask::KeyRead { text }, Vec::new()).await {
        Ok((Answer::Key(key), _)) => Ok(key),
        Ok(_) => Err(say!("The key could not be read. Load the page again.").to_string()),
        Err(trouble) => Err(trouble.to_string()),
    }
}
