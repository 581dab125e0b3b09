//! Targets on this screen: what is chosen, what is asked before, the run, and what came of it. With a visit it belongs to a
//! task and is kept with it; without one nothing is kept.

mod before;
mod choose;
mod keep;
mod ready;
mod session;
mod show;

use leptos::prelude::*;
use sidelight_core::flow;
use sidelight_core::stage::{self, Offer};
use sidelight_core::task;

use self::before::Before;
use self::choose::ChooseScreen;
use self::ready::Ready;
use self::session::{Phase, Session};
use self::show::Show as ShowScreen;
use crate::platform::wake_lock::WakeLock;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::words;

#[component]
pub fn StageScreen(
    /// The task it belongs to; none to choose among all.
    task: Option<String>,
    /// Whether it is for the visit in hand.
    visit: bool,
) -> impl IntoView {
    let app = App::get();
    let awake = StoredValue::new_local(Some(WakeLock::keep()));
    on_cleanup(move || awake.set_value(None));
    let Some(id) = task else { return view! { <Offers /> }.into_any() };
    let Some(offer) = stage::of_task(&id) else { return view! { <Offers /> }.into_any() };
    let kept = visit && untrack(|| app.current.with(Option::is_some) && !app.is_closed());
    if let Some(reason) = kept.then(|| in_the_way(app, offer)).flatten() {
        return view! { <NotNow offer reason /> }.into_any();
    }
    let session = Session::new(offer, kept);
    view! {
        {move || match session.phase.get() {
            Phase::Choose => view! { <ChooseScreen session /> }.into_any(),
            Phase::Before => view! { <Before session /> }.into_any(),
            Phase::Ready => view! { <Ready session /> }.into_any(),
            Phase::Show => view! { <ShowScreen session /> }.into_any(),
        }}
    }
    .into_any()
}

/// Why the task is not done in this visit now.
fn in_the_way(app: App, offer: &'static Offer) -> Option<&'static str> {
    let danger = app.assessment.with_untracked(|a| a.as_ref().is_some_and(|a| !a.open_flags.is_empty()));
    if danger {
        return Some(text!("a danger sign is open; decide about it first"));
    }
    let task = task::by_id(offer.task)?;
    untrack(|| app.with_context(|context| flow::barred(context, task)).flatten())
}

/// Everything there is to show, without a visit.
#[component]
fn Offers() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    let open = app.current.with_untracked(Option::is_some);
    let row = move |offer: &'static Offer| {
        view! {
            <button type="button" class="row" data-test=format!("offer-{}", offer.task) on:click=move |_| app.show(Route::StageAlone(offer.task.to_string()))>
                <strong>{words::of(offer.title)}</strong>
            </button>
        }
    };
    view! {
        <main class="screen" data-screen="stage-offers">
            <Head title=say!("Targets on this screen").to_string() back=(say!("Back to the start"), back) />
            <div class="body">
                <p>{say!("For a screen that another phone or tablet records beside. Nothing is kept here.")}</p>
                {open.then(|| view! { <p class="soft">{say!("To keep it with the open visit, go to its task and choose “Show on this screen” there.")}</p> })}
                <div class="rows">{stage::ALL.iter().copied().map(row).collect_view()}</div>
            </div>
        </main>
    }
}

#[component]
fn NotNow(offer: &'static Offer, reason: &'static str) -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen" data-screen="stage-not-now">
            <Head title=words::of(offer.title).to_string() />
            <div class="body"><p class="notice" data-test="not-now">{say!("Not in this visit: {reason}.", reason = words::of(reason))}</p></div>
            <footer>
                <button type="button" class="btn main" data-test="stage-back" on:click=move |_| app.show(Route::Step(offer.task.to_string()))>{say!("Back to the visit")}</button>
            </footer>
        </main>
    }
}
