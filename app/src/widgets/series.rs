//! Taps on pads: every movement tapped, or the beat calls them and only exceptions are tapped.
//!
//! Pads stand as the examiner faces the person: their right is on the examiner's left, unless the practice flips them.

use leptos::prelude::*;
use sidelight_core::capture::answer::{Run, Tap};
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::{Choice, MarkChoice, SeriesForm};

use super::entry::Entry;
use super::paced::{Beating, PacedButtons};
use super::strip::Strip;
use crate::memo::memo;
use crate::widgets::show::Show;
use crate::words;

#[component]
pub fn SeriesField(entry: Entry, form: &'static SeriesForm) -> impl IntoView {
    let key = entry.field.key;
    let taps = entry.read(move |answers| answers.series(key).map(|series| series.taps.clone()).unwrap_or_default());
    let runs = entry.read(move |answers| answers.series(key).map(|series| series.runs.clone()).unwrap_or_default());
    let settings = entry.app.settings;
    let paced = memo(move |_| form.pace.is_some() && settings.with(|settings| settings.paced));
    let beating = Beating::new(entry, form);
    let flipped = move || settings.with(|settings| settings.pads_flipped);
    view! {
        <section class="series" data-test=key data-count=move || taps.with(Vec::len) aria-label=words::of(entry.field.ask)>
            <div class="series-head">
                <h2>{say!("Seen so far")}</h2>
                {(form.pace.is_some()).then(|| view! { <HowTapped entry paced /> })}
            </div>
            <div class="strips" class:flipped=flipped>
                {form.pads.iter().map(|pad| view! { <Strip form pad=pad.id label=words::of(pad.label) taps /> }).collect_view()}
            </div>
            <div class="lower">
                <Show when=move || paced.get()>
                    <PacedButtons form beating />
                </Show>
                <Remarks entry form taps />
                <div class="pads" class:flipped=flipped class:pads-paced=move || paced.get()>
                    {form
                        .pads
                        .iter()
                        .map(|pad| view! { <Pad entry form pad paced beating runs /> })
                        .collect_view()}
                </div>
            </div>
        </section>
    }
}

/// Whether every movement is tapped or only the exceptions; remembered on this device.
#[component]
fn HowTapped(entry: Entry, paced: Memo<bool>) -> impl IntoView {
    let switch = move |_| entry.app.set_settings(move |settings| settings.paced = !settings.paced);
    view! {
        <button
            type="button"
            class="link"
            data-test="how-tapped"
            data-paced=move || paced.get().to_string()
            on:click=switch
        >
            {move || if paced.get() { say!("tap each one instead") } else { say!("let a beat call them") }}
        </button>
    }
}

/// What can be added to the last tap.
#[component]
fn Remarks(entry: Entry, form: &'static SeriesForm, taps: Memo<Vec<Tap>>) -> impl IntoView {
    let on_last =
        move |id: &'static str| taps.with(|all| all.last().is_some_and(|tap| tap.also.iter().any(|a| a == id)));
    let chip = move |remark: &'static Choice| {
        view! {
            <button
                type="button"
                class="chip-button"
                data-test=remark.id
                disabled=move || taps.with(Vec::is_empty)
                aria-pressed=move || on_last(remark.id).to_string()
                on:click=move |_| entry.edit(Edit::Also(entry.key(), remark.id.to_string()))
            >
                {words::of(remark.label)}
            </button>
        }
    };
    (!form.also.is_empty()).then(|| {
        view! {
            <div class="remarks" role="group" aria-label=say!("Add to the last one")>
                <span class="soft">{say!("last:")}</span>
                {form.also.iter().map(chip).collect_view()}
            </div>
        }
    })
}

#[component]
fn Pad(
    entry: Entry,
    form: &'static SeriesForm,
    pad: &'static Choice,
    paced: Memo<bool>,
    beating: Beating,
    runs: Memo<Vec<Run>>,
) -> impl IntoView {
    let running = move || runs.with(|runs| runs.iter().any(|run| run.pad == pad.id && run.to_ms.is_none()));
    // Without a run of its own a pad is always open; with one, only while its run goes on.
    let open = move || if paced.get() { beating.last_was(pad.id) } else { !form.run_by_pad || running() };
    let see = move |mark: &'static str| {
        if paced.get_untracked() {
            entry.edit(Edit::Except(entry.key(), mark.to_string()));
        } else {
            entry.edit(Edit::Tap(entry.key(), pad.id.to_string(), mark.to_string()));
        }
    };
    let button = move |(index, mark): (usize, &'static MarkChoice)| {
        let choice = &mark.choice;
        let hint = (!choice.hint.is_empty()).then(|| view! { <small>{words::of(choice.hint)}</small> });
        view! {
            <button
                type="button"
                class="btn"
                class:big=index == 0
                data-test=format!("{}-{}", pad.id, choice.id)
                disabled=move || !open()
                aria-label=format!("{}: {} {}", words::of(pad.label), words::of(choice.label), words::of(choice.hint))
                on:click=move |_| see(choice.id)
            >
                {words::of(choice.label)}
                " "
                {hint}
            </button>
        }
    };
    let run_button = (form.run_by_pad).then(|| {
        let toggle = move |_| {
            let edit = if running() {
                Edit::StopRun(entry.key())
            } else {
                Edit::StartRun(entry.key(), pad.id.to_string(), None)
            };
            entry.edit(edit);
        };
        view! {
            <Show when=move || !paced.get()>
                <button
                    type="button"
                    class="btn run"
                    class:main=move || !running()
                    data-test=format!("run-{}", pad.id)
                    data-running=move || running().to_string()
                    on:click=toggle
                >
                    {move || if running() { say!("Stop") } else { say!("Start") }}
                </button>
            </Show>
        }
    });
    let skip_first = move |(index, _): &(usize, &'static MarkChoice)| !(paced.get() && *index == 0);
    view! {
        <div class=format!("pad pad-{}", pad.id) role="group" aria-label=words::of(pad.label)>
            <span class="pad-label">{words::of(pad.label)}</span>
            {run_button}
            {move || form.marks.iter().enumerate().filter(skip_first).map(button).collect_view()}
        </div>
    }
}
