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
            <h2 id="taken-title">{if nothing { say!("Everything is here already") } else { say!("Taken in") }}</h2>
            {nothing.then(|| view! { <p>{say!("Nothing was changed.")}</p> })}
            <Sentences all=taken.comes />
            <Sentences all=taken.stays />
            {(!taken.held_back.is_empty()).then(|| view! {
                <p>{say!("Not taken in, unless you ticked them:")}</p>
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
        1 => say!("1 closed visit").to_string(),
        count => say!("{count} closed visits", count),
    };
    let visits = match receipt.addenda {
        0 => visits,
        1 => say!("{visits} and 1 correction", visits),
        addenda => say!("{visits} and {addenda} corrections", visits, addenda),
    };
    view! {
        <section aria-labelledby="receipt-title" data-test="receipt">
            <h2 id="receipt-title">{say!("Receipt")}</h2>
            <p>{say!("For {visits}. Read these words to whoever handed over, or let their device scan the code; then it knows that they are safe here.", visits)}</p>
            <p class="six" data-test="receipt-words">{receipt.words}</p>
            <Qr text=receipt.code label=say!("The receipt as a code") />
        </section>
    }
}
