//! The working model of a practice school: which movement it reads with which side, set beside what this visit saw.
//!
//! It is common practice in the trade. No lesion-level source supports reading mild differences in people without a lesion
//! by side, and its reviewers call it not generally accepted. It is kept apart from everything read by lesion evidence, carries the level M wherever it is shown, and nothing else in the program rests on it.

use crate::anatomy::{Direction, Place, Side};
use crate::evidence::{Citation, Level};
use crate::measure::Course;
use crate::sign::{self, Sign, What};
use crate::tiring;

/// How well it is supported.
pub const LEVEL: Level = Level::M;

/// What is written under its name wherever it is shown.
pub const LABEL: &str = "Common practice, no lesion-level source";

/// Controlled studies a review of the school's literature found (Meyer & Leboeuf-Yde 2017).
pub const STUDIES: u8 = 9;

/// That review.
pub static REVIEW: Citation = Citation {
    short: "Meyer & Leboeuf-Yde 2017",
    place: "review of the controlled studies of the practice school",
    link: "chiromt.biomedcentral.com/articles/10.1186/s12998-017-0151-1",
};

/// Its second part, which calls the model not generally accepted.
pub static SECOND: Citation = Citation {
    short: "Meyer & Leboeuf-Yde 2018",
    place: "review of what the practice school reads sides from",
    link: "chiromt.biomedcentral.com/articles/10.1186/s12998-018-0198-7",
};

/// One movement and the side it is read with.
#[derive(Debug, PartialEq)]
pub struct Row {
    /// The movement.
    pub movement: Movement,
    /// The way it goes.
    pub toward: Direction,
    /// What the school reads it with.
    pub with: &'static str,
    /// The side of the body on which touch and strength are set beside it.
    pub beside: Option<Side>,
}

/// A movement, by the school's three kinds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Movement {
    /// Following a slow target, and the slow turn with stripes.
    Following,
    /// Starting a quick jump, and the jumps back from stripes that move the other way.
    Jumping,
    /// Stopping a jump on its target.
    Stopping,
}

use self::Movement::{Following, Jumping, Stopping};
use Direction::{Left, Right};

/// The whole model.
#[rustfmt::skip]
pub static TABLE: [Row; 6] = [
    row(Following, Right, "the right parietal lobe",              Some(Side::Left)),
    row(Following, Left,  "the left parietal lobe",               Some(Side::Right)),
    row(Jumping,   Right, "the left frontal lobe",                None),
    row(Jumping,   Left,  "the right frontal lobe",               None),
    row(Stopping,  Right, "the right half of the cerebellum",     None),
    row(Stopping,  Left,  "the left half of the cerebellum",      None),
];

/// Signs of each movement: what is looked for, whether the stripes of that sign move the other way, and its words.
#[rustfmt::skip]
static SIGNS: [(Movement, What, Way, &str); 10] = [
    (Following, What::PursuitReduced,     Way::Same,     "following less smooth than ordinary"),
    (Following, What::PursuitWorse,       Way::Same,     "following worse than the other way"),
    (Following, What::OptokineticReduced, Way::Same,     "stripes moving that way followed less"),
    (Following, What::OptokineticWorse,   Way::Same,     "stripes moving that way worse than the other way"),
    (Jumping,   What::SaccadesLate,       Way::Same,     "jumps start late more often than the other way"),
    (Jumping,   What::QuickPhaseReduced,  Way::Same,     "jumps back from stripes weak or missing"),
    (Jumping,   What::OptokineticWorse,   Way::Opposite, "fewer jumps back from stripes than the other way"),
    (Stopping,  What::Hypometric,         Way::Same,     "most jumps fall short"),
    (Stopping,  What::Hypermetric,        Way::Same,     "most jumps go past"),
    (Stopping,  What::SaccadesWorse,      Way::Same,     "more jumps miss than the other way"),
];

/// Signs set beside following, on the side of the body.
static BESIDE: [(What, &str); 2] = [(What::TouchLess, "touch felt less"), (What::ArmDrift, "the raised arm drifts")];

/// Tasks whose courses tell how a movement tires.
static COURSES: [(Movement, &str, Way); 4] = [
    (Following, "pursuit", Way::Same),
    (Following, "optokinetic", Way::Same),
    (Jumping, "optokinetic", Way::Opposite),
    (Stopping, "saccade", Way::Same),
];

/// Whether stripes move the way of the movement, or the other way: stripes to the right are followed to the right and
/// jumped back from to the left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Same,
    Opposite,
}

/// One row beside what this visit saw.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The row.
    pub row: &'static Row,
    /// Signs that were looked for, in words, with whether each was seen and the finding behind it.
    pub signs: Vec<Told>,
    /// Whether the movement grows worse on the way; `None` when that could not be seen.
    pub tires: Option<bool>,
    /// Touch and strength on the opposite side of the body, where the model sets them beside it.
    pub beside: Vec<Told>,
}

/// One sign in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// What was looked for.
    pub words: &'static str,
    /// Whether it was seen.
    pub seen: bool,
    /// Key of the finding behind it.
    pub finding: String,
}

/// Every row of the table with what this visit saw of it.
#[must_use]
pub fn read(signs: &[Sign], courses: &[Course]) -> Vec<Reading> {
    let row = |row: &'static Row| Reading {
        row,
        signs: told_signs(row, signs),
        tires: tires(row, courses),
        beside: row.beside.map_or_else(Vec::new, |side| told_beside(side, signs)),
    };
    TABLE.iter().map(row).collect()
}

impl Reading {
    /// Whether anything of it was looked for.
    #[must_use]
    pub fn looked_for(&self) -> bool {
        !self.signs.is_empty() || self.tires.is_some()
    }

    /// The signs that were seen.
    pub fn seen(&self) -> impl Iterator<Item = &Told> {
        self.signs.iter().filter(|told| told.seen)
    }
}

impl Movement {
    /// In a sentence: "following".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Following => "following",
            Jumping => "a quick jump",
            Stopping => "stopping on target",
        }
    }
}

fn told_signs(row: &Row, signs: &[Sign]) -> Vec<Told> {
    let rows = SIGNS.iter().filter(|(movement, ..)| *movement == row.movement);
    let found = rows.filter_map(|(_, what, way, words)| told(signs, *what, Place::Toward(way.of(row.toward)), words));
    found.collect()
}

fn told_beside(side: Side, signs: &[Sign]) -> Vec<Told> {
    BESIDE.iter().filter_map(|(what, words)| told(signs, *what, Place::On(side), words)).collect()
}

fn told(signs: &[Sign], what: What, place: Place, words: &'static str) -> Option<Told> {
    let finding = signs.iter().find(|sign| sign.what == what && sign.place == place)?.finding.clone();
    Some(Told { words, seen: sign::seen(signs, what, place), finding })
}

fn tires(row: &Row, courses: &[Course]) -> Option<bool> {
    let here = COURSES.iter().filter(|(movement, ..)| *movement == row.movement);
    let told: Vec<bool> =
        here.filter_map(|(_, task, way)| tiring::tires_toward(courses.iter(), task, way.of(row.toward))).collect();
    (!told.is_empty()).then(|| told.contains(&true))
}

impl Way {
    fn of(self, toward: Direction) -> Direction {
        match self {
            Way::Same => toward,
            Way::Opposite => toward.mirrored(),
        }
    }
}

const fn row(movement: Movement, toward: Direction, with: &'static str, beside: Option<Side>) -> Row {
    Row { movement, toward, with, beside }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Better, Values};
    use crate::task;

    fn of(readings: &[Reading], movement: Movement, toward: Direction) -> &Reading {
        readings.iter().find(|reading| reading.row.movement == movement && reading.row.toward == toward).expect("a row")
    }

    fn seen(reading: &Reading) -> Vec<&str> {
        reading.seen().map(|told| told.words).collect()
    }

    #[test]
    fn every_movement_has_a_row_each_way_and_rows_mirror_each_other() {
        let other = |words: &str| words.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
        for row in &TABLE {
            let twin = TABLE.iter().find(|twin| twin.movement == row.movement && twin.toward == row.toward.mirrored());
            let twin = twin.expect("a row for the other way");
            assert_eq!((twin.with.to_string(), twin.beside), (other(row.with), row.beside.map(Side::other)));
        }
    }

    #[test]
    fn stripes_to_the_right_are_followed_right_and_jumped_back_from_to_the_left() {
        let signs = [
            Sign::new(What::OptokineticReduced, Place::Toward(Right), true, "optokinetic.missed_right"),
            Sign::new(What::QuickPhaseReduced, Place::Toward(Left), true, "optokinetic.missed_right"),
        ];
        let readings = read(&signs, &[]);
        assert_eq!(seen(of(&readings, Following, Right)), ["stripes moving that way followed less"]);
        assert_eq!(seen(of(&readings, Jumping, Left)), ["jumps back from stripes weak or missing"]);
        assert!(seen(of(&readings, Following, Left)).is_empty() && seen(of(&readings, Jumping, Right)).is_empty());
        assert_eq!(of(&readings, Jumping, Left).signs[0].finding, "optokinetic.missed_right");
    }

    #[test]
    fn a_weak_slow_turn_says_nothing_of_the_jumps_back() {
        let sign = Sign::new(What::OptokineticReduced, Place::Toward(Right), true, "optokinetic.slow_right");
        let readings = read(&[sign], &[]);
        assert!(!of(&readings, Jumping, Left).looked_for() && !of(&readings, Jumping, Right).looked_for());
    }

    #[test]
    fn not_looked_for_is_not_the_same_as_not_seen() {
        let readings = read(&[Sign::new(What::PursuitReduced, Place::Toward(Left), false, "pursuit.left")], &[]);
        let (left, right) = (of(&readings, Following, Left), of(&readings, Following, Right));
        assert!(left.looked_for() && left.seen().count() == 0);
        assert!(!right.looked_for() && right.tires.is_none());
    }

    #[test]
    fn touch_and_strength_stand_beside_following_on_the_opposite_side() {
        let signs = [
            Sign::new(What::TouchLess, Place::On(Side::Left), true, "body_sides.touch"),
            Sign::new(What::ArmDrift, Place::On(Side::Left), false, "body_sides.drift"),
        ];
        let readings = read(&signs, &[]);
        let beside: Vec<(&str, bool)> =
            of(&readings, Following, Right).beside.iter().map(|told| (told.words, told.seen)).collect();
        assert_eq!(beside, [("touch felt less", true), ("the raised arm drifts", false)]);
        assert!(of(&readings, Following, Left).beside.is_empty() && of(&readings, Stopping, Right).beside.is_empty());
    }

    #[test]
    fn tiring_belongs_to_the_way_it_was_seen() {
        let course = Course {
            key: "pursuit.broke.left.slow".to_string(),
            task: "pursuit",
            what: String::new(),
            place: Place::Toward(Left),
            values: Values::BrokeAt(Some(3), 4),
            better: Better::Lower,
        };
        let readings = read(&[], std::slice::from_ref(&course));
        assert_eq!(of(&readings, Following, Left).tires, Some(true));
        assert_eq!(of(&readings, Following, Right).tires, None);
        assert!(COURSES.iter().all(|(_, id, _)| task::by_id(id).is_some()));
    }
}
