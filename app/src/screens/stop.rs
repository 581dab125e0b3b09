//! The emergency stop: the whole screen, until it is answered or the answer behind it is taken back.

use leptos::prelude::*;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::record::State;
use sidelight_core::capture::stop;
use sidelight_core::flow::Step;
use sidelight_core::red_flag;

use crate::memo::memo;
use crate::state::{App, now};

#[component]
pub fn Stop(from: Step) -> impl IntoView {
    let app = App::get();
    let slot = StoredValue::new(app.current.with_untracked(|v| v.as_ref().map(stop::open_slot)).unwrap_or_default());
    let flags = move || app.assessment.with(|a| a.as_ref().map(|a| a.open_flags.clone()).unwrap_or_default());
    let shown = flags();
    let ids = shown.iter().map(|flag| flag.id.clone()).collect::<Vec<_>>().join(" ");
    let ids = StoredValue::new(ids);
    let reason = memo(move |_| {
        app.current.with(|visit| {
            let record = visit.as_ref().and_then(|visit| visit.record(&slot.get_value()));
            record.and_then(stop::reason_to_go_on).map(String::from)
        })
    });
    let answer = move || {
        app.mark(&slot.get_value(), State::Done);
        app.edit(&slot.get_value(), Edit::Answer("seen".into(), Some(Answer::Text(ids.get_value()))));
    };
    let end = move |_| {
        // A reason that was typed and then not used must not turn an ended examination into one that went on.
        app.edit(&slot.get_value(), Edit::Answer("go_on".into(), None));
        answer();
        app.go(Step::Decision);
    };
    let go_on = move |_| {
        answer();
        if let Some((_, next)) = app.current.with_untracked(|v| v.as_ref().map(|v| (v.id.clone(), v.at.clone()))) {
            app.go(Step::from_slot(&next).unwrap_or(from));
        }
    };
    let slip = move |_| app.undo(&from.slot());
    let seen = shown.iter().map(|flag| view! { <li>{flag.seen.clone()}</li> }).collect_view();
    let steps = red_flag::what_to_do(&shown).into_iter().map(|step| view! { <li>{step}</li> }).collect_view();
    let form = without_program_fields();
    view! {
        <main class="screen stop" data-screen="stop" role="alertdialog" aria-labelledby="stop-title" aria-describedby="stop-now">
            <div class="body">
                <div class="stop-band">
                    <h1 id="stop-title" tabindex="-1" data-test="title">{say!("Stop. Get emergency help.")}</h1>
                    <p>{say!("{time} · seen or told:", time = now().clock())}</p>
                    <ul class="stop-seen" data-test="seen">{seen}</ul>
                </div>
                <h2 id="stop-now">{say!("Now")}</h2>
                <ol class="stop-steps">{steps}</ol>
                {form
                    .iter()
                    .map(|key| view! { <OneOfForm record=slot.get_value() key=*key /> })
                    .collect_view()}
                <details class="fold" data-test="go-on-fold">
                    <summary>{say!("Go on all the same")}</summary>
                    <p>{say!("The examination cannot go on past this without a written reason. It is printed in the summary.")}</p>
                    <OneOfForm record=slot.get_value() key="go_on" />
                    <button type="button" class="btn wide" data-test="go-on" disabled=move || reason.get().is_none() on:click=go_on>
                        {say!("Go on, with this reason")}
                    </button>
                </details>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="slip" disabled=move || !app.can_undo(&from.slot()) on:click=slip>
                    {say!("Tapped by mistake: undo")}
                </button>
                <button type="button" class="btn main" data-test="end-examination" on:click=end>{say!("End the examination")}</button>
            </footer>
        </main>
    }
}

/// Fields of the stop form that a person fills in before ending; "seen" is the program's own, "go_on" stands apart.
fn without_program_fields() -> Vec<&'static str> {
    stop::FORM.fields.iter().map(|field| field.key).filter(|key| !matches!(*key, "seen" | "go_on")).collect()
}

#[component]
fn OneOfForm(record: String, key: &'static str) -> impl IntoView {
    stop::FORM.field(key).map(|field| crate::widgets::field::one(&record, field))
}
