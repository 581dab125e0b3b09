//! What goes with exercises or stands in their place: rest in the first days, breaks in reading and at the screen, and the
//! steps back to school and sport. Facts with sources for the practitioner, keys of own words for the family.
//!
//! Order of the steps, pace and symptom rule follow the published consensus; its forms and tables are not reproduced.

use crate::evidence::Status;
use crate::exercise::evidence::{
    BREAKS_29, BREAKS_30, CONSENSUS, CONSENSUS_2016, SCHOOL_2013, SCHOOL_HELP, SCREENS_125, STEPS, VISION_2022,
};
use crate::exercise::{Lead, Published};
use crate::finding::Grade;

/// One piece of advice.
#[derive(Debug)]
pub struct Advice {
    /// Stable id.
    pub id: &'static str,
    /// Its number in a sheet, 0 to 7. A published number is never given to another piece.
    pub number: u8,
    /// Title for the practitioner.
    pub title: &'static str,
    /// What is known, with sources.
    pub facts: &'static [Published],
    /// What of a visit speaks for it.
    pub leads: &'static [Lead],
    /// Whether its steps are climbed one after the other.
    pub in_steps: bool,
    /// Key of its title for the family.
    pub heading: &'static str,
    /// Keys of its lines, in order.
    pub lines: &'static [&'static str],
}

/// Advice is known by its id.
impl PartialEq for Advice {
    fn eq(&self, other: &Advice) -> bool {
        self.id == other.id
    }
}

/// Every piece, in the order it is offered.
pub static ALL: &[&Advice] = &[&REST, &READING, &SCREENS, &SCHOOL, &SPORT];

/// By its number in a sheet.
#[must_use]
pub fn by_number(number: u8) -> Option<&'static Advice> {
    ALL.iter().copied().find(|advice| advice.number == number)
}

static REST: Advice = Advice {
    id: "rest",
    number: 0,
    title: "Rest in the first days",
    facts: &[
        found("relative rest for 24 to 48 hours, then activity; not a dark room", &CONSENSUS),
        found(
            "no screens for 48 hours: recovered after 3.5 against 8.0 days; those asked to avoid them still used \
             130 minutes",
            &SCREENS_125,
        ),
        found("most young people with visual symptoms recover without treatment by 4 weeks", &VISION_2022),
    ],
    leads: &[Lead::Reason("knock")],
    in_steps: false,
    heading: "advice.rest.title",
    lines: &["advice.rest.1", "advice.rest.2", "advice.rest.3", "advice.rest.4"],
};

static READING: Advice = Advice {
    id: "reading",
    number: 1,
    title: "Breaks in reading",
    facts: &[
        found("5 to 15 minutes at a time, then more", &CONSENSUS),
        found("larger print, printed notes, listening instead of reading for a time", &VISION_2022),
        found("breaks, less and later work, a quiet room for tests", &SCHOOL_HELP),
        // No trial of print size after concussion was found.
        Published {
            says: "a break about every 15 to 20 minutes at first",
            source: &VISION_2022,
            status: Status::FromMemory,
        },
    ],
    leads: &[Lead::Reason("reading"), Lead::Finding("near_point.break", Grade::OutsideRange)],
    in_steps: false,
    heading: "advice.reading.title",
    lines: &["advice.reading.1", "advice.reading.2", "advice.reading.3", "advice.reading.4"],
};

static SCREENS: Advice = Advice {
    id: "screens",
    number: 2,
    title: "Breaks from the screen",
    facts: &[
        found("breaks every 5, 10, 20 or 40 minutes made no difference", &BREAKS_30),
        found("reminders to look away eased dryness and discomfort for two weeks", &BREAKS_29),
    ],
    leads: &[],
    in_steps: false,
    heading: "advice.screens.title",
    lines: &["advice.screens.1", "advice.screens.2", "advice.screens.3"],
};

static SCHOOL: Advice = Advice {
    id: "school",
    number: 3,
    title: "Back to school in steps",
    facts: &[
        found("four steps: daily activities, school tasks at home, part of the day, full days", &CONSENSUS),
        found("go on while symptoms rise by 2 of 10 at most and for less than an hour", &CONSENSUS),
        found("older rule: back to school when 30 to 45 minutes of light work are borne", &SCHOOL_2013),
        Published { says: "full school on average after about 8 days", source: &CONSENSUS, status: Status::FromMemory },
    ],
    leads: &[],
    in_steps: true,
    heading: "advice.school.title",
    lines: &["advice.school.1", "advice.school.2", "advice.school.3", "advice.school.4", "advice.school.rule"],
};

static SPORT: Advice = Advice {
    id: "sport",
    number: 4,
    title: "Back to sport in steps",
    facts: &[
        found(
            "daily activity; light, then moderate aerobic exercise; own sport alone without risk to the head",
            &STEPS,
        ),
        found("a doctor's clearance before hard team drills, contact and play", &STEPS),
        found("one step takes 24 hours at least; symptoms: back one step", &CONSENSUS_2016),
        Published {
            says: "steps 1 to 3: more than 2 of 10 or more than an hour ends the day; steps 4 to 6: any symptom \
                   leads back to 3",
            source: &CONSENSUS,
            status: Status::FromMemory,
        },
        Published {
            says: "full school comes before full sport; full sport on average after about 20 days",
            source: &CONSENSUS,
            status: Status::FromMemory,
        },
    ],
    leads: &[],
    in_steps: true,
    heading: "advice.sport.title",
    lines: &[
        "advice.sport.1",
        "advice.sport.2",
        "advice.sport.3",
        "advice.sport.gate",
        "advice.sport.4",
        "advice.sport.5",
        "advice.sport.6",
        "advice.sport.rule",
    ],
};

const fn found(says: &'static str, source: &'static crate::evidence::Citation) -> Published {
    Published { says, source, status: Status::Found }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn numbers_are_small_and_belong_to_one_piece_each() {
        let numbers: BTreeSet<u8> = ALL.iter().map(|advice| advice.number).collect();
        assert_eq!(numbers.len(), ALL.len());
        assert!(numbers.iter().all(|number| *number < 8), "they are bits of one byte");
        assert_eq!(by_number(4), Some(&SPORT));
        assert_eq!(by_number(7), None);
    }

    /// The order of the consensus: the gate stands before the fourth of six steps.
    #[test]
    fn clearance_comes_before_the_fourth_step_of_sport() {
        let place = |key: &str| SPORT.lines.iter().position(|line| *line == key).expect("it is there");
        assert!(place("advice.sport.3") < place("advice.sport.gate"));
        assert!(place("advice.sport.gate") < place("advice.sport.4"));
        let steps = |advice: &Advice| advice.lines.iter().filter(|line| line.ends_with(char::is_numeric)).count();
        assert_eq!((steps(&SCHOOL), steps(&SPORT)), (4, 6));
    }
}
