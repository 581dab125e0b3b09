//! A passphrase is made, or changed: typed twice or shown, with its strength, or a random one of words.

use leptos::html::Input;
use leptos::prelude::*;
use sidelight_core::words;
use sidelight_worker::{Answer, Ask};
use zeroize::Zeroizing;

use crate::lock::{Lock, Passphrase};
use crate::platform::worker::ask;
use crate::route::Route;
use crate::state::App;
use crate::storage::sealed::Fate;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;

/// Words of a random passphrase: five of 2,048 are 55 random bits.
const OFFERED: usize = 5;

/// Fewest characters that are taken.
const FEWEST: usize = 8;

/// A score of the strength below this is refused: it falls within the first million guesses.
const LEAST_SCORE: u8 = 2;

/// Before anything is recorded, and for records of earlier versions that lie here in clear.
#[component]
pub fn MakePassphrase(
    /// Whether records lie here in clear already.
    clear: bool,
) -> impl IntoView {
    let lock = Lock::get();
    let refused = RwSignal::new(None::<String>);
    let device = RwSignal::new(true);
    leptos::task::spawn_local(async move {
        let found = lock.has_device_secret().await;
        device.try_set(found);
    });
    let take = Callback::new(move |passphrase: Passphrase| {
        leptos::task::spawn_local(async move {
            if let Err(why) = lock.make(&passphrase).await {
                refused.set(Some(why));
            }
        });
    });
    view! {
        <main class="screen" data-screen="passphrase">
            <header>
                <h1 tabindex="-1" data-test="title">{say!("Make a passphrase")}</h1>
            </header>
            <NewPassphrase button=say!("Seal the records") take refused>
                {clear
                    .then(|| {
                        view! {
                            <p class="notice" data-test="clear">
                                {say!("Records lie on this device that anyone who opens it can read. With a passphrase they are sealed; none is lost.")}
                            </p>
                        }
                    })}
                <p>{say!("Everything that is recorded here is sealed with it. Whoever finds this device can read nothing.")}</p>
                <Show when=move || !device.get()>
                    <p class="notice" data-test="no-device-secret">
                        {say!("This browser cannot destroy a key for good: until it overwrites what was erased, someone with this disk and the passphrase could read it. Choose a passphrase that is used nowhere else.")}
                    </p>
                </Show>
            </NewPassphrase>
        </main>
    }
}

/// Old passphrase, new passphrase.
#[component]
pub fn ChangePassphrase() -> impl IntoView {
    let (app, lock) = (App::get(), Lock::get());
    let refused = RwSignal::new(None::<String>);
    let old = NodeRef::<Input>::new();
    let shown = RwSignal::new(false);
    let back = Callback::new(move |()| app.show(Route::Settings));
    let take = Callback::new(move |passphrase: Passphrase| {
        let old = typed(old);
        leptos::task::spawn_local(async move {
            match lock.change(&old, &passphrase).await {
                Ok(fate) => {
                    app.show(Route::Settings);
                    app.said.set(Some(changed(fate).to_string()));
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    });
    view! {
        <main class="screen" data-screen="change-passphrase">
            <Head title=say!("Change the passphrase").to_string() back=(say!("Back to the settings"), back) />
            <NewPassphrase button=say!("Change it") take refused>
                <Field id="old-passphrase" label=say!("Old passphrase") autocomplete="current-password" input=old shown />
            </NewPassphrase>
        </main>
    }
}

fn changed(fate: Fate) -> &'static str {
    match fate {
        Fate::ForGood => say!("The passphrase was changed. The old one opens nothing any more."),
        Fate::UntilOverwritten => {
            say!(
                "The passphrase was changed. This browser keeps no secret of the device, so a copy of the disk made earlier may still open with the old one."
            )
        }
        Fate::Unfinished => {
            say!("The passphrase was changed. The old one is cleared from the disk when the records are opened next.")
        }
    }
}

#[component]
fn NewPassphrase(
    button: &'static str,
    take: Callback<Passphrase>,
    refused: RwSignal<Option<String>>,
    children: Children,
) -> impl IntoView {
    let lock = Lock::get();
    let (first, again) = (NodeRef::<Input>::new(), NodeRef::<Input>::new());
    let shown = RwSignal::new(false);
    let strength = RwSignal::new(None::<(u8, String)>);
    let asked = StoredValue::new(0_u32);
    let weigh = move || {
        refused.set(None);
        let passphrase = typed(first);
        asked.update_value(|asked| *asked += 1);
        let number = asked.get_value();
        if passphrase.is_empty() {
            strength.set(None);
            return;
        }
        leptos::task::spawn_local(async move {
            let answered = ask(Ask::Strength, vec![passphrase.as_bytes().to_vec()]).await;
            // A slower answer about fewer letters must not replace a newer one.
            if let (Ok((Answer::Strength(told), _)), Some(newest)) = (answered, asked.try_get_value())
                && number == newest
            {
                strength.set(Some((told.score, told.says)));
            }
        });
    };
    let offer = move |_| match random_words() {
        Ok(words) => {
            shown.set(true);
            if let Some(input) = first.get_untracked() {
                input.set_value(&words);
            }
            weigh();
        }
        Err(why) => refused.set(Some(why)),
    };
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if lock.working.with_untracked(Option::is_some) {
            return;
        }
        let passphrase = typed(first);
        let repeated = shown.get_untracked() || *typed(again) == *passphrase;
        let score = strength.with_untracked(|strength| strength.as_ref().map(|(score, _)| *score));
        match accept(&passphrase, repeated, score) {
            Ok(()) => {
                refused.set(None);
                take.run(passphrase);
            }
            Err(why) => refused.set(Some(why.to_string())),
        }
    };
    let working = move || lock.working.get();
    view! {
        <form class="form" on:submit=submit>
            <div class="body" tabindex="0">
                {children()}
                <input type="text" name="username" autocomplete="username" value=say!("Sidelight") hidden />
                <div on:input=move |_| weigh()>
                    <Field id="passphrase" label=say!("Passphrase") help=say!("Four or more words that do not belong together. Any length.") autocomplete="new-password" input=first shown />
                </div>
                <p class="soft" role="status" data-test="strength" data-score=move || strength.get().map(|(score, _)| score.to_string())>
                    {move || strength.get().map(|(_, says)| says)}
                </p>
                <div class="chips">
                    <ShowIt shown />
                    <button type="button" class="chip-button" data-test="offer" on:click=offer>{say!("Five random words")}</button>
                </div>
                <Show when=move || !shown.get()>
                    <Field id="passphrase-again" label=say!("The same again") autocomplete="new-password" input=again shown />
                </Show>
                <p class="alert" data-test="unrecoverable">
                    {say!("Nobody can recover a forgotten passphrase, and nothing opens the records without it. Write it down and keep it away from this device.")}
                </p>
                <p class="refused" role="alert" data-test="refused">{move || refused.get()}</p>
            </div>
            <WorkingOn />
            <footer>
                <button type="submit" class="btn main" data-test="seal" disabled=move || working().is_some()>{button}</button>
            </footer>
        </form>
    }
}

/// One passphrase, hidden or shown.
#[component]
pub fn Field(
    id: &'static str,
    label: &'static str,
    #[prop(optional)] help: &'static str,
    autocomplete: &'static str,
    input: NodeRef<Input>,
    shown: RwSignal<bool>,
) -> impl IntoView {
    view! {
        <div class="ask">
            <label for=id>{label}</label>
            {(!help.is_empty()).then(|| view! { <p class="soft">{help}</p> })}
            <input
                type=move || if shown.get() { "text" } else { "password" }
                id=id
                name=id
                data-test=id
                dir="auto"
                autocomplete=autocomplete
                autocapitalize="none"
                spellcheck="false"
                node_ref=input
            />
        </div>
    }
}

/// Shows what is typed.
#[component]
pub fn ShowIt(shown: RwSignal<bool>) -> impl IntoView {
    view! {
        <button
            type="button"
            class="chip-button"
            data-test="show"
            aria-pressed=move || shown.get().to_string()
            on:click=move |_| shown.update(|shown| *shown = !*shown)
        >
            {say!("Show it")}
        </button>
    }
}

/// What the second module is at.
#[component]
pub fn WorkingOn() -> impl IntoView {
    let lock = Lock::get();
    view! {
        <div class="home-notes" role="status">
            <Show when=move || lock.working.with(Option::is_some)>
                <p class="notice" data-test="working">
                    {move || lock.working.get()}
                    <progress class="busy" aria-label=say!("Working")></progress>
                </p>
            </Show>
        </div>
    }
}

/// What stands in a field, wiped when it is no longer used.
pub fn typed(input: NodeRef<Input>) -> Passphrase {
    Zeroizing::new(input.get_untracked().map(|input| input.value()).unwrap_or_default())
}

fn accept(passphrase: &str, repeated: bool, score: Option<u8>) -> Result<(), &'static str> {
    if passphrase.chars().count() < FEWEST {
        return Err(say!("Too short: at least eight characters, better four words."));
    }
    if !repeated {
        return Err(say!("The two are not the same: type it again, or show it and look."));
    }
    if score.is_some_and(|score| score < LEAST_SCORE) {
        return Err(say!("Too easy: it is among the first million that would be tried. Add a word or two."));
    }
    Ok(())
}

fn random_words() -> Result<String, String> {
    let mut bytes = Zeroizing::new([0; 8]);
    getrandom04::fill(bytes.as_mut_slice()).map_err(|_| say!("The browser gives no random numbers.").to_string())?;
    Ok(words::encode(bytes.as_slice(), OFFERED))
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn short_easy_and_mistyped_ones_are_refused_and_a_thousand_characters_are_not() {
        assert!(accept("seven77", true, Some(4)).is_err());
        assert!(accept("password1", true, Some(0)).is_err());
        assert!(accept("velvet anchor museum", false, Some(4)).is_err());
        assert_eq!(accept("velvet anchor museum", true, Some(4)), Ok(()));
        assert_eq!(accept(&"velvet ".repeat(300), true, Some(4)), Ok(()));
        // Without the second module the strength is not known; the length still is.
        assert_eq!(accept("velvet anchor museum", true, None), Ok(()));
    }

    #[wasm_bindgen_test]
    fn offered_words_differ_each_time() {
        let (one, two) = (random_words().expect("is random"), random_words().expect("is random"));
        assert_ne!(one, two);
        assert_eq!(one.split(' ').count(), OFFERED);
    }
}
