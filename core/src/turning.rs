//! Turns to a beat, of the head or of the whole body: how many were done, why they were stopped, and a neck that hurts.

use crate::capture::form::{Choice, label};
use crate::capture::frame;
use crate::capture::record::Record;
use crate::capture::visit::Visit;
use crate::evidence::Citation;
use crate::finding::{Finding, Flag, Grade, Place};
use crate::quantity::Quantity;

/// The field that says why the turns were stopped early, in the form of each task that has turns.
pub const STOPPED: &str = "stopped";

/// A consensus of clinicians: pain of the neck after a knock is a danger sign.
static CONCUSSION: Citation = Citation {
    short: "Patricios et al. 2023",
    place: "consensus statement on concussion in sport, Br J Sports Med 57:695",
    link: "bjsm.bmj.com/content/57/11/695",
};

/// How many of the turns that were asked for were done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Done {
    /// All of them.
    All,
    /// Fewer than asked for; how many, when it was noted.
    Fewer(Option<f64>),
    /// None of them.
    Nothing,
}

impl Done {
    /// As answered under a key, with the number under another; none when it was not answered.
    #[must_use]
    pub fn of(record: &Record, key: &str, number: &str, turns: &Quantity) -> Option<Done> {
        match record.answers.one(key) {
            Some("all") => Some(Done::All),
            Some("fewer") => {
                Some(Done::Fewer(record.answers.number(number).and_then(|number| turns.check(number).ok())))
            }
            Some("none") => Some(Done::Nothing),
            Some(_) | None => None,
        }
    }

    /// Whether there were any.
    #[must_use]
    pub fn any(self) -> bool {
        match self {
            Done::All | Done::Fewer(_) => true,
            Done::Nothing => false,
        }
    }

    /// How many there were of those asked for, where it is known; none when there was none.
    #[must_use]
    pub fn number(self, wanted: f64) -> Option<f64> {
        match self {
            Done::All => Some(wanted),
            Done::Fewer(turns) => turns,
            Done::Nothing => None,
        }
    }

    /// "ten turns", "4 of ten turns" or "fewer than ten turns"; none when there was none.
    #[must_use]
    pub fn words(self, wanted: &str, turns: &Quantity) -> Option<String> {
        match self {
            Done::All => Some(format!("{wanted} turns")),
            Done::Fewer(Some(number)) => Some(format!("{} of {wanted} turns", turns.digits(number))),
            Done::Fewer(None) => Some(format!("fewer than {wanted} turns")),
            Done::Nothing => None,
        }
    }
}

/// How a task tells that its turns were stopped early.
pub struct Early {
    /// The task's id.
    pub task: &'static str,
    /// What comes before the reasons: "Head turns stopped early".
    pub headline: &'static str,
    /// The reasons that can be ticked.
    pub reasons: &'static [Choice],
    /// Those among them that are symptoms of the turning.
    pub symptoms: &'static [&'static str],
    /// What must not be done before the neck was examined: "quick head turns".
    pub no_more: &'static str,
    /// How many are usually borne: "Ten turns".
    pub borne: &'static str,
    /// What was turned: "the head".
    pub turned: &'static str,
}

impl Early {
    /// Why the turns were stopped; nothing when they were not.
    #[must_use]
    pub fn finding(&self, record: &Record) -> Option<Finding> {
        let reasons = record.answers.many(STOPPED).filter(|reasons| !reasons.is_empty())?;
        let headline = format!("{}: {}", self.headline, self.words(reasons));
        let mut finding = Finding::new(self.task, STOPPED, Place::Both, headline);
        if hurts_the_neck(reasons) {
            finding.grade = Grade::OutsideRange;
            finding.details.push(format!(
                "Neck pain on turning: no further {} until the neck has been examined (common practice).",
                self.no_more
            ));
        } else if reasons.iter().any(|reason| self.symptoms.contains(&reason.as_str())) {
            finding.grade = Grade::NearLimit;
            finding.details.push(format!(
                "{} are usually borne; no limit is published (common practice). The ratings afterwards tell how much.",
                self.borne
            ));
        }
        Some(finding)
    }

    /// Neck pain after a knock is a danger sign wherever it shows.
    #[must_use]
    pub fn neck_after_a_knock(&self, visit: &Visit, record: &Record) -> Option<Flag> {
        let neck = record.answers.many(STOPPED).is_some_and(hurts_the_neck);
        let knock = frame::reason(visit) == Some("knock");
        (neck && knock).then(|| Flag {
            id: format!("{}.neck", self.task),
            seen: format!("neck pain on turning {}, after a knock", self.turned),
            neck: true,
            source: &CONCUSSION,
        })
    }

    /// The reasons in words, empty when there are none: "dizziness, neck pain".
    #[must_use]
    pub fn why(&self, record: &Record) -> String {
        record.answers.many(STOPPED).map(|reasons| self.words(reasons)).unwrap_or_default()
    }

    fn words(&self, reasons: &[String]) -> String {
        reasons.iter().map(|id| label(self.reasons, id).to_lowercase()).collect::<Vec<_>>().join(", ")
    }
}

fn hurts_the_neck(reasons: &[String]) -> bool {
    reasons.iter().any(|reason| reason == "neck")
}
