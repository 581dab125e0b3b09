//! A correction of a closed visit: it stands beside the visit, dated, and changes nothing in it.

use leptos::prelude::*;

use crate::state::App;

/// Longest correction in characters: a page of text.
const LONGEST: usize = 4_000;

#[component]
pub fn AddCorrection() -> impl IntoView {
    let app = App::get();
    let text = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let keeping = RwSignal::new(false);
    let keep = move |_| {
        let words = text.get_untracked().trim().to_string();
        if words.is_empty() {
            return refused.set(Some(say!("Write what is to be corrected or added.").to_string()));
        }
        if keeping.get_untracked() {
            return;
        }
        keeping.set(true);
        leptos::task::spawn_local(async move {
            let kept = app.correct(&words).await;
            if text.is_disposed() {
                return;
            }
            keeping.set(false);
            match kept {
                Ok(()) => {
                    refused.set(None);
                    text.set(String::new());
                    app.said
                        .set(Some(say!("Kept. It stands under its date at the beginning of the summary.").to_string()));
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    };
    view! {
        <details class="fold no-print" data-test="correct">
            <summary>{say!("Add a correction")}</summary>
            <div class="ask">
                <label for="correction">{say!("What is to be corrected or added")}</label>
                <p class="soft">{say!("The visit stays as it is. The correction stands beside it, with its date, and is handed over next time.")}</p>
                <textarea
                    id="correction"
                    data-test="correction"
                    rows="3"
                    dir="auto"
                    autocomplete="off"
                    maxlength=LONGEST
                    aria-describedby="correction-refused"
                    prop:value=move || text.get()
                    on:input=move |event| text.set(event_target_value(&event))
                ></textarea>
            </div>
            <p class="refused" id="correction-refused" role="alert" data-test="correction-refused">{move || refused.get()}</p>
            <button type="button" class="btn" data-test="keep-correction" on:click=keep>{say!("Keep the correction")}</button>
        </details>
    }
}
