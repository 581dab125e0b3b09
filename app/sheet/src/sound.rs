//! Short tones for what begins and ends, clicks of the beat, and a vibration with each.
//!
//! Limits: the audio must be opened in a tap; the silent switch of some phones mutes it; only some phones vibrate. The screen
//! says the same as the tones.

use sidelight_core::family::Cue;
use wasm_bindgen::JsValue;
use web_sys::{AudioContext, AudioContextState, AudioNode};

const LOUD: f32 = 0.35;
const SILENT: f32 = 0.0001;

/// The sounds of this page.
#[derive(Default)]
pub struct Sound {
    audio: Option<AudioContext>,
}

impl Sound {
    /// Opens the audio; to be called in a tap.
    pub fn open(&mut self) {
        if self.audio.is_none() {
            self.audio = AudioContext::new().ok();
        }
        // Even audio that is opened in a tap may begin suspended.
        if let Some(audio) = &self.audio {
            let _ = audio.resume();
        }
    }

    /// The audio, while its clock runs.
    pub fn running(&self) -> Option<&AudioContext> {
        self.audio.as_ref().filter(|audio| audio.state() == AudioContextState::Running)
    }

    /// Lets a cue be heard, unless sounds are off, and felt.
    pub fn cue(&self, cue: Cue, audible: bool) {
        // Up for a beginning, down for a rest, three notes for the end.
        let (notes, pulses): (&[f32], &[u32]) = match cue {
            Cue::Begin => (&[660.0, 880.0], &[120]),
            Cue::Rest => (&[660.0, 440.0], &[60, 80, 60]),
            Cue::Over => (&[660.0, 880.0, 1100.0], &[200, 100, 200]),
        };
        vibrate(pulses);
        let Some(audio) = self.running().filter(|_| audible) else { return };
        let mut at = audio.current_time() + 0.02;
        for note in notes {
            // A tone that cannot be made leaves the words on the screen.
            let _ = tone(audio, &audio.destination(), *note, at, 0.16);
            at += 0.18;
        }
    }
}

/// One tone into a node. Rising and falling within some milliseconds: one that is cut on or off cracks.
pub fn tone(audio: &AudioContext, into: &AudioNode, pitch: f32, at: f64, long: f64) -> Result<(), JsValue> {
    let (source, gain) = (audio.create_oscillator()?, audio.create_gain()?);
    source.frequency().set_value(pitch);
    let level = gain.gain();
    level.set_value_at_time(SILENT, at)?;
    level.exponential_ramp_to_value_at_time(LOUD, at + 0.006)?;
    level.exponential_ramp_to_value_at_time(SILENT, at + long)?;
    source.connect_with_audio_node(&gain)?;
    gain.connect_with_audio_node(into)?;
    source.start_with_when(at)?;
    source.stop_with_when(at + long + 0.01)
}

/// Vibrates for some milliseconds, with pauses between.
pub fn vibrate(pulses: &[u32]) {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else { return };
    if js_sys::Reflect::has(&navigator, &"vibrate".into()).unwrap_or(false) {
        let pattern: js_sys::Array = pulses.iter().map(|pulse| JsValue::from(*pulse)).collect();
        let _ = navigator.vibrate_with_pattern(&pattern);
    }
}
