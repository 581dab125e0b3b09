//! What the person is told, large, and the start; after a run what came of it and the rest before the next.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::stage::Wanted;
use sidelight_core::stimulus::run::{Frames as Counted, SLOW};

use super::session::{Phase, Session};
use crate::platform::frames::Frames;
use crate::widgets::bar::Head;
use crate::widgets::pick::Tick;
use crate::widgets::show::Show;
use crate::words;

/// Frames that are looked at to tell how often the display draws.
const LOOKED_AT: usize = 45;

#[component]
pub fn Ready(session: Session) -> impl IntoView {
    let back = Callback::new(move |()| session.phase.set(Phase::Choose));
    let tells = session.wanted.with_untracked(Wanted::tells);
    let bright = untrack(|| session.checked()).is_some_and(|checked| checked.is_ok_and(|safe| safe.is_bright()));
    let calm = session.moves_all_the_same();
    let (lit, moving) = (RwSignal::new(!bright), RwSignal::new(!calm));
    let a_second = how_often();
    let slow = move || a_second.get().filter(|rate| *rate < SLOW).map(f64::round);
    // The screen may have been turned or zoomed since it was chosen.
    let passes = move || session.checked().is_some_and(|checked| checked.is_ok()) && session.may_be_shown();
    let ready = move || passes() && lit.get() && moving.get() && session.rest.get() == 0;
    let label = move || match (session.rest.get(), session.runs.get()) {
        (0, 0) => say!("Start").to_string(),
        (0, _) => say!("Show it again").to_string(),
        (left, _) => say!("Rest · {seconds} s", seconds = left),
    };
    let after = session.runs.get_untracked() > 0;
    view! {
        <main class="screen" data-screen="stage-ready">
            <Head title=words::of(session.offer.title).to_string() back=(say!("Back to the settings"), back) />
            <div class="body">
                <Outcome session />
                <p class="stage-tells" data-test="stage-tells">{say!("“{words}”", words = tells)}</p>
                <p class="soft">
                    {move || say!("The screen upright, its middle at their eyes, {distance} cm away. A touch anywhere ends it, and so does Escape.", distance = session.distance().0)}
                </p>
                {bright.then(|| view! { <Tick test="stage-lit" label=say!("The screen is at middle brightness, and the room is lit") on=lit flip=move || lit.update(|on| *on = !*on) /> })}
                {calm.then(|| view! { <Tick test="stage-moving" label=say!("This device asks for less motion: show it all the same") on=moving flip=move || moving.update(|on| *on = !*on) /> })}
                <Show when=move || slow().is_some()>
                    <p class="notice" data-test="stage-slow">
                        {move || say!("This display draws only {rate} times a second, as phones do that save power: the movement is coarser.", rate = slow().unwrap_or_default())}
                    </p>
                </Show>
                <Show when=move || !passes()>
                    <p class="notice" data-test="stage-changed">{say!("The screen is not as it was when this was chosen. Go back and look at the settings.")}</p>
                </Show>
            </div>
            <footer>
                {after.then(|| view! {
                    <button type="button" class="btn quiet" data-test="stage-done" on:click=move |_| session.leave()>
                        {if session.kept { say!("Back to the task") } else { say!("Done") }}
                    </button>
                })}
                <button type="button" class="btn main" data-test="stage-start" disabled=move || !ready() on:click=move |_| session.phase.set(Phase::Show)>
                    {label}
                </button>
            </footer>
        </main>
    }
}

/// What came of the last run.
#[component]
fn Outcome(session: Session) -> impl IntoView {
    let lines = move || {
        session.last.with(|last| match last {
            None => Vec::new(),
            Some(Err(why)) => vec![why.clone()],
            Some(Ok(shown)) => {
                let lasted = say!(
                    "{ended} {seconds} s of {wanted}.",
                    ended = words::of(shown.ended.says()),
                    seconds = shown.seconds.round(),
                    wanted = shown.safe.program().seconds().round()
                );
                let mut lines = vec![lasted];
                lines.extend(shown.run.remarks());
                if session.kept {
                    lines.push(say!("It is kept with the task.").to_string());
                }
                lines
            }
        })
    };
    view! {
        <div role="status" data-test="stage-outcome">
            {move || {
                let lines = lines();
                (!lines.is_empty()).then(|| view! { <div class="notice">{lines.into_iter().map(|line| view! { <p>{line}</p> }).collect_view()}</div> })
            }}
        </div>
    }
}

/// How often the display draws, once enough frames were seen.
fn how_often() -> RwSignal<Option<f64>> {
    let told = RwSignal::new(None);
    let times = Rc::new(RefCell::new(Vec::with_capacity(LOOKED_AT)));
    let frames = StoredValue::new_local(None::<Frames>);
    let looking = Frames::each(move |time| {
        let mut times = times.borrow_mut();
        times.push(time);
        if times.len() == LOOKED_AT {
            let _ = told.try_set(Counted::from_times(&times).a_second);
            frames.try_set_value(None);
        }
    });
    frames.set_value(Some(looking));
    on_cleanup(move || {
        frames.try_set_value(None);
    });
    told
}
