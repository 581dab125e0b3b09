//! How a task is done, in a few lines, with its cautions in front. Both fold once something was recorded: they were read
//! by then, and what was recorded needs the room.

use leptos::prelude::*;
use sidelight_core::capture::frame;
use sidelight_core::task::{Caution, Task};

use crate::state::App;
use crate::widgets::show::Show;
use crate::words;

/// With `small`, cautions and words are folded.
#[component]
pub fn SetupCard(
    task: &'static Task,
    #[prop(into)] small: Signal<bool>,
    /// What else can be opened, beside how it is done.
    #[prop(optional)]
    children: Option<Children>,
) -> impl IntoView {
    let app = App::get();
    let setup = &task.setup;
    let applies = move |caution: &Caution| {
        let years = app.assessment.with(|a| a.as_ref().and_then(|a| a.age)).map(|age| age.years);
        let young = caution.below_age.is_none_or(|limit| years.is_some_and(|years| years < limit));
        let ticked = caution.when.is_empty()
            || app.current.with(|visit| visit.as_ref().is_some_and(|visit| frame::has_caution(visit, caution.when)));
        young && ticked
    };
    let says = move || {
        let applying = task.cautions.iter().filter(|caution| applies(caution));
        applying.map(|caution| words::of(caution.says)).collect::<Vec<_>>()
    };
    let cautions = move || {
        let whole =
            |says| view! { <p class="caution" data-test="caution"><strong>{say!("Care:")}" "</strong>{says}</p> };
        let says = says();
        match says.len() {
            0 => ().into_any(),
            _ if !small.get() => says.into_iter().map(whole).collect_view().into_any(),
            n => view! {
                <details class="caution caution-small" data-test="cautions">
                    <summary>{counted!(n, "Care", "Care, {count} points")}</summary>
                    {says.into_iter().map(|says| view! { <p>{says}</p> }).collect_view()}
                </details>
            }
            .into_any(),
        }
    };
    view! {
        {cautions}
        <div class="cue-row" class:cue-row-small=move || small.get()>
        <details class="cue" class:cue-small=move || small.get() data-test="setup">
            <summary>
                <Show when=move || !small.get() fallback=|| say!("How it is done")>
                    <span>{words::of(setup.motion)}</span>
                    <em>{say!("“{words}”", words = words::of(setup.say))}</em>
                </Show>
            </summary>
            <dl>
                <Show when=move || small.get()>
                    <dt>{say!("Do")}</dt>
                    <dd>{words::of(setup.motion)}</dd>
                    <dt>{say!("Say")}</dt>
                    <dd>{words::of(setup.say)}</dd>
                </Show>
                <dt>{say!("Person")}</dt>
                <dd>{words::of(setup.position)}</dd>
                <dt>{say!("Target")}</dt>
                <dd>{words::of(setup.target)}</dd>
                <dt>{say!("Watch")}</dt>
                <dd>{words::of(setup.watch)}</dd>
            </dl>
        </details>
        {children.map(|children| children())}
        </div>
    }
}
