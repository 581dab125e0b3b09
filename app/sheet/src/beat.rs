//! The beat of an exercise: clicks handed to the audio clock ahead of time, so that they do not drift, and a mark that swings
//! from side to side and never flashes. Without sound the mark and the vibration keep the same beat.

use std::cell::RefCell;
use std::rc::Rc;

use sidelight_core::stimulus::beat::Beat as Times;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{AudioContext, GainNode, HtmlElement};

use crate::clock;
use crate::sound::{self, Sound};

/// How far ahead clicks are handed over, in seconds: longer than a timer is late.
const AHEAD: f64 = 0.7;
/// Half the way of the mark, in percent of its own track.
const SWING: f64 = 46.0;

/// A beat going on; dropped, it stops, with the clicks that were handed over already.
pub struct Beat {
    times: Times,
    pace: u16,
    clicks: Option<Clicks>,
    frames: Rc<RefCell<Frames>>,
}

struct Clicks {
    audio: AudioContext,
    into: GainNode,
    origin: f64,
    until: f64,
}

#[derive(Default)]
struct Frames {
    closure: Option<Closure<dyn FnMut(f64)>>,
    request: i32,
    ended: bool,
}

impl Beat {
    /// Starts a beat of so many a minute; `None` for a pace nobody moves to.
    pub fn start(pace: u16, sound: &Sound, audible: bool) -> Option<Beat> {
        let times = Times::new(f64::from(pace)).ok()?;
        let clicks = sound.running().filter(|_| audible).and_then(|audio| Clicks::new(audio).ok());
        let mut beat = Beat { times, pace, clicks, frames: Rc::new(RefCell::new(Frames::default())) };
        beat.look();
        swing(times, &beat.frames);
        Some(beat)
    }

    /// Beats a minute.
    pub fn pace(&self) -> u16 {
        self.pace
    }

    /// Hands over the clicks that are due soon; to be called several times a second.
    pub fn look(&mut self) {
        let Some(clicks) = &mut self.clicks else { return };
        let until = clicks.audio.current_time() - clicks.origin + AHEAD;
        for number in self.times.due(clicks.until, until) {
            let at = clicks.origin + self.times.seconds(number);
            let _ = sound::tone(&clicks.audio, &clicks.into, 880.0, at, 0.07);
        }
        clicks.until = clicks.until.max(until);
    }
}

impl Drop for Beat {
    fn drop(&mut self) {
        if let Some(clicks) = &self.clicks {
            let _ = clicks.into.disconnect();
        }
        let mut frames = self.frames.borrow_mut();
        frames.ended = true;
        if let Some(window) = web_sys::window() {
            let _ = window.cancel_animation_frame(frames.request);
        }
        frames.closure = None;
    }
}

impl Clicks {
    fn new(audio: &AudioContext) -> Result<Clicks, JsValue> {
        let into = audio.create_gain()?;
        into.connect_with_audio_node(&audio.destination())?;
        // The first click comes with the first look at the mark.
        Ok(Clicks { origin: audio.current_time() + 0.05, audio: audio.clone(), into, until: 0.0 })
    }
}

fn swing(times: Times, frames: &Rc<RefCell<Frames>>) {
    let (origin, again) = (clock::steady() + 50.0, Rc::clone(frames));
    let mut felt = 0;
    let closure = Closure::new(move |_: f64| {
        let seconds = ((clock::steady() - origin) / 1000.0).max(0.0);
        mark(times.swing(seconds));
        let number = times.due(0.0, seconds).end;
        if number != felt {
            felt = number;
            sound::vibrate(&[20]);
        }
        request(&again);
    });
    frames.borrow_mut().closure = Some(closure);
    request(frames);
}

fn request(frames: &Rc<RefCell<Frames>>) {
    let mut frames = frames.borrow_mut();
    if frames.ended {
        return;
    }
    let Some(window) = web_sys::window() else { return };
    let Some(closure) = &frames.closure else { return };
    frames.request = window.request_animation_frame(closure.as_ref().unchecked_ref()).unwrap_or(0);
}

fn mark(swing: f64) {
    let document = web_sys::window().and_then(|window| window.document());
    let mark = document.and_then(|document| document.query_selector("[data-slot=beat]").ok().flatten());
    if let Some(mark) = mark.and_then(|mark| mark.dyn_into::<HtmlElement>().ok()) {
        let _ = mark.style().set_property("left", &format!("{:.1}%", 50.0 + SWING * swing));
    }
}
