//! Patterns: named combinations of signs read by lesion evidence. One pattern is one file; adding one is that file and
//! one line here.
//!
//! A pattern never rests on a single sign when it names a structure and a side, and it says what else looks the same.

use crate::anatomy::{Direction, Eye, Place};
use crate::capture::visit::Visit;
use crate::evidence::{Citation, Level};
use crate::finding::{Finding, Flag, Grade};
use crate::measure::{Amount, Measure};
use crate::other_cause::{self, Influence, OtherCause};
use crate::sign::{self, Seen, Sign, What};

/// What a visit gives to read from.
#[derive(Debug, Clone)]
pub struct Case<'a> {
    /// The visit, for its frame and safety check.
    pub visit: &'a Visit,
    /// Completed years on the day of the visit.
    pub years: Option<u8>,
    /// Signs of all tasks.
    pub signs: &'a [Sign],
    /// Measured values of all tasks.
    pub measures: &'a [Measure],
    /// Findings of all tasks, for how grave the one behind a sign is.
    pub findings: Vec<&'a Finding>,
    /// The direction whose movements are worse by the test across tasks; `None` when no side stands out.
    pub worse: Option<Direction>,
}

/// A rule that reads one pattern.
#[derive(Debug)]
pub struct Rule {
    /// Stable id: the file name.
    pub id: &'static str,
    /// The pattern, when the case shows it.
    pub read: fn(&Case<'_>) -> Option<Pattern>,
}

/// A picture that lesion studies describe, with what speaks for and against it.
#[derive(Debug, Clone, PartialEq)]
pub struct Pattern {
    /// Stable id: the rule's.
    pub id: &'static str,
    /// "Compatible with ...", without a full stop.
    pub headline: String,
    /// How well the claim is supported.
    pub level: Level,
    /// What the level is about, as a clause: "following is worse toward the side of a lesion".
    pub claim: &'static str,
    /// The eye or direction it is about.
    pub place: Place,
    /// What was seen, as phrases.
    pub seen: Vec<String>,
    /// Keys of the findings it rests on.
    pub from: Vec<String>,
    /// Other causes of the same picture, those this visit names first.
    pub also: Vec<OtherCause>,
    /// What the evidence is and where it ends, in sentences.
    pub says: Vec<String>,
    /// What of this visit argues against it, as phrases.
    pub against: Vec<String>,
    /// What would bear on it and was not looked at, as phrases.
    pub not_looked_at: Vec<String>,
    /// Sources.
    pub sources: Vec<&'static Citation>,
    /// Whether it is an emergency reading.
    pub urgent: bool,
    /// The danger sign it raises, when the combination is one and no single sign of it need be.
    pub flag: Option<Flag>,
    /// Patterns that it tells too, so that they are not told again.
    pub covers: &'static [&'static str],
}

mod evidence;

macro_rules! patterns {
    ($($name:ident),+ $(,)?) => {
        $(mod $name;)+
        /// Every rule, the gravest pictures first.
        pub static ALL: &[&Rule] = &[$(&$name::RULE),+];
    };
}

patterns! {
    central_in_continuous_vertigo,
    internuclear,
    gaze_palsy,
    one_eye_limited,
    vertical_or_changing_nystagmus,
    gaze_evoked_both_ways,
    pursuit_and_optokinetic_same_side,
    pursuit_worse_one_side,
    optokinetic_worse_one_side,
    saccade_accuracy,
    saccades_away_from_frontal,
    antisaccade_errors,
    everything_reduced_both_ways,
    convergence_insufficiency,
}

/// Every pattern the case shows, in the order of the list, each once.
#[must_use]
pub fn read(case: &Case<'_>) -> Vec<Pattern> {
    let patterns: Vec<Pattern> = ALL.iter().filter_map(|rule| (rule.read)(case)).collect();
    let covered: Vec<&str> = patterns.iter().flat_map(|pattern| pattern.covers).copied().collect();
    patterns.into_iter().filter(|pattern| !covered.contains(&pattern.id)).collect()
}

/// The danger signs that patterns add to those already raised. When a finding behind a pattern is urgent by itself, or
/// the safety check holds it, its own sign is raised already and one stop is enough.
#[must_use]
pub fn flags(patterns: &[Pattern], findings: &[&Finding], raised: &[Flag]) -> Vec<Flag> {
    let urgent = |key: &String| findings.iter().any(|finding| finding.key == *key && finding.grade == Grade::Urgent);
    let known = |key: &String| raised.iter().any(|flag| flag.id == *key);
    let told = |pattern: &Pattern| pattern.from.iter().any(|key| urgent(key) || known(key));
    patterns.iter().filter(|pattern| !told(pattern)).filter_map(|pattern| pattern.flag.clone()).collect()
}

impl Case<'_> {
    /// Whether the sign was seen at this place.
    #[must_use]
    pub fn seen(&self, what: What, place: Place) -> bool {
        sign::seen(self.signs, what, place)
    }

    /// Whether the sign was looked for there and not seen.
    #[must_use]
    pub fn absent(&self, what: What, place: Place) -> bool {
        sign::looked_for(self.signs, what, place) && !self.seen(what, place)
    }

    /// Every seen sign of these kinds, in the order of the kinds.
    pub fn all<'b>(&'b self, kinds: &'b [What]) -> impl Iterator<Item = &'b Sign> + 'b {
        kinds.iter().flat_map(|what| sign::all(self.signs, *what))
    }

    /// The one direction of right and left in which the sign was seen; `None` when it was seen in neither or in both.
    #[must_use]
    pub fn one_way(&self, what: What) -> Option<Direction> {
        let toward = |direction| self.seen(what, Place::Toward(direction));
        match (toward(Direction::Right), toward(Direction::Left)) {
            (true, false) => Some(Direction::Right),
            (false, true) => Some(Direction::Left),
            (true, true) | (false, false) => None,
        }
    }

    /// Whether the sign was seen to the right and to the left.
    #[must_use]
    pub fn both_ways(&self, what: What) -> bool {
        [Direction::Right, Direction::Left].into_iter().all(|direction| self.seen(what, Place::Toward(direction)))
    }

    /// Whether the sign was looked for to the right and to the left and seen in neither.
    #[must_use]
    pub fn absent_both_ways(&self, what: What) -> bool {
        [Direction::Right, Direction::Left].into_iter().all(|direction| self.absent(what, Place::Toward(direction)))
    }

    /// Seen signs of this kind to the right and to the left.
    #[must_use]
    pub fn sideways(&self, what: What) -> Vec<&Sign> {
        let sideways = |sign: &&Sign| matches!(sign.place, Place::Toward(Direction::Right | Direction::Left));
        sign::all(self.signs, what).filter(sideways).collect()
    }

    /// A measured number by key.
    #[must_use]
    pub fn number(&self, key: &str) -> Option<f64> {
        self.measures.iter().find(|measure| measure.key == key).and_then(|measure| match &measure.amount {
            Amount::Number { value, .. } => Some(*value),
            Amount::Share(_) | Amount::Step { .. } => None,
        })
    }

    /// Whether the finding behind a sign is only recorded, such as what is long known: it cannot be taken as new.
    #[must_use]
    pub fn only_recorded(&self, sign: &Sign) -> bool {
        self.grade(sign) == Some(Grade::NoRange)
    }

    /// Whether the finding behind a sign is a danger sign by itself.
    #[must_use]
    pub fn urgent(&self, sign: &Sign) -> bool {
        self.grade(sign) == Some(Grade::Urgent)
    }

    /// One answer of a record, such as the pupils of the eyes at rest.
    #[must_use]
    pub fn answer(&self, slot: &str, key: &str) -> Option<&str> {
        self.visit.filled(slot)?.answers.one(key)
    }

    fn grade(&self, sign: &Sign) -> Option<Grade> {
        self.findings.iter().find(|finding| finding.key == sign.finding).map(|finding| finding.grade)
    }
}

impl Pattern {
    /// A pattern with its claim and nothing else yet.
    #[must_use]
    pub fn new(id: &'static str, headline: String, place: Place, level: Level, claim: &'static str) -> Pattern {
        Pattern {
            id,
            headline,
            level,
            claim,
            place,
            seen: Vec::new(),
            from: Vec::new(),
            also: Vec::new(),
            says: Vec::new(),
            against: Vec::new(),
            not_looked_at: Vec::new(),
            sources: Vec::new(),
            urgent: false,
            flag: None,
            covers: &[],
        }
    }

    /// Rests on these signs; urgent when one of them is by itself.
    #[must_use]
    pub fn rests_on<'s>(mut self, case: &Case<'_>, signs: impl IntoIterator<Item = &'s Sign>) -> Pattern {
        for sign in signs {
            self.seen.push(sign.words());
            self.urgent |= case.urgent(sign);
            if !self.from.contains(&sign.finding) {
                self.from.push(sign.finding.clone());
            }
        }
        self
    }

    /// Other causes: those of the day, then further ones.
    #[must_use]
    pub fn also(mut self, case: &Case<'_>, influences: &[Influence], further: &[&str]) -> Pattern {
        self.also = other_cause::told(case.visit, case.years, case.signs, influences, further);
        self
    }

    /// A sentence about the evidence, with its sources.
    #[must_use]
    pub fn says(mut self, text: impl Into<String>, sources: &[&'static Citation]) -> Pattern {
        self.says.push(text.into());
        self.sources.extend(sources);
        self
    }

    /// A phrase for each of these that holds.
    #[must_use]
    pub fn argues_against(mut self, holds: bool, text: impl Into<String>) -> Pattern {
        if holds {
            self.against.push(text.into());
        }
        self
    }

    /// A phrase for what nobody looked at: none of these signs was looked for anywhere.
    #[must_use]
    pub fn would_need(mut self, case: &Case<'_>, kinds: &[What], text: &str) -> Pattern {
        if !case.signs.iter().any(|sign| kinds.contains(&sign.what)) {
            self.not_looked_at.push(text.to_string());
        }
        self
    }
}

/// The direction in which an eye turns outward.
#[must_use]
pub fn outward(eye: Eye) -> Direction {
    eye.side().direction()
}

/// Whether a sign of changing nystagmus only says that beats at the end of gaze go both ways, which is told as such.
fn rests_on_beats(case: &Case<'_>, sign: &Sign) -> bool {
    let same = sign::all(case.signs, What::GazeEvokedNystagmus).any(|beats| beats.finding == sign.finding);
    sign.what == What::ChangingNystagmus && same
}

/// Whether a sign was seen, as a filter.
fn is_seen(sign: &&Sign) -> bool {
    sign.seen == Seen::Yes
}

#[cfg(test)]
mod tests;
