//! Moving stripes: one tap for each stripe the eyes catch or miss, timed, by the direction the stripes move in.

use super::{Caution, Context, Setup, Task};
use crate::capture::form::{
    Choice, Form, GridForm, Kind, MarkChoice, Pace, SeriesForm, Shape, asked, choice, detail, hinted,
};
use crate::capture::record::Record;
use crate::finding::Reading;
use crate::quantity::Quantity;

/// The task.
pub static TASK: Task = Task {
    id: "optokinetic",
    title: "Stripes",
    term: "optokinetic response",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "A striped tape or drum at eye level, about 40 cm away and filling as much of the view as it can.",
        motion: "Steadily to one side, about one stripe a second, ten seconds. A rest, then to the other side.",
        say: "Look at each stripe as it passes. Let it go and take the next one.",
        watch: "A slow turn with the stripe and a quick jump back, every time. Tap each one, and each one missed.",
    },
    form: &FORM,
    provokes: true,
    seconds: 40,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

static CAUTIONS: &[Caution] = &[
    // Common practice, from memory; the limits for stripes on a screen are the display's own.
    Caution {
        when: &["seizures", "light"],
        below_age: None,
        says: "No stripes on a screen: use a tape or passing fingers, briefly, or leave it out. At any odd feeling, \
               cover one eye and look away.",
    },
    // Of 228 routine EEGs of children 12 showed pattern sensitivity, all aged 5 to 12, 2 of them without flash
    // sensitivity (paediatric EEG series, Neuropsychiatr Dis Treat, doi 10.2147/NDT.S32161).
    Caution {
        when: &[],
        below_age: Some(13),
        says: "Some children react to stripes though flashes do not trouble them. Keep it short and stop at any odd \
               feeling.",
    },
    Caution {
        when: &["migraine", "vertigo"],
        below_age: None,
        says: "Stripes can bring on headache, dizziness or nausea. Keep it short, and stop when these grow.",
    },
];

static PADS: &[Choice] = &[
    hinted("right", "to their right", "stripes move to their right"),
    hinted("left", "to their left", "stripes move to their left"),
];

static MARKS: &[MarkChoice] = &[
    MarkChoice { choice: choice("beat", "beat"), shape: Shape::Disc },
    MarkChoice { choice: choice("missed", "missed"), shape: Shape::Cross },
];

/// One stripe a second can be counted by eye and hand; ten of them are ten seconds a direction (common practice).
static PACE: Pace = Pace { bpm: 60.0, beats: 10, alternates: false };

static STRIPES: SeriesForm =
    SeriesForm { pads: PADS, marks: MARKS, also: &[], run_by_pad: true, pace: Some(PACE), wanted: 10, most: 240 };

static STIMULI: &[Choice] = &[choice("tape", "tape"), choice("drum", "drum"), choice("screen", "screen")];

static INSTRUCTIONS: &[Choice] = &[choice("follow", "“look at each stripe”"), choice("middle", "“look at the middle”")];

static PHASES: &[Choice] =
    &[hinted("slow", "slow turn", "with the stripes"), hinted("quick", "quick jump back", "against the stripes")];

static PHASE_GRADES: &[Choice] = &[choice("full", "full"), choice("weak", "weak"), choice("absent", "absent")];

static PHASE_GRID: GridForm = GridForm { rows: PADS, columns: PHASES, grades: PHASE_GRADES, cycles: 0 };

/// Stripes of 4 to 12 degrees and speeds of 7 to 60 degrees per second are in use in studies; the bounds leave room.
static WIDTH: Quantity = Quantity { name: "stripe width", unit: "°", min: 0.5, max: 30.0, step: 0.5, decimals: 1 };
static SPEED: Quantity = Quantity { name: "stripe speed", unit: "°/s", min: 1.0, max: 100.0, step: 1.0, decimals: 0 };

static FORM: Form = Form {
    id: "optokinetic",
    fields: &[
        asked("stripes", "Each stripe: taken up, or missed?", Kind::Series(&STRIPES)),
        asked("stimulus", "Stripes on a", Kind::One(STIMULI)),
        detail("width", "Width of one stripe", Kind::Number(&WIDTH)),
        detail("speed", "Speed", Kind::Number(&SPEED)),
        detail("instruction", "What was said", Kind::One(INSTRUCTIONS)),
        detail("phases", "How the two movements look", Kind::Grid(&PHASE_GRID)),
    ],
    usual: &[],
    usual_label: "",
};

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
