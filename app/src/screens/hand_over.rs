//! Hand over: what goes into the file, who can open it, and the file itself.

pub mod made;
pub mod people;

use leptos::prelude::*;
use sidelight_core::keeping::{Selection, Wanted};
use sidelight_worker::{Answer, Ask};

use self::made::{Made, MadeFile};
use self::people::Choose;
use super::safe::visits;
use crate::memo::memo;
use crate::platform::{share, worker};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::pick::{Pick, Tick};
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

/// Who can open the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Key,
    Passphrase,
    Plain,
}

/// The longest passphrase; there is no other limit.
const LONGEST: usize = 1000;

#[component]
pub fn HandOver() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Safe));
    let made = RwSignal::new_local(None::<Made>);
    view! {
        <main class="screen" data-screen="hand-over" data-made=move || made.with(Option::is_some).to_string()>
            <Head title=say!("Hand over").to_string() back=(say!("Back to safe keeping"), back) />
            {move || match made.get() {
                None => view! { <Asked made /> }.into_any(),
                Some(file) => view! { <MadeFile file again=Callback::new(move |()| made.set(None)) /> }.into_any(),
            }}
        </main>
    }
}

/// What is asked before the file is made.
#[component]
fn Asked(made: RwSignal<Option<Made>, LocalStorage>) -> impl IntoView {
    let app = App::get();
    let way = RwSignal::new(if app.clinic_key.with_untracked(Option::is_some) { Way::Key } else { Way::Passphrase });
    let passphrase = RwSignal::new(String::new());
    let understood = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let working = RwSignal::new(None::<usize>);
    let selection = memo(move |_| app.wanted.with(|wanted| app.selection(wanted)));
    let make = move |_| {
        refused.set(None);
        let selection = selection.get_untracked();
        let seal = match sealing(app, &selection, way.get_untracked(), passphrase, understood) {
            Ok(seal) => seal,
            Err(why) => return refused.set(Some(why)),
        };
        working.set(Some(selection.visits.len()));
        leptos::task::spawn_local(async move {
            let file = file(app, &selection, seal).await;
            working.try_set(None);
            match file {
                Ok(file) => {
                    passphrase.try_set(String::new());
                    made.try_set(Some(file));
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    view! {
        <div class="body" tabindex="0">
            <What selection />
            <How way passphrase understood />
            <p class="refused" role="alert" data-test="refused">{move || refused.get()}</p>
            <p role="status" data-test="working">
                {move || working.get().map(|count| say!("Making the file with {visits}…", visits = visits(count)))}
            </p>
        </div>
        <footer>
            <button type="button" class="btn main" data-test="make" disabled=move || working.get().is_some() on:click=make>{say!("Make the file")}</button>
        </footer>
    }
}

#[component]
fn What(selection: Memo<Selection>) -> impl IntoView {
    let app = App::get();
    let count = move |wanted: &Wanted| app.selection(wanted).visits.len();
    let new = memo(move |_| count(&Wanted::New));
    let all = memo(move |_| count(&Wanted::All));
    let one = app.wanted.with_untracked(|wanted| matches!(wanted, Wanted::Visit(_)).then(|| wanted.clone()));
    let is = move |test: fn(&Wanted) -> bool| Signal::derive(move || app.wanted.with(test));
    let one = one.map(|one| {
        let set = move || app.wanted.set(one.clone());
        view! { <Pick name="what" test="what-visit" label=say!("This one visit") on=is(|w| matches!(w, Wanted::Visit(_))) pick=set /> }
    });
    let people = move || {
        if !app.wanted.with_untracked(|wanted| matches!(wanted, Wanted::People(_))) {
            app.wanted.set(Wanted::People(std::collections::BTreeSet::new()));
        }
    };
    view! {
        <fieldset class="ask">
            <legend>{say!("What")}</legend>
            <div class="chips">
                {one}
                <Pick name="what" test="what-new" label=Signal::derive(move || say!("Never handed over ({count})", count = new.get())) on=is(|w| *w == Wanted::New) pick=move || app.wanted.set(Wanted::New) />
                <Pick name="what" test="what-people" label=say!("Chosen people") on=is(|w| matches!(w, Wanted::People(_))) pick=people />
                <Pick name="what" test="what-all" label=Signal::derive(move || say!("All ({count})", count = all.get())) on=is(|w| *w == Wanted::All) pick=move || app.wanted.set(Wanted::All) />
            </div>
        </fieldset>
        <Show when=move || app.wanted.with(|wanted| matches!(wanted, Wanted::People(_)))>
            <Choose />
        </Show>
        <p data-test="selected">{move || selection.with(selected)}</p>
    }
}

/// "3 visits of 2 people. 1 open visit stays out until it is closed."
pub fn selected(selection: &Selection) -> String {
    let people = match selection.people.len() {
        1 => say!("1 person").to_string(),
        count => say!("{count} people", count),
    };
    let open = stay_out(selection.open);
    match selection.visits.len() {
        0 => words::sentences(&[say!("Nothing to hand over here."), &open]),
        count => words::sentences(&[&say!("{visits} of {people}.", visits = visits(count), people), &open]),
    }
}

/// "1 open visit stays out until it is closed."
pub fn stay_out(open: usize) -> String {
    match open {
        0 => String::new(),
        1 => say!("1 open visit stays out until it is closed.").to_string(),
        open => say!("{open} open visits stay out until they are closed.", open),
    }
}

#[component]
fn How(way: RwSignal<Way>, passphrase: RwSignal<String>, understood: RwSignal<bool>) -> impl IntoView {
    let is = move |wanted: Way| Signal::derive(move || way.get() == wanted);
    view! {
        <fieldset class="ask">
            <legend>{say!("Who can open it")}</legend>
            <div class="chips">
                <Pick name="way" test="way-key" label=say!("The clinic, by its key") on=is(Way::Key) pick=move || way.set(Way::Key) />
                <Pick name="way" test="way-passphrase" label=say!("Whoever has a passphrase") on=is(Way::Passphrase) pick=move || way.set(Way::Passphrase) />
                <Pick name="way" test="way-plain" label=say!("Anyone: not sealed") on=is(Way::Plain) pick=move || way.set(Way::Plain) />
            </div>
        </fieldset>
        {move || match way.get() {
            Way::Key => view! { <ByKey /> }.into_any(),
            Way::Passphrase => view! { <ByPassphrase passphrase /> }.into_any(),
            Way::Plain => view! { <Plain understood /> }.into_any(),
        }}
    }
}

#[component]
fn ByKey() -> impl IntoView {
    let app = App::get();
    let known = app.clinic_key.get_untracked();
    let Some(key) = known else {
        return view! {
            <div class="notice" data-test="no-key">
                <p>{say!("This device does not know the clinic's key yet. It is read once, from the screen of the clinic computer.")}</p>
                <button type="button" class="btn" data-test="read-key" on:click=move |_| app.show(Route::ClinicKey)>{say!("Read the clinic key")}</button>
            </div>
        }
        .into_any();
    };
    let words = RwSignal::new(None::<String>);
    leptos::task::spawn_local(async move {
        let read = worker::ask(Ask::KeyRead { text: key }, Vec::new()).await;
        words.try_set(Some(match read {
            Ok((Answer::Key(key), _)) => key.words,
            Ok(_) => String::new(),
            Err(trouble) => trouble.to_string(),
        }));
    });
    view! {
        <p class="soft">{say!("Only the clinic computer opens it. The words of the clinic's key:")}</p>
        <p class="six" data-test="key-words">{move || words.get()}</p>
    }
    .into_any()
}

#[component]
fn ByPassphrase(passphrase: RwSignal<String>) -> impl IntoView {
    let strength = RwSignal::new(None::<String>);
    Effect::new(move |_| {
        let typed = passphrase.get();
        if typed.is_empty() {
            return strength.set(None);
        }
        leptos::task::spawn_local(async move {
            let told = match worker::ask(Ask::Strength, vec![typed.clone().into_bytes()]).await {
                Ok((Answer::Strength(strength), _)) => Some(strength.says),
                Ok(_) | Err(_) => None,
            };
            // An answer to what was typed before would be wrong by now.
            if passphrase.try_with_untracked(|now| *now == typed) == Some(true) {
                strength.try_set(told);
            }
        });
    });
    view! {
        <TextBox
            id="passphrase"
            label=say!("Passphrase")
            help=say!("Shown as it is typed, since somebody else has to type it too. Tell it by another way than the file.")
            text=passphrase
            max=LONGEST
            refused_by="strength"
        />
        <p id="strength" class="soft" role="status" data-test="strength">{move || strength.get()}</p>
    }
}

#[component]
fn Plain(understood: RwSignal<bool>) -> impl IntoView {
    view! {
        <div class="caution" data-test="plain-warning">
            <p>{say!("The file is not sealed. Whoever gets it, on its way or from a disk, reads names and findings.")}</p>
            <div class="chips">
                <Tick test="understood" label=say!("I know, and hand it over unsealed") on=understood flip=move || understood.update(|on| *on = !*on) />
            </div>
        </div>
    }
}

/// How the file is sealed, once everything needed is there.
enum Seal {
    Key(String),
    Passphrase(String),
    Plain,
}

fn sealing(
    app: App,
    selection: &Selection,
    way: Way,
    passphrase: RwSignal<String>,
    understood: RwSignal<bool>,
) -> Result<Seal, String> {
    if selection.visits.is_empty() {
        return Err(say!("There is no closed visit to hand over. Choose other visits, or close the open one first.")
            .to_string());
    }
    match way {
        Way::Key => app
            .clinic_key
            .get_untracked()
            .map(Seal::Key)
            .ok_or(say!("Read the clinic key first, or choose a passphrase.").into()),
        Way::Passphrase => Some(passphrase.get_untracked())
            .filter(|typed| !typed.trim().is_empty())
            .map(Seal::Passphrase)
            .ok_or(say!("Type a passphrase. Four or more words that do not belong together are best.").into()),
        Way::Plain if understood.get_untracked() => Ok(Seal::Plain),
        Way::Plain => Err(say!("Tick that you hand it over unsealed, or choose another way.").to_string()),
    }
}

async fn file(app: App, selection: &Selection, seal: Seal) -> Result<Made, String> {
    let packed = app.pack(selection).await?;
    // A share sheet takes text where it refuses other files.
    let text = share::available();
    let (to, secret) = match seal {
        Seal::Plain => return Ok(Made::plain(packed)),
        Seal::Key(key) => (Some(key), None),
        Seal::Passphrase(passphrase) => (None, Some(passphrase.into_bytes())),
    };
    let parts = std::iter::once(packed.bytes).chain(secret).collect();
    match worker::ask(Ask::Seal { to, text }, parts).await {
        Ok((Answer::Done, sealed)) => Made::sealed(packed.note, [packed.left, packed.damaged], sealed),
        Ok(_) => Err(say!("The file could not be sealed. Load the page again.").to_string()),
        Err(trouble) => Err(trouble.to_string()),
    }
}
