//! A string with three beads: whether both eyes aim at the same bead.

use super::evidence::{BEADS, COCHRANE_CI};
use super::near_point_practice::NEAR_BARS;
use super::{Amount, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::evidence::Status;
use crate::finding::Grade;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "bead_string",
    number: 2,
    title: "String with three beads",
    aim: "Both eyes aim at the same place, near and far.",
    group: Group::Teaming,
    setup: "A string at eye level, one end fixed, the other on the nose; beads 30 to 38 cm apart, the nearest \
            where it is still single. 10 s a bead. Goal: the nearest bead at 10 cm.",
    start: Dose { sets: 2, amount: Amount::Seconds(30), rest: 30, a_day: 3, a_week: 5, weeks: 4, beat: 0 },
    start_from: "the handout: 30 s rising to 2 minutes, 3 times a day",
    doses: &[Published { says: "30 s, rising to 2 minutes, 3 times a day", source: &BEADS, status: Status::Found }],
    evidence: &[Study {
        shows: Shows::NoBenefit,
        says: "part of office care that worked in trials; no trial of the string alone was found (from memory)",
        source: &COCHRANE_CI,
        status: Status::FromMemory,
    }],
    support: Support::C,
    leads: &[Lead::Finding("vergence.double", Grade::NearLimit), Lead::Pattern("convergence_insufficiency")],
    follows: None,
    bars: NEAR_BARS,
    cautions: &["A headache must not rise; dizziness or nausea at most 5 of 10 (the handout)."],
    supervision: "Orthoptist or optometrist; a helper asks whether two strings are seen.",
    harder: "Beads nearer, string at an angle.",
    easier: "Two beads.",
    stop: "Only one string is seen: stop and report.",
    family: family!("bead_string", "step1", "step2", "step3", "step4"),
};
