//! The clinic's own key: made once, shown as code, text and six words, saved as a file for a safe place.

use leptos::html::Input;
use leptos::prelude::*;
use sidelight_worker::{Answer, Ask, PublicKey};

use super::super::summary::{copy, saved};
use crate::lock::{Keeping, Lock};
use crate::platform::{download, file_in, worker};
use crate::state::App;
use crate::widgets::qr::Qr;
use crate::words;

/// A key file has some lines; anything larger is another file.
const MOST_BYTES: usize = 64 * 1024;

#[component]
pub fn Own() -> impl IntoView {
    let app = App::get();
    let key = RwSignal::new(None::<PublicKey>);
    let refused = RwSignal::new(None::<String>);
    let show = move |file: Option<Vec<u8>>| async move {
        let Some(file) = file else { return };
        match public_half(file).await {
            Ok(own) => key.try_set(Some(own)),
            Err(why) => {
                refused.try_set(Some(why));
                None
            }
        };
    };
    leptos::task::spawn_local(async move {
        match app.identities().await {
            Ok(file) => show(file).await,
            Err(why) => {
                refused.try_set(Some(why));
            }
        }
    });
    let make = move |_| {
        refused.set(None);
        leptos::task::spawn_local(async move {
            let made = match worker::ask(Ask::KeyMake, Vec::new()).await {
                Ok((Answer::Key(made), mut secret)) => secret.pop().map(|secret| (made, secret)),
                Ok(_) | Err(_) => None,
            };
            let kept = match made {
                Some((made, secret)) => app.keep_identity(secret).await.map(|()| made),
                None => Err(say!("The key could not be made. Load the page again.").to_string()),
            };
            match kept {
                Ok(made) => {
                    key.try_set(Some(made));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let use_file = Callback::new(move |bytes: Result<Vec<u8>, String>| {
        refused.set(None);
        leptos::task::spawn_local(async move {
            let kept = match bytes {
                Ok(bytes) => match public_half(bytes.clone()).await {
                    Ok(own) => app.keep_identity(bytes).await.map(|()| own),
                    Err(why) => Err(why),
                },
                Err(why) => Err(why),
            };
            match kept {
                Ok(own) => {
                    key.try_set(Some(own));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    });
    let (before, button) = before_making(Lock::get().keeping());
    view! {
        {before.map(|before| view! { <p class="notice" data-test="before-making">{before}</p> })}
        <p class="refused" role="alert" data-test="own-refused">{move || refused.get()}</p>
        {move || match key.get() {
            None => view! {
                <p class="soft">{say!("Once for the clinic. Its secret half stays on this computer and opens what the phones seal; without it nothing of that can be opened.")}</p>
                <div class="reasons">
                    <button type="button" class="btn" data-test="make-key" on:click=make>{button}</button>
                </div>
            }.into_any(),
            Some(key) => view! { <Shown key replace=Callback::new(make) /> }.into_any(),
        }}
        <KeyFile chosen=use_file />
    }
}

/// What is to be known before a key is made, and how making it is called. Where there is a passphrase, the secret half is
/// sealed by it like every record.
fn before_making(keeping: Option<Keeping>) -> (Option<&'static str>, &'static str) {
    const MAKE: &str = text!("Make the clinic key");
    const TRY: &str = text!("Make a key to try out");
    match keeping {
        Some(Keeping::Sealed) => (None, words::of(MAKE)),
        Some(Keeping::Demo) => (
            Some(say!(
                "This is the demo: a key made here lies unsealed and goes with the demo. For the clinic's own key leave the demo on the start page and make a passphrase first."
            )),
            words::of(TRY),
        ),
        Some(Keeping::Nowhere) | None => (
            Some(say!(
                "Nothing is kept in this browser: a key made here is lost when the page is closed, and with it whatever was sealed to it. Use another browser, and make a passphrase there first."
            )),
            words::of(TRY),
        ),
    }
}

#[component]
fn Shown(key: PublicKey, replace: Callback<web_sys::MouseEvent>) -> impl IntoView {
    let app = App::get();
    let text = StoredValue::new(key.text.clone());
    let save = move |_| {
        leptos::task::spawn_local(async move {
            match app.identities().await {
                Ok(Some(file)) => saved(app, download::save("sidelight-clinic-key.txt", "text/plain", &file)),
                Ok(None) => {}
                Err(why) => app.said.set(Some(why)),
            }
        });
    };
    view! {
        <div data-test="own-key">
            <p class="soft">{say!("The six words to compare on each phone:")}</p>
            <p class="six" data-test="own-words">{key.words}</p>
            <Qr text=key.code label=say!("The clinic's key as a code for the phone's camera") />
            <p class="key-text" data-test="own-text">{key.text}</p>
            <div class="reasons">
                <button type="button" class="btn" data-test="copy-key" on:click=move |_| copy(app, &text.get_value())>{say!("Copy the key")}</button>
                <button type="button" class="btn" data-test="save-key" on:click=save>{say!("Save the key file")}</button>
            </div>
            <p class="soft">
                {say!("The key file is secret: whoever has it opens every hand over. Keep one on a disk in a locked place, since without it a broken computer leaves them closed for good.")}
            </p>
            <details class="fold">
                <summary>{say!("Replace the key")}</summary>
                <p class="soft">{say!("After the key file got into other hands, say. What was sealed to the old key can still be opened here; each phone has to read the new one.")}</p>
                <button type="button" class="btn" data-test="replace-key" on:click=move |event| replace.run(event)>{say!("Make a new key")}</button>
            </details>
        </div>
    }
}

#[component]
fn KeyFile(chosen: Callback<Result<Vec<u8>, String>>) -> impl IntoView {
    let input = NodeRef::<Input>::new();
    let read = move |_| {
        let Some(input) = input.get_untracked() else { return };
        let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
        leptos::task::spawn_local(async move {
            let bytes = file_in::read(&file, MOST_BYTES).await;
            chosen
                .run(bytes.map_err(|_| say!("This is no key file. Choose the one that Sidelight saved.").to_string()));
            input.set_value("");
        });
    };
    view! {
        <label class="link file">
            {say!("Use a saved key file")}
            <input type="file" accept=".txt,text/plain" data-test="key-file" node_ref=input on:change=read />
        </label>
    }
}

async fn public_half(file: Vec<u8>) -> Result<PublicKey, String> {
    match worker::ask(Ask::KeyOwn, vec![file]).await {
        Ok((Answer::Key(key), _)) => Ok(key),
        Ok(_) => Err(say!("The key could not be read. Load the page again.").to_string()),
        Err(trouble) => Err(trouble.to_string()),
    }
}
