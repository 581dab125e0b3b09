//! What is asked of gaze at rest.

use crate::capture::form::{Choice, Form, Kind, Usual, UsualAnswer, asked, choice, detail, hinted, never_fills};
use crate::notice::is_new;

pub(super) static FIXATION: &[Choice] = &[
    choice("steady", "Steady"),
    choice("jerks", "Small jerks off and back"),
    choice("drifts", "Drifts off"),
    hinted("bursts", "Bursts to and fro", "fast, in any direction, without a pause between"),
    choice("cannot", "Cannot hold"),
];

pub(super) static NYSTAGMUS: &[Choice] = &[
    choice("none", "None"),
    choice("right", "Beats to their right"),
    choice("left", "Beats to their left"),
    choice("up", "Beats up"),
    choice("down", "Beats down"),
    choice("torsional", "Twists"),
    hinted("pendular", "Swings", "no fast phase"),
    choice("changes", "Changes direction"),
];

pub(super) static LID: &[Choice] = &[
    choice("level", "Level"),
    choice("right", "Their right hangs lower"),
    choice("left", "Their left hangs lower"),
    choice("both", "Both hang low"),
];

pub(super) static PUPILS: &[Choice] = &[
    choice("equal", "Equal, both react"),
    choice("right_larger", "Their right is larger"),
    choice("left_larger", "Their left is larger"),
    choice("right_fixed", "Their right does not react"),
    choice("left_fixed", "Their left does not react"),
    choice("both_fixed", "Neither reacts"),
];

pub(super) static ALIGNMENT: &[Choice] = &[
    choice("still", "No movement"),
    hinted("right", "Their right moves", "when the left is covered"),
    hinted("left", "Their left moves", "when the right is covered"),
    hinted("both", "Both move", "each when the other is covered"),
];

pub(super) static WAY: &[Choice] = &[
    hinted("in", "Inward", "it stood outward"),
    hinted("out", "Outward", "it stood inward"),
    hinted("up", "Up", "it stood low"),
    hinted("down", "Down", "it stood high"),
];

pub(super) static DOUBLE: &[Choice] = &[
    choice("single", "Single"),
    hinted("two_eyes", "Double with both eyes open", "gone when either eye is covered"),
    hinted("one_eye", "Double with one eye", "stays when the other is covered"),
    hinted("not_covered", "Double", "covering not tried"),
];

pub(super) static SEEN_BY: &[Choice] = &[choice("eye", "By eye"), choice("video", "Only on a video or with goggles")];

pub(super) static FORM: Form = Form {
    id: "resting_gaze",
    fields: &[
        asked("fixation", "Looking at the target", Kind::One(FIXATION)),
        is_new("fixation_new", "The bursts are").only_if("fixation", &["bursts"]),
        asked("nystagmus", "Nystagmus, by its fast phase", Kind::One(NYSTAGMUS)),
        is_new("nystagmus_new", "The nystagmus is")
            .only_if("nystagmus", &["right", "left", "up", "down", "torsional", "pendular", "changes"]),
        asked("lid", "Upper lids", Kind::One(LID)),
        is_new("lid_new", "The low lid is").only_if("lid", &["right", "left", "both"]),
        asked("pupils", "Pupils", Kind::One(PUPILS)),
        is_new("pupils_new", "That is")
            .only_if("pupils", &["right_larger", "left_larger", "right_fixed", "left_fixed", "both_fixed"]),
        asked("alignment", "On covering one eye, the other", Kind::One(ALIGNMENT)),
        asked("alignment_way", "It moves", Kind::One(WAY))
            .help("Up or down in both eyes: say which way their right eye moves.")
            .only_if("alignment", &["right", "left", "both"]),
        is_new("alignment_new", "That is").only_if("alignment", &["right", "left", "both"]),
        asked("double", "The target looks", Kind::One(DOUBLE)),
        is_new("double_new", "The double vision is").only_if("double", &["two_eyes", "one_eye", "not_covered"]),
        detail("seen_by", "How the eyes were watched", Kind::One(SEEN_BY)),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[
        Usual { key: "fixation", answer: UsualAnswer::One("steady") },
        Usual { key: "nystagmus", answer: UsualAnswer::One("none") },
        Usual { key: "lid", answer: UsualAnswer::One("level") },
        Usual { key: "pupils", answer: UsualAnswer::One("equal") },
        Usual { key: "alignment", answer: UsualAnswer::One("still") },
        Usual { key: "double", answer: UsualAnswer::One("single") },
    ],
    usual_label: "All as expected",
    fills: never_fills,
};
