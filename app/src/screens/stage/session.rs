//! What is chosen, asked and shown while the stage is open. It ends with the screen.

use std::cell::Cell;

use gloo_timers::callback::Interval;
use leptos::prelude::*;
use sidelight_core::quantity::Centimetres;
use sidelight_core::stage::asked::{Asked, Verdict};
use sidelight_core::stage::{Offer, Wanted};
use sidelight_core::stimulus::program::Program;
use sidelight_core::stimulus::safety::{Refused, Safe, check};
use sidelight_core::stimulus::screen::{Calibration, DISTANCE, Px, Screen};

use crate::platform::clock::monotonic;
use crate::platform::display::{self, Display};
use crate::platform::settings::Card;
use crate::route::Route;
use crate::state::App;
use crate::widgets::stage::Shown;
use crate::widgets::stage::taps::Taps;

thread_local! {
    /// When the last rest ends on the steady clock. It goes on when the stage is left and opened anew.
    static RESTED: Cell<f64> = const { Cell::new(0.0) };
}

/// Where one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Program, settings, distance.
    Choose,
    /// Questions before stripes.
    Before,
    /// What the person is told, and the start; after a run what came of it.
    Ready,
    /// It is shown.
    Show,
}

/// The stage while it is open. Copies point at the same.
#[derive(Clone, Copy)]
pub struct Session {
    pub app: App,
    pub offer: &'static Offer,
    /// Whether runs are kept with the visit in hand.
    pub kept: bool,
    pub phase: RwSignal<Phase>,
    pub wanted: RwSignal<Wanted>,
    /// The program to take instead of one that was refused.
    pub nearest: RwSignal<Option<Program>>,
    pub asked: RwSignal<Asked>,
    pub display: RwSignal<Display>,
    /// What was shown last, or why nothing was.
    pub last: RwSignal<Option<Result<Shown, String>>, LocalStorage>,
    /// Seconds of rest that are left.
    pub rest: RwSignal<u32>,
    /// How many runs there were.
    pub runs: RwSignal<u32>,
    resting: StoredValue<Option<Interval>, LocalStorage>,
}

impl Session {
    pub fn new(offer: &'static Offer, kept: bool) -> Session {
        let app = App::get();
        let known = || app.current.with_untracked(|visit| visit.as_ref().map(Asked::known));
        let asked = kept.then(known).flatten().unwrap_or_default();
        let display = RwSignal::new(Display::now());
        let listeners = StoredValue::new_local(display::on_change(move || display.set(Display::now())));
        let resting = StoredValue::new_local(None);
        on_cleanup(move || {
            listeners.set_value(Vec::new());
            resting.set_value(None);
        });
        let session = Session {
            app,
            offer,
            kept,
            phase: RwSignal::new(Phase::Choose),
            wanted: RwSignal::new(Wanted::usual(offer)),
            nearest: RwSignal::new(None),
            asked: RwSignal::new(asked),
            display,
            last: RwSignal::new_local(None),
            rest: RwSignal::new(0),
            runs: RwSignal::new(0),
            resting,
        };
        session.go_on_resting();
        session
    }

    /// Chooses something, which forgets what was taken instead.
    pub fn choose(self, key: &str, id: &str) {
        self.wanted.update(|wanted| *wanted = wanted.clone().with(key, id));
        self.nearest.set(None);
    }

    /// The scale of this screen; none before it was measured, and none once the page is zoomed otherwise.
    pub fn calibration(self) -> Option<Calibration> {
        let Display { pixel_ratio, zoom, .. } = self.display.get();
        let card = self.app.settings.with(|settings| settings.card).and_then(Card::calibration)?;
        card.scale_at(pixel_ratio, zoom).map(|_| card)
    }

    /// How far the eyes are.
    pub fn distance(self) -> Centimetres {
        Centimetres(self.app.settings.with(|settings| DISTANCE.check(settings.distance_cm)).unwrap_or(40.0))
    }

    /// The part of this screen that is drawn on, and the program for it; the seed is drawn anew when it is shown.
    pub fn program(self) -> Option<(Screen, Program)> {
        let scale = self.calibration()?.scale;
        let display = self.display.get();
        let screen = |height: f64| Screen::new(scale, Px(display.width), Px(height), self.distance()).ok();
        let make = |screen: &Screen| {
            self.nearest.get().unwrap_or_else(|| self.wanted.with(|wanted| wanted.program(screen, 0)))
        };
        let whole = screen(display.height)?;
        let strip = self.taps(&make(&whole)).map_or(0.0, |taps| taps.height(&display));
        let screen = screen(display.height - strip)?;
        let program = make(&screen);
        Some((screen, program))
    }

    /// Whether it may be drawn on this screen; none before the screen was measured.
    pub fn checked(self) -> Option<Result<Safe, Refused>> {
        let (screen, program) = self.program()?;
        Some(check(&program, &screen))
    }

    /// The strip of pads for this program; none when nothing is kept.
    pub fn taps(self, program: &Program) -> Option<Taps> {
        if self.kept { Taps::of(self.offer, program) } else { None }
    }

    /// Whether the questions before stripes are answered so that it may be shown.
    pub fn may_be_shown(self) -> bool {
        let asks = self.checked().is_some_and(|checked| checked.is_ok_and(|safe| safe.asks_first()));
        !asks || self.asked.with(Asked::verdict) == Verdict::Go
    }

    /// Whether it moves on a device that asks for less motion, so that it has to be confirmed before.
    pub fn moves_all_the_same(self) -> bool {
        display::wants_less_motion() && self.wanted.with_untracked(Wanted::moves)
    }

    /// A run is over: what came of it is told, and a rest begins.
    pub fn over(self, outcome: Result<Shown, String>) {
        if outcome.is_ok() {
            self.runs.update(|runs| *runs += 1);
            let seconds = self.wanted.with_untracked(Wanted::rest);
            RESTED.set(monotonic() + 1000.0 * f64::from(seconds));
            self.go_on_resting();
        }
        self.last.set(Some(outcome));
        self.phase.set(Phase::Ready);
    }

    /// Away from the stage.
    pub fn leave(self) {
        let to = if self.kept { Route::Step(self.offer.task.to_string()) } else { Route::Stage(None) };
        self.app.show(to);
    }

    /// Counts down what is left of the last rest.
    fn go_on_resting(self) {
        let left = || ((RESTED.get() - monotonic()) / 1000.0).ceil().max(0.0) as u32;
        self.rest.set(left());
        if left() == 0 {
            return;
        }
        let tick = Interval::new(500, move || {
            let left = left();
            if self.rest.get_untracked() != left {
                self.rest.set(left);
            }
            if left == 0 {
                self.resting.set_value(None);
            }
        });
        self.resting.set_value(Some(tick));
    }
}
