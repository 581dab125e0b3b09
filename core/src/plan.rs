//! The plan: which exercises the findings speak for, what takes them out again and why; then the practitioner's choice,
//! doses and sign-off. Nothing here chooses for the practitioner, and nothing leaves without a sign-off.

mod choice;
#[cfg(test)]
mod tests;

pub use choice::{Choice, Edit, Item, MOST_DIGITS, MOST_ITEMS, NotYet, SignedOff};

use crate::advice::{self, Advice};
use crate::assess::Assessment;
use crate::capture::visit::Visit;
use crate::capture::{frame, safety};
use crate::exercise::{self, Bar, Exercise, Group, Lead};
use crate::finding::Grade;
use crate::sign::Seen;
use crate::sorted;

/// What a plan has to know beside the findings.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct About {
    /// The lowest possible age in completed years; `None` when the birth is not known.
    pub years: Option<u8>,
    /// Ids of the frame's cautions; `None` when nobody asked, which is not the same as none.
    pub cautions: Option<Vec<String>>,
    /// Why the person came.
    pub reason: Option<String>,
    /// When it began.
    pub since: Option<String>,
    /// Whether the safety check was done, every question of it.
    pub safety: bool,
}

/// What the findings speak for.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// What it was made with.
    pub about: About,
    /// Why no exercise may be given at all, for now.
    pub held: Option<String>,
    /// Exercises to choose from, the better supported first.
    pub proposed: Vec<Proposal>,
    /// Exercises the findings speak for and something else speaks against.
    pub removed: Vec<Removed>,
    /// Advice that goes with them or stands in their place.
    pub advice: Vec<Advised>,
    /// What to keep in mind, in sentences.
    pub remarks: Vec<String>,
}

/// An exercise to choose.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// The exercise.
    pub exercise: &'static Exercise,
    /// What speaks for it.
    pub because: Vec<Because>,
}

/// An exercise that is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Removed {
    /// The exercise.
    pub exercise: &'static Exercise,
    /// What spoke for it.
    pub because: Vec<Because>,
    /// What speaks against it, as phrases.
    pub why: Vec<String>,
}

/// Advice and what speaks for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Advised {
    /// The advice.
    pub advice: &'static Advice,
    /// What speaks for it.
    pub because: Vec<Because>,
}

/// One thing that speaks for an exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Because {
    /// Where it stands: key of a finding, slot of the ratings, id of a pattern, or the frame's answer.
    pub from: String,
    /// In words.
    pub says: String,
}

impl About {
    /// What a visit says about it.
    #[must_use]
    pub fn of(visit: &Visit, assessment: &Assessment) -> About {
        let answers = visit.filled(frame::SLOT).map(|record| &record.answers);
        let one = |key: &str| answers.and_then(|answers| answers.one(key)).map(str::to_string);
        About {
            // Only the year of birth is known: the true age may be one less.
            years: assessment.age.map(|age| if age.exact { age.years } else { age.years.saturating_sub(1) }),
            cautions: answers.and_then(|answers| answers.many("cautions")).map(<[String]>::to_vec),
            reason: one("reason"),
            since: one("since"),
            safety: visit
                .filled(safety::SLOT)
                .is_some_and(|record| safety::FORM.fields.iter().all(|field| record.answers.one(field.key).is_some())),
        }
    }

    /// Why this exercise is left out, as phrases; empty when nothing speaks against it.
    #[must_use]
    pub fn against(&self, exercise: &Exercise, assessment: &Assessment) -> Vec<String> {
        let early = self.too_early().map(str::to_string);
        let bars = exercise.bars.iter().filter_map(|bar| self.met(bar, assessment));
        let mut why: Vec<String> = early.into_iter().chain(bars).collect();
        why.dedup();
        why
    }

    fn met(&self, bar: &Bar, assessment: &Assessment) -> Option<String> {
        match bar {
            Bar::Caution(id, why) => match &self.cautions {
                Some(cautions) => cautions.iter().any(|caution| caution == id).then(|| (*why).to_string()),
                None => Some("what to take care with was not asked: ask first".to_string()),
            },
            Bar::Signs(any, why) => {
                let mut signs = assessment.tasks.iter().flat_map(|task| &task.reading.signs);
                signs.any(|sign| sign.seen == Seen::Yes && any.contains(&sign.what)).then(|| (*why).to_string())
            }
            Bar::Younger(than, why) => match self.years {
                Some(years) => (years < *than).then(|| (*why).to_string()),
                None => Some(format!("the age is not known; from {than} years")),
            },
        }
    }

    /// Relative rest for 24 to 48 hours after a knock (2022 consensus, Patricios et al. 2023).
    fn too_early(&self) -> Option<&'static str> {
        if self.reason.as_deref() != Some("knock") {
            return None;
        }
        match self.since.as_deref() {
            Some("minutes" | "hours" | "yesterday") => Some("within 24 to 48 hours of the knock: rest first"),
            None => Some("when the knock happened was not noted; rest for 24 to 48 hours comes first"),
            Some(_) => None,
        }
    }
}

/// What the findings speak for, with reasons, and what was removed, with reasons.
#[must_use]
pub fn propose(assessment: &Assessment, about: &About) -> Plan {
    let held = held(assessment, about);
    let mut proposed = Vec::new();
    let mut removed = Vec::new();
    for exercise in exercise::ALL.iter().copied() {
        let because = because(exercise.leads, assessment, about);
        if because.is_empty() {
            continue;
        }
        let mut why = about.against(exercise, assessment);
        why.extend(held.clone());
        if why.is_empty() {
            proposed.push(Proposal { exercise, because });
        } else {
            removed.push(Removed { exercise, because, why });
        }
    }
    sorted::by_key(&mut proposed, |proposal| proposal.exercise.support);
    let advice = advised(assessment, about);
    let remarks = remarks(&proposed, assessment, about);
    Plan { about: about.clone(), held, proposed, removed, advice, remarks }
}

/// A danger sign, a stop, or a safety check that nobody did: no exercise before that is settled.
fn held(assessment: &Assessment, about: &About) -> Option<String> {
    if assessment.stopped {
        return Some("the visit ended with an emergency stop: no exercises before it is settled".to_string());
    }
    if let Some(flag) = assessment.flags.first() {
        return Some(format!("a danger sign was seen ({}): no exercises before it is settled", flag.seen));
    }
    (!about.safety).then(|| "the safety check was not done: do it before any exercise".to_string())
}

fn because(leads: &[Lead], assessment: &Assessment, about: &About) -> Vec<Because> {
    let mut found: Vec<Because> = Vec::new();
    for reason in leads.iter().filter_map(|lead| met(lead, assessment, about)) {
        if !found.contains(&reason) {
            found.push(reason);
        }
    }
    found
}

fn met(lead: &Lead, assessment: &Assessment, about: &About) -> Option<Because> {
    match lead {
        Lead::Finding(key, least) => {
            let finding = assessment.findings().find(|finding| finding.key == *key && finding.grade >= *least)?;
            // An urgent finding is no matter of exercises.
            (finding.grade != Grade::Urgent)
                .then(|| Because { from: finding.key.clone(), says: finding.headline.clone() })
        }
        Lead::Rise(task, least) => {
            let after = assessment.symptoms.after.iter().find(|after| after.task.id == *task)?;
            let change = after.change.filter(|change| change >= least)?;
            let says = format!("Symptoms rose by {change} with {}", after.task.title.to_lowercase());
            Some(Because { from: format!("symptoms.{task}"), says })
        }
        Lead::Pattern(id) => {
            let pattern = assessment.patterns.iter().find(|pattern| pattern.id == *id)?;
            Some(Because { from: pattern.id.to_string(), says: pattern.headline.clone() })
        }
        Lead::Sign(what) => {
            let mut signs = assessment.tasks.iter().flat_map(|task| &task.reading.signs);
            let sign = signs.find(|sign| sign.what == *what && sign.seen == Seen::Yes)?;
            let told = assessment.findings().find(|finding| finding.key == sign.finding)?;
            Some(Because { from: sign.finding.clone(), says: told.headline.clone() })
        }
        Lead::Reason(id) => {
            (about.reason.as_deref() == Some(*id)).then(|| Because { from: "frame.reason".to_string(), says: came(id) })
        }
    }
}

fn came(reason: &str) -> String {
    match reason {
        "knock" => "Came after a knock".to_string(),
        "dizzy" => "Came because of dizziness".to_string(),
        "reading" => "Came because reading tires".to_string(),
        other => format!("Came because of “{other}”"),
    }
}

/// Advice by its leads; after a knock also the steps back to school, below 19 years, and to sport.
fn advised(assessment: &Assessment, about: &About) -> Vec<Advised> {
    let knock = about.reason.as_deref() == Some("knock");
    let steps = |advice: &Advice| match advice.id {
        "school" => knock && about.years.is_none_or(|years| (5..19).contains(&years)),
        "sport" | "screens" => knock,
        _ => false,
    };
    advice::ALL
        .iter()
        .copied()
        .filter_map(|advice| {
            let mut because = because(advice.leads, assessment, about);
            if because.is_empty() && steps(advice) {
                because.push(Because { from: "frame.reason".to_string(), says: came("knock") });
            }
            (!because.is_empty()).then_some(Advised { advice, because })
        })
        .collect()
}

/// From this age on falls are asked for (common practice).
const OLDER: u8 = 65;

fn remarks(proposed: &[Proposal], assessment: &Assessment, about: &About) -> Vec<String> {
    let mut remarks = Vec::new();
    if !proposed.is_empty() && assessment.findings().any(|finding| finding.long_known) {
        // Nystagmus that nobody explained and unequal pupils come before any exercise (from memory).
        remarks.push(
            "Signs said to be long known were seen: give exercises only once somebody has explained them (from memory)."
                .to_string(),
        );
    }
    if about.reason.as_deref() == Some("knock") && about.years.is_some_and(|years| years < 19) {
        // Joint statement of paediatric and eye doctors on vision and concussion, 2022.
        remarks.push(
            "Most children and teenagers with visual symptoms after a concussion recover without exercises by 4 weeks; \
             refer those who do not."
                .to_string(),
        );
    }
    let any = |group| proposed.iter().any(|proposal| proposal.exercise.group == group);
    if any(Group::EyesAlone) {
        // Hall et al. 2016, J Neurol Phys Ther: strong recommendation against, peripheral vestibular hypofunction.
        remarks.push(
            "Following and jumps with the head still are for comfort only; a guideline says not to offer them for gaze \
             stability."
                .to_string(),
        );
    }
    if any(Group::Balance) && about.years.is_some_and(|years| years >= OLDER) {
        remarks
            .push("From 65 years on, ask about falls before exercises while standing (common practice).".to_string());
    }
    if !proposed.is_empty() {
        // 156 healthy young adults: effort changed eye measures more than many exercises.
        remarks.push("A better re-test is no proof that an exercise worked: trying harder does the same.".to_string());
    }
    if about.reason.as_deref() == Some("reading") {
        // Joint statement on learning disabilities, dyslexia and vision, 2009; reading did not improve in 310 children.
        remarks.push(
            "Eye exercises are not endorsed for dyslexia or learning problems; say so when reading is why they came."
                .to_string(),
        );
    }
    remarks
}
