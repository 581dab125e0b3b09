//! The times of the frames of a run; and, only when the page was asked for it, where each of them was drawn.

use std::fmt::Write as _;

use leptos::prelude::document;

/// The mark on the root element that asks for places; what was drawn is left beside it after the run.
const ASKED: &str = "data-log-frames";
const TOLD: &str = "data-frames";

/// Frames of one run.
pub struct Log {
    times: Vec<f64>,
    /// Seconds of the program and where it was drawn, for each frame.
    places: Option<Vec<(f64, f64, f64)>>,
}

impl Log {
    /// An empty log with room for a long run, so that no frame waits for memory.
    pub fn new() -> Log {
        let asked = document().document_element().is_some_and(|root| root.has_attribute(ASKED));
        Log { times: Vec::with_capacity(8192), places: asked.then(|| Vec::with_capacity(8192)) }
    }

    /// A frame was drawn.
    pub fn note(&mut self, time: f64, seconds: f64, (right, down): (f64, f64)) {
        self.times.push(time);
        if let Some(places) = &mut self.places {
            places.push((seconds, right, down));
        }
    }

    /// The browser's times of all frames, in milliseconds.
    pub fn times(&self) -> &[f64] {
        &self.times
    }

    /// Leaves what was drawn on the page, a line for each frame: time, seconds of the program, right, down.
    pub fn leave(&self) {
        let (Some(places), Some(root)) = (&self.places, document().document_element()) else { return };
        let mut text = String::new();
        for (time, (seconds, right, down)) in self.times.iter().zip(places) {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "{time} {seconds} {right} {down}");
        }
        let _ = root.set_attribute(TOLD, &text);
    }
}
