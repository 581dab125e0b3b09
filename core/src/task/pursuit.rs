//! Following a slow target in four directions at two speeds: how smooth, from which cycle on not, and what the head did.

use super::{Caution, Context, Setup, Task};
use crate::capture::form::{Choice, Form, GridForm, Kind, Usual, UsualAnswer, asked, choice, detail, hinted};
use crate::capture::record::Record;
use crate::finding::Reading;
use crate::quantity::Quantity;

/// The task.
pub static TASK: Task = Task {
    id: "pursuit",
    title: "Following",
    term: "smooth pursuit",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "One small face target at eye level, about 60 cm away.",
        motion: "Over about 50 cm, there and back, side to side, then up and down. Slow: three seconds each way. \
                 Fast: half that. Up to four times each.",
        say: "Keep your head still. Follow it with your eyes only.",
        watch: "Smooth, or small jumps to catch up; in which direction; from which time on; whether the head helps.",
    },
    form: &FORM,
    provokes: true,
    seconds: 40,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

static CAUTIONS: &[Caution] = &[
    Caution {
        when: &[],
        below_age: Some(7),
        says: "Many healthy children do not follow smoothly before 6 to 7 years. Catch-ups alone mean little.",
    },
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on, let them sit, go slowly, and stop when it grows.",
    },
];

static DIRECTIONS: &[Choice] =
    &[choice("right", "to their right"), choice("left", "to their left"), choice("up", "up"), choice("down", "down")];

static SPEEDS: &[Choice] = &[choice("slow", "slow"), choice("fast", "fast")];

/// The words are common practice; no published limit was found that separates few from many by eye.
static GRADES: &[Choice] = &[
    choice("smooth", "smooth"),
    hinted("few", "few catch-ups", "one or two a sweep"),
    hinted("many", "many catch-ups", "three or more a sweep"),
    hinted("cannot", "cannot follow", "jumps only, or loses it"),
];

static GRID: GridForm = GridForm { rows: DIRECTIONS, columns: SPEEDS, grades: GRADES, cycles: 4 };

static HEAD: &[Choice] =
    &[choice("still", "still"), choice("little", "moved a little"), choice("with_eyes", "moved with the eyes")];

static TARGETS: &[Choice] = &[
    choice("face", "small face"),
    choice("letter", "letter"),
    choice("tip", "pen or finger tip"),
    choice("screen", "dot on a screen"),
];

static PACES: &[Choice] = &[
    hinted("as_said", "as described", "3 s slow, 1.5 s fast"),
    choice("slower", "slower"),
    choice("faster", "faster"),
    choice("uneven", "uneven"),
];

static DISTANCE: Quantity =
    Quantity { name: "distance of the target", unit: "cm", min: 20.0, max: 200.0, step: 5.0, decimals: 0 };

static FORM: Form = Form {
    id: "pursuit",
    fields: &[
        asked("follow", "How do the eyes follow?", Kind::Grid(&GRID)),
        asked("head", "The head", Kind::One(HEAD)),
        detail("target", "Target", Kind::One(TARGETS)),
        detail("distance", "From the eyes to the target", Kind::Number(&DISTANCE)),
        detail("speed", "Speed", Kind::One(PACES)),
    ],
    usual: &[
        Usual { key: "follow", answer: UsualAnswer::BestGrade },
        Usual { key: "head", answer: UsualAnswer::One("still") },
    ],
    usual_label: "All smooth, head still",
};

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
