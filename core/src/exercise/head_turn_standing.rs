//! Head turns with the eyes on a target, standing: the step after sitting.

use super::evidence::{HALL_2016, PHYSIO, TEENS_50, VOM_SHEET};
use super::{Amount, Bar, Dose, Exercise, Group, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "head_turn_standing",
    number: 8,
    title: "Head turns, eyes on a target, standing",
    aim: "The same as sitting, with the work of standing.",
    group: Group::HeadMoves,
    setup: "As sitting; feet apart, then together, then one in front, then on foam; a plain, then a busy \
            background. In a corner or by a worktop.",
    start: Dose { sets: 4, amount: Amount::Seconds(30), rest: 60, a_day: 3, a_week: 7, weeks: 4, beat: 60 },
    start_from: "half of sitting to begin with: common practice",
    doses: &[
        Published { says: "feet apart, together, one in front, foam", source: &PHYSIO, status: Status::Found },
        Published { says: "a plain, then a busy background", source: &VOM_SHEET, status: Status::Found },
    ],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "peripheral loss in adults: should be offered (strong)",
            source: &HALL_2016,
            status: Status::Found,
        },
        Study {
            shows: Shows::Benefit,
            says: "teenagers: head-turn symptoms fell more than in controls, standing work included",
            source: &TEENS_50,
            status: Status::Found,
        },
    ],
    support: Support::B,
    leads: &[],
    // At most 2 of 10 while sitting for 3 days: from memory.
    follows: Some("head_turn_seated"),
    bars: &[
        Bar::Caution("neck", "neck pain, injury or disease: no head turns until it is cleared"),
        Bar::Caution("surgery", "recent eye, ear, brain or neck surgery: no head turns until the surgeon agrees"),
        Bar::Caution("falls", "falls or unsteady: sitting only, until somebody can stand beside"),
        Bar::Younger(6, "no study of head turns at home below 6 years was found"),
    ],
    cautions: &["Only when sitting has been mild, 2 of 10 at most, for 3 days (from memory)."],
    supervision: "Therapist with vestibular training; a helper within reach.",
    harder: "Foam; a far letter.",
    easier: "Back to sitting.",
    stop: "A stumble.",
    family: family!("head_turn_standing", "step1", "step2", "step3", "step4"),
};
