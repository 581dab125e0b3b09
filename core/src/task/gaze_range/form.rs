//! What is asked of the range of gaze.

use crate::capture::form::{
    Choice, Field, Form, GridForm, Kind, Place, Usual, UsualAnswer, asked, choice, detail, hinted, never_fills,
    optional,
};
use crate::notice::is_new;

/// In the order of a large H: to one side and its corners, to the other, then up and down.
pub(super) static DIRECTIONS: &[Choice] = &[
    choice("right", "to their right"),
    choice("up_right", "right and up"),
    choice("down_right", "right and down"),
    choice("left", "to their left"),
    choice("up_left", "left and up"),
    choice("down_left", "left and down"),
    choice("up", "up"),
    choice("down", "down"),
];

static EYES: &[Choice] = &[choice("right", "their right eye"), choice("left", "their left eye")];

static REACHES: &[Choice] = &[
    choice("full", "full"),
    hinted("slight", "slightly short", "a little white is left"),
    hinted("clear", "clearly short", "passes the middle only"),
    hinted("middle", "not past middle", "or not at all"),
];

static REACH: GridForm = GridForm { rows: DIRECTIONS, columns: EYES, grades: REACHES, cycles: 0 };

static FOUR: &[Choice] =
    &[choice("right", "to their right"), choice("left", "to their left"), choice("up", "up"), choice("down", "down")];

static HELD: &[Choice] = &[choice("held", "held for 5 s")];

static BEATS: &[Choice] = &[
    choice("none", "none"),
    hinted("few", "few, then stop", "gone within 5 s"),
    hinted("wearing", "wear off", "slowly, while held"),
    hinted("sustained", "go on", "as long as held"),
];

static HOLD: GridForm = GridForm { rows: FOUR, columns: HELD, grades: BEATS, cycles: 0 };

static BEATS_WAY: &[Choice] = &[
    choice("out", "The way they look"),
    choice("up", "Up, on looking aside"),
    choice("down", "Down, on looking aside"),
    choice("other", "Another way"),
];

static TAKEN: &[Choice] = &[
    hinted("gone", "Gone with either eye covered", "both eyes together"),
    hinted("stays", "Stays with one eye covered", "one eye by itself"),
    choice("not_covered", "Covering not tried"),
];

static SIDES: &[Choice] = &[choice("right", "to their right"), choice("left", "to their left")];

static LOOK: &[Choice] = &[choice("look", "quick look across")];

static TOGETHER: &[Choice] = &[
    choice("together", "both together"),
    hinted("lags", "inner eye lags", "the one turning to the nose"),
    hinted("lags_beats", "lags, outer beats", "the other eye beats outward"),
];

static ACROSS: GridForm = GridForm { rows: SIDES, columns: LOOK, grades: TOGETHER, cycles: 0 };

pub(super) static FORM: Form = Form {
    id: "gaze_range",
    fields: &[
        asked("reach", "How far does each eye go?", Kind::Grid(&REACH)),
        is_new("reach_new", "That it falls short is").only_if("reach", &["slight", "clear", "middle"]),
        asked(
            "double",
            "The target looks double when they look",
            Kind::Many { choices: DIRECTIONS, none: "Single everywhere" },
        ),
        asked("double_cover", "On covering an eye, it is", Kind::One(TAKEN)).only_if("double", ANYWHERE),
        is_new("double_new", "The double vision is").only_if("double", ANYWHERE),
        asked("beats", "Beats while gaze is held aside", Kind::Grid(&HOLD)),
        optional("beats_way", "They beat", Kind::One(BEATS_WAY)).only_if("beats", &["few", "wearing", "sustained"]),
        is_new("beats_way_new", "That they do is").only_if("beats_way", &["up", "down", "other"]),
        is_new("beats_new", "The beats that go on are").only_if("beats", &["sustained"]),
        detail("across", "On a quick look across, the eyes go", Kind::Grid(&ACROSS)),
        Field { place: Place::Detail, ..is_new("across_new", "That the eye lags is") }
            .only_if("across", &["lags", "lags_beats"]),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[
        Usual { key: "reach", answer: UsualAnswer::BestGrade },
        Usual { key: "double", answer: UsualAnswer::NoneOf },
        Usual { key: "beats", answer: UsualAnswer::BestGrade },
    ],
    usual_label: "All full, no beats, single",
    fills: never_fills,
};

static ANYWHERE: &[&str] = &["right", "up_right", "down_right", "left", "up_left", "down_left", "up", "down"];
