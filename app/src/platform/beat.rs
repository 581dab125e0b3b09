//! A beat on the audio clock, with vibration where it exists.
//!
//! Beats are computed from the start (start + index × 60 / bpm), so they never drift; sounds are handed to the audio hardware
//! ahead of time. Limits: the context must be made in a tap; the silent switch of some phones mutes it, and wireless
//! speakers sound 100 to 300 ms late. Without audio the same beats are timed by the steady clock.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use gloo_timers::callback::Interval;
use web_sys::{AudioContext, OscillatorType};

use super::clock::monotonic;
use super::vibrate;

/// How often the timer looks, in milliseconds.
const LOOK_MS: u32 = 25;
/// How far ahead sounds are handed to the audio hardware, in seconds.
const AHEAD_S: f64 = 0.12;
/// Time before the first beat, so that its sound can be scheduled, in seconds.
const LEAD_S: f64 = 0.6;

/// What a beat does besides calling back.
#[derive(Clone, Copy, Debug)]
pub struct Options {
    /// Whether it sounds.
    pub sound: bool,
    /// Whether it vibrates, where the device can.
    pub vibration: bool,
}

/// A beat going on; dropped, it stops.
pub struct Beat {
    _timer: Interval,
    context: Option<AudioContext>,
}

impl Beat {
    /// Starts a beat; must be called from a tap. `on_beat` gets the index of each beat, from 0, when it is heard.
    ///
    /// With `count`, nothing is heard or called after that many beats.
    pub fn start(bpm: f64, count: Option<u32>, options: Options, on_beat: impl Fn(u32) + 'static) -> Beat {
        let context = if options.sound { AudioContext::new().ok() } else { None };
        if let Some(context) = &context {
            // A context made in a tap may still begin suspended.
            let _ = context.resume();
        }
        let clock = Clock { context: context.clone(), began: monotonic(), origin: Cell::new(None) };
        let next_sound = Cell::new(0_u32);
        let next_call = Cell::new(0_u32);
        let more = move |index: u32| count.is_none_or(|count| index < count);
        // A beat may end the run that owns this timer, so the callback is taken out while it runs.
        let on_beat: Rc<RefCell<Box<dyn Fn(u32)>>> = Rc::new(RefCell::new(Box::new(on_beat)));
        let timer = Interval::new(LOOK_MS, move || {
            let now = clock.seconds();
            while more(next_sound.get()) && beat_at(bpm, next_sound.get()) <= now + AHEAD_S {
                clock.sound(beat_at(bpm, next_sound.get()));
                next_sound.set(next_sound.get() + 1);
            }
            while more(next_call.get()) && beat_at(bpm, next_call.get()) <= now {
                let index = next_call.get();
                next_call.set(index + 1);
                if options.vibration {
                    vibrate::pulse(25);
                }
                let run = Rc::clone(&on_beat);
                wasm_bindgen_futures::spawn_local(async move { (run.borrow())(index) });
            }
        });
        Beat { _timer: timer, context }
    }
}

impl Drop for Beat {
    fn drop(&mut self) {
        if let Some(context) = self.context.take() {
            let _ = context.close();
        }
    }
}

/// Seconds from the start of the beat at which a beat falls, `index` counted from 0.
#[must_use]
pub fn beat_at(bpm: f64, index: u32) -> f64 {
    LEAD_S + f64::from(index) * 60.0 / bpm
}

/// Seconds since the start: by the audio clock once it runs, by the steady clock until then or without audio.
struct Clock {
    context: Option<AudioContext>,
    began: f64,
    /// Audio time that stands for the start, fixed when the audio clock is first seen to run.
    origin: Cell<Option<f64>>,
}

impl Clock {
    fn seconds(&self) -> f64 {
        let steady = (monotonic() - self.began) / 1000.0;
        let Some(context) = &self.context else { return steady };
        let audio = context.current_time();
        if self.origin.get().is_none() && audio > 0.0 {
            self.origin.set(Some(audio - steady));
        }
        match self.origin.get() {
            Some(origin) => audio - origin,
            None => steady,
        }
    }

    /// A soft click at this many seconds after the start.
    fn sound(&self, at: f64) {
        let (Some(context), Some(origin)) = (&self.context, self.origin.get()) else { return };
        let when = (origin + at).max(context.current_time());
        let (Ok(tone), Ok(gain)) = (context.create_oscillator(), context.create_gain()) else { return };
        tone.set_type(OscillatorType::Sine);
        tone.frequency().set_value(880.0);
        let level = gain.gain();
        let _ = level.set_value_at_time(0.0001, when);
        let _ = level.exponential_ramp_to_value_at_time(0.4, when + 0.004);
        let _ = level.exponential_ramp_to_value_at_time(0.0001, when + 0.07);
        let _ = tone.connect_with_audio_node(&gain);
        let _ = gain.connect_with_audio_node(&context.destination());
        let _ = tone.start_with_when(when);
        let _ = tone.stop_with_when(when + 0.08);
    }
}

#[cfg(test)]
mod tests {
    use super::beat_at;
    use wasm_bindgen_test::wasm_bindgen_test;

    /// 180 a minute: the tenth beat falls 3.0 s after the first; 50 a minute: the fifth 4.8 s after. Worked from the
    /// definition of beats per minute; the error must not grow with the number of beats.
    #[wasm_bindgen_test]
    fn beats_do_not_drift() {
        let after = |bpm: f64, index: u32| beat_at(bpm, index) - beat_at(bpm, 0);
        assert!((after(180.0, 9) - 3.0).abs() < 1e-9);
        assert!((after(50.0, 4) - 4.8).abs() < 1e-9);
        assert!((after(180.0, 1800) - 600.0).abs() < 1e-9);
    }
}
