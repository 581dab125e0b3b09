//! All visits, newest first, found by code, name or day.

use leptos::prelude::*;
use sidelight_core::calendar::{iso_date, long_date};
use sidelight_core::capture::visit::Visit;

use super::home::VisitRow;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::text_box::TextBox;

/// Rows drawn at once; a search narrows them down.
const MOST: usize = 100;

#[component]
pub fn Seen() -> impl IntoView {
    let app = App::get();
    let wanted = RwSignal::new(String::new());
    let back = Callback::new(move |()| app.show(Route::Home));
    let found = Memo::new(move |_| {
        let wanted = wanted.get().trim().to_lowercase();
        let mut visits: Vec<Visit> = app.others.get().into_iter().chain(app.current.get()).collect();
        visits.retain(|visit| {
            app.people.with(|people| {
                let label =
                    people.iter().find(|person| person.id == visit.person).map_or("", |person| person.label.as_str());
                let day = visit.started.date();
                let words = format!("{} {} {}", label.to_lowercase(), iso_date(day), long_date(day).to_lowercase());
                words.contains(&wanted)
            })
        });
        visits.sort_by_key(|visit| std::cmp::Reverse(visit.started));
        visits
    });
    let rows = move || found.get().into_iter().take(MOST).map(|visit| view! { <VisitRow visit /> }).collect_view();
    view! {
        <main class="screen" data-screen="seen">
            <Head title="All visits".to_string() back=("Back to the start", back) />
            <div class="body">
                <TextBox id="find" label="Find by code, name or day" text=wanted max=80 />
                <div class="rows" data-test="visits">{rows}</div>
                <p class="soft" role="status">
                    {move || match found.with(Vec::len) {
                        0 => "No visit fits.".to_string(),
                        n if n > MOST => format!("{MOST} of {n} visits; search to narrow them down."),
                        1 => "1 visit.".to_string(),
                        n => format!("{n} visits."),
                    }}
                </p>
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Who)>"Start a visit"</button>
            </footer>
        </main>
    }
}
