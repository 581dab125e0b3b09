//! The head and foot of every screen: where one is, and the one thing to do next, always in the same place.

use leptos::prelude::*;

use crate::route::Route;
use crate::state::App;
use crate::storage::writer::Saving;
use crate::widgets::show::Show;

/// Title, where one is, and the way back.
#[component]
pub fn Head(
    #[prop(into)] title: Signal<String>,
    #[prop(into, optional)] place: Option<Signal<String>>,
    /// Share of the tasks that lies behind, 0 to 1.
    #[prop(into, optional)]
    progress: Option<Signal<Option<f64>>>,
    /// What the way back does and is called; none on the home screen.
    #[prop(optional)]
    back: Option<(&'static str, Callback<()>)>,
    /// Whether the visit can be left open from here.
    #[prop(optional)]
    leave: bool,
) -> impl IntoView {
    let back = back.map(|(name, run)| {
        view! {
            <button type="button" class="back" aria-label=name data-test="back" on:click=move |_| run.run(())>
                <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
                    <path d="M15 4 L7 12 L15 20" class="back-arrow" />
                </svg>
            </button>
        }
    });
    let app = App::get();
    let leave = leave.then(|| {
        view! {
            <button
                type="button"
                class="leave"
                aria-label=say!("Leave for now; the visit stays open")
                data-test="leave"
                on:click=move |_| app.show(Route::Home)
            >
                <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
                    <path d="M4 11 L12 4 L20 11 M6 10 V20 H18 V10" class="leave-mark" />
                </svg>
            </button>
        }
    });
    let progress = progress.map(|share| {
        view! {
            <Show when=move || share.get().is_some()>
                <progress class="progress" max="1" prop:value=move || share.get().unwrap_or(0.0) aria-label=say!("Tasks behind you")></progress>
            </Show>
        }
    });
    view! {
        <header>
            {back}
            <h1 tabindex="-1" data-test="title">{move || title.get()}</h1>
            <span class="place" data-test="place">{move || place.map(|place| place.get())}</span>
            {leave}
        </header>
        {progress}
        <Notices />
    }
}

/// What the program has to say: a refusal, a failed write, a second tab.
#[component]
fn Notices() -> impl IntoView {
    let app = App::get();
    let saving = app.saving();
    let failed = move || match saving.get() {
        Saving::Failed(error) => Some(error.to_string()),
        Saving::Saved | Saving::Writing => None,
    };
    view! {
        <div class="notices" role="status" data-test="said">
            <Show when=move || app.said.with(Option::is_some)>
                <p class="notice">{move || app.said.get()}</p>
            </Show>
        </div>
        <Show when=move || failed().is_some()>
            <div class="notice notice-strong" role="alert" data-test="save-failed">
                <p>{failed}</p>
                <p>{say!("What you see is kept on this screen. Do not close it.")}</p>
                <button type="button" class="btn" on:click=move |_| app.retry()>{say!("Try to save again")}</button>
            </div>
        </Show>
        <Show when=move || app.elsewhere.get()>
            <p class="notice notice-strong" role="alert" data-test="elsewhere">
                {say!("Sidelight is open in another tab, and that tab is recording. Close it, and this one takes over; until then nothing can be changed here.")}
            </p>
        </Show>
    }
}

/// Whether everything is saved, in one word.
#[component]
pub fn Saved() -> impl IntoView {
    let saving = App::get().saving();
    let (word, state) = (
        move || match saving.get() {
            Saving::Saved => say!("saved"),
            Saving::Writing => say!("saving"),
            Saving::Failed(_) => say!("not saved"),
        },
        move || match saving.get() {
            Saving::Saved => "saved",
            Saving::Writing => "writing",
            Saving::Failed(_) => "failed",
        },
    );
    view! { <span data-test="saving" data-state=state>{word}</span> }
}
