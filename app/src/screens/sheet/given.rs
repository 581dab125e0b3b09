//! Who signed it off and what stays in the practice.

use leptos::prelude::*;
use sidelight_core::calendar::long_date;
use sidelight_core::capture::home::Given;
use sidelight_core::exercise;

use crate::words;

#[component]
pub fn SignedBy(given: Given) -> impl IntoView {
    let day = long_date(given.at.date());
    let reasons = given.despite.into_iter().map(|despite| {
        let title = exercise::by_id(&despite.exercise).map_or(despite.exercise.clone(), |one| one.title.to_string());
        view! { <li><strong>{title}</strong>": "{despite.why}</li> }
    });
    let reasons = reasons.collect_view();
    let (before, after) = words::around(&say!("Signed off by {name} on {day}.", name = words::HERE, day));
    view! {
        <section class="no-print" data-test="signed">
            <h2>{say!("In the practice")}</h2>
            <p>{before}<strong dir="auto">{given.by}</strong>{after}</p>
            {(!reasons.is_empty()).then(|| view! {
                <p>{say!("Given although something speaks against it:")}</p>
                <ul class="plain" dir="auto">{reasons}</ul>
            })}
        </section>
    }
}
