//! Walking that makes the heart beat faster, after a concussion.

use super::evidence::{AEROBIC_103, AEROBIC_118, AEROBIC_HOME, CONSENSUS, HEART_RATE};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "steady_walk",
    number: 14,
    title: "Steady walk",
    aim: "Recovery after a concussion.",
    group: Group::Aerobic,
    setup: "From 24 to 48 hours after the injury. At 80 in 100 of the heart rate that raised symptoms in a test; \
            untested: light, so that whole sentences can be spoken.",
    start: Dose { sets: 1, amount: Amount::Seconds(1200), rest: 0, a_day: 1, a_week: 7, weeks: 4, beat: 0 },
    start_from: "20 minutes a day (the first trial); less to begin with when untested is common practice",
    doses: &[
        Published { says: "20 minutes a day, 13 to 18 years", source: &AEROBIC_103, status: Status::Found },
        Published {
            says: "at 80 in 100 of the heart rate that raised symptoms",
            source: &HEART_RATE,
            status: Status::Found,
        },
        Published { says: "rest for the first 24 to 48 hours", source: &CONSENSUS, status: Status::Found },
    ],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "teenagers: recovered in 13 against 17 days with stretching",
            source: &AEROBIC_103,
            status: Status::Found,
        },
        Study {
            shows: Shows::Benefit,
            says: "teenagers: lasting symptoms about half as often, hazard 0.52 (0.28 to 0.97)",
            source: &AEROBIC_118,
            status: Status::Found,
        },
        Study {
            shows: Shows::NoBenefit,
            says: "at home without help: hardly done, and no difference",
            source: &AEROBIC_HOME,
            status: Status::Found,
        },
    ],
    support: Support::A,
    leads: &[Lead::Reason("knock")],
    follows: None,
    bars: &[
        Bar::Caution("neck", "neck pain or injury: until it is cleared"),
        Bar::Caution("surgery", "recent surgery: until the surgeon agrees"),
        Bar::Caution("falls", "falls or unsteady: not alone"),
        Bar::Younger(13, "the trials took 13 to 18 years; younger children walk and play freely"),
    ],
    cautions: &["Heart disease and heat: ask first."],
    supervision: "A clinician sets the limit; an adult goes along.",
    harder: "5 to 10 beats of the heart more each week (from memory).",
    easier: "10 minutes on the flat.",
    stop: "Symptoms rise by more than 2 of 10.",
    family: family!("steady_walk", "step1", "step2", "step3"),
};
