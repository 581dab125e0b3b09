//! Near point of convergence: how near a target can come before it is seen double, over several trials.

use super::{Caution, Context, Setup, Task};
use crate::capture::form::{Choice, Field, Form, Kind, TrialForm, asked, choice, detail, hinted, optional};
use crate::capture::record::Record;
use crate::finding::Reading;
use crate::quantity::Quantity;

static BREAK: Quantity = Quantity { name: "near point", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };
static RECOVERY: Quantity =
    Quantity { name: "recovery distance", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };
/// Nearly all adults lie between 45 and 80 mm, children of 5 years from about 40 (Dodgson 2004, Proc SPIE 5291:36).
static PUPILLARY_DISTANCE: Quantity =
    Quantity { name: "pupillary distance", unit: "mm", min: 40.0, max: 80.0, step: 1.0, decimals: 0 };

static END: &[Choice] = &[
    choice("double", "Double"),
    choice("blurred", "Blurred"),
    hinted("no_break", "Single to the nose", "no distance needed"),
];

static EYES: &[Choice] = &[
    choice("right", "Their right"),
    choice("left", "Their left"),
    choice("both", "Both"),
    choice("not_seen", "Not seen"),
];

static ZERO: &[Choice] = &[
    choice("brow", "Brow or forehead"),
    choice("spectacles", "Spectacle plane"),
    choice("bridge", "Bridge of the nose"),
    choice("canthus", "Outer corner of the eye"),
];

static APPROACH: &[Choice] = &[
    choice("1", "About 1 cm a second"),
    choice("3", "About 3 cm a second"),
    choice("5", "About 5 cm a second"),
    choice("own", "At the person's own pace"),
];

static TARGETS: &[Choice] =
    &[choice("face", "Small face"), choice("letter", "Letter"), choice("pen", "Pen tip"), choice("light", "Light")];

static TRIAL: &[Field] = &[
    asked("break", "Breaks at", Kind::Number(&BREAK)),
    optional("end", "It turned", Kind::One(END)),
    optional("eye", "Which eye let go first", Kind::One(EYES)),
    optional("recovery", "One again at", Kind::Number(&RECOVERY)),
];

static FORM: Form = Form {
    id: "near_point",
    fields: &[
        asked("trials", "Near point, trial by trial", Kind::Trials(&TrialForm { fields: TRIAL, wanted: 3, most: 10 }))
            .help("Three trials; up to ten when you look for tiring."),
        detail("zero", "The ruler's zero lies at", Kind::One(ZERO)),
        detail("approach", "How fast the target came", Kind::One(APPROACH)),
        detail("target", "Target", Kind::One(TARGETS)),
        detail("pd", "Pupillary distance", Kind::Number(&PUPILLARY_DISTANCE))
            .help("Between the pupils, looking far. With it the angle between the eyes is worked out."),
    ],
    usual: &[],
    usual_label: "",
};

/// The task.
pub static TASK: Task = Task {
    id: "near_point",
    title: "Near point",
    term: "near point of convergence",
    setup: Setup {
        position: "Facing you, head still, in the glasses they use for reading.",
        target: "A small face with eyes and a nose, at eye level, midway between the eyes.",
        motion: "From arm's length straight toward the bridge of the nose, about two fingers' width (3 cm) a second. \
                 Three trials.",
        say: "Keep looking at its nose. Say “two” when you see two, and “one” when it is one again.",
        watch: "The distance at “two”, or where an eye lets go even if nothing is said; and which eye lets go first.",
    },
    form: &FORM,
    provokes: true,
    seconds: 40,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// Common practice, no source.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on: seat the person, keep a bowl near, and stop as soon as it grows.",
    },
    Caution {
        when: &["surgery"],
        below_age: None,
        says: "After recent eye surgery: only if the surgeon agrees, and never touch the face with the target.",
    },
];

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
