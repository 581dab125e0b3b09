//! Entries that may be the same person, two side by side. Nothing is joined unasked: each pair waits for one of two answers.

use leptos::prelude::*;
use sidelight_core::calendar::{Born, Moment, long_date};
use sidelight_core::capture::visit::Person;

use crate::memo::memo;
use crate::platform::focus;
use crate::route::Route;
use crate::state::{App, Side};
use crate::widgets::bar::Head;
use crate::widgets::more::{More, PAGE};
use crate::widgets::show::Show;

/// Visits whose days are all named; of more only the first and the last are.
const MOST_DAYS: usize = 4;

#[component]
pub fn Likely() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::People));
    let shown = RwSignal::new(PAGE);
    let pairs = memo(move |_| app.likely_pairs(shown.get()));
    let total = Signal::derive(move || app.likely.with(Vec::len));
    let cards = move || {
        let pairs = pairs.get();
        pairs.into_iter().enumerate().map(|(at, pair)| view! { <Pair at total pair /> }).collect_view()
    };
    view! {
        <main class="screen" data-screen="likely">
            <Head title=say!("Same person?").to_string() back=(say!("Back to people"), back) />
            <div class="body" tabindex="0">
                <Show
                    when=move || 0 < total.get()
                    fallback=|| view! { <p id="likely-none" tabindex="-1" data-test="none">{say!("No two entries wait for an answer.")}</p> }
                >
                    <p>{say!("These have the same name and birth. Joined, they show as one person with all their visits; nothing is lost, and it can be undone on the person's page.")}</p>
                </Show>
                <div data-test="pairs">{cards}</div>
                <More shown total />
            </div>
            <footer>
                <button type="button" class="btn main" data-test="people" on:click=move |_| app.show(Route::People)>{say!("To the people")}</button>
            </footer>
        </main>
    }
}

#[component]
fn Pair(at: usize, total: Signal<usize>, pair: (Side, Side)) -> impl IntoView {
    let app = App::get();
    let (one, other) = pair;
    let name = one.person.label.clone();
    let ids = StoredValue::new((one.person.id.clone(), other.person.id.clone()));
    let answered = move |said: Result<String, String>| {
        app.said.set(Some(said.unwrap_or_else(|why| why)));
        // The pair is gone: the keyboard goes on with the one that took its place.
        focus::on_first_enabled(&[&title_id(at), &title_id(at.saturating_sub(1)), "likely-none"]);
    };
    let join = move |_| {
        let joined = ids.with_value(|(one, other)| app.join(one, other));
        answered(joined.map(|person| say!("Joined. They show as {name}.", name = named(&person))));
    };
    let keep_apart = move |_| {
        let kept = ids.with_value(|(one, other)| app.keep_apart(one, other));
        answered(kept.map(|()| say!("Kept as two people. You will not be asked about them again.").to_string()));
    };
    let (title, titled_by) = (title_id(at), title_id(at));
    view! {
        <section class="pair" aria-labelledby=titled_by data-test="pair">
            <h2 id=title tabindex="-1">
                <bdi>{name}</bdi>
                <small>{move || say!("{at} of {of}", at = at + 1, of = total.get())}</small>
            </h2>
            <div class="sides"><Details side=one look=true /><Details side=other look=true /></div>
            <div class="reasons">
                <button type="button" class="btn" aria-describedby=title_id(at) data-test="join" on:click=join>{say!("Same person: join")}</button>
                <button type="button" class="btn" aria-describedby=title_id(at) data-test="apart" on:click=keep_apart>{say!("Not the same")}</button>
            </div>
        </section>
    }
}

fn title_id(at: usize) -> String {
    format!("pair-{at}")
}

/// What is known of one entry.
#[component]
pub fn Details(
    side: Side,
    /// Whether it leads to the visits.
    #[prop(optional)]
    look: bool,
) -> impl IntoView {
    let app = App::get();
    let Side { person, visits } = side;
    let born = person.born.map_or_else(|| say!("birth not known").to_string(), born_on);
    let invented = person.invented.then(|| view! { <small>{say!("invented")}</small> });
    let changed = person.changed.map(|changed| say!("entry last changed {day}", day = long_date(changed.date())));
    let look = (look && !visits.is_empty()).then(|| {
        let id = person.id.clone();
        let name = say!("Look at the visits of {name}, {born}", name = person.label, born);
        view! {
            <button type="button" class="link" aria-label=name data-test="look" on:click=move |_| app.show(Route::Person(id.clone()))>
                {say!("Look at the visits")}
            </button>
        }
    });
    view! {
        <div class="side" data-test="side">
            <strong><bdi>{person.label}</bdi></strong>
            <small>{born}</small>
            {invented}
            <small>{days(&visits)}</small>
            <small>{changed}</small>
            {look}
        </div>
    }
}

/// "born 6 April 2015".
pub fn born_on(born: Born) -> String {
    say!("born {day}", day = born.text())
}

/// "Kim, born 6 April 2015"; without a known birth the name alone.
pub fn named(person: &Person) -> String {
    match person.born {
        Some(born) => say!("{name}, born {day}", name = person.label, day = born.text()),
        None => person.label.clone(),
    }
}

/// "2 visits: 6 April 2026, 2 March 2026", the latest first.
fn days(visits: &[Moment]) -> String {
    let day = |moment: &Moment| long_date(moment.date());
    match visits {
        [] => say!("no visit here").to_string(),
        [one] => say!("1 visit: {day}", day = day(one)),
        all if all.len() <= MOST_DAYS => {
            let days: Vec<String> = all.iter().map(day).collect();
            say!("{count} visits: {days}", count = all.len(), days = days.join(", "))
        }
        [last, .., first] => {
            say!("{count} visits, {first} to {last}", count = visits.len(), first = day(first), last = day(last))
        }
    }
}

/// Leads to the pairs, where there are any.
#[component]
pub fn LikelyNote() -> impl IntoView {
    let app = App::get();
    let count = memo(move |_| app.likely.with(Vec::len));
    view! {
        <Show when=move || 0 < count.get()>
            <div class="notice" data-test="likely-note">
                <p>
                    {move || match count.get() {
                        1 => say!("1 pair may be the same person.").to_string(),
                        count => say!("{count} pairs may be the same person.", count),
                    }}
                </p>
                <button type="button" class="btn" data-test="likely" on:click=move |_| app.show(Route::Likely)>{say!("Look at them")}</button>
            </div>
        </Show>
    }
}
