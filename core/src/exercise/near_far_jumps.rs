//! Looking from near to far and back.

use super::evidence::{CUH, HEALTHY_156};
use super::near_point_practice::NEAR_BARS;
use super::{Amount, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;
use crate::finding::Grade;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "near_far_jumps",
    number: 3,
    title: "Near-far jumps",
    aim: "Quick change between near and far, clear and single.",
    group: Group::Teaming,
    setup: "A pen at arm's length and a picture 2 m away or more; the pen comes nearer a little each time. Goal: \
            single and clear at about 6 cm.",
    start: Dose { sets: 1, amount: Amount::Seconds(120), rest: 0, a_day: 3, a_week: 5, weeks: 4, beat: 0 },
    start_from: "2 minutes, 3 times a day: from memory",
    doses: &[
        Published { says: "minutes and times are filled in by the clinician", source: &CUH, status: Status::Found },
        Published {
            says: "3 times a day for 2 weeks, healthy adults, near and far each alone",
            source: &HEALTHY_156,
            status: Status::Found,
        },
    ],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "healthy adults: turning in practised apart from focusing changed most",
            source: &HEALTHY_156,
            status: Status::Found,
        },
        Study {
            shows: Shows::NoBenefit,
            says: "near and far worked together did less; being told to try harder changed more than many \
                   exercises, so a better re-test is no proof that it worked",
            source: &HEALTHY_156,
            status: Status::Found,
        },
    ],
    support: Support::C,
    leads: &[
        Lead::Finding("vergence.tiring", Grade::NearLimit),
        Lead::Finding("vergence.blur_near", Grade::NearLimit),
        Lead::Finding("vergence.blur_far", Grade::NearLimit),
        Lead::Rise("vergence", 2),
    ],
    follows: None,
    bars: NEAR_BARS,
    cautions: &["Check the glasses first: blur at one distance is often a lens."],
    supervision: "Orthoptist or optometrist looks again after 4 weeks (common practice).",
    harder: "Nearer, then letters.",
    easier: "The near target at arm's length only.",
    stop: "Blur that lasts more than 10 minutes (from memory).",
    family: family!("near_far_jumps", "step1", "step2", "step3"),
};
