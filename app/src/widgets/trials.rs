//! Repeated trials of one measurement: the trial in hand large, the earlier ones in their order, a ruler for the thumb.

use leptos::prelude::*;
use sidelight_core::capture::answer::{Answer, Trial};
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::{Choice, Field, Kind, TrialForm};
use sidelight_core::quantity::Quantity;

use super::chips::Chips;
use super::entry::Entry;
use super::number::{Ruler, Typed};
use crate::memo::memo;
use crate::widgets::show::Show;
use crate::words;

/// Right end of the thumb ruler in the unit of the quantity; what lies farther out is typed.
const REACH: f64 = 30.0;

#[component]
pub fn TrialsField(entry: Entry, form: &'static TrialForm) -> impl IntoView {
    let key = entry.field.key;
    let trials = entry.read(move |answers| answers.trials(key).to_vec());
    let count = memo(move |_| trials.with(Vec::len));
    // The trial in hand is the last one; with none yet, the first touch begins it.
    let index = move || count.get().saturating_sub(1);
    let begin = move || {
        if count.get_untracked() == 0 {
            entry.edit(Edit::AddTrial(entry.key()));
        }
    };
    let put = move |trial_key: &'static str, answer: Option<Answer>| {
        // Emptying an empty box is no trial.
        if answer.is_none() && count.get_untracked() == 0 {
            return;
        }
        begin();
        let index = count.get_untracked().saturating_sub(1);
        entry.edit(Edit::TrialAnswer(entry.key(), index, trial_key.to_string(), answer));
    };
    let hand = Trials { entry, trials, put: StoredValue::new(Box::new(put)) };
    let numbers: Vec<(&'static Field, &'static Quantity)> = form.fields.iter().filter_map(number_field).collect();
    let first_ruled = numbers.iter().find(|(_, quantity)| is_length(quantity)).map_or("", |(field, _)| field.key);
    let ruled = RwSignal::new(first_ruled);
    let choices = form.fields.iter().filter_map(|field| {
        let Kind::One(choices) = &field.kind else { return None };
        Some(view! { <TrialChips hand field choices=*choices index=Signal::derive(index) /> })
    });
    let again = move || {
        begin();
        entry.edit(Edit::AddTrial(entry.key()));
        // The ruler was on the last number of the trial before; the next thing measured is the first one again.
        ruled.set(first_ruled);
    };
    let ready = move || trials.with(|all| all.last().is_some_and(|trial| !trial.answers.is_empty()));
    view! {
        <section class="trials" data-test=key data-count=move || count.get() aria-label=words::of(entry.field.ask)>
            <h2>{move || say!("Trial {at} of {wanted}", at = count.get().max(1), wanted = form.wanted)}</h2>
            <div class="trial-numbers">
                {numbers
                    .iter()
                    .map(|(field, quantity)| view! { <TrialNumber hand field=*field quantity=*quantity ruled /> })
                    .collect_view()}
            </div>
            <EarlierTrials form trials />
            <div class="trial-choices">{choices.collect_view()}</div>
            <div class="lower">
                {numbers.into_iter().map(|(field, quantity)| view! { <TrialRuler hand field quantity ruled /> }).collect_view()}
                <button
                    type="button"
                    class="btn wide"
                    data-test="another-trial"
                    disabled=move || !ready() || form.most <= count.get()
                    on:click=move |_| again()
                >
                    {move || say!("Trial {at}", at = count.get().max(1) + 1)}
                </button>
            </div>
        </section>
    }
}

type Put = Box<dyn Fn(&'static str, Option<Answer>) + Send + Sync>;

/// The trials of one field, and how the one in hand is changed.
#[derive(Clone, Copy)]
struct Trials {
    entry: Entry,
    trials: Memo<Vec<Trial>>,
    put: StoredValue<Put>,
}

impl Trials {
    fn number(self, key: &'static str) -> Option<f64> {
        self.trials.with(|all| all.last().and_then(|trial| trial.answers.number(key)))
    }

    fn put(self, key: &'static str, answer: Option<Answer>) {
        self.put.with_value(|put| put(key, answer));
    }
}

#[component]
fn TrialNumber(
    hand: Trials,
    field: &'static Field,
    quantity: &'static Quantity,
    ruled: RwSignal<&'static str>,
) -> impl IntoView {
    let id = format!("{}-{}", hand.entry.name(), field.key);
    let put = move |value: Option<f64>| hand.put(field.key, value.map(Answer::Number));
    view! {
        <div class="trial-number" class:chosen=move || ruled.get() == field.key data-test=field.key on:focusin=move |_| if is_length(quantity) { ruled.set(field.key) }>
            <label for=id.clone()>{words::of(field.ask)}</label>
            <Typed
                id
                quantity
                large=true
                value=Signal::derive(move || hand.number(field.key))
                on_value=put
            />
            {is_length(quantity).then(|| view! {
                <button
                    type="button"
                    class="link"
                    data-test="use-ruler"
                    aria-pressed=move || (ruled.get() == field.key).to_string()
                    on:click=move |_| ruled.set(field.key)
                >
                    {move || if ruled.get() == field.key { say!("on the ruler") } else { say!("use the ruler") }}
                </button>
            })}
        </div>
    }
}

#[component]
fn TrialRuler(
    hand: Trials,
    field: &'static Field,
    quantity: &'static Quantity,
    ruled: RwSignal<&'static str>,
) -> impl IntoView {
    view! {
        <Show when=move || ruled.get() == field.key>
            <Ruler
                label=say!("{what} in {unit}", what = words::of(field.ask), unit = words::of(quantity.unit))
                quantity
                reach=REACH
                value=Signal::derive(move || hand.number(field.key))
                on_value=move |value: f64| hand.put(field.key, Some(Answer::Number(value)))
            />
        </Show>
    }
}

#[component]
fn TrialChips(hand: Trials, field: &'static Field, choices: &'static [Choice], index: Signal<usize>) -> impl IntoView {
    let key = field.key;
    let chosen =
        memo(move |_| hand.trials.with(|all| all.last().and_then(|trial| trial.answers.one(key)).map(String::from)));
    view! {
        <fieldset class="ask" data-test=key>
            <legend>{words::of(field.ask)}</legend>
            <div class="chips">
                <Chips
                    name=format!("{}-{key}-{}", hand.entry.name(), index.get_untracked())
                    choices
                    chosen=Signal::derive(move || chosen.get())
                    on_pick=move |id: &'static str| hand.put(key, Some(Answer::One(id.to_string())))
                />
            </div>
        </fieldset>
    }
}

/// The trials before the one in hand, in order, so that a drift is seen before it is computed.
#[component]
fn EarlierTrials(form: &'static TrialForm, trials: Memo<Vec<Trial>>) -> impl IntoView {
    let line = move |trial: &Trial| {
        let numbers: Vec<String> = form
            .fields
            .iter()
            .filter_map(number_field)
            .filter_map(|(field, quantity)| trial.answers.number(field.key).map(|value| quantity.digits(value)))
            .collect();
        if numbers.is_empty() { "–".to_string() } else { numbers.join(" → ") }
    };
    view! {
        <ol class="earlier" aria-label=say!("Trials so far") data-test="trials-so-far">
            {move || trials.with(|all| all.iter().map(|trial| view! { <li>{line(trial)}</li> }).collect_view())}
        </ol>
    }
}

/// Whether the thumb ruler makes sense for it; a time is typed.
fn is_length(quantity: &Quantity) -> bool {
    quantity.unit == "cm"
}

fn number_field(field: &'static Field) -> Option<(&'static Field, &'static Quantity)> {
    let Kind::Number(quantity) = &field.kind else { return None };
    Some((field, *quantity))
}
