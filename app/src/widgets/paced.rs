//! The beat calls movements; what is not tapped otherwise was as expected.

use leptos::prelude::*;
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::{Choice, Pace, SeriesForm};

use super::entry::Entry;
use crate::platform::beat::{Beat, Options};
use crate::words;

/// A beat that may be going on, for one series.
#[derive(Clone, Copy)]
pub struct Beating {
    entry: Entry,
    form: &'static SeriesForm,
    beat: StoredValue<Option<Beat>, LocalStorage>,
    /// The pad the beat goes on for; empty for all pads in turn.
    on: RwSignal<Option<&'static str>>,
    /// The pad the last beat called.
    called: RwSignal<Option<&'static str>>,
    left: RwSignal<u32>,
}

impl Beating {
    /// No beat yet. The beat ends when the owner of this value is taken off the screen.
    #[must_use]
    pub fn new(entry: Entry, form: &'static SeriesForm) -> Beating {
        let beating = Beating {
            entry,
            form,
            beat: StoredValue::new_local(None),
            on: RwSignal::new(None),
            called: RwSignal::new(None),
            left: RwSignal::new(0),
        };
        on_cleanup(move || beating.stop());
        beating
    }

    /// Whether the last beat called this pad, so that an exception can be tapped on it.
    #[must_use]
    pub fn last_was(self, pad: &str) -> bool {
        self.called.get() == Some(pad)
    }

    fn start(self, pad: &'static str, pace: Pace) {
        self.stop();
        self.entry.edit(Edit::StartRun(self.entry.key(), pad.to_string(), Some(pace.bpm)));
        self.on.set(Some(pad));
        self.left.set(pace.beats);
        let settings = self.entry.app.settings.get_untracked();
        let options = Options { sound: settings.sound, vibration: settings.vibration };
        // One beat more than movements: the last movement also gets its time before the run ends.
        let beat = Beat::start(pace.bpm, Some(pace.beats + 1), options, move |index| self.called_at(index, pad, pace));
        self.beat.set_value(Some(beat));
    }

    fn called_at(self, index: u32, pad: &'static str, pace: Pace) {
        if index >= pace.beats {
            self.stop();
            return;
        }
        let of = if pace.alternates { self.form.pads[index as usize % self.form.pads.len()].id } else { pad };
        self.entry.edit(Edit::Beat(self.entry.key(), of.to_string()));
        self.called.set(Some(of));
        self.left.set(pace.beats - index - 1);
    }

    fn stop(self) {
        if self.beat.try_update_value(Option::take).flatten().is_some() {
            self.entry.edit(Edit::StopRun(self.entry.key()));
            self.on.set(None);
        }
    }
}

/// Start and stop of the beat, and the side it called last, large.
#[component]
pub fn PacedButtons(form: &'static SeriesForm, beating: Beating) -> impl IntoView {
    let Some(pace) = form.pace else { return ().into_any() };
    let label_of = move |id: &str| form.pads.iter().find(|pad| pad.id == id).map_or("", |pad| words::of(pad.label));
    let called = move || match (beating.on.get(), beating.called.get()) {
        (Some(_), Some(pad)) => say!("now: {side}", side = label_of(pad)),
        (Some(_), None) => say!("ready …").to_string(),
        (None, _) => String::new(),
    };
    let start = move |pad: &'static Choice| {
        view! {
            <button type="button" class="btn main" data-test=format!("beat-{}", pad.id) on:click=move |_| beating.start(pad.id, pace)>
                {say!("Start {side}", side = words::of(pad.label))}
            </button>
        }
        .into_any()
    };
    let buttons = move || {
        if beating.on.get().is_some() {
            return view! {
                <button type="button" class="btn" data-test="beat-stop" on:click=move |_| beating.stop()>
                    {move || say!("Stop · {count} left", count = beating.left.get())}
                </button>
            }
            .into_any();
        }
        if form.run_by_pad {
            return form.pads.iter().map(start).collect_view().into_any();
        }
        view! {
            <button type="button" class="btn main" data-test="beat-start" on:click=move |_| beating.start("", pace)>
                {say!("Start the beat: {beats} at {rate} a minute", beats = pace.beats, rate = pace.bpm)}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="paced" data-test="paced" data-on=move || beating.on.get().is_some().to_string()>
            <p class="called" aria-live="off" data-test="called">{called}</p>
            <div class="paced-buttons">{buttons}</div>
        </div>
    }
    .into_any()
}
