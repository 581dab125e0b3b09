//! All visits, newest first, found by code, name or day.

use leptos::prelude::*;
use sidelight_core::calendar::{iso_date, long_date};

use super::home::VisitRows;
use crate::memo::memo;
use crate::route::Route;
use crate::state::{App, Listed};
use crate::widgets::bar::Head;
use crate::widgets::more::{More, PAGE};
use crate::widgets::text_box::TextBox;

#[component]
pub fn Seen() -> impl IntoView {
    let app = App::get();
    let wanted = RwSignal::new(String::new());
    let back = Callback::new(move |()| app.show(Route::Home));
    let shown = RwSignal::new(PAGE);
    // What a search finds is drawn from its first page on.
    Effect::new(move |_| {
        wanted.track();
        shown.set(PAGE);
    });
    let found = memo(move |_| {
        let wanted = wanted.get().trim().to_lowercase();
        let labels = app.names();
        let fits = |one: &&Listed| {
            let label = labels.get(&one.entry.person).map_or("", String::as_str);
            let day = one.entry.started.date();
            wanted.is_empty()
                || format!("{label} {} {}", iso_date(day), long_date(day).to_lowercase()).contains(&wanted)
        };
        app.listed.with(|all| all.iter().filter(fits).cloned().collect::<Vec<_>>())
    });
    let rows = move || {
        let rows: Vec<Listed> = found.with(|found| found.iter().take(shown.get()).cloned().collect());
        view! { <VisitRows rows /> }
    };
    view! {
        <main class="screen" data-screen="seen">
            <Head title=say!("All visits").to_string() back=(say!("Back to the start"), back) />
            <div class="body">
                <TextBox id="find" label=say!("Find by code, name or day") text=wanted max=80 />
                <div class="rows" data-test="visits">{rows}</div>
                <More shown total=Signal::derive(move || found.with(Vec::len)) />
                <p class="soft" role="status">
                    {move || match found.with(Vec::len) {
                        0 => say!("No visit fits.").to_string(),
                        1 => say!("1 visit.").to_string(),
                        n => say!("{n} visits.", n),
                    }}
                </p>
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Who)>{say!("Start a visit")}</button>
            </footer>
        </main>
    }
}
