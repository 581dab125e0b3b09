//! Repeating the few movements that bring mild dizziness, until they no longer do.

use super::evidence::{BOOKLET, COCHRANE_VR, ENT_UK, SEVEN, SUSSEX};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "familiar_movements",
    number: 12,
    title: "Getting used to a movement",
    aim: "Less dizziness from one to three known movements.",
    group: Group::GettingUsed,
    setup: "Only movements that bring mild to moderate dizziness: bending, turning, lying down and sitting up. \
            Slow, then faster; each time wait until it has settled.",
    start: Dose { sets: 3, amount: Amount::Times(5), rest: 60, a_day: 3, a_week: 7, weeks: 4, beat: 0 },
    start_from: "3 sets of 5, 3 times a day (an ear, nose and throat society)",
    doses: &[
        Published { says: "3 sets of 5, 3 times a day, about 10 minutes", source: &ENT_UK, status: Status::Found },
        Published { says: "20 times, 3 times a day", source: &SUSSEX, status: Status::Found },
        Published { says: "daily from a booklet, up to 12 weeks", source: &BOOKLET, status: Status::Found },
    ],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "adults with long-standing dizziness: a booklet did better than usual care after a year",
            source: &BOOKLET,
            status: Status::Found,
        },
        Study {
            shows: Shows::NoBenefit,
            says: "the main comparison at 12 weeks was not clear (from memory)",
            source: &BOOKLET,
            status: Status::FromMemory,
        },
        Study {
            shows: Shows::Uncontrolled,
            says: "habituation and gaze exercises did equally in 7 adults",
            source: &SEVEN,
            status: Status::Found,
        },
        Study {
            shows: Shows::AdvisedAgainst,
            says: "positional vertigo: manoeuvres do better (odds of exercise 0.19, 0.07 to 0.49); wrong first \
                   choice",
            source: &COCHRANE_VR,
            status: Status::Found,
        },
    ],
    support: Support::B,
    leads: &[Lead::Reason("dizzy")],
    follows: None,
    bars: &[
        Bar::Caution("neck", "neck pain, injury or disease: no bending or turning until it is cleared"),
        Bar::Caution("surgery", "recent eye, ear, brain or neck surgery: until the surgeon agrees"),
        Bar::Caution("vertigo", "vertigo going on: find out which kind first"),
        Bar::Caution("falls", "falls or unsteady: with a therapist first, not alone at home"),
        Bar::Younger(8, "no one younger than 8 years (from memory)"),
    ],
    cautions: &["Do a positional test first; this examination has none. Low blood pressure does the same."],
    supervision: "Therapist with vestibular training chooses the movements.",
    harder: "Faster, more, fewer pauses.",
    easier: "One movement, slower.",
    stop: "Spinning for more than a minute on lying down: stop and report.",
    family: family!("familiar_movements", "step1", "step2", "step3", "step4"),
};
