//! Erasing a person: what goes, what was never handed over, and a word to type, since nothing brings it back.

use leptos::prelude::*;
use sidelight_core::keeping::{Erased, Wanted};

use super::likely::Details;
use super::person::Unknown;
use super::safe::{taken_in_here, visits};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

/// The word that shows that nobody taps through by mistake.
const WORD: &str = text!("erase");

#[component]
pub fn ErasePerson(
    /// The person's id.
    id: String,
) -> impl IntoView {
    let app = App::get();
    let Some(person) = untrack(|| app.whose(&id)) else {
        return view! { <main class="screen" data-screen="erase-person"><Unknown /></main> }.into_any();
    };
    let id = StoredValue::new(person.id.clone());
    let back = Callback::new(move |()| app.show(Route::Person(id.get_value())));
    let goes = app.would_erase(&person.id);
    let entries = untrack(|| app.entries_as_kept(&person.id));
    let typed = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let working = RwSignal::new(false);
    let erase = move |_| {
        if typed.get_untracked().trim().to_lowercase() != words::of(WORD) {
            return refused.set(Some(say!(
                "Type the word “{word}”, then tap again. Nothing was erased.",
                word = words::of(WORD)
            )));
        }
        working.set(true);
        leptos::task::spawn_local(async move {
            let erased = app.erase(&id.get_value()).await;
            working.set(false);
            match erased {
                Ok(told) => {
                    app.show(Route::People);
                    app.said.set(Some(told));
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    };
    let hand_over = move |_| {
        app.wanted.set(Wanted::People([id.get_value()].into()));
        app.show(Route::HandOver);
    };
    view! {
        <main class="screen" data-screen="erase-person">
            <Head title=say!("Erase a person").to_string() back=(say!("Back to the person"), back) />
            <div class="body" tabindex="0">
                <p class="lead"><bdi>{person.label}</bdi></p>
                <p data-test="goes">{what_goes(entries.len(), &goes)}</p>
                {(1 < entries.len()).then(|| view! {
                    <p>{say!("To keep one of them, undo the join on the person's page first.")}</p>
                    <ul class="log" aria-label=say!("Entries that go") data-test="entries-going">
                        {entries.into_iter().map(|side| view! { <li><Details side /></li> }).collect_view()}
                    </ul>
                })}
                <Show when=move || 0 < goes.visits.never + goes.visits.taken_in>
                    <div class="notice" data-test="never-handed-over">
                        {(0 < goes.visits.never).then(|| view! { <p>{never(goes.visits.never)}</p> })}
                        {(0 < goes.visits.taken_in).then(|| view! { <p>{taken_in_here(goes.visits.taken_in)}</p> })}
                        <button type="button" class="btn" data-test="hand-over-first" on:click=hand_over>{say!("Hand over first")}</button>
                    </div>
                </Show>
                <p>{say!("Only a file that was handed over can bring it back. Sidelight remembers that it was erased here, and takes it in again only when asked to.")}</p>
                <TextBox
                    id="erase-word"
                    label=say!("Type “erase” to go on")
                    text=typed
                    max=20
                    refused_by="erase-refused"
                />
                <p class="refused" id="erase-refused" role="alert" data-test="refused">{move || refused.get()}</p>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="erase" disabled=move || working.get() on:click=erase>
                    {move || if working.get() { say!("Erasing…") } else { say!("Erase for good") }}
                </button>
            </footer>
        </main>
    }
    .into_any()
}

fn what_goes(entries: usize, goes: &Erased) -> String {
    let what = match entries {
        0 | 1 => say!("the entry of the person").to_string(),
        2 => say!("both entries that were joined as this person").to_string(),
        joined => say!("all {joined} entries that were joined as this person", joined),
    };
    let visits = visits(goes.visits.here);
    let visits = match goes.visits.open {
        0 => visits,
        1 => say!("{visits}, 1 of them still open", visits),
        open => say!("{visits}, {open} of them still open", visits, open),
    };
    let visits = match goes.addenda {
        0 => visits,
        1 => say!("{visits} and 1 correction", visits),
        addenda => say!("{visits} and {addenda} corrections", visits, addenda),
    };
    say!("This erases {what} with {visits}.", what, visits)
}

fn never(count: usize) -> String {
    match count {
        1 => say!("1 visit was never handed over. It would be lost.").to_string(),
        _ => say!("{count} visits were never handed over. They would be lost.", count),
    }
}
