//! Busy scenes in small steps, for dizziness in shops or with scrolling. Left out with epilepsy or light sensitivity.

use super::evidence::{SCENES, SCENES_OLD};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "busy_scenes",
    number: 13,
    title: "Busy scenes in small steps",
    aim: "Bearing shops, patterns and scrolling.",
    group: Group::GettingUsed,
    setup: "Real places: first seated, from far, slow; later standing, nearer. 10 to 60 s at a time (from \
            memory). No videos of stripes or flashes.",
    start: Dose { sets: 3, amount: Amount::Seconds(20), rest: 60, a_day: 2, a_week: 5, weeks: 4, beat: 0 },
    start_from: "1 to 3 minutes, twice a day: from memory",
    doses: &[Published {
        says: "2 times a week for 8 weeks with other exercise, adults",
        source: &SCENES,
        status: Status::Found,
    }],
    evidence: &[
        Study {
            shows: Shows::Benefit,
            says: "dizziness from what is seen improves when it is added to a tailored plan, adults",
            source: &SCENES,
            status: Status::Found,
        },
        Study {
            shows: Shows::NoBenefit,
            says: "older adults: adding moving scenes gave fewer gains",
            source: &SCENES_OLD,
            status: Status::Found,
        },
    ],
    support: Support::B,
    leads: &[Lead::Rise("optokinetic", 2)],
    follows: None,
    bars: &[
        Bar::Caution("seizures", "epilepsy or seizures: no busy scenes at home"),
        Bar::Caution("light", "sensitive to flicker or stripes: no busy scenes at home"),
        Bar::Younger(10, "no one younger than 10 years (from memory)"),
    ],
    cautions: &["Migraine: shorter, and not on a bad day. Asking about flashes misses some who react to stripes."],
    supervision: "Therapist; ask about fits and light first.",
    harder: "Larger, longer, standing.",
    easier: "A still picture.",
    stop: "An aura or an odd feeling: cover one eye and look away.",
    family: family!("busy_scenes", "step1", "step2", "step3"),
};
