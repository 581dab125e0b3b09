//! Draws any field of any form by its kind.

use leptos::prelude::*;
use sidelight_core::calendar::{iso_date, parse_date};
use sidelight_core::capture::answer::{Answer, Answers};
use sidelight_core::capture::form::{Choice, Field, Form, Kind, Place};
use sidelight_core::capture::safety::YES_NO;

use super::chips::{Chips, hint};
use super::entry::Entry;
use super::grid::GridField;
use super::number::NumberField;
use super::ratings::RatingsField;
use super::series::SeriesField;
use super::trials::TrialsField;
use crate::state::App;
use crate::widgets::show::Show;
use crate::words;

/// All fields of a form that apply: questions first, then what is tapped with the thumb and what is asked of it, the folded
/// ones last.
#[component]
pub fn Fields(#[prop(into)] record: String, form: &'static Form) -> impl IntoView {
    let drawn = |wanted: &dyn Fn(&Field) -> bool| -> Vec<AnyView> {
        form.fields.iter().filter(|field| wanted(field)).map(|field| one(&record, field)).collect()
    };
    let questions = drawn(&|field| field.place == Place::Main && !is_tapped(form, field));
    let folded = drawn(&|field| field.place == Place::Detail);
    let tapped = drawn(&|field| field.place == Place::Main && is_tapped(form, field));
    let fold = (!folded.is_empty()).then(|| {
        view! {
            <details class="fold" data-test="details">
                <summary>{say!("More details")}</summary>
                {folded}
            </details>
        }
    });
    view! {
        {questions}
        {tapped}
        {fold}
    }
}

/// Whether the field is filled by repeated taps while examining, or asks more of one that is: it comes after it, so that
/// nothing under the thumb moves when it appears.
fn is_tapped(form: &'static Form, field: &Field) -> bool {
    let by_taps = matches!(field.kind, Kind::Trials(_) | Kind::Series(_) | Kind::Grid(_));
    let above = field.only_if.and_then(|(key, _)| form.field(key));
    by_taps || above.is_some_and(|above| is_tapped(form, above))
}

/// One field, there only while it applies.
pub fn one(slot: &str, field: &'static Field) -> AnyView {
    let entry = Entry::new(slot, field);
    if field.only_if.is_none() {
        return one_field(entry);
    }
    let applies = entry.read(move |answers: &Answers| field.applies(answers));
    view! { <Show when=move || applies.get()>{one_field(entry)}</Show> }.into_any()
}

fn one_field(entry: Entry) -> AnyView {
    match &entry.field.kind {
        Kind::One(choices) => view! { <OneField entry choices=*choices /> }.into_any(),
        Kind::Many { choices, none } => view! { <ManyField entry choices=*choices none=*none /> }.into_any(),
        Kind::Number(quantity) => view! { <NumberField entry quantity=*quantity /> }.into_any(),
        Kind::Text { max, long } => view! { <TextField entry max=*max long=*long /> }.into_any(),
        Kind::Day => view! { <DayField entry /> }.into_any(),
        Kind::Ratings(items) => view! { <RatingsField entry items=*items /> }.into_any(),
        Kind::Trials(form) => view! { <TrialsField entry form=*form /> }.into_any(),
        Kind::Series(form) => view! { <SeriesField entry form=*form /> }.into_any(),
        Kind::Grid(form) => view! { <GridField entry form=*form /> }.into_any(),
    }
}

#[component]
fn OneField(entry: Entry, choices: &'static [Choice]) -> impl IntoView {
    let key = entry.field.key;
    let chosen = entry.read(move |answers| answers.one(key).map(String::from));
    let class = if std::ptr::eq(choices, YES_NO) { "ask ask-row" } else { "ask" };
    view! {
        <fieldset class=class data-test=key>
            <legend>{words::of(entry.field.ask)}</legend>
            {help(entry)}
            <div class="chips">
                <Chips
                    name=entry.name()
                    choices
                    chosen=Signal::derive(move || chosen.get())
                    on_pick=move |id: &'static str| entry.set(Some(Answer::One(id.to_string())))
                />
            </div>
        </fieldset>
    }
}

#[component]
fn ManyField(entry: Entry, choices: &'static [Choice], none: &'static str) -> impl IntoView {
    let key = entry.field.key;
    let chosen = entry.read(move |answers| answers.many(key).map(<[String]>::to_vec));
    let toggle = move |id: &str| {
        let mut ids = chosen.get_untracked().unwrap_or_default();
        match ids.iter().position(|known| known == id) {
            Some(at) => {
                ids.remove(at);
            }
            None => ids.push(id.to_string()),
        }
        // Taking the last one away is not the same as having asked and found none.
        entry.set((!ids.is_empty()).then_some(Answer::Many(ids)));
    };
    let is_none = move || chosen.with(|ids| ids.as_ref().is_some_and(Vec::is_empty));
    let boxes = choices.iter().map(|choice| {
        let id = choice.id;
        view! {
            <label class="chip" data-test=id>
                <input
                    type="checkbox"
                    autocomplete="off"
                    prop:checked=move || chosen.with(|ids| ids.as_ref().is_some_and(|ids| ids.iter().any(|i| i == id)))
                    on:change=move |_| toggle(id)
                />
                <span>{words::of(choice.label)}{hint(choice)}</span>
            </label>
        }
    });
    view! {
        <fieldset class="ask" data-test=key>
            <legend>{words::of(entry.field.ask)}</legend>
            {help(entry)}
            <div class="chips">
                <label class="chip" data-test="none">
                    <input
                        type="checkbox"
                        autocomplete="off"
                        prop:checked=is_none
                        on:change=move |_| entry.set((!is_none()).then(|| Answer::Many(Vec::new())))
                    />
                    <span>{words::of(none)}</span>
                </label>
                {boxes.collect_view()}
            </div>
        </fieldset>
    }
}

#[component]
fn TextField(entry: Entry, max: usize, long: bool) -> impl IntoView {
    let key = entry.field.key;
    let text = entry.read(move |answers| match answers.get(key) {
        Some(Answer::Text(text)) => text.clone(),
        _ => String::new(),
    });
    let put = move |typed: String| {
        let kept: String = typed.chars().take(max).collect();
        entry.set((!kept.is_empty()).then_some(Answer::Text(kept)));
    };
    let id = entry.name();
    let input = if long {
        view! {
            <textarea
                id=id.clone()
                // The browser writes what is typed here into a file of its own, for its next start, unless a form forbids it.
                form="unkept"
                autocomplete="off"
                rows="2"
                maxlength=max
                prop:value=move || text.get()
                on:input=move |event| put(event_target_value(&event))
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                type="text"
                id=id.clone()
                autocomplete="off"
                maxlength=max
                prop:value=move || text.get()
                on:input=move |event| put(event_target_value(&event))
            />
        }
        .into_any()
    };
    view! {
        <div class="ask" data-test=key>
            <label for=id>{words::of(entry.field.ask)}</label>
            {help(entry)}
            {input}
        </div>
    }
}

#[component]
fn DayField(entry: Entry) -> impl IntoView {
    let key = entry.field.key;
    let day = entry.read(move |answers| answers.day(key).map(iso_date).unwrap_or_default());
    let app = App::get();
    let put = move |typed: String| match parse_date(&typed) {
        Some(date) => entry.set(Some(Answer::Day(date))),
        None if typed.is_empty() => entry.set(None),
        None => app
            .said
            .set(Some(say!("That is not a day. Choose one from the calendar, or type it as 2026-05-31.").into())),
    };
    let id = entry.name();
    view! {
        <div class="ask" data-test=key>
            <label for=id.clone()>{words::of(entry.field.ask)}</label>
            <input
                type="date"
                autocomplete="off"
                id=id
                prop:value=move || day.get()
                on:change=move |event| put(event_target_value(&event))
            />
        </div>
    }
}

fn help(entry: Entry) -> Option<impl IntoView> {
    (!entry.field.help.is_empty()).then(|| view! { <p class="soft">{words::of(entry.field.help)}</p> })
}
