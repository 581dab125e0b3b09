//! What symptoms may do, whom to call, who stays with the child, and the language.

use leptos::prelude::*;
use sidelight_core::catalogue::Language;
use sidelight_core::plan::{Edit, MOST_DIGITS, NotYet};
use sidelight_core::tolerance::{Limits, RULES, Rule};

use super::Refusal;
use super::desk::Desk;
use crate::memo::memo;
use crate::widgets::pick::{Pick, Tick};

/// Offered times until symptoms are back where they began.
const MINUTES: [u16; 5] = [10, 15, 20, 30, 60];

#[component]
pub fn SheetLimits(desk: Desk) -> impl IntoView {
    let limits = memo(move |_| desk.choice.with(|choice| choice.limits));
    let rise = move |rise: u8| {
        let pick = move || desk.edit(Edit::Limits(Limits { rise, ..limits.get_untracked() }));
        let label = if rise == 0 { say!("no rise").to_string() } else { rise.to_string() };
        view! { <Pick name="rise" test=RISES[usize::from(rise)] label=label on=Signal::derive(move || limits.get().rise == rise) pick /> }
    };
    let minutes = move |minutes: u16| {
        let pick = move || desk.edit(Edit::Limits(Limits { minutes, ..limits.get_untracked() }));
        view! { <Pick name="settled" test="settled" label=say!("{minutes} min", minutes) on=Signal::derive(move || limits.get().minutes == minutes) pick /> }
    };
    let helper = memo(move |_| desk.choice.with(|choice| choice.helper));
    let language = memo(move |_| desk.choice.with(|choice| choice.language));
    let emergency = move || desk.choice.with(|choice| choice.emergency.clone());
    view! {
        <h2>{say!("What symptoms may do")}</h2>
        <fieldset class="ask">
            <legend>{say!("Rise at most by, on 0 to 10")}</legend>
            <div class="chips">{(0..=Limits::MOST.rise).map(rise).collect_view()}</div>
        </fieldset>
        <fieldset class="ask">
            <legend>{say!("Back where it began in less than")}</legend>
            <div class="chips">{MINUTES.map(minutes).collect_view()}</div>
        </fieldset>
        <Refusal desk id="not-yet-limits" on=|not_yet| matches!(not_yet, NotYet::Limits) />
        <details class="why">
            <summary>{say!("Published rules, which disagree")}</summary>
            <ul class="plain">
                {RULES.iter().map(|rule| view! {
                    <li>{rule_line(rule)}</li>
                }).collect_view()}
            </ul>
        </details>
        <div class="ask">
            <label for="emergency-number">{say!("Emergency number")}</label>
            <p class="soft">{say!("Digits only, such as 112. Empty: the sheet says it in words.")}</p>
            <input
                type="text"
                inputmode="tel"
                id="emergency-number"
                data-test="emergency-number"
                autocomplete="off"
                maxlength=MOST_DIGITS
                aria-describedby="not-yet-emergency"
                prop:value=emergency
                on:input=move |event| desk.edit(Edit::Emergency(event_target_value(&event)))
            />
            <Refusal desk id="not-yet-emergency" on=|not_yet| matches!(not_yet, NotYet::Emergency) />
        </div>
        <div class="ask">
            <Tick test="helper" label=say!("An adult stays with the child") on=helper flip=move || desk.edit(Edit::Helper(!helper.get_untracked())) />
        </div>
        <fieldset class="ask">
            <legend>{say!("Language the sheet opens in")}</legend>
            <div class="chips">
                {Language::ALL.map(|one| view! {
                    <Pick name="language" test=one.tag() label=one.name() on=Signal::derive(move || language.get() == one) pick=move || desk.edit(Edit::Language(one)) />
                }).collect_view()}
            </div>
            <p class="soft">{say!("The family can change it. The Spanish texts still need a clinician's reading.")}</p>
        </fieldset>
    }
}

fn rule_line(rule: &Rule) -> String {
    let (rule, source, place, used) = (rule.says, rule.source.short, rule.source.place, rule.used);
    if used {
        return say!("In use: {rule} ({source}, {place})", rule, source, place);
    }
    format!("{rule} ({source}, {place})")
}

const RISES: [&str; 4] = ["rise-0", "rise-1", "rise-2", "rise-3"];
