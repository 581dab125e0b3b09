//! The receipt of the clinic: six words or a code, and which hand over it is for.

use leptos::prelude::*;
use sidelight_core::receipt::Said;

use super::safe::{named, visits};
use crate::route::Route;
use crate::state::App;
use crate::state::hand_over::Confirmed;
use crate::widgets::bar::Head;
use crate::widgets::scan::Scan;
use crate::widgets::text_box::TextBox;
use crate::words;

/// Six words of eight letters at most, and room for what stands between them.
const LONGEST: usize = 200;

#[component]
pub fn ReceiptScreen() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Safe));
    let words = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let confirmed = RwSignal::new(None::<Confirmed>);
    let check = move |entered: String| {
        confirmed.set(None);
        refused.set(None);
        let said = match Said::parse(&entered) {
            Ok(said) => said,
            Err(why) => return refused.set(Some(why.to_string())),
        };
        leptos::task::spawn_local(async move {
            match app.confirm(&said).await {
                Ok(found) if found.hand_overs.is_empty() => refused.set(Some(words::of(OTHER).to_string())),
                Ok(found) => {
                    words.set(String::new());
                    confirmed.set(Some(found));
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    };
    view! {
        <main class="screen" data-screen="receipt">
            <Head title=say!("Receipt").to_string() back=(say!("Back to safe keeping"), back) />
            <div class="body">
                <p>{say!("When the clinic has taken a file in, it shows a receipt. With it this device knows that those visits are safe there.")}</p>
                <TextBox
                    id="receipt-words"
                    label=say!("The six words")
                    help=say!("Any case. The first four letters of each are enough.")
                    text=words
                    max=LONGEST
                    refused_by="receipt-refused"
                />
                <p class="refused" id="receipt-refused" role="alert" data-test="refused">{move || refused.get()}</p>
                <Scan label=say!("Scan the code instead") on_text=Callback::new(check) />
                <div role="status" data-test="confirmed">{move || confirmed.get().map(|found| view! { <Told found /> })}</div>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="check" on:click=move |_| check(words.get_untracked())>{say!("Check the receipt")}</button>
            </footer>
        </main>
    }
}

const OTHER: &str = text!(
    "This receipt is for other visits: none that was handed over from this device. Compare the words with the clinic's screen, and look whether another device handed over."
);

#[component]
fn Told(found: Confirmed) -> impl IntoView {
    let head =
        if found.known { say!("This receipt was entered before.") } else { say!("Confirmed: the clinic has them.") };
    let line = |one: sidelight_core::capture::ledger::HandedOver| {
        view! { <li>{named(&one)}": "{visits(one.visits.len())}</li> }
    };
    view! {
        <div class="notice">
            <p><strong>{head}</strong></p>
            <ul class="plain">{found.hand_overs.into_iter().map(line).collect_view()}</ul>
        </div>
    }
}
