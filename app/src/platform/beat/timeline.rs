//! Which beats are due, from the time that has passed; pure, without a browser.

/// How far ahead of its time a beat is handed to the audio hardware, in seconds. The timer may be late by as much.
pub const AHEAD_S: f64 = 0.2;
/// Time before the first beat, in seconds: the audio hardware of a phone takes a while to start.
const LEAD_S: f64 = 0.6;

/// Where a beat stands.
#[derive(Debug)]
pub struct Timeline {
    bpm: f64,
    count: Option<u32>,
    position: f64,
    sounded: u32,
    called: u32,
}

impl Timeline {
    /// A beat at its start.
    #[must_use]
    pub fn new(bpm: f64, count: Option<u32>) -> Timeline {
        Timeline { bpm, count, position: 0.0, sounded: 0, called: 0 }
    }

    /// Lets this many seconds pass. Of a longer gap only so much counts as was handed over before it: beats that nobody
    /// could hear wait, instead of coming all at once.
    pub fn advance(&mut self, seconds: f64) {
        self.position += seconds.clamp(0.0, AHEAD_S);
    }

    /// The next beat to be handed over, as seconds from now.
    pub fn next_to_sound(&mut self) -> Option<f64> {
        let ahead = beat_at(self.bpm, self.sounded) - self.position;
        take(&mut self.sounded, self.count, ahead <= AHEAD_S).map(|_| ahead.max(0.0))
    }

    /// The index of the next beat that is heard by now, when sound takes `latency` seconds to be heard.
    pub fn next_to_call(&mut self, latency: f64) -> Option<u32> {
        let heard_at = beat_at(self.bpm, self.called) + latency;
        take(&mut self.called, self.count, heard_at <= self.position)
    }
}

/// Seconds from the start at which a beat falls, `index` counted from 0.
fn beat_at(bpm: f64, index: u32) -> f64 {
    LEAD_S + f64::from(index) * 60.0 / bpm
}

fn take(next: &mut u32, count: Option<u32>, due: bool) -> Option<u32> {
    let index = *next;
    if !due || count.is_some_and(|count| index >= count) {
        return None;
    }
    *next += 1;
    Some(index)
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    /// When each beat sounds, by a timer that looks at these intervals, turn after turn.
    fn sounds(bpm: f64, count: u32, looks: &[f64]) -> Vec<f64> {
        let mut timeline = Timeline::new(bpm, Some(count));
        let mut now = 0.0;
        let mut heard = Vec::new();
        for look in looks.iter().cycle().take(200_000) {
            now += look;
            timeline.advance(*look);
            while let Some(ahead) = timeline.next_to_sound() {
                heard.push(now + ahead);
            }
        }
        heard
    }

    /// 180 a minute: the tenth beat falls 3.0 s after the first; 50 a minute: the fifth 4.8 s after. Worked from the
    /// definition of beats per minute; an uneven timer changes nothing, and the error does not grow with the number of beats.
    #[wasm_bindgen_test]
    fn beats_do_not_drift() {
        for (bpm, index, seconds) in [(180.0, 9, 3.0), (50.0, 4, 4.8), (180.0, 1_800, 600.0)] {
            for looks in [&[0.025][..], &[0.025, 0.031, 0.004, 0.18]] {
                let heard = sounds(bpm, index + 1, looks);
                let last = heard.len() - 1;
                assert_eq!(last, index as usize);
                assert!((heard[last] - heard[0] - seconds).abs() < 1e-6, "{bpm} a minute: {}", heard[last] - heard[0]);
            }
        }
    }

    #[wasm_bindgen_test]
    fn a_held_up_page_beats_late_but_never_in_a_burst() {
        let heard = sounds(180.0, 200, &[0.025, 0.025, 1.0]);
        let shortest = heard.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::MAX, f64::min);
        assert_eq!(heard.len(), 200);
        assert!(shortest > 1.0 / 3.0 - 1e-9, "{shortest}");
    }

    #[wasm_bindgen_test]
    fn a_beat_is_called_when_it_is_heard_and_none_is_left_out() {
        let mut timeline = Timeline::new(60.0, Some(3));
        let mut called = Vec::new();
        for look in 0..200_u32 {
            timeline.advance(0.025);
            while let Some(index) = timeline.next_to_call(0.15) {
                called.push((index, look + 1));
            }
        }
        // (0.6 + index + 0.15) s, in looks of 25 ms.
        assert_eq!(called.iter().map(|call| call.0).collect::<Vec<_>>(), [0, 1, 2]);
        for (index, look) in called {
            let seconds = f64::from(look) * 0.025;
            assert!((seconds - f64::from(index) - 0.75).abs() < 0.026, "beat {index} called at {seconds} s");
        }
    }
}
