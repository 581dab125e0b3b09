//! Head turns with the eyes on a target that stays still, sitting.

use super::evidence::{BOYS_TOWN, CHILD_PLAN, COCHRANE_VR, DARTMOUTH, HALL_2016, HALL_2022, PEDRO, TEENS_50};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;
use crate::sign::What;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "head_turn_seated",
    number: 7,
    title: "Head turns, eyes on a target, sitting",
    aim: "A still target stays clear while the head moves.",
    group: Group::HeadMoves,
    setup: "A letter at 0.9 m, later 3 m; 20 to 30° each way (from memory), as fast as the letter stays clear; \
            side to side, then up and down.",
    start: Dose { sets: 4, amount: Amount::Seconds(60), rest: 60, a_day: 3, a_week: 7, weeks: 4, beat: 60 },
    start_from: "12 minutes a day in all (2022 guideline, from memory); the beat is a slow start (from memory)",
    doses: DOSES,
    evidence: EVIDENCE,
    support: Support::A,
    leads: &[Lead::Rise("head_turn_gaze", 2), Lead::Sign(What::CatchUpImpulse)],
    follows: None,
    bars: HEAD_BARS,
    cautions: &[
        "Support is A for adults with peripheral loss, B for teenagers; children have no guideline statement.",
        "Migraine: begin slower and shorter. Positional vertigo is treated by a manoeuvre first.",
    ],
    supervision: "Therapist with vestibular training.",
    harder: "60, then 120, 180, 240 beats a minute; near and far; a busy wall behind.",
    easier: "Slower, smaller, 10 s.",
    stop: "The letter blurs and stays blurred after slowing; neck pain.",
    family: family!("head_turn_seated", "step1", "step2", "step3", "step4"),
};

/// What takes every exercise with head movement away. All three are convention (from memory).
pub(super) static HEAD_BARS: &[Bar] = &[
    Bar::Caution("neck", "neck pain, injury or disease: no head turns until it is cleared"),
    Bar::Caution("surgery", "recent eye, ear, brain or neck surgery: no head turns until the surgeon agrees"),
    // Youngest in the planned children's trial.
    Bar::Younger(6, "no study of head turns at home below 6 years was found"),
];

static DOSES: &[Published] = &[
    Published {
        says: "at least 3 times a day, 12 minutes a day in all when recent, 20 when long-standing, 4 to 6 weeks",
        source: &HALL_2022,
        status: Status::FromMemory,
    },
    Published { says: "15 to 30 s a direction, 3 to 4 times a day", source: &DARTMOUTH, status: Status::Found },
    Published { says: "up to 2 minutes to a beat", source: &BOYS_TOWN, status: Status::Found },
    Published {
        says: "10 minutes of gaze and 10 of balance, 5 days a week, 8 weeks, 6 to 12 years (a plan)",
        source: &CHILD_PLAN,
        status: Status::Found,
    },
    Published {
        says: "30 minutes a day of all exercises, 4 weeks, teenagers",
        source: &TEENS_50,
        status: Status::Found,
    },
];

static EVIDENCE: &[Study] = &[
    Study {
        shows: Shows::Benefit,
        says: "peripheral loss in adults: should be offered (strong)",
        source: &HALL_2016,
        status: Status::Found,
    },
    Study {
        shows: Shows::Benefit,
        says: "improved: odds 2.67 (1.85 to 3.86) against no treatment or sham; no harm reported",
        source: &COCHRANE_VR,
        status: Status::Found,
    },
    Study {
        shows: Shows::Benefit,
        says: "teenagers: symptoms with head turns fell by 1.6 (side to side) and 2.2 (up and down) more than in \
               controls",
        source: &TEENS_50,
        status: Status::Found,
    },
    Study {
        shows: Shows::NoBenefit,
        says: "the same trial: sensitivity to visual motion did not improve",
        source: &TEENS_50,
        status: Status::Found,
    },
    Study {
        shows: Shows::NoBenefit,
        says: "its method was rated 5 of 10, without credit for the blinding that the paper claims",
        source: &PEDRO,
        status: Status::Found,
    },
];
