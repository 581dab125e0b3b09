//! What a practitioner should know of an exercise: how it is set up, published doses, trials for and against, cautions.

use crate::words;
use leptos::prelude::*;
use sidelight_core::exercise::{Exercise, Published, Study};

#[component]
pub fn Evidence(exercise: &'static Exercise) -> impl IntoView {
    let list = |lines: Vec<String>| {
        view! { <ul class="plain">{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul> }
    };
    let (dose, source) = (exercise.start.in_words(), exercise.start_from);
    let start = say!("The plan starts from: {dose} ({source}).", dose, source);
    view! {
        <details class="fold" data-test=format!("evidence-{}", exercise.id)>
            <summary>{say!("Evidence, published doses, cautions")}</summary>
            <p>{words::of(exercise.aim)}</p>
            <p class="soft">{words::of(exercise.setup)}</p>
            <h4>{say!("What was found")}</h4>
            {list(exercise.evidence.iter().map(Study::in_words).collect())}
            <h4>{say!("Published doses")}</h4>
            {list(exercise.doses.iter().map(Published::in_words).collect())}
            <p class="soft">{start}</p>
            <h4>{say!("Mind")}</h4>
            {list(exercise.cautions.iter().map(|caution| words::of(caution).to_string()).collect())}
            <dl class="facts">
                <dt>{say!("Looked after by")}</dt><dd>{words::of(exercise.supervision)}</dd>
                <dt>{say!("Harder")}</dt><dd>{words::of(exercise.harder)}</dd>
                <dt>{say!("Easier")}</dt><dd>{words::of(exercise.easier)}</dd>
                <dt>{say!("Stop it")}</dt><dd>{words::of(exercise.stop)}</dd>
            </dl>
        </details>
    }
}
