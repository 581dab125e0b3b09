//! Slow following with the head still: for comfort only. A guideline advises against it for gaze stability.

use super::evidence::{AGAINST_FOR_LEARNING, AGAINST_STILL_HEAD, NEGLECT, NO_BENEFIT_TO_YOUTH, SUSSEX, VOM_SHEET};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "slow_following",
    number: 4,
    title: "Slow following, head still",
    aim: "Comfort while following; not a treatment of gaze stability, reading or learning.",
    group: Group::EyesAlone,
    setup: "Thumb or card at arm's length, 20 to 30° each way, 2 to 3 s a side (from memory), then up and down.",
    start: Dose { sets: 1, amount: Amount::Times(20), rest: 30, a_day: 2, a_week: 5, weeks: 2, beat: 0 },
    start_from: "fewer rounds than the hospital's sheet, for comfort only: common practice",
    doses: &[
        Published { says: "20 times, 3 times a day", source: &SUSSEX, status: Status::Found },
        Published { says: "20 to 30 rounds in each direction", source: &VOM_SHEET, status: Status::Found },
    ],
    evidence: &[
        AGAINST_STILL_HEAD,
        AGAINST_FOR_LEARNING,
        NO_BENEFIT_TO_YOUTH,
        Study {
            shows: Shows::Benefit,
            says: "neglect after stroke: following toward the neglected side did better than scanning; another \
                   aim, other people",
            source: &NEGLECT,
            status: Status::Found,
        },
    ],
    support: Support::C,
    leads: &[Lead::Rise("pursuit", 2)],
    follows: None,
    // Pursuit is immature before 6 to 7 years (from memory).
    bars: &[Bar::Younger(6, "following is still growing before 6 to 7 years")],
    cautions: &["Never as treatment of gaze stability: head movement belongs to that."],
    supervision: "Shown once by the clinician.",
    harder: "Faster, slanting, standing.",
    easier: "Slower, smaller.",
    stop: "Jerky following with new doubling: stop and report.",
    family: family!("slow_following", "step1", "step2", "step3"),
};
