//! Cases made by hand for the tests of the patterns, and what holds for all of them.

use super::*;
use crate::anatomy::Side;
use crate::calendar::Moment;
use crate::capture::answer::Answer;
use crate::capture::frame;
use crate::measure::Better;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const SIDEWAYS: [Direction; 2] = [Direction::Right, Direction::Left];

/// Signs and measures of an invented visit, piece by piece. Each sign rests on a finding called after it.
pub(super) struct Signs {
    visit: Visit,
    years: Option<u8>,
    signs: Vec<Sign>,
    measures: Vec<Measure>,
    findings: Vec<Finding>,
}

impl Signs {
    pub(super) fn new() -> Signs {
        let visit = Visit::begin("v", "p", "sideline", NOW, "test");
        Signs { visit, years: None, signs: Vec::new(), measures: Vec::new(), findings: Vec::new() }
    }

    pub(super) fn case(&self) -> Case<'_> {
        Case {
            visit: &self.visit,
            years: self.years,
            signs: &self.signs,
            measures: &self.measures,
            findings: self.findings.iter().collect(),
            worse: None,
        }
    }

    fn sign(mut self, what: What, place: Place, seen: bool) -> Signs {
        self.signs.push(Sign::new(what, place, seen, &key(what)));
        self
    }

    pub(super) fn toward(self, what: What, direction: Direction) -> Signs {
        self.sign(what, Place::Toward(direction), true)
    }

    pub(super) fn sideways(self, what: What) -> Signs {
        SIDEWAYS.into_iter().fold(self, |signs, direction| signs.toward(what, direction))
    }

    pub(super) fn none_sideways(self, what: What) -> Signs {
        SIDEWAYS.into_iter().fold(self, |signs, direction| signs.sign(what, Place::Toward(direction), false))
    }

    pub(super) fn both(self, what: What) -> Signs {
        self.sign(what, Place::Both, true)
    }

    pub(super) fn eye(self, what: What, eye: Eye) -> Signs {
        self.sign(what, Place::In(eye), true)
    }

    pub(super) fn on(self, what: What, side: Side) -> Signs {
        self.sign(what, Place::On(side), true)
    }

    pub(super) fn number(mut self, key: &str, value: f64) -> Signs {
        self.measures.push(Measure {
            key: key.to_string(),
            task: "test",
            what: key.to_string(),
            place: Place::Both,
            amount: Amount::Number { value, unit: "" },
            better: Better::Neither,
            method: Vec::new(),
            limits: &[],
            norm: None,
        });
        self
    }

    pub(super) fn aged(mut self, years: u8) -> Signs {
        self.years = Some(years);
        self
    }

    pub(super) fn influence(self, id: &str) -> Signs {
        self.ticked("influences", id)
    }

    pub(super) fn caution(self, id: &str) -> Signs {
        self.ticked("cautions", id)
    }

    fn ticked(mut self, key: &str, id: &str) -> Signs {
        let answers = &mut self.visit.record_mut(frame::SLOT, NOW).answers;
        let mut ids = answers.many(key).unwrap_or_default().to_vec();
        ids.push(id.to_string());
        answers.set(key, Some(Answer::Many(ids)));
        self
    }

    pub(super) fn answer(&mut self, slot: &str, key: &str, answer: Answer) {
        self.visit.record_mut(slot, NOW).answers.set(key, Some(answer));
    }

    /// The finding behind the sign is a danger sign by itself.
    pub(super) fn urgent(self, what: What) -> Signs {
        self.graded(what, Grade::Urgent)
    }

    /// The finding behind the sign is only recorded, as what is long known.
    pub(super) fn recorded(self, what: What) -> Signs {
        self.graded(what, Grade::NoRange)
    }

    fn graded(mut self, what: What, grade: Grade) -> Signs {
        let mut finding = Finding::new("test", "x", Place::Both, "a finding".to_string());
        finding.key = key(what);
        finding.grade = grade;
        self.findings.push(finding);
        self
    }
}

pub(super) fn told(signs: Signs, read: fn(&Case<'_>) -> Option<Pattern>) -> Option<Pattern> {
    let pattern = read(&signs.case());
    drop(signs);
    pattern
}

/// Whether the words name one side.
pub(super) fn names_a_side(text: &str) -> bool {
    text.split(|c: char| !c.is_alphanumeric()).any(|word| word == "right" || word == "left")
}

fn key(what: What) -> String {
    format!("test.{what:?}").to_lowercase()
}

/// Everything at once, so that nearly every rule has something to say.
fn everything() -> Signs {
    let signs = Signs::new()
        .eye(What::SlowAdduction, Eye::Right)
        .eye(What::AbductingNystagmus, Eye::Left)
        .toward(What::VerticalNystagmus, Direction::Down)
        .sideways(What::GazeEvokedNystagmus)
        .toward(What::PursuitWorse, Direction::Left)
        .toward(What::OptokineticWorse, Direction::Left)
        .sideways(What::PursuitReduced)
        .sideways(What::OptokineticReduced)
        .toward(What::Hypermetric, Direction::Right)
        .toward(What::Hypometric, Direction::Left)
        .toward(What::SaccadesLate, Direction::Left)
        .both(What::AntisaccadeErrors)
        .number("near_point.break", 12.0)
        .number("further_measures.survey", 30.0);
    [Direction::Up, Direction::Right].into_iter().fold(signs, |signs, direction| {
        let signs = signs.eye(What::LimitedGaze(direction), Eye::Left);
        if direction == Direction::Up { signs.eye(What::LimitedGaze(direction), Eye::Right) } else { signs }
    })
}

#[test]
fn every_pattern_says_compatible_and_what_else_it_can_be() {
    let patterns = read(&everything().case());
    assert!(patterns.len() >= 10, "{}", patterns.len());
    for pattern in patterns {
        assert!(pattern.headline.starts_with("Compatible with "), "{}", pattern.headline);
        assert!(!pattern.headline.ends_with('.') && pattern.headline.len() <= 90, "{}", pattern.headline);
        assert!(!pattern.also.is_empty() && !pattern.sources.is_empty(), "{}", pattern.id);
        assert!(!pattern.seen.is_empty() && !pattern.from.is_empty(), "{}", pattern.id);
        assert!(pattern.says.iter().all(|text| text.ends_with('.')), "{}", pattern.id);
        assert!(pattern.level < Level::M, "{}", pattern.id);
    }
}

#[test]
fn nothing_seen_is_no_pattern() {
    assert_eq!(read(&Signs::new().case()), []);
    let healthy = Signs::new()
        .none_sideways(What::PursuitWorse)
        .none_sideways(What::PursuitReduced)
        .none_sideways(What::OptokineticWorse)
        .none_sideways(What::Hypometric)
        .none_sideways(What::Hypermetric)
        .sideways(What::EndPointNystagmus)
        .number("near_point.break", 5.0);
    assert_eq!(read(&healthy.case()), []);
}

#[test]
fn each_rule_is_listed_once_and_covers_known_ones() {
    let ids: Vec<&str> = ALL.iter().map(|rule| rule.id).collect();
    for (at, id) in ids.iter().enumerate() {
        assert!(!ids[..at].contains(id), "{id} is listed twice");
    }
    for pattern in read(&everything().case()) {
        assert!(pattern.covers.iter().all(|id| ids.contains(id)), "{} covers an unknown pattern", pattern.id);
    }
}

#[test]
fn a_sign_nobody_looked_for_is_asked_for_and_an_absent_one_is_not() {
    let pattern = |signs: Signs| {
        let case = signs.case();
        Pattern::new("t", String::new(), Place::Both, Level::C, "").would_need(&case, &[What::Skew], "covering")
    };
    assert_eq!(pattern(Signs::new()).not_looked_at, ["covering"]);
    let looked = Signs::new().sign(What::Skew, Place::In(Eye::Right), false);
    assert!(pattern(looked).not_looked_at.is_empty());
}
