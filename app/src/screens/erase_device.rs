//! Everything on this device is erased, keys first; then it is shown what went and what is left.

use std::rc::Rc;

use leptos::html::Input;
use leptos::prelude::*;

use sidelight_core::keeping::Wanted;

use crate::lock::Lock;
use crate::memo::memo;
use crate::platform::{hash_route, remains};
use crate::route::Route;
use crate::state::App;
use crate::storage::Kind;
use crate::storage::sealed::{Erased, Fate};
use crate::widgets::show::Show;
use crate::words;

use super::passphrase::WorkingOn;
use super::safe::{only_here, taken_in_here};

const WORD: &str = text!("erase");

/// Says what will go, and asks for a word.
#[component]
pub fn EraseDevice(
    back: Callback<()>,
    /// The state while the records can be read; none while they are locked.
    #[prop(optional)]
    app: Option<App>,
) -> impl IntoView {
    let lock = Lock::get();
    let counts = RwSignal::new(None::<(usize, usize)>);
    let device = RwSignal::new(true);
    leptos::task::spawn_local(async move {
        counts.set(lock.counts().await.ok());
        device.set(lock.has_device_secret().await);
    });
    let word = NodeRef::<Input>::new();
    let refused = RwSignal::new(None::<String>);
    let erase = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        let typed = word.get_untracked().map(|input| input.value()).unwrap_or_default();
        if typed.trim().to_lowercase() != words::of(WORD) {
            refused.set(Some(say!("Type the word “{word}” to go on. Nothing was changed.", word = words::of(WORD))));
            return;
        }
        leptos::task::spawn_local(async move {
            if let Err(why) = lock.erase().await {
                refused.set(Some(why));
            }
        });
    };
    view! {
        <main class="screen" data-screen="erase-device">
            <header>
                <h1 tabindex="-1" data-test="title">{say!("Erase this device")}</h1>
            </header>
            <form class="form" on:submit=erase>
                <div class="body" tabindex="0">
                    <p class="alert" data-test="will-go">
                        {move || match counts.get() {
                            Some((people, visits)) => say!("{visits} visits of {people} people will be gone from this device, with all settings. This cannot be undone.", visits, people),
                            None => say!("Everything recorded on this device will be gone. This cannot be undone.").to_string(),
                        }}
                    </p>
                    {app.map(|app| view! { <NeverHandedOver app /> })}
                    <p>{say!("What was handed over stays where it was taken in. What was never handed over is nowhere else.")}</p>
                    <Show when=move || !device.get()>
                        <p class="notice">
                            {say!("This browser keeps no secret that can be overwritten. Until it overwrites what it deleted, someone with the passphrase and this disk may still read it.")}
                        </p>
                    </Show>
                    <div class="ask">
                        <label for="erase-word">{say!("Type “{word}”", word = words::of(WORD))}</label>
                        <input type="text" id="erase-word" data-test="erase-word" autocomplete="off" autocapitalize="none" node_ref=word />
                    </div>
                    <p class="refused" role="alert" data-test="refused">{move || refused.get()}</p>
                </div>
                <WorkingOn />
                <footer>
                    <button type="button" class="btn quiet" data-test="keep" on:click=move |_| back.run(())>{say!("Keep everything")}</button>
                    <button type="submit" class="btn main" data-test="erase-all" disabled=move || lock.working.with(Option::is_some)>
                        {say!("Erase everything")}
                    </button>
                </footer>
            </form>
        </main>
    }
}

/// While the records can be read it is known which of them are on this device alone.
#[component]
fn NeverHandedOver(app: App) -> impl IntoView {
    let counts = memo(move |_| app.counts());
    let (never, taken_in) = (move || counts.get().never, move || counts.get().taken_in);
    let hand_over = move |_| {
        app.wanted.set(if taken_in() == 0 { Wanted::New } else { Wanted::All });
        app.show(Route::HandOver);
    };
    view! {
        <Show when=move || 0 < never() + taken_in()>
            <div class="notice" data-test="never-handed-over">
                {move || (0 < never()).then(|| view! { <p>{only_here(never())}</p> })}
                {move || (0 < taken_in()).then(|| view! { <p>{taken_in_here(taken_in())}</p> })}
                <button type="button" class="btn" data-test="hand-over-first" on:click=hand_over>{say!("Hand over first")}</button>
            </div>
        </Show>
    }
}

/// What went, and what the browser still lists afterwards.
#[component]
pub fn ErasedDevice(erased: Rc<Erased>) -> impl IntoView {
    let left = RwSignal::new(None::<remains::Remains>);
    leptos::task::spawn_local(async move { left.set(Some(remains::count().await)) });
    let of = |kind: Kind| erased.rows.iter().find(|(of, _)| *of == kind).map_or(0, |(_, count)| *count);
    let (people, visits, keys) = (of(Kind::Person), of(Kind::Visit) + of(Kind::Draft), of(Kind::Key));
    let rows: usize = erased.rows.iter().map(|(_, count)| count).sum();
    let key = match erased.fate {
        Fate::ForGood => {
            say!(
                "The secret of this device was overwritten and read back as empty: no key that was here can be made again."
            )
        }
        Fate::UntilOverwritten => {
            say!(
                "The keys were deleted. This browser has no file that can be overwritten, so what it deleted stays on the disk until it is overwritten."
            )
        }
        Fate::Unfinished => {
            say!("The keys were deleted, but the secret of this device could not be overwritten. Erase once more.")
        }
    };
    view! {
        <main class="screen" data-screen="erased">
            <header>
                <h1 tabindex="-1" data-test="title">{say!("Erased")}</h1>
            </header>
            <div class="body document" tabindex="0">
                <p data-test="went">{say!("Gone: {visits} visits of {people} people and {keys} keys, {rows} rows in all.", visits, people, keys, rows)}</p>
                <p data-test="key">{key}</p>
                <p data-test="left">
                    {move || {
                        left.get().map(|left| say!(
                            "Left now: {rows} rows with records, {preferences} entries of preferences, {copies} stored copies of the program itself, which hold no record.",
                            rows = left.rows, preferences = left.preferences, copies = left.caches,
                        ))
                    }}
                </p>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="start-again" on:click=move |_| {
                    hash_route::set("#/");
                    hash_route::reload();
                }>{say!("Start again")}</button>
            </footer>
        </main>
    }
}
