//! How a task is done, in a few lines, with its cautions in front.

use leptos::prelude::*;
use sidelight_core::capture::frame;
use sidelight_core::task::{Caution, Task};

use crate::state::App;

#[component]
pub fn SetupCard(task: &'static Task) -> impl IntoView {
    let app = App::get();
    let setup = &task.setup;
    let applies = move |caution: &Caution| {
        let years = app.assessment.with(|a| a.as_ref().and_then(|a| a.age)).map(|age| age.years);
        let young = caution.below_age.is_none_or(|limit| years.is_some_and(|years| years < limit));
        let ticked = caution.when.is_empty()
            || app.current.with(|visit| visit.as_ref().is_some_and(|visit| frame::has_caution(visit, caution.when)));
        young && ticked
    };
    let cautions = move || {
        let says = task.cautions.iter().filter(|caution| applies(caution)).map(|caution| caution.says);
        says.map(|says| view! { <p class="caution" data-test="caution"><strong>"Care: "</strong>{says}</p> }).collect_view()
    };
    view! {
        {cautions}
        <details class="cue" data-test="setup">
            <summary>
                <span>{setup.motion}</span>
                <em>"“"{setup.say}"”"</em>
            </summary>
            <dl>
                <dt>"Person"</dt>
                <dd>{setup.position}</dd>
                <dt>"Target"</dt>
                <dd>{setup.target}</dd>
                <dt>"Watch"</dt>
                <dd>{setup.watch}</dd>
            </dl>
        </details>
    }
}
