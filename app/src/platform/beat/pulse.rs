//! How much time has passed, by the audio clock while it runs and by the steady clock while it does not; and the click.

use std::cell::Cell;

use js_sys::Reflect;
use wasm_bindgen::JsValue;
use web_sys::{AudioContext, OscillatorType};

use super::super::clock::monotonic;

/// How long the audio clock may stand still, in seconds, before the steady clock goes on in its place. Some devices move
/// it on only every 40 ms or so.
const STANDSTILL_S: f64 = 0.5;
/// The click: a short sine tone that neither startles nor carries far.
const PITCH_HZ: f32 = 880.0;
const LOUD: f32 = 0.4;
const SILENT: f32 = 0.0001;

/// The clocks of one beat.
pub struct Pulse {
    audio: Option<AudioContext>,
    audio_at: Cell<f64>,
    audio_moved_at: Cell<Option<f64>>,
    steady_at: Cell<f64>,
}

impl Pulse {
    /// Starts the clocks; with sound, to be called in a tap.
    #[must_use]
    pub fn start(sound: bool) -> Pulse {
        let audio = if sound { AudioContext::new().ok() } else { None };
        let pulse = Pulse {
            audio,
            audio_at: Cell::new(0.0),
            audio_moved_at: Cell::new(None),
            steady_at: Cell::new(monotonic()),
        };
        // Even a context that is made in a tap may begin suspended.
        pulse.resume();
        pulse
    }

    /// Lets the sound go on after the device interrupted it.
    pub fn resume(&self) {
        if let Some(audio) = &self.audio {
            // Whether it was allowed shows in whether its clock moves.
            let _ = audio.resume();
        }
    }

    /// Ends the sound, that of beats already handed over too.
    pub fn end(&self) {
        if let Some(audio) = &self.audio {
            let _ = audio.close();
        }
    }

    /// Seconds since this was asked last.
    pub fn elapsed(&self) -> f64 {
        let steady = monotonic();
        let by_steady = (steady - self.steady_at.replace(steady)) / 1000.0;
        let Some(audio) = &self.audio else { return by_steady };
        let heard = audio.current_time();
        let by_audio = heard - self.audio_at.replace(heard);
        if by_audio > 0.0 {
            let first = self.audio_moved_at.replace(Some(steady)).is_none();
            // Until now the steady clock was counted, so this once it still is.
            return if first { by_steady } else { by_audio };
        }
        if self.audio_runs() { 0.0 } else { by_steady }
    }

    /// Seconds from the time of a sound until it is heard, as far as the browser tells.
    pub fn latency(&self) -> f64 {
        let Some(audio) = self.audio.as_ref().filter(|_| self.audio_runs()) else { return 0.0 };
        let part = |name: &str| {
            let seconds = Reflect::get(audio, &JsValue::from(name)).ok().and_then(|value| value.as_f64());
            seconds.filter(|seconds| seconds.is_finite()).unwrap_or(0.0)
        };
        // More than half a second is no speaker but a mistake of the device.
        (part("baseLatency") + part("outputLatency")).clamp(0.0, 0.5)
    }

    /// Clicks in this many seconds, if there is sound.
    pub fn click_in(&self, seconds: f64) {
        if let Some(audio) = self.audio.as_ref().filter(|_| self.audio_runs()) {
            // A click that cannot be made leaves a silent beat; there is nobody to tell in the middle of a task.
            let _ = click(audio, self.audio_at.get() + seconds);
        }
    }

    fn audio_runs(&self) -> bool {
        self.audio_moved_at.get().is_some_and(|moved| self.steady_at.get() - moved < STANDSTILL_S * 1000.0)
    }
}

fn click(audio: &AudioContext, at: f64) -> Result<(), JsValue> {
    let tone = audio.create_oscillator()?;
    let gain = audio.create_gain()?;
    tone.set_type(OscillatorType::Sine);
    tone.frequency().set_value(PITCH_HZ);
    // Rising and falling within some milliseconds: a tone that is cut on or off cracks.
    let level = gain.gain();
    level.set_value_at_time(SILENT, at)?;
    level.exponential_ramp_to_value_at_time(LOUD, at + 0.004)?;
    level.exponential_ramp_to_value_at_time(SILENT, at + 0.07)?;
    tone.connect_with_audio_node(&gain)?;
    gain.connect_with_audio_node(&audio.destination())?;
    tone.start_with_when(at)?;
    tone.stop_with_when(at + 0.08)
}

#[cfg(test)]
mod tests {
    use super::*;
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    async fn run_for_about_two_seconds(pulse: &Pulse) -> (f64, f64) {
        let began = monotonic();
        let mut passed = 0.0;
        while monotonic() - began < 2_000.0 {
            TimeoutFuture::new(25).await;
            passed += pulse.elapsed();
        }
        (passed, (monotonic() - began) / 1000.0)
    }

    #[wasm_bindgen_test]
    async fn the_audio_clock_and_the_steady_clock_agree() {
        let pulse = Pulse::start(true);
        let (passed, steady) = run_for_about_two_seconds(&pulse).await;
        let moved = pulse.audio_moved_at.get();
        pulse.end();
        assert!(moved.is_some(), "the test browser is started with sound allowed");
        assert!((passed - steady).abs() < 0.15, "{passed} s against {steady} s");
    }

    #[wasm_bindgen_test]
    async fn time_goes_on_when_the_audio_clock_stands_still() {
        let pulse = Pulse::start(true);
        TimeoutFuture::new(600).await;
        pulse.elapsed();
        TimeoutFuture::new(100).await;
        pulse.elapsed();
        assert!(pulse.audio_runs());
        let audio = pulse.audio.as_ref().expect("there is a context");
        wasm_bindgen_futures::JsFuture::from(audio.suspend().expect("can be asked")).await.expect("suspends");
        let (passed, steady) = run_for_about_two_seconds(&pulse).await;
        assert!(!pulse.audio_runs());
        // All but the half second that it takes to be sure.
        assert!(passed > steady - STANDSTILL_S - 0.2 && passed <= steady + 0.05, "{passed} s against {steady} s");
        pulse.end();
    }
}
