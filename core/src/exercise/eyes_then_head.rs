//! Eyes to a target first, then the head.

use super::evidence::{CASES_3, CHILD_PLAN, HALL_2016};
use super::head_turn_seated::HEAD_BARS;
use super::{Amount, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "eyes_then_head",
    number: 6,
    title: "Eyes first, then the head",
    aim: "Eyes and head work together when looking from one thing to another.",
    group: Group::HeadMoves,
    setup: "Two cards 15 to 30° each way, arm's length to 1 m (from memory). The eyes go to a card, the head \
            follows while the gaze stays.",
    start: Dose { sets: 2, amount: Amount::Seconds(60), rest: 60, a_day: 2, a_week: 5, weeks: 4, beat: 0 },
    start_from: "a minute, twice, like the other head exercises: common practice",
    doses: &[Published { says: "from week 2 of a six-week plan", source: &CASES_3, status: Status::Found }],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "techniques aimed at the impairment found may be offered (moderate; adults, peripheral \
                   vestibular loss)",
            source: &HALL_2016,
            status: Status::Found,
        },
        Study {
            shows: Shows::Uncontrolled,
            says: "part of a package in three people; no trial of it alone was found",
            source: &CASES_3,
            status: Status::Found,
        },
        Study {
            shows: Shows::Uncontrolled,
            says: "gaze shifts are part of a planned trial in children",
            source: &CHILD_PLAN,
            status: Status::Found,
        },
    ],
    support: Support::B,
    leads: &[Lead::Rise("head_turn_gaze", 2)],
    follows: None,
    bars: HEAD_BARS,
    cautions: &["Mild dizziness during it is expected; positional vertigo is treated by a manoeuvre first."],
    supervision: "Therapist with vestibular training.",
    harder: "Wider, standing.",
    easier: "Slower.",
    stop: "Neck pain.",
    family: family!("eyes_then_head", "step1", "step2", "step3", "step4"),
};
