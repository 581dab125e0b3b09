//! What the practitioner makes of a plan: exercises, doses, advice and limits as one value, changed by small edits, and
//! signed off when nothing speaks against it unanswered.

use super::Plan;
use crate::advice::Advice;
use crate::assess::Assessment;
use crate::calendar::Moment;
use crate::catalogue::Language;
use crate::exercise::{Dose, Exercise};
use crate::quantity::Refused;
use crate::sorted;
use crate::tolerance::Limits;
use std::fmt;

/// Most exercises of one sheet.
pub const MOST_ITEMS: usize = 6;

/// Up to here exercises are done more faithfully (a review of what makes people do home exercises,
/// thieme-connect.de 10.1055/s-0043-120527: fewer than four).
const FEW: usize = 3;

/// Below this age an adult stays beside the child (common practice).
const WITH_AN_ADULT: u8 = 12;

/// Most digits of an emergency number.
pub const MOST_DIGITS: usize = 15;

/// One chosen exercise.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The exercise.
    pub exercise: &'static Exercise,
    /// How much and how often.
    pub dose: Dose,
    /// Why it is given although something speaks against it; empty when nothing does.
    pub despite: String,
}

/// What the practitioner chose.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Exercises in the order they are done.
    pub items: Vec<Item>,
    /// Advice in the order it is read.
    pub advice: Vec<&'static Advice>,
    /// What symptoms may do.
    pub limits: Limits,
    /// The emergency number, digits only; empty when it is said in words.
    pub emergency: String,
    /// Whether an adult stays with the child.
    pub helper: bool,
    /// The language the sheet opens in.
    pub language: Language,
}

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Puts an exercise at the end, with the dose it starts from.
    Add(&'static Exercise),
    /// Takes an exercise off.
    Remove(&'static Exercise),
    /// Moves an exercise one place up.
    Up(&'static Exercise),
    /// Changes a dose.
    Dose(&'static Exercise, Dose),
    /// Says why an exercise is given all the same.
    Despite(&'static Exercise, String),
    /// Puts advice on or takes it off.
    Advice(&'static Advice, bool),
    /// What symptoms may do.
    Limits(Limits),
    /// The emergency number as typed.
    Emergency(String),
    /// Whether an adult stays with the child.
    Helper(bool),
    /// The language.
    Language(Language),
}

/// A choice that was signed off; the only thing a sheet is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct SignedOff {
    choice: Choice,
    by: String,
    at: Moment,
}

/// Why a choice cannot be signed off yet, in one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum NotYet {
    /// A danger sign, a stop or a missing safety check holds every exercise.
    Held(String),
    /// Nothing was chosen.
    Nothing,
    /// More exercises than a sheet holds.
    TooMany,
    /// Something speaks against an exercise and no reason is given.
    Barred {
        /// Its title.
        title: &'static str,
        /// What speaks against it.
        why: String,
    },
    /// A dose that is not possible.
    Dose {
        /// The title of its exercise.
        title: &'static str,
        /// What is wrong with it.
        refused: Refused,
    },
    /// Limits that no published rule allows.
    Limits,
    /// An emergency number that is none.
    Emergency,
    /// Nobody signs.
    Nobody,
}

impl Choice {
    /// Nothing chosen yet: limits by the consensus, an adult beside a child.
    #[must_use]
    pub fn empty(plan: &Plan, language: Language) -> Choice {
        Choice {
            items: Vec::new(),
            advice: Vec::new(),
            limits: Limits::CONSENSUS,
            emergency: String::new(),
            helper: plan.about.years.is_none_or(|years| years < WITH_AN_ADULT),
            language,
        }
    }

    /// A first choice from a plan: what is best supported, four at most, and its advice.
    #[must_use]
    pub fn from_plan(plan: &Plan, language: Language) -> Choice {
        let item = |exercise: &'static Exercise| Item { exercise, dose: exercise.start, despite: String::new() };
        Choice {
            items: plan.proposed.iter().take(FEW + 1).map(|proposal| item(proposal.exercise)).collect(),
            advice: plan.advice.iter().map(|advised| advised.advice).collect(),
            ..Choice::empty(plan, language)
        }
    }

    /// The same with everything that is proposed and not chosen yet, four exercises at most; what was changed stays.
    #[must_use]
    pub fn with_proposed(mut self, plan: &Plan) -> Choice {
        let proposed = Choice::from_plan(plan, self.language);
        for item in proposed.items {
            if self.items.len() <= FEW && self.item(item.exercise).is_none() {
                self.items.push(item);
            }
        }
        for advice in proposed.advice {
            self = self.edited(Edit::Advice(advice, true));
        }
        self
    }

    /// A chosen exercise.
    #[must_use]
    pub fn item(&self, exercise: &Exercise) -> Option<&Item> {
        self.items.iter().find(|item| item.exercise == exercise)
    }

    /// The same with one change. An edit of an exercise that is not chosen changes nothing.
    #[must_use]
    pub fn edited(mut self, edit: Edit) -> Choice {
        match edit {
            Edit::Add(exercise) if self.place(exercise).is_none() => {
                self.items.push(Item { exercise, dose: exercise.start, despite: String::new() });
            }
            Edit::Add(_) => {}
            Edit::Remove(exercise) => self.items.retain(|item| item.exercise != exercise),
            Edit::Up(exercise) => {
                if let Some(at) = self.place(exercise).filter(|at| *at > 0) {
                    self.items.swap(at - 1, at);
                }
            }
            Edit::Dose(exercise, dose) => self.change(exercise, |item| item.dose = dose),
            Edit::Despite(exercise, why) => self.change(exercise, |item| item.despite = why.trim().to_string()),
            Edit::Advice(advice, on) => {
                self.advice.retain(|known| *known != advice);
                if on {
                    self.advice.push(advice);
                    sorted::by_key(&mut self.advice, |advice| advice.number);
                }
            }
            Edit::Limits(limits) => self.limits = limits,
            Edit::Emergency(typed) => self.emergency = typed.split_whitespace().collect(),
            Edit::Helper(helper) => self.helper = helper,
            Edit::Language(language) => self.language = language,
        }
        self
    }

    /// What to tell the practitioner about it, in sentences; nothing that forbids it.
    #[must_use]
    pub fn remarks(&self) -> Vec<String> {
        let mut remarks = Vec::new();
        if self.items.len() > FEW {
            remarks.push(format!(
                "{} exercises: with fewer than four, more people do them (review of home exercises).",
                self.items.len()
            ));
        }
        if self.emergency.is_empty() {
            remarks.push("No emergency number: the sheet says “the emergency number” in words.".to_string());
        }
        if self.limits != Limits::CONSENSUS {
            remarks.push(
                "The limits differ from the 2022 consensus: a rise of 2 at most, for less than an hour.".to_string(),
            );
        }
        remarks
    }

    /// Signs it off. The assessment says what speaks against an exercise, however it came onto the list.
    ///
    /// # Errors
    /// [`NotYet`], the first thing that stands in the way.
    pub fn sign_off(&self, plan: &Plan, assessment: &Assessment, by: &str, at: Moment) -> Result<SignedOff, NotYet> {
        if self.items.is_empty() && self.advice.is_empty() {
            return Err(NotYet::Nothing);
        }
        if self.items.len() > MOST_ITEMS {
            return Err(NotYet::TooMany);
        }
        if let Some(why) = plan.held.clone().filter(|_| !self.items.is_empty()) {
            return Err(NotYet::Held(why));
        }
        for item in &self.items {
            let title = item.exercise.title;
            item.dose.check().map_err(|refused| NotYet::Dose { title, refused })?;
            let why = plan.about.against(item.exercise, assessment);
            if !why.is_empty() && item.despite.is_empty() {
                return Err(NotYet::Barred { title, why: why.join("; ") });
            }
        }
        if !self.limits.possible() {
            return Err(NotYet::Limits);
        }
        if !self.emergency.chars().all(|c| c.is_ascii_digit()) || self.emergency.len() > MOST_DIGITS {
            return Err(NotYet::Emergency);
        }
        if by.trim().is_empty() {
            return Err(NotYet::Nobody);
        }
        Ok(SignedOff { choice: self.clone(), by: by.trim().to_string(), at })
    }

    fn place(&self, exercise: &Exercise) -> Option<usize> {
        self.items.iter().position(|item| item.exercise == exercise)
    }

    fn change(&mut self, exercise: &Exercise, how: impl FnOnce(&mut Item)) {
        if let Some(at) = self.place(exercise) {
            how(&mut self.items[at]);
        }
    }
}

impl SignedOff {
    /// What was chosen.
    #[must_use]
    pub fn choice(&self) -> &Choice {
        &self.choice
    }

    /// Who signed it; stays in the practice.
    #[must_use]
    pub fn by(&self) -> &str {
        &self.by
    }

    /// When; stays in the practice.
    #[must_use]
    pub fn at(&self) -> Moment {
        self.at
    }
}

impl fmt::Display for NotYet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotYet::Held(why) => write!(f, "Not signed off: {why}."),
            NotYet::Nothing => write!(f, "Choose an exercise or a piece of advice first."),
            NotYet::TooMany => write!(f, "A sheet holds {MOST_ITEMS} exercises; take some off."),
            NotYet::Barred { title, why } => {
                write!(f, "“{title}”: {why}. Take it off, or write why it is given all the same.")
            }
            NotYet::Dose { title, refused } => write!(f, "“{title}”: {refused}"),
            NotYet::Limits => write!(
                f,
                "A rise of {} at most and 5 to {} minutes, in steps of 5, can be set as limits.",
                Limits::MOST.rise,
                Limits::MOST.minutes
            ),
            NotYet::Emergency => write!(f, "Type the emergency number in digits, such as 112, or leave it empty."),
            NotYet::Nobody => write!(f, "Write who signs off."),
        }
    }
}

impl std::error::Error for NotYet {}
