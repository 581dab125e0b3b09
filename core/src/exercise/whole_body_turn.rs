//! Turning the whole body with the eyes on the thumbs.

use super::evidence::TEENS_50;
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "whole_body_turn",
    number: 9,
    title: "Whole-body turns, eyes on the thumbs",
    aim: "Getting used to a scene that streams by.",
    group: Group::GettingUsed,
    setup: "Arms straight, thumbs up; body, head and hands turn as one. Begin with 30 to 45° each way, slower \
            than the 50 beats a minute of the test (from memory).",
    start: Dose { sets: 2, amount: Amount::Times(5), rest: 60, a_day: 2, a_week: 5, weeks: 4, beat: 30 },
    start_from: "5 turns, rest, twice, once or twice a day: from memory",
    doses: &[],
    evidence: &[Study {
        shows: Shows::NoBenefit,
        says: "teenagers: the symptom with this movement did not improve; no trial of it alone was found",
        source: &TEENS_50,
        status: Status::Found,
    }],
    support: Support::C,
    leads: &[Lead::Rise("whole_body_turn", 2)],
    follows: None,
    bars: &[
        Bar::Caution("neck", "neck pain, injury or disease: no turning until it is cleared"),
        Bar::Caution("surgery", "recent eye, ear, brain or neck surgery: no turning until the surgeon agrees"),
        Bar::Caution("falls", "falls or unsteady: no turning while standing"),
        Bar::Caution("vertigo", "vertigo going on: no whole-body turns"),
        Bar::Younger(8, "no one younger than 8 years (from memory)"),
    ],
    cautions: &["A strong provoker: nausea above 3 of 10 ends the set (from memory)."],
    supervision: "Therapist; standing only with somebody beside.",
    harder: "Larger, then a busy room.",
    easier: "On a chair, 30° each way.",
    stop: "Nausea that lasts.",
    family: family!("whole_body_turn", "step1", "step2", "step3", "step4"),
};
