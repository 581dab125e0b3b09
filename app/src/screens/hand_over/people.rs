//! People to be ticked for a hand over, with search.

use std::collections::BTreeSet;

use leptos::prelude::*;
use sidelight_core::keeping::Wanted;

use crate::memo::memo;
use crate::state::App;
use crate::widgets::text_box::TextBox;

/// Rows drawn at once; a search narrows them down.
const MOST: usize = 100;

#[component]
pub fn Choose() -> impl IntoView {
    let app = App::get();
    let wanted = RwSignal::new(String::new());
    let found = memo(move |_| app.people_seen(&wanted.get()));
    let row = move |seen: sidelight_core::people::Seen| {
        let (id, of) = (seen.person.id.clone(), seen.person.id);
        let on = move || chosen(app, |people| !people.is_disjoint(&app.entries_of(&of)));
        view! {
            <label class="row tick" data-test="choose-person">
                <input type="checkbox" prop:checked=on on:change=move |_| flip(app, &id) />
                <span>
                    <strong><bdi>{seen.person.label}</bdi></strong>
                    <small>{super::visits(seen.visits)}</small>
                </span>
            </label>
        }
    };
    view! {
        <TextBox id="find" label=say!("Find by code or name") text=wanted max=80 />
        <div class="rows" role="group" aria-label=say!("People to choose")>
            {move || found.get().into_iter().take(MOST).map(row).collect_view()}
        </div>
        <p class="soft" role="status">
            {move || match found.with(Vec::len) {
                0 => say!("No one fits.").to_string(),
                count if count > MOST => say!("{most} of {count} people; search to narrow them down.", most = MOST, count),
                _ => String::new(),
            }}
        </p>
    }
}

fn chosen(app: App, ask: impl FnOnce(&BTreeSet<String>) -> bool) -> bool {
    app.wanted.with(|wanted| match wanted {
        Wanted::People(people) => ask(people),
        Wanted::New | Wanted::All | Wanted::Visit(_) => false,
    })
}

fn flip(app: App, id: &str) {
    app.wanted.update(|wanted| match wanted {
        Wanted::People(people) => {
            // Any entry of a person stands for all of them.
            let entries = app.entries_of(id);
            if people.is_disjoint(&entries) {
                people.insert(id.to_string());
            } else {
                people.retain(|id| !entries.contains(id));
            }
        }
        Wanted::New | Wanted::All | Wanted::Visit(_) => {}
    });
}
