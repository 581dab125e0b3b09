//! Standing on an ever smaller base.

use super::evidence::{AT_HOME, PLANS_104, RINE, TAYSIDE, TEENS_BALANCE};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;
use crate::finding::Grade;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "stance_steps",
    number: 10,
    title: "Standing on a smaller and smaller base",
    aim: "Steady standing.",
    group: Group::Balance,
    setup: "In a corner or by a worktop, shoes on: feet together, half heel to toe, heel to toe, one leg; eyes \
            open, then closed, then foam (from memory).",
    start: Dose { sets: 3, amount: Amount::Seconds(20), rest: 20, a_day: 2, a_week: 5, weeks: 4, beat: 0 },
    start_from: "10 to 30 s, several times a day (falls sheets)",
    doses: &[
        Published { says: "one leg up to 30 s", source: &TAYSIDE, status: Status::Found },
        Published { says: "heel to toe for 10 s, three times a week", source: &AT_HOME, status: Status::Found },
    ],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "teenagers after concussion: balance errors fell by 1.5 against 0.3 at 2 weeks, recovery in 45 \
                   against 57 days",
            source: &TEENS_BALANCE,
            status: Status::Found,
        },
        Study {
            shows: Shows::Benefit,
            says: "children with hearing and vestibular loss, supervised",
            source: &RINE,
            status: Status::Found,
        },
        Study {
            shows: Shows::Uncontrolled,
            says: "88 in 100 home plans after concussion held standing balance",
            source: &PLANS_104,
            status: Status::Found,
        },
    ],
    support: Support::B,
    leads: &[
        Lead::Finding("balance.feet_together", Grade::OutsideRange),
        Lead::Finding("whole_body_turn.feet", Grade::NearLimit),
    ],
    follows: None,
    bars: &[
        Bar::Caution("falls", "falls or unsteady: with a therapist first, not alone at home"),
        Bar::Younger(4, "below 4 years only as play with a parent (from memory)"),
    ],
    cautions: &["Numb feet and painful joints need an easier stance."],
    supervision: "Shown by the clinician; a helper within reach.",
    harder: "Foam, eyes closed, head turns.",
    easier: "A hand on the worktop, feet apart.",
    stop: "Two near-falls.",
    family: family!("stance_steps", "step1", "step2", "step3", "step4"),
};
