//! What was not as expected, and since when: what is long known is recorded only, what may be new can be a danger sign.

use crate::capture::form::{Choice, Field, Kind, asked, choice, hinted};
use crate::capture::record::{Record, State};
use crate::capture::visit::Visit;
use crate::evidence::{BaseRate, Citation};
use crate::finding::{Finding, Flag, Grade, Place};

static NEW: &[Choice] =
    &[choice("new", "New"), choice("old", "Long known"), hinted("unknown", "Not known", "counts as new")];

/// The question whether something is new.
#[must_use]
pub const fn is_new(key: &'static str, ask: &'static str) -> Field {
    asked(key, ask, Kind::One(NEW))
}

/// Whether something is new.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Since {
    /// New.
    New,
    /// Long known.
    Old,
    /// Not known, or never answered: it counts as new.
    Unknown,
    /// The question still stands on the screen.
    Open,
}

impl Since {
    /// What was answered to [`is_new`] under this key.
    #[must_use]
    pub fn of(visit: &Visit, record: &Record, key: &str) -> Since {
        // A form that is being filled in at this moment may still be answered.
        let on_screen = record.state == State::Open && visit.closed.is_none() && visit.at == record.slot;
        match record.answers.one(key) {
            Some("new") => Since::New,
            Some("old") => Since::Old,
            Some(_) => Since::Unknown,
            None if on_screen => Since::Open,
            None => Since::Unknown,
        }
    }

    /// Whether it has to be taken as new.
    #[must_use]
    pub fn counts_as_new(self) -> bool {
        match self {
            Since::New | Since::Unknown => true,
            Since::Old | Since::Open => false,
        }
    }

    /// In one sentence.
    #[must_use]
    pub fn says(self) -> &'static str {
        match self {
            Since::New => "New.",
            Since::Old => "Long known; ask whether it has changed.",
            Since::Unknown => "Not known whether new, so it counts as new; an old photograph can settle it.",
            Since::Open => "Whether it is new is not answered yet.",
        }
    }

    /// The phrase of a flag: "x, new", or "x, not known whether new".
    #[must_use]
    pub fn phrase(self, thing: &str) -> String {
        match self {
            Since::New => format!("{thing}, new"),
            Since::Old | Since::Unknown | Since::Open => format!("{thing}, not known whether new"),
        }
    }
}

/// One thing that was not as expected: its finding, and the danger sign it may be.
#[derive(Debug, Clone, PartialEq)]
pub struct Notice {
    /// The finding.
    pub finding: Finding,
    /// The danger sign.
    pub flag: Option<Flag>,
}

impl Notice {
    /// A finding outside the range, with a headline and nothing else yet.
    #[must_use]
    pub fn new(task: &'static str, what: &str, place: Place, headline: impl Into<String>) -> Notice {
        let mut finding = Finding::new(task, what, place, headline.into());
        finding.grade = Grade::OutsideRange;
        Notice { finding, flag: None }
    }

    /// The same with another grade.
    #[must_use]
    pub fn grade(mut self, grade: Grade) -> Notice {
        self.finding.grade = grade;
        self
    }

    /// One more sentence.
    #[must_use]
    pub fn says(mut self, detail: impl Into<String>) -> Notice {
        self.finding.details.push(detail.into());
        self
    }

    /// Says what comes before everything else, in the first sentences.
    #[must_use]
    pub fn says_first(mut self, text: &str) -> Notice {
        match self.finding.details.first_mut() {
            Some(first) => *first = format!("{text} {first}"),
            None => self.finding.details.push(text.to_string()),
        }
        self
    }

    /// One more source.
    #[must_use]
    pub fn cites(mut self, source: &'static Citation) -> Notice {
        self.finding.sources.push(source);
        self
    }

    /// How often healthy people show it.
    #[must_use]
    pub fn healthy(mut self, rates: &'static [BaseRate]) -> Notice {
        self.finding.healthy = rates.iter().collect();
        self
    }

    /// Says since when, and takes what is long known as recorded only.
    #[must_use]
    pub fn since(mut self, since: Since) -> Notice {
        if since == Since::Old {
            self.finding.grade = Grade::NoRange;
            self.finding.long_known = true;
        }
        self.says(since.says())
    }

    /// Raises a flag and makes the finding urgent.
    #[must_use]
    pub fn danger(mut self, id: &str, seen: String, source: &'static Citation) -> Notice {
        self.finding.grade = Grade::Urgent;
        self.finding.sources.push(source);
        self.flag = Some(Flag { id: format!("{}.{id}", self.finding.task), seen, neck: false, source });
        self
    }

    /// Says that no limit is published, where the grade does not rest on a cited sign.
    #[must_use]
    pub fn by_common_practice(self) -> Notice {
        match self.finding.grade {
            Grade::OutsideRange | Grade::NearLimit => self.says("No limit is published (common practice)."),
            Grade::NoRange | Grade::WithinRange | Grade::Urgent => self,
        }
    }
}
