//! Other causes of the same picture that lie in the person's day, not in a place of the brain: drugs, tiredness, age,
//! glasses. The ones this visit names come first; the ones it excludes are left out.
//!
//! That these slow or unsettle eye movements is standard teaching, from memory, and printed so.

use crate::capture::frame;
use crate::capture::visit::Visit;
use crate::sign::{self, Sign, What};

/// A cause that a visit may name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Influence {
    /// Medicines that slow or sedate.
    Medicines,
    /// Alcohol or drugs.
    Alcohol,
    /// Short of sleep, worn out.
    Tired,
    /// Unwell or feverish.
    Unwell,
    /// Wandering attention.
    Attention,
    /// Glasses for near not worn.
    Glasses,
    /// Younger than so many completed years.
    Younger(u8),
    /// So many completed years or more.
    Older(u8),
    /// Nystagmus at rest, which skews what is watched next.
    Nystagmus,
    /// A display that dropped too many frames of this task's program.
    Display(&'static str),
}

/// Another cause of the same picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OtherCause {
    /// In words: "alcohol or drugs".
    pub words: String,
    /// The answer or sign of this visit that names it; `None` when it is only possible.
    pub named_by: Option<String>,
}

/// How a visit stands to a cause.
enum Standing {
    Named(String),
    Possible,
    Excluded,
}

/// The causes in words, those the visit names first, then those it leaves possible, then `further` ones that no visit
/// asks for.
#[must_use]
pub fn told(
    visit: &Visit,
    years: Option<u8>,
    signs: &[Sign],
    influences: &[Influence],
    further: &[&str],
) -> Vec<OtherCause> {
    let (mut named, mut possible) = (Vec::new(), Vec::new());
    for influence in influences {
        let words = influence.words();
        match influence.standing(visit, years, signs) {
            Standing::Named(key) => named.push(OtherCause { words, named_by: Some(key) }),
            Standing::Possible => possible.push(OtherCause { words, named_by: None }),
            Standing::Excluded => {}
        }
    }
    let further = further.iter().map(|words| OtherCause { words: (*words).to_string(), named_by: None });
    named.into_iter().chain(possible).chain(further).collect()
}

impl Influence {
    fn words(self) -> String {
        match self {
            Influence::Medicines => "medicines that slow or sedate".to_string(),
            Influence::Alcohol => "alcohol or drugs".to_string(),
            Influence::Tired => "tiredness".to_string(),
            Influence::Unwell => "fever or feeling unwell".to_string(),
            Influence::Attention => "wandering attention".to_string(),
            Influence::Glasses => "glasses for near not worn".to_string(),
            Influence::Younger(years) => format!("an age under {years}"),
            Influence::Older(years) => format!("an age of {years} or more"),
            Influence::Nystagmus => "nystagmus at rest".to_string(),
            Influence::Display(_) => "a display that dropped frames".to_string(),
        }
    }

    fn standing(self, visit: &Visit, years: Option<u8>, signs: &[Sign]) -> Standing {
        match self {
            Influence::Medicines => influenced(visit, "medicines"),
            Influence::Alcohol => influenced(visit, "alcohol"),
            Influence::Tired => influenced(visit, "tired"),
            Influence::Unwell => influenced(visit, "unwell"),
            Influence::Attention => match answer(visit, "reason") {
                Some("attention") => Standing::Named(key("reason", "attention")),
                _ => Standing::Possible,
            },
            Influence::Glasses => match answer(visit, "glasses") {
                Some("not_worn") => Standing::Named(key("glasses", "not_worn")),
                Some("none" | "worn" | "contacts") => Standing::Excluded,
                _ => Standing::Possible,
            },
            Influence::Younger(limit) => by_age(years, |years| years < limit),
            Influence::Older(limit) => by_age(years, |years| years >= limit),
            Influence::Nystagmus => at_rest(signs),
            Influence::Display(task) => dropped(visit, task),
        }
    }
}

/// Nobody's answer "nothing known" excludes a drug or a short night, so these stay possible.
fn influenced(visit: &Visit, id: &str) -> Standing {
    if frame::has_influence(visit, &[id]) { Standing::Named(key("influences", id)) } else { Standing::Possible }
}

fn by_age(years: Option<u8>, fits: impl Fn(u8) -> bool) -> Standing {
    match years {
        Some(years) if fits(years) => Standing::Named("person.born".to_string()),
        Some(_) => Standing::Excluded,
        None => Standing::Possible,
    }
}

fn at_rest(signs: &[Sign]) -> Standing {
    let kinds = [What::RestingNystagmus, What::VerticalNystagmus, What::TorsionalNystagmus, What::ChangingNystagmus];
    if let Some(seen) = kinds.into_iter().find_map(|what| sign::all(signs, what).next()) {
        return Standing::Named(seen.finding.clone());
    }
    let looked_for = signs.iter().any(|sign| kinds.contains(&sign.what));
    if looked_for { Standing::Excluded } else { Standing::Possible }
}

/// Only what was shown on a screen can have been shown badly.
fn dropped(visit: &Visit, task: &str) -> Standing {
    let shown = visit.record(task).map(|record| record.showings.as_slice()).unwrap_or_default();
    let bad = shown.iter().filter_map(|showing| showing.screen).any(|screen| screen.frames().too_many_dropped());
    if bad { Standing::Named(task.to_string()) } else { Standing::Excluded }
}

fn answer<'a>(visit: &'a Visit, key: &str) -> Option<&'a str> {
    visit.filled(frame::SLOT)?.answers.one(key)
}

fn key(key: &str, id: &str) -> String {
    format!("{}.{key}.{id}", frame::SLOT)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anatomy::{Direction, Place};
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
    const EACH: [Influence; 4] = [Influence::Tired, Influence::Glasses, Influence::Alcohol, Influence::Older(50)];

    fn visit(influences: &[&str], glasses: Option<&str>) -> Visit {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        let answers = &mut visit.record_mut(frame::SLOT, NOW).answers;
        answers.set("influences", Some(Answer::Many(influences.iter().map(|id| (*id).to_string()).collect())));
        answers.set("glasses", glasses.map(|id| Answer::One(id.into())));
        visit
    }

    fn words(causes: &[OtherCause]) -> Vec<&str> {
        causes.iter().map(|cause| cause.words.as_str()).collect()
    }

    #[test]
    fn what_the_visit_names_comes_first() {
        let told = told(&visit(&["alcohol"], Some("not_worn")), Some(60), &[], &EACH, &["a thyroid"]);
        let expected =
            ["glasses for near not worn", "alcohol or drugs", "an age of 50 or more", "tiredness", "a thyroid"];
        assert_eq!(words(&told), expected);
        assert_eq!(told[1].named_by.as_deref(), Some("frame.influences.alcohol"));
        assert_eq!(told[3].named_by, None);
    }

    #[test]
    fn what_cannot_be_is_left_out_and_what_is_not_known_stays() {
        assert_eq!(
            words(&told(&visit(&[], Some("worn")), Some(30), &[], &EACH, &[])),
            ["tiredness", "alcohol or drugs"]
        );
        assert_eq!(told(&visit(&[], None), None, &[], &EACH, &[]).len(), 4);
    }

    #[test]
    fn nystagmus_at_rest_is_named_only_when_it_was_seen() {
        let sign = |seen| [Sign::new(What::RestingNystagmus, Place::Toward(Direction::Left), seen, "t.n")];
        let told = |signs: &[Sign]| told(&visit(&[], None), None, signs, &[Influence::Nystagmus], &[]);
        assert_eq!(told(&sign(true))[0].named_by.as_deref(), Some("t.n"));
        assert!(told(&sign(false)).is_empty());
        assert_eq!(told(&[])[0].named_by, None);
    }
}
