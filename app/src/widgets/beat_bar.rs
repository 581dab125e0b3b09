//! A metronome for tasks that are done to a beat: start, stop, which beat it is, and a mark that changes sides.
//!
//! The mark moves from one side to the other at each beat and nothing lights up, so that nothing on the screen flashes.

use leptos::prelude::*;
use sidelight_core::capture::form::Pace;

use crate::platform::beat::{Beat, Options};
use crate::state::App;
use crate::widgets::show::Show;

/// Below so many beats a minute the seconds between two say more.
const SLOW: f64 = 12.0;

#[component]
pub fn BeatBar(pace: Pace) -> impl IntoView {
    let app = App::get();
    let beat = StoredValue::new_local(None::<Beat>);
    let heard = RwSignal::new(0_u32);
    let on = RwSignal::new(false);
    let stop = move || {
        beat.set_value(None);
        on.set(false);
    };
    on_cleanup(move || beat.set_value(None));
    let start = move || {
        heard.set(0);
        on.set(true);
        let options = app.settings.with_untracked(|s| Options { sound: s.sound, vibration: s.vibration });
        let called = move |index: u32| {
            heard.set(index + 1);
            if index + 1 >= pace.beats {
                // The last click is still sounding, so the beat itself is let go later.
                on.set(false);
            }
        };
        beat.set_value(Some(Beat::start(pace.bpm, Some(pace.beats), options, called)));
    };
    let toggle = move |_| if on.get_untracked() { stop() } else { start() };
    let count = move || match (on.get(), heard.get()) {
        (true, 0) => say!("ready …").to_string(),
        (true, at) => say!("{at} of {beats}", at, beats = pace.beats),
        (false, 0) if pace.bpm < SLOW => {
            say!("{beats} beats, one every {seconds} s", beats = pace.beats, seconds = (60.0 / pace.bpm).round())
        }
        (false, 0) => say!("{beats} beats, {rate} a minute", beats = pace.beats, rate = pace.bpm),
        (false, at) if at >= pace.beats => say!("all {at} beats", at),
        (false, at) => say!("stopped after {at} of {beats}", at, beats = pace.beats),
    };
    let silent = move || app.settings.with(|settings| !settings.sound);
    view! {
        <section class="beat-bar" aria-label=say!("Beat") data-test="beat-bar" data-on=move || on.get().to_string() data-heard=move || heard.get()>
            <div class="beat-say">
                <span class="beat-track" aria-hidden="true" data-side=move || if heard.get() % 2 == 1 { "there" } else { "back" }>
                    <span class="beat-mark"></span>
                </span>
                <span class="beat-count" data-test="beat-count">{count}</span>
                <Show when=silent><span class="soft">{say!("sound is off")}</span></Show>
            </div>
            <button type="button" class="btn" data-test="beat-toggle" on:click=toggle>
                {move || if on.get() { say!("Stop the beat") } else { say!("Start the beat") }}
            </button>
        </section>
    }
}
