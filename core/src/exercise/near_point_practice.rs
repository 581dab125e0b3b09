//! Bringing a small target to the nose. Children's trials found it no better than a placebo at home.

use super::evidence::{ADULTS_75, CITT, CITT_ENTRY, COCHRANE_CI, HOME_ONLY, SPORTS_SHEET, STUDENTS, ULH};
use super::{Amount, Bar, Dose, Exercise, Group, Lead, Published, Shows, Study, Support};
use crate::anatomy::Direction;
use crate::evidence::Status;
use crate::finding::Grade;
use crate::sign::What;

/// The exercise.
pub static EXERCISE: Exercise = Exercise {
    id: "near_point_practice",
    number: 1,
    title: "Target to the nose",
    aim: "Both eyes turn in together and keep one image.",
    group: Group::Teaming,
    setup: "A pen or stick with a small letter, from arm's length slowly to the nose. At doubling stop, pull \
            together, hold 15 s or more; if it does not join, back about 2 cm. Both eyes open, near glasses on.",
    start: Dose { sets: 1, amount: Amount::Seconds(300), rest: 0, a_day: 3, a_week: 5, weeks: 4, beat: 0 },
    start_from: "adults 5 minutes, 3 times a day (2015 comparison); 5 days a week as in both children's trials",
    doses: DOSES,
    evidence: EVIDENCE,
    support: Support::D,
    leads: &[
        Lead::Pattern("convergence_insufficiency"),
        Lead::Finding("near_point.break", Grade::OutsideRange),
        Lead::Finding("vergence.convergence", Grade::OutsideRange),
    ],
    follows: None,
    bars: NEAR_BARS,
    cautions: &[
        "Only when the eyes tend outward at near, not when they turn in too much.",
        "Not with a lazy eye, a constant squint, squint surgery or more than 1.50 D between the eyes: refer \
         (entry rules of a children's trial).",
    ],
    supervision: "Orthoptist or optometrist looks again after 4 weeks (common practice).",
    harder: "Smaller letter, longer hold.",
    easier: "Larger target; stop at 20 cm.",
    stop: "Headache or doubling that lasts more than 10 minutes afterwards (from memory).",
    family: family!("near_point_practice", "step1", "step2", "step3", "step4"),
};

/// What takes every exercise of turning in away. A vertical deviation and nystagmus are exclusions of a children's trial;
/// the other signs want a referral first (common practice).
pub(super) static NEAR_BARS: &[Bar] = &[
    Bar::Signs(
        &[
            What::Skew,
            What::RestingNystagmus,
            What::VerticalNystagmus,
            What::TorsionalNystagmus,
            What::ChangingNystagmus,
            What::LimitedGaze(Direction::Right),
            What::LimitedGaze(Direction::Left),
            What::LimitedGaze(Direction::Up),
            What::LimitedGaze(Direction::Down),
            What::SlowAdduction,
            What::AbductingNystagmus,
            What::GazeEvokedNystagmus,
            What::Ptosis,
            What::DoubleVision,
        ],
        "one eye higher, nystagmus, a hanging lid, limited or slow gaze, or double vision: refer instead",
    ),
    // Both trials took 9 to 17 years; 7 to 8 when "one or two" is answered reliably is from memory.
    Bar::Younger(7, "below 7 years “one or two” is not answered reliably"),
];

static DOSES: &[Published] = &[
    Published { says: "2 to 3 minutes, 4 to 5 times a day", source: &ULH, status: Status::Found },
    Published {
        says: "1 minute on, 1 minute off, three times, 3 times a day",
        source: &SPORTS_SHEET,
        status: Status::Found,
    },
    Published { says: "5 minutes, 3 times a day, 8 weeks, adults", source: &STUDENTS, status: Status::Found },
    Published {
        says: "15 minutes a day, 5 days a week, 12 weeks, 9 to 17 years",
        source: &CITT,
        status: Status::FromMemory,
    },
];

static EVIDENCE: &[Study] = &[
    Study {
        shows: Shows::NoBenefit,
        says: "children: 43 in 100 successful or improved with home push-ups, 35 with placebo, 73 with office \
               care and home",
        source: &CITT,
        status: Status::Found,
    },
    Study {
        shows: Shows::NoBenefit,
        says: "children at home alone: success in 22 in 100 with push-ups, 23 with a computer, 16 with placebo",
        source: &HOME_ONLY,
        status: Status::Found,
    },
    Study {
        shows: Shows::NoBenefit,
        says: "office care with home work beats home computer work, high certainty; push-ups are not clearly \
               better than placebo (the second part from memory)",
        source: &COCHRANE_CI,
        status: Status::Found,
    },
    Study {
        shows: Shows::Benefit,
        says: "adults: the near point gained like with office care; turning-in reserve gained less",
        source: &STUDENTS,
        status: Status::Found,
    },
    Study {
        shows: Shows::Uncontrolled,
        says: "adults: near point from 17.5 to 10 cm with exercises or prism",
        source: &ADULTS_75,
        status: Status::Found,
    },
    Study {
        shows: Shows::Uncontrolled,
        says: "entry to the trial: near point of 6 cm or more with symptoms, and 4 PD more outward at near than far",
        source: &CITT_ENTRY,
        status: Status::Found,
    },
];
