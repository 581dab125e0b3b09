//! Takes in files that others handed over: each is opened and read, then what would come of them all is told, and only
//! then, and only when asked, it is written, all or nothing. What is shown at the end is the receipt.

mod arrived;
mod taken;

use leptos::prelude::*;
use sidelight_worker::{ErasedHere, Planned};

use self::arrived::{Arrived, Intake, Is, Stage};
use self::taken::{Sentences, Taken};
use crate::memo::memo;
use crate::platform::{file_in, folder};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;

/// Longest passphrase that can be typed.
const LONGEST: usize = 1_000;

#[component]
pub fn TakeIn() -> impl IntoView {
    let app = App::get();
    let intake = Intake::new(app);
    let back = Callback::new(move |()| app.show(Route::Safe));
    let dropped = move |event: web_sys::DragEvent| {
        event.prevent_default();
        intake.take(file_in::all(event.data_transfer().and_then(|dropped| dropped.files())));
    };
    let main = move |_| match intake.next() {
        Stage::Write | Stage::Show => intake.write(),
        Stage::Done => app.show(Route::Home),
        Stage::Wait => {}
    };
    view! {
        <main
            class="screen"
            data-screen="take-in"
            data-busy=move || intake.busy.with(Option::is_some).to_string()
            on:dragover=move |event| event.prevent_default()
            on:drop=dropped
        >
            <Head title=say!("Take in").to_string() back=(say!("Back to safe keeping"), back) />
            <div class="body" tabindex="0">
                <Show when=move || intake.taken.with(Option::is_none)>
                    <p>{say!("Choose the files that were handed over, several at once if there are. Nothing is written before you say so.")}</p>
                    <Choose intake />
                </Show>
                <ul class="log" aria-label=say!("Files") data-test="files">
                    {move || intake.files.get().into_iter().map(|file| view! { <Line file /> }).collect_view()}
                </ul>
                <Passphrase intake />
                <p role="status" data-test="busy">{move || intake.busy.get()}</p>
                <p class="refused" role="alert" data-test="refused">{move || intake.refused.get()}</p>
                {move || intake.plan.get().map(|plan| view! { <Plan intake plan /> })}
                {move || intake.taken.get().map(|taken| view! { <Taken taken /> })}
            </div>
            <footer>
                <Show when=move || intake.taken.with(Option::is_some)>
                    <button type="button" class="btn quiet" data-test="more" on:click=move |_| intake.begin_anew()>{say!("More files")}</button>
                </Show>
                <button type="button" class="btn main" data-test="go" disabled=move || intake.next() == Stage::Wait on:click=main>
                    {move || match intake.next() {
                        Stage::Wait | Stage::Write => say!("Take in"),
                        Stage::Show => say!("Show the receipt"),
                        Stage::Done => say!("Done"),
                    }}
                </button>
            </footer>
        </main>
    }
}

#[component]
fn Choose(intake: Intake) -> impl IntoView {
    let (files, folders) = (NodeRef::<leptos::html::Input>::new(), NodeRef::<leptos::html::Input>::new());
    let chosen = move |input: NodeRef<leptos::html::Input>| {
        let Some(input) = input.get_untracked() else { return };
        intake.take(file_in::all(input.files()));
        // The same file can be chosen again after it was mended.
        input.set_value("");
    };
    folders.on_load(|input| folder::choose_folder(&input));
    view! {
        <div class="reasons">
            <label class="btn file">
                {say!("Choose files")}
                <input
                    type="file"
                    multiple
                    accept=".age,.json,.txt,application/json,text/plain"
                    data-test="take-files"
                    node_ref=files
                    on:change=move |_| chosen(files)
                />
            </label>
            {folder::available().then(|| view! {
                <label class="btn file">
                    {say!("Choose a folder")}
                    <input type="file" data-test="take-folder" node_ref=folders on:change=move |_| chosen(folders) />
                </label>
            })}
        </div>
        <p class="soft">{say!("Files can also be dropped anywhere on this screen.")}</p>
    }
}

#[component]
fn Line(file: Arrived) -> impl IntoView {
    let (state, said) = match &file.is {
        Is::Opened { opened, .. } => ("opened", arrived::told(opened)),
        Is::Locked { .. } => ("locked", say!("Sealed by a passphrase.").to_string()),
        Is::Refused(why) => ("refused", why.clone()),
    };
    view! {
        <li data-test="file" data-state=state>
            <span><bdi>{file.name}</bdi><small>{said}</small></span>
        </li>
    }
}

/// Asked once for all sealed files; files that it does not open stay closed and ask again.
#[component]
fn Passphrase(intake: Intake) -> impl IntoView {
    let locked = memo(move |_| intake.locked());
    let why = move || intake.files.with(|files| files.iter().find_map(|file| file.is.why_locked()));
    let typed = NodeRef::<leptos::html::Input>::new();
    let open = move |_| {
        intake.unlock(super::passphrase::typed(typed));
        if let Some(input) = typed.get_untracked() {
            input.set_value("");
        }
    };
    view! {
        <Show when=move || 0 < locked.get()>
            <form class="ask" on:submit=move |event| event.prevent_default()>
                <label for="passphrase">{move || arrived::asks(locked.get())}</label>
                <input
                    type="password"
                    id="passphrase"
                    data-test="passphrase"
                    autocomplete="off"
                    maxlength=LONGEST
                    aria-describedby="passphrase-refused"
                    node_ref=typed
                />
                <p class="refused" id="passphrase-refused" role="alert" data-test="locked-why">{why}</p>
                <button type="submit" class="btn" data-test="unlock" on:click=open>{say!("Open")}</button>
            </form>
        </Show>
    }
}

#[component]
fn Plan(intake: Intake, plan: Planned) -> impl IntoView {
    let nothing = plan.comes.is_empty();
    view! {
        <section aria-labelledby="plan-title" data-test="plan">
            <h2 id="plan-title">{if nothing { say!("Nothing new in these files") } else { say!("What would be written") }}</h2>
            <Sentences all=plan.comes />
            <Sentences all=plan.stays />
            <HeldBack all=plan.held_back />
            {(!plan.erased.is_empty()).then(|| view! { <Erased intake all=plan.erased /> })}
        </section>
    }
}

#[component]
fn HeldBack(all: Vec<String>) -> impl IntoView {
    let any = !all.is_empty();
    any.then(|| {
        view! { <div class="notice notice-strong" role="alert" data-test="held-back"><p>{say!("Not taken in:")}</p><Sentences all /></div> }
    })
}

/// People who were erased here come back one by one, and only when ticked.
#[component]
fn Erased(intake: Intake, all: Vec<ErasedHere>) -> impl IntoView {
    let one = move |who: ErasedHere| {
        let (id, on) = (who.person.clone(), who.person);
        let visits = super::safe::visits(who.visits);
        view! {
            <label class="chip" data-test="bring-back">
                <input
                    type="checkbox"
                    prop:checked=move || intake.back.with(|back| back.contains(&on))
                    on:change=move |_| intake.flip(&id)
                />
                <span><bdi>{who.label}</bdi>", "{visits}</span>
            </label>
        }
    };
    view! {
        <fieldset class="ask">
            <legend>{say!("Erased on this device before. Bring back?")}</legend>
            <div class="chips">{all.into_iter().map(one).collect_view()}</div>
        </fieldset>
    }
}
