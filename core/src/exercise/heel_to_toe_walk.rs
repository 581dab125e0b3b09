//! Walking heel to toe along a line.

use super::evidence::{ACTIVE, AT_HOME, PLANS_104, SUPERVISED};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;
use crate::finding::Grade;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "heel_to_toe_walk",
    number: 11,
    title: "Heel-to-toe walk",
    aim: "Steady walking on a line.",
    group: Group::Balance,
    setup: "3 m of tape along a wall or worktop; fingertips on it, slowly, heel touches toe.",
    start: Dose { sets: 4, amount: Amount::Times(1), rest: 20, a_day: 2, a_week: 5, weeks: 4, beat: 0 },
    start_from: "a few lengths of the tape, like the stances: common practice",
    doses: &[
        Published { says: "with fingertips on a support, slowly", source: &ACTIVE, status: Status::Found },
        Published { says: "three times a week, in a falls programme", source: &AT_HOME, status: Status::Found },
    ],
    evidence: &[
        Study {
            shows: Shows::Uncontrolled,
            says: "76 in 100 home plans after concussion held walking work; no trial of it alone was found",
            source: &PLANS_104,
            status: Status::Found,
        },
        Study {
            shows: Shows::Uncontrolled,
            says: "supervised balance and strength after clearance, twice a week: 91 in 100 did more than three \
                   quarters of it",
            source: &SUPERVISED,
            status: Status::Found,
        },
    ],
    support: Support::B,
    // The time of the walk has no range, so nothing follows from it alone.
    leads: &[Lead::Finding("whole_body_turn.feet", Grade::NearLimit)],
    follows: Some("stance_steps"),
    bars: &[
        Bar::Caution("falls", "falls or unsteady: with a therapist first, not alone at home"),
        Bar::Younger(5, "no one younger than 5 to 6 years (from memory)"),
    ],
    cautions: &["No loose rug, good light, shoes on."],
    supervision: "A helper beside.",
    harder: "Backward, or counting aloud.",
    easier: "A wider line, a hand on the wall.",
    stop: "More steps off the line from day to day: report.",
    family: family!("heel_to_toe_walk", "step1", "step2", "step3"),
};
