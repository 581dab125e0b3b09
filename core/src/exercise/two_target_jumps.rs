//! Jumps between two targets with the head still: for comfort only. A guideline advises against it for gaze stability.

use super::evidence::{AGAINST_FOR_LEARNING, AGAINST_STILL_HEAD, NO_BENEFIT_TO_YOUTH, SPORTS_SHEET};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "two_target_jumps",
    number: 5,
    title: "Jumps between two targets, head still",
    aim: "Comfort with quick shifts; not a treatment of gaze stability, reading or learning.",
    group: Group::EyesAlone,
    setup: "Two notes 30 cm apart at 0.9 m, about 10° each way; 30 to 60 beats a minute to begin with (from memory).",
    start: Dose { sets: 2, amount: Amount::Seconds(60), rest: 60, a_day: 2, a_week: 5, weeks: 2, beat: 40 },
    start_from: "1 minute a direction (a sports physician's sheet), twice a day for comfort only; the beat from \
                 memory",
    doses: &[Published { says: "1 minute a direction, 3 times a day", source: &SPORTS_SHEET, status: Status::Found }],
    evidence: &[AGAINST_STILL_HEAD, AGAINST_FOR_LEARNING, NO_BENEFIT_TO_YOUTH],
    support: Support::C,
    leads: &[Lead::Rise("saccade", 2)],
    follows: None,
    bars: &[Bar::Younger(6, "no one younger than 6 to 7 years (from memory)")],
    cautions: &["Never as treatment of gaze stability: head movement belongs to that."],
    supervision: "Shown once by the clinician.",
    harder: "Wider, faster, four targets.",
    easier: "Nearer together, slower.",
    stop: "Targets always missed on one side: stop and report, it may be the field of vision.",
    family: family!("two_target_jumps", "step1", "step2", "step3"),
};
