//! A beat on the audio clock, with vibration where it exists.
//!
//! Sounds are handed to the audio hardware ahead of time, at multiples of 60 / bpm from the start, so they do not drift.
//! Limits: it must be started in a tap; the silent switch of some phones mutes it; wireless speakers sound 100 to 300 ms
//! late, which is made up for only as far as the browser tells. Without audio the same beats are timed by the steady clock.
//! A page that is hidden or held up beats no further: a beat that nobody could hear is neither sounded nor counted.

mod pulse;
mod timeline;

use std::cell::RefCell;
use std::rc::Rc;

use gloo_events::EventListener;
use gloo_timers::callback::Interval;
use wasm_bindgen_futures::spawn_local;

use self::pulse::Pulse;
use self::timeline::Timeline;
use super::{vibrate, visibility};

/// How often the timer looks, in milliseconds.
const LOOK_MS: u32 = 25;
/// How long a beat vibrates, in milliseconds.
const VIBRATE_MS: u32 = 25;

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
    _shown: EventListener,
    pulse: Rc<Pulse>,
}

impl Beat {
    /// Starts a beat; must be called from a tap. `on_beat` gets the index of each beat, from 0, when it is heard.
    ///
    /// With `count`, nothing is heard or called after that many beats. Dropping the beat from within `on_beat` is fine.
    pub fn start(bpm: f64, count: Option<u32>, options: Options, on_beat: impl Fn(u32) + 'static) -> Beat {
        let pulse = Rc::new(Pulse::start(options.sound));
        let timeline = RefCell::new(Timeline::new(bpm, count));
        let on_beat = Rc::new(on_beat);
        let looked_at = Rc::clone(&pulse);
        let timer = Interval::new(LOOK_MS, move || {
            let mut timeline = timeline.borrow_mut();
            timeline.advance(looked_at.elapsed());
            while let Some(ahead) = timeline.next_to_sound() {
                looked_at.click_in(ahead);
            }
            while let Some(index) = timeline.next_to_call(looked_at.latency()) {
                if options.vibration {
                    vibrate::pulse(VIBRATE_MS);
                }
                let on_beat = Rc::clone(&on_beat);
                // A beat may end the run that owns this timer, so it is called once the timer's own turn is over.
                spawn_local(async move { on_beat(index) });
            }
        });
        let shown = Rc::clone(&pulse);
        Beat { _timer: timer, _shown: visibility::on_shown(move || shown.resume()), pulse }
    }
}

impl Drop for Beat {
    fn drop(&mut self) {
        self.pulse.end();
    }
}

#[cfg(test)]
mod tests {
    use std::cell::RefCell;
    use std::rc::Rc;

    use super::super::clock::monotonic;
    use super::{Beat, Options};
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    async fn beats_heard(sound: bool) -> Vec<(u32, f64)> {
        let heard: Rc<RefCell<Vec<(u32, f64)>>> = Rc::default();
        let noted = Rc::clone(&heard);
        let options = Options { sound, vibration: true };
        let beat = Beat::start(600.0, Some(6), options, move |index| noted.borrow_mut().push((index, monotonic())));
        for _ in 0..300 {
            TimeoutFuture::new(20).await;
            if heard.borrow().len() == 6 {
                break;
            }
        }
        // Were there a seventh, it would come within this time.
        TimeoutFuture::new(250).await;
        drop(beat);
        heard.take()
    }

    fn check(heard: &[(u32, f64)]) {
        let indexes: Vec<u32> = heard.iter().map(|beat| beat.0).collect();
        assert_eq!(indexes, [0, 1, 2, 3, 4, 5]);
        // Five intervals of 100 ms; a busy machine may hold the beat up, but nothing may hurry it by more than the timer's
        // own grain at both ends.
        let lasted = heard[5].1 - heard[0].1;
        assert!(lasted > 500.0 - 60.0, "{lasted} ms");
    }

    #[wasm_bindgen_test]
    async fn a_silent_beat_calls_each_beat_once_and_then_no_more() {
        check(&beats_heard(false).await);
    }

    #[wasm_bindgen_test]
    async fn a_sounding_beat_calls_each_beat_once_and_then_no_more() {
        check(&beats_heard(true).await);
    }

    #[wasm_bindgen_test]
    async fn a_beat_can_be_dropped_from_within_its_callback() {
        let slot: Rc<RefCell<Option<Beat>>> = Rc::default();
        let calls: Rc<RefCell<u32>> = Rc::default();
        let (inside, counted) = (Rc::clone(&slot), Rc::clone(&calls));
        let options = Options { sound: true, vibration: false };
        let beat = Beat::start(600.0, None, options, move |_| {
            *counted.borrow_mut() += 1;
            inside.replace(None);
        });
        slot.replace(Some(beat));
        TimeoutFuture::new(1_200).await;
        assert_eq!(*calls.borrow(), 1);
        assert!(slot.borrow().is_none());
    }
}
