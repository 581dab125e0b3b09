//! What came of taking in, and the receipt that goes back to whoever handed over.

use leptos::prelude::*;
use sidelight_worker::{Planned, ReceiptGiven};

use crate::screens::likely::LikelyNote;
use crate::widgets::qr::Qr;

/// What was written, and the receipt.
#[component]
pub fn Taken(taken: Planned) -> impl IntoView {
    let nothing = taken.comes.is_empty();
    let receipt = taken.receipt;
    let any = 0 < receipt.visits + receipt.addenda;
    view! {
        <section aria-labelledby="taken-title" data-test="taken">
            <h2 id="taken-title">{if nothing { "Everything is here already" } else { "Taken in" }}</h2>
            {nothing.then(|| view! { <p>"Nothing was changed."</p> })}
            <Sentences all=taken.comes />
            <Sentences all=taken.stays />
            {(!taken.held_back.is_empty()).then(|| view! {
                <p>"Not taken in, unless you ticked them:"</p>
                <Sentences all=taken.held_back />
            })}
        </section>
        <LikelyNote />
        {any.then(|| view! { <Receipt receipt /> })}
    }
}

/// Sentences as a list.
#[component]
pub fn Sentences(all: Vec<String>) -> impl IntoView {
    let any = !all.is_empty();
    any.then(|| view! { <ul class="plain">{all.into_iter().map(|said| view! { <li>{said}</li> }).collect_view()}</ul> })
}

#[component]
fn Receipt(receipt: ReceiptGiven) -> impl IntoView {
    let visits = match receipt.visits {
        1 => "1 closed visit".to_string(),
        count => format!("{count} closed visits"),
    };
    let addenda = match receipt.addenda {
        0 => String::new(),
        1 => " and 1 correction".to_string(),
        count => format!(" and {count} corrections"),
    };
    view! {
        <section aria-labelledby="receipt-title" data-test="receipt">
            <h2 id="receipt-title">"Receipt"</h2>
            <p>{format!("For {visits}{addenda}. Read these words to whoever handed over, or let their device scan the code; then it knows that they are safe here.")}</p>
            <p class="six" data-test="receipt-words">{receipt.words}</p>
            <Qr text=receipt.code label="The receipt as a code" />
        </section>
    }
}
