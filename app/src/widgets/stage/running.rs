//! A run that goes on: checked for the very place it is drawn on, drawn until it ends, ended by whatever comes first.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use leptos::prelude::*;
use sidelight_core::calendar::Moment;
use sidelight_core::stage::Wanted;
use sidelight_core::stage::ended::Ended;
use sidelight_core::stimulus::program::Cue;
use sidelight_core::stimulus::run::{Frames as Counted, Run};
use sidelight_core::stimulus::safety::check;
use sidelight_core::stimulus::screen::{Px, Screen};
use wasm_bindgen::JsCast;
use web_sys::{HtmlCanvasElement, HtmlElement, KeyboardEvent};

use super::log::Log;
use super::painter::Painter;
use super::{Planned, Shown};
use crate::platform::beat::{Beat, Options};
use crate::platform::clock::monotonic;
use crate::platform::display::{self, Display};
use crate::platform::focus;
use crate::platform::frames::Frames;
use crate::platform::visibility;
use crate::state::{App, now};

/// A run. Dropped, it ends without a word.
pub struct Running {
    run: Rc<Going>,
    _frames: Frames,
    _beat: Option<Beat>,
    _listeners: Vec<EventListener>,
}

struct Going {
    painter: Painter,
    planned: Planned,
    began: Display,
    at: Moment,
    /// The time of the program's start on the steady clock; none until the first beat is heard.
    zero: Cell<Option<f64>>,
    last: Cell<f64>,
    log: RefCell<Log>,
    cues: Vec<Cue>,
    told: Cell<usize>,
    over: Cell<bool>,
    on_cue: Callback<Cue>,
    on_end: Callback<Result<Shown, String>>,
}

impl Running {
    /// Starts it on this canvas, which the sheet lies over.
    ///
    /// # Errors
    /// A sentence when it cannot be shown here.
    pub fn start(
        canvas: &HtmlCanvasElement,
        sheet: HtmlElement,
        planned: Planned,
        on_cue: Callback<Cue>,
        on_end: Callback<Result<Shown, String>>,
    ) -> Result<Running, String> {
        let began = Display::now();
        let (width, height) = display::size_of(canvas);
        let scale = planned.calibration.scale_at(began.pixel_ratio, began.zoom);
        let scale =
            scale.ok_or(say!("The page is zoomed otherwise than when the card was measured. Measure it again."))?;
        let screen = Screen::new(scale, Px(width), Px(height), planned.distance).map_err(|why| why.to_string())?;
        let at = now();
        let chosen = || planned.wanted.program(&screen, at.unix_ms.unsigned_abs());
        let program = planned.nearest.clone().unwrap_or_else(chosen);
        let beats = Wanted::beat(&program);
        let safe = check(&program, &screen).map_err(|why| why.to_string())?;
        let cues = safe.program().cues();
        let painter = Painter::new(canvas, sheet, began.pixel_ratio, safe, planned.wanted.face());
        let painter = painter.map_err(|_| say!("This browser gives no canvas to draw on.").to_string())?;
        let run = Rc::new(Going {
            painter,
            planned,
            began,
            at,
            zero: Cell::new(None),
            last: Cell::new(0.0),
            log: RefCell::new(Log::new()),
            cues,
            told: Cell::new(0),
            over: Cell::new(false),
            on_cue,
            on_end,
        });
        let beat = beats.map(|(bpm, count)| sound(&run, bpm, count));
        let drawn = Rc::clone(&run);
        let frames = Frames::each(move |time| drawn.frame(time, beats.is_some()));
        let listeners = listen(&run);
        focus::on_first_enabled(&["stage-view"]);
        Ok(Running { run, _frames: frames, _beat: beat, _listeners: listeners })
    }

    /// Ends it, as a touch does.
    pub fn stop(&self) {
        self.run.end(Ended::Stopped);
    }
}

impl Going {
    fn frame(&self, time: f64, waits: bool) {
        if self.over.get() {
            return;
        }
        if self.zero.get().is_none() && !waits {
            self.zero.set(Some(time));
        }
        let seconds = self.zero.get().map_or(0.0, |zero| ((time - zero) / 1000.0).max(0.0));
        self.last.set(seconds);
        let place = self.painter.draw(seconds);
        if self.zero.get().is_none() {
            return;
        }
        self.log.borrow_mut().note(time, seconds, place);
        while let Some(cue) = self.cues.get(self.told.get()).filter(|cue| cue.seconds <= seconds) {
            self.told.set(self.told.get() + 1);
            self.on_cue.run(*cue);
        }
        if seconds >= self.painter.safe().program().seconds() {
            self.end(Ended::Finished);
        }
    }

    fn end(&self, ended: Ended) {
        if self.over.replace(true) {
            return;
        }
        let log = self.log.borrow();
        log.leave();
        let now = Display::now();
        let safe = self.painter.safe().clone();
        let frames = Counted::from_times(log.times());
        let run = Run::new(&self.planned.calibration, safe.screen(), (now.pixel_ratio, now.zoom), frames);
        let seconds = self.last.get().min(safe.program().seconds());
        let shown = Shown { safe, run, at: self.at, seconds, ended };
        let on_end = self.on_end;
        // What is told may take this run off the page, so its own turn is over first.
        leptos::task::spawn_local(async move { on_end.run(Ok(shown)) });
    }
}

/// What is heard begins first; what is seen begins with its first beat.
fn sound(run: &Rc<Going>, bpm: f64, count: u32) -> Beat {
    let settings = App::get().settings.get_untracked();
    let options = Options { sound: settings.sound, vibration: settings.vibration };
    let heard = Rc::downgrade(run);
    Beat::start(bpm, Some(count), options, move |_| {
        if let Some(run) = heard.upgrade().filter(|run| run.zero.get().is_none()) {
            run.zero.set(Some(monotonic()));
        }
    })
}

fn listen(run: &Rc<Going>) -> Vec<EventListener> {
    let (changed, hidden, pressed) = (Rc::clone(run), Rc::clone(run), Rc::clone(run));
    let mut listeners = display::on_change(move || {
        if Display::now() != changed.began {
            changed.end(Ended::Changed);
        }
    });
    listeners.extend(visibility::on_hidden(move || hidden.end(Ended::Hidden)));
    let options = EventListenerOptions::run_in_capture_phase();
    listeners.push(EventListener::new_with_options(&document(), "keydown", options, move |event| {
        let key = event.dyn_ref::<KeyboardEvent>().map(KeyboardEvent::key).unwrap_or_default();
        if key == "Escape" {
            pressed.end(Ended::Stopped);
        }
    }));
    listeners
}
