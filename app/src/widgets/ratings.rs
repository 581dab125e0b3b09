//! Ratings from 0 to 10. An untouched rating is no rating: it shows a dash, not a zero.

use leptos::prelude::*;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::form::Choice;
use sidelight_core::capture::symptoms::rating;

use super::entry::Entry;
use crate::words;

#[component]
pub fn RatingsField(entry: Entry, items: &'static [Choice]) -> impl IntoView {
    let key = entry.field.key;
    let all = entry.read(move |answers| answers.ratings(key).map(<[_]>::to_vec).unwrap_or_default());
    let put = move |id: &'static str, value: u8| {
        let mut ratings = all.get_untracked();
        match ratings.iter_mut().find(|(item, _)| item == id) {
            Some((_, old)) if *old == value => return,
            Some((_, old)) => *old = value,
            None => ratings.push((id.to_string(), value)),
        }
        entry.set(Some(Answer::Ratings(ratings)));
    };
    let rows = items.iter().map(|item| {
        let id = item.id;
        let value = Signal::derive(move || all.with(|all| rating(all, id)));
        // A touch on the zero of an untouched slider changes nothing in it, but it is an answer all the same.
        let take = move |typed: String| {
            if let Ok(value) = typed.parse::<u8>() {
                put(id, value);
            }
        };
        let name = format!("{}-{id}", entry.name());
        view! {
            <div class="rating" class:rating-unset=move || value.get().is_none() data-test=id>
                <label for=name.clone()>{words::of(item.label)}</label>
                <output data-test="value">{move || value.get().map_or("–".to_string(), |value| value.to_string())}</output>
                <input
                    type="range"
                    autocomplete="off"
                    id=name
                    min="0"
                    max="10"
                    step="1"
                    aria-valuetext=move || value.get().map_or(say!("not asked").to_string(), |value| say!("{value} of 10", value))
                    prop:value=move || value.get().unwrap_or(0)
                    on:input=move |event| take(event_target_value(&event))
                    on:click=move |event| take(event_target_value(&event))
                />
            </div>
        }
    });
    view! {
        <fieldset class="ask" data-test=key>
            <legend>{words::of(entry.field.ask)}</legend>
            {rows.collect_view()}
        </fieldset>
    }
}
