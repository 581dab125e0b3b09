//! Jumps between two targets: where each one lands, in order and by direction.

use super::{Caution, Context, Setup, Task};
use crate::capture::form::{Choice, Form, Kind, MarkChoice, Pace, SeriesForm, Shape, asked, choice, detail, hinted};
use crate::capture::record::Record;
use crate::finding::Reading;
use crate::quantity::Quantity;

/// The task.
pub static TASK: Task = Task {
    id: "saccade",
    title: "Jumps",
    term: "saccades, horizontal",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "Two small targets at eye level, about 20 cm apart and 60 cm away: a face each, told apart by a name.",
        motion: "The targets stay still. Call one, then the other: ten jumps to each side, or follow the beat.",
        say: "Keep your head still. Look at the one I name, and stay there until I name the other.",
        watch: "Where the eyes land first: on target, short with a second jump on, or past and back. Then a late start.",
    },
    form: &FORM,
    provokes: true,
    seconds: 35,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

static CAUTIONS: &[Caution] = &[Caution {
    when: &["vertigo"],
    below_age: None,
    says: "With vertigo going on, let them sit, and stop when it grows.",
}];

static PADS: &[Choice] = &[choice("right", "their right"), choice("left", "their left")];

static MARKS: &[MarkChoice] = &[
    MarkChoice { choice: choice("on", "on target"), shape: Shape::Disc },
    MarkChoice { choice: hinted("short", "short", "a second jump on"), shape: Shape::Wedge },
    MarkChoice { choice: hinted("past", "past", "and back"), shape: Shape::Arrow },
];

static ALSO: &[Choice] = &[choice("late", "late start"), choice("second", "more than one correction")];

/// One jump every 1.5 s lies in the middle of the 1 to 2 s at which targets are usually alternated (from memory): a jump
/// of 20° with its start and one correction is over in about half a second, which leaves a second to see and to tap.
static PACE: Pace = Pace { bpm: 40.0, beats: 20, alternates: true };

/// Ten to each side is what the published symptom screen asks for (Mucha et al. 2014).
static JUMPS: SeriesForm =
    SeriesForm { pads: PADS, marks: MARKS, also: ALSO, run_by_pad: false, pace: Some(PACE), wanted: 10, most: 120 };

static DISTANCE: Quantity =
    Quantity { name: "distance of the targets", unit: "cm", min: 20.0, max: 200.0, step: 5.0, decimals: 0 };
static SEPARATION: Quantity =
    Quantity { name: "distance between the targets", unit: "cm", min: 5.0, max: 200.0, step: 5.0, decimals: 0 };

static FORM: Form = Form {
    id: "saccade",
    fields: &[
        asked("jumps", "Where do the eyes land?", Kind::Series(&JUMPS)),
        detail("distance", "From the eyes to the targets", Kind::Number(&DISTANCE)),
        detail("separation", "From one target to the other", Kind::Number(&SEPARATION)),
    ],
    usual: &[],
    usual_label: "",
};

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
