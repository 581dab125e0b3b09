//! Ways of measuring that differ between two visits, and how much that alone moves a value where it is published.

use crate::capture::showing;
use crate::evidence::Citation;

/// One part of the way of measuring that differed.
#[derive(Debug, Clone, PartialEq)]
pub struct Differs {
    /// The part: "end point".
    pub part: &'static str,
    /// At the earlier visit.
    pub then: String,
    /// At the later visit.
    pub now: String,
    /// What it does by itself; `None` when nothing is published.
    pub effect: Option<&'static Effect>,
}

/// What a way of measuring does to a value by itself.
#[derive(Debug, PartialEq)]
pub struct Effect {
    /// One sentence without a full stop.
    pub says: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
}

static MCGINNIS: Citation =
    Citation { short: "McGinnis et al. 2019", place: "J Eye Mov Res 12(4):5", link: "doi.org/10.16910/jemr.12.4.5" };
static MARUSIC: Citation =
    Citation { short: "Marusic et al.", place: "Ophthalmic Physiol Opt", link: "doi.org/10.1111/opo.13344" };
static HEICK: Citation = Citation {
    short: "Heick & Bay 2021",
    place: "Int J Sports Phys Ther 16(1)",
    link: "doaj.org/article/4184923f4d034690bb50d42845955b84",
};

static END_POINT: Effect =
    Effect { says: "blur comes about 4.1 cm farther out than double vision (20 healthy adults)", source: &MCGINNIS };
static ZERO: Effect = Effect {
    says: "the outer corner of the eye reads about 1.8 cm more than the forehead (70 people, median age 13)",
    source: &MARUSIC,
};
static APPROACH: Effect = Effect {
    says: "5 cm a second reads about 1.3 cm nearer than 1 cm a second (20 healthy adults)",
    source: &MCGINNIS,
};
static TARGET: Effect =
    Effect { says: "a pen tip reads farther out than a 12- or 14-point letter (75 healthy athletes)", source: &HEICK };

/// A part that says what was left out of a value; where it is missing, nothing was left out.
const LEFT_OUT: &str = "left out";

/// A part that says what a screen showed; where jumps have none, the targets were held or stood there.
const ON_A_SCREEN: &str = showing::ON_A_SCREEN;

/// What a missing part means all the same.
fn unless_noted(key: &str, part: &str) -> Option<&'static str> {
    match part {
        LEFT_OUT => Some("nothing"),
        ON_A_SCREEN if key.starts_with("saccade.") => Some("no"),
        _ => None,
    }
}

/// The parts noted at both visits that differ.
pub(super) fn differences(key: &str, then: &Parts, now: &Parts) -> Vec<Differs> {
    let words = |list: &Parts, part: &str| {
        let noted = list.iter().find(|(name, _)| *name == part).map(|(_, words)| words.clone());
        noted.or_else(|| unless_noted(key, part).map(str::to_string))
    };
    let differs = |part: &'static str| {
        let (then, now) = (words(then, part)?, words(now, part)?);
        (then != now).then(|| Differs { part, then, now, effect: effect(key, part) })
    };
    all(then, now).into_iter().filter_map(differs).collect()
}

/// The parts noted at one of the visits only: whether they differ cannot be said.
pub(super) fn noted_once(key: &str, then: &Parts, now: &Parts) -> Vec<&'static str> {
    let lacks = |list: &Parts, part: &str| list.iter().all(|(name, _)| *name != part);
    let once = |part: &&str| unless_noted(key, part).is_none() && (lacks(then, part) || lacks(now, part));
    all(then, now).into_iter().filter(once).collect()
}

/// Names and words of a way of measuring.
type Parts = [(&'static str, String)];

/// Every part that either visit names, each once.
fn all(then: &Parts, now: &Parts) -> Vec<&'static str> {
    let mut parts: Vec<&'static str> = Vec::new();
    for (part, _) in now.iter().chain(then) {
        if !parts.contains(part) {
            parts.push(part);
        }
    }
    parts
}

/// Effects are published for the near point only.
fn effect(key: &str, part: &str) -> Option<&'static Effect> {
    if !key.starts_with("near_point.") {
        return None;
    }
    match part {
        "end point" => Some(&END_POINT),
        "ruler's zero" => Some(&ZERO),
        "approach" => Some(&APPROACH),
        "target" => Some(&TARGET),
        _ => None,
    }
}
