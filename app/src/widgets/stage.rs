//! The stage: one canvas that shows a checked program, frame by frame, each drawn for the frame's own time.
//!
//! Only a `Safe` can be drawn, so nothing moves or flashes here that the guard did not let through. It begins when it comes
//! on the page, which a tap has brought about, and ends at a touch or a key, or when screen or page change.

mod face;
mod log;
mod painter;
mod running;
pub mod taps;

use leptos::html::{Canvas, Span};
use leptos::prelude::*;
use sidelight_core::calendar::Moment;
use sidelight_core::quantity::Centimetres;
use sidelight_core::stage::Wanted;
use sidelight_core::stage::ended::Ended;
use sidelight_core::stimulus::program::{Cue, Program};
use sidelight_core::stimulus::run::Run;
use sidelight_core::stimulus::safety::Safe;
use sidelight_core::stimulus::screen::Calibration;

use self::running::Running;

/// What is to be shown.
#[derive(Clone, Debug)]
pub struct Planned {
    /// What was chosen. Its program is made for the very place it is drawn on.
    pub wanted: Wanted,
    /// The program to take instead, as near as possible to one that was refused.
    pub nearest: Option<Program>,
    /// The scale of this screen.
    pub calibration: Calibration,
    /// How far the eyes are.
    pub distance: Centimetres,
}

/// What was shown.
#[derive(Clone, Debug)]
pub struct Shown {
    /// As it was checked for the very screen it was shown on.
    pub safe: Safe,
    /// Scale, distance and frames.
    pub run: Run,
    /// When it began.
    pub at: Moment,
    /// How many seconds of it were shown.
    pub seconds: f64,
    /// How it ended.
    pub ended: Ended,
}

/// Shows what is planned, at once. `on_cue` is told of everything that begins; `on_end` is called once, with what was shown
/// or with why nothing can be.
#[component]
pub fn Stage(
    planned: Planned,
    on_cue: Callback<Cue>,
    on_end: Callback<Result<Shown, String>>,
    /// What stands at the edge while it is shown; a touch there does not end it.
    #[prop(into)]
    strip: ViewFn,
    /// Whether it is shown on a dark ground, so that the strip is dark too.
    dim: bool,
) -> impl IntoView {
    let (canvas, sheet) = (NodeRef::<Canvas>::new(), NodeRef::<Span>::new());
    let running = StoredValue::new_local(None::<Running>);
    Effect::new(move |_| {
        let (Some(canvas), Some(sheet)) = (canvas.get(), sheet.get()) else { return };
        match Running::start(&canvas, sheet.into(), planned.clone(), on_cue, on_end) {
            Ok(started) => running.set_value(Some(started)),
            Err(why) => on_end.run(Err(why)),
        }
    });
    on_cleanup(move || {
        running.try_update_value(Option::take);
    });
    let stop = move || {
        running.try_with_value(|running| running.as_ref().map(Running::stop));
    };
    view! {
        <div class="stage" class:dim=dim data-test="stage">
            <button
                type="button"
                class="stage-view"
                id="stage-view"
                aria-label=say!("Stop")
                data-test="stage-view"
                on:pointerdown=move |_| stop()
                on:click=move |_| stop()
            >
                <canvas node_ref=canvas aria-hidden="true"></canvas>
                <span class="stage-soft" node_ref=sheet aria-hidden="true"></span>
            </button>
            {strip.run()}
        </div>
    }
}
