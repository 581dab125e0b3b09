//! Safe keeping: what is on this device alone, what was handed over, and everything that has to do with it.

use std::collections::BTreeSet;

use leptos::prelude::*;
use sidelight_core::calendar::long_date;
use sidelight_core::capture::ledger::HandedOver;
use sidelight_core::keeping::{self, Counts, Wanted};
use sidelight_core::sorted;

use super::rescue::{SaveReadable, Unreadable};
use crate::memo::memo;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::pick::Pick;
use crate::widgets::show::Show;

/// Hand overs drawn at once, the latest first.
const MOST: usize = 50;

#[component]
pub fn Safe() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    let counts = memo(move |_| app.counts());
    let hand_over = move |_| {
        app.wanted.set(Wanted::New);
        app.show(Route::HandOver);
    };
    let export = move |_| {
        app.wanted.set(Wanted::All);
        app.show(Route::Export);
    };
    view! {
        <main class="screen" data-screen="safe">
            <Head title=say!("Safe keeping").to_string() back=(say!("Back to the start"), back) />
            <div class="body" tabindex="0">
                <Unreadable />
                {move || view! { <Standing counts=counts.get() /> }}
                <nav class="more" aria-label=say!("Safe keeping")>
                    <button type="button" class="link" data-test="enter-receipt" on:click=move |_| app.show(Route::Receipt)>{say!("Enter a receipt")}</button>
                    <button type="button" class="link" data-test="clinic-key" on:click=move |_| app.show(Route::ClinicKey)>{say!("Clinic key")}</button>
                    <button type="button" class="link" data-test="take-in" on:click=move |_| app.show(Route::TakeIn)>{say!("Take in files")}</button>
                    <button type="button" class="link" data-test="export" on:click=export>{say!("Other formats")}</button>
                    <button type="button" class="link" data-test="erase-someone" on:click=move |_| to_people(app)>{say!("Erase a person")}</button>
                </nav>
                <Rule />
                <Log />
                <section class="keep" aria-labelledby="keep-title">
                    <h2 id="keep-title">{say!("If something is damaged")}</h2>
                    <Check />
                    <Show when=move || app.damaged.with(BTreeSet::is_empty)>
                        <SaveReadable />
                    </Show>
                </section>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="hand-over" on:click=hand_over>{say!("Hand over")}</button>
            </footer>
        </main>
    }
}

/// Reads every record once: damage is told before the record is needed.
#[component]
fn Check() -> impl IntoView {
    let app = App::get();
    let working = RwSignal::new(false);
    let check = move |_| {
        working.set(true);
        leptos::task::spawn_local(async move {
            let readable = app.check().await;
            // The screen may have been left.
            if working.try_set(false).is_some() {
                return;
            }
            app.said.set(Some(match app.damaged.with_untracked(BTreeSet::len) {
                0 => say!("Everything can be read: {visits}.", visits = visits(readable)),
                1 => say!("{visits} can be read. 1 record cannot.", visits = visits(readable)),
                damaged => say!("{visits} can be read. {damaged} records cannot.", visits = visits(readable), damaged),
            }));
        });
    };
    view! {
        <button type="button" class="link" data-test="check" disabled=move || working.get() on:click=check>
            {move || if working.get() { say!("Reading every record…") } else { say!("Check whether every record can be read") }}
        </button>
    }
}

fn to_people(app: App) {
    app.show(Route::People);
    app.said.set(Some(say!("Choose the person; “Erase this person” stands at the end of their page.").to_string()));
}

#[component]
fn Standing(counts: Counts) -> impl IntoView {
    let Counts { here, open, never, taken_in, waiting, confirmed } = counts;
    view! {
        <Show when=move || 0 < never>
            <p class="notice" data-test="only-here">{only_here(never)}</p>
        </Show>
        <dl class="facts counts" data-test="counts">
            <dt>{say!("Visits here")}</dt><dd>{here}</dd>
            <dt>{say!("Never handed over")}</dt><dd data-test="never">{never}</dd>
            <dt>{say!("Taken in here")}</dt><dd data-test="taken-in">{taken_in}</dd>
            <dt>{say!("Waiting for a receipt")}</dt><dd data-test="waiting">{waiting}</dd>
            <dt>{say!("Receipt came")}</dt><dd data-test="confirmed">{confirmed}</dd>
            <dt>{say!("Still open")}</dt><dd data-test="open">{open}</dd>
        </dl>
    }
}

/// What a lost phone would take along.
pub fn only_here(never: usize) -> String {
    match never {
        1 => say!("1 closed visit is on this device alone.").to_string(),
        _ => say!("{never} closed visits are on this device alone.", never),
    }
}

/// What the clinic's computer would take along: the phones may have removed theirs.
pub fn taken_in_here(taken_in: usize) -> String {
    match taken_in {
        1 => say!("1 visit was taken in here; the phone it came from may have removed its own.").to_string(),
        _ => say!("{taken_in} visits were taken in here; the phones they came from may have removed theirs.", taken_in),
    }
}

#[component]
fn Rule() -> impl IntoView {
    let app = App::get();
    let is =
        move |days: Option<u16>| Signal::derive(move || app.settings.with(|settings| settings.remove_after == days));
    let set = move |days: Option<u16>| app.set_settings(|settings| settings.remove_after = days);
    let choices = keeping::DAYS.map(|days| {
        view! { <Pick name="rule" test=test_of(days) label=say!("{days} days", days) on=is(Some(days)) pick=move || set(Some(days)) /> }
    });
    view! {
        <fieldset class="ask" data-test="rule">
            <legend>{say!("Remove from this device after a receipt")}</legend>
            <p class="soft">
                {say!("Only closed visits that a receipt came for, when Sidelight is opened. A visit whose re-test is awaited stays. Change since an earlier visit cannot be told without it.")}
            </p>
            <div class="chips">
                <Pick name="rule" test="rule-off" label=say!("Never") on=is(None) pick=move || set(None) />
                {choices.into_iter().collect_view()}
            </div>
        </fieldset>
    }
}

fn test_of(days: u16) -> &'static str {
    match days {
        7 => "rule-7",
        30 => "rule-30",
        _ => "rule-90",
    }
}

#[component]
fn Log() -> impl IntoView {
    let app = App::get();
    let all = move || {
        let mut all = app.ledger.with(|ledger| ledger.handed.clone());
        sorted::by_key(&mut all, |one| std::cmp::Reverse(one.made));
        all.truncate(MOST);
        all
    };
    view! {
        <Show when=move || app.ledger.with(|ledger| !ledger.handed.is_empty())>
            <section aria-labelledby="log-title" data-test="log">
                <h2 id="log-title">{say!("Handed over")}</h2>
                <ul class="log">{move || all().into_iter().map(|one| view! { <Line one /> }).collect_view()}</ul>
            </section>
        </Show>
    }
}

#[component]
fn Line(one: HandedOver) -> impl IntoView {
    let app = App::get();
    let state = match one.confirmed {
        Some(on) => say!("receipt entered {day}", day = long_date(on.date())),
        None => say!("no receipt yet").to_string(),
    };
    let id = one.id.clone();
    let lost = one.confirmed.is_none().then(|| {
        view! {
            <button type="button" class="link" data-test="lost" on:click=move |_| lost(app, &id)>{say!("It did not arrive")}</button>
        }
    });
    view! {
        <li data-test="handed">
            <span>
                <strong>{named(&one)}</strong>
                <small>{visits(one.visits.len())}" · "{state}</small>
            </span>
            {lost}
        </li>
    }
}

fn lost(app: App, id: &str) {
    app.take_back(id);
    app.said.set(Some(say!("Its visits count as never handed over again.").to_string()));
}

/// A hand over as it is spoken of: the day and the word that stand in the file's name.
pub fn named(one: &HandedOver) -> String {
    format!("{}, “{}”", long_date(one.made.date()), one.word)
}

/// "1 visit", "12 visits".
pub fn visits(count: usize) -> String {
    counted!(count, "1 visit", "{count} visits")
}
