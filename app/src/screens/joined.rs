//! On a person's page: the entries that were joined, and those that were kept apart. Both answers can be changed here.

use leptos::prelude::*;

use super::likely::{Details, named};
use super::safe::visits;
use crate::memo::memo;
use crate::platform::focus;
use crate::route::Route;
use crate::state::{App, Side};
use crate::widgets::show::Show;

/// Where the keyboard goes when the button it was on is gone.
const TITLES: [&str; 2] = ["apart-title", "joined-title"];

#[component]
pub fn JoinedEntries(
    /// The id of the entry that stands for the person.
    #[prop(into)]
    id: String,
) -> impl IntoView {
    let app = App::get();
    let id = StoredValue::new(id);
    let entries = memo(move |_| id.with_value(|id| app.entries_as_kept(id)));
    let apart = memo(move |_| id.with_value(|id| app.apart_from(id)));
    let undo = move |entry: String| {
        // The page stays with the entry that stood, whichever of them the address named.
        app.show(Route::Person(id.get_value()));
        let said = app
            .undo_join(&entry)
            .map(|()| say!("Undone. They are separate people again, each with their own visits.").to_string());
        app.said.set(Some(said.unwrap_or_else(|why| why)));
        focus::on_first_enabled(&TITLES);
    };
    let join = move |other: String| {
        let said = id.with_value(|id| app.join(id, &other)).map(|person| {
            app.show(Route::Person(person.id));
            say!("Joined. They show as {name}.", name = person.label)
        });
        app.said.set(Some(said.unwrap_or_else(|why| why)));
        focus::on_first_enabled(&["joined-title"]);
    };
    let joined_row = move |(at, side): (usize, Side)| {
        let (entry, name) = (side.person.id.clone(), undo_name(&side));
        let button = (0 < at).then(|| view! {
            <button type="button" class="btn" aria-label=name data-test="undo-join" on:click=move |_| undo(entry.clone())>{say!("Undo the join")}</button>
        });
        view! { <li><Details side />{button}</li> }
    };
    let apart_row = move |side: Side| {
        let (other, name) = (side.person.id.clone(), join_name(&side));
        view! {
            <li>
                <Details side />
                <button type="button" class="btn" aria-label=name data-test="join-again" on:click=move |_| join(other.clone())>{say!("Same person after all: join")}</button>
            </li>
        }
    };
    view! {
        <Show when=move || entries.with(|all| 1 < all.len())>
            <section class="no-print" aria-labelledby="joined-title" data-test="joined">
                <h2 id="joined-title" tabindex="-1">{say!("Joined entries")}</h2>
                <p class="soft">{say!("Kept as one person, by the name and birth of the first.")}</p>
                <ul class="log">{move || entries.get().into_iter().enumerate().map(joined_row).collect_view()}</ul>
            </section>
        </Show>
        <Show when=move || !apart.with(Vec::is_empty)>
            <section class="no-print" aria-labelledby="apart-title" data-test="kept-apart">
                <h2 id="apart-title" tabindex="-1">{say!("Not the same person")}</h2>
                <p class="soft">{say!("Said here or on another device.")}</p>
                <ul class="log">{move || apart.get().into_iter().map(apart_row).collect_view()}</ul>
            </section>
        </Show>
    }
}

/// A button's whole name begins with the words that stand on it.
fn undo_name(side: &Side) -> String {
    say!("Undo the join of {name}, {visits}", name = named(&side.person), visits = visits(side.visits.len()))
}

fn join_name(side: &Side) -> String {
    say!(
        "Same person after all: join with {name}, {visits}",
        name = named(&side.person),
        visits = visits(side.visits.len())
    )
}
