//! The run itself: the stage over the whole view, with the task's pads at its lower edge.

use leptos::prelude::*;
use sidelight_core::stimulus::program::Cue;

use super::keep;
use super::session::{Phase, Session};
use crate::widgets::stage::taps::TapStrip;
use crate::widgets::stage::{Planned, Shown, Stage};

#[component]
pub fn Show(session: Session) -> impl IntoView {
    let planned = untrack(|| {
        let (_, program) = session.program()?;
        let planned = Planned {
            wanted: session.wanted.get(),
            nearest: session.nearest.get(),
            calibration: session.calibration()?,
            distance: session.distance(),
        };
        Some((planned, session.taps(&program), program.is_dim()))
    });
    // Nothing is shown before the questions are answered, whatever way led here.
    let Some((planned, taps, dim)) = planned.filter(|_| untrack(|| session.may_be_shown())) else {
        session.phase.set(Phase::Choose);
        return ().into_any();
    };
    let height = taps.map(|taps| taps.height(&session.display.get_untracked()));
    let on_cue = Callback::new(move |cue: Cue| {
        if let Some(taps) = taps {
            taps.told(&cue);
        }
    });
    let on_end = Callback::new(move |outcome: Result<Shown, String>| {
        if let Some(taps) = taps {
            taps.end();
        }
        if let (true, Ok(shown)) = (session.kept, &outcome) {
            keep::here(session, shown);
        }
        session.over(outcome);
    });
    let strip = move || taps.zip(height).map(|(taps, height)| view! { <TapStrip taps height /> }.into_any());
    view! { <Stage planned on_cue on_end strip=move || strip() dim /> }.into_any()
}
