//! What is asked before stripes are shown, and what follows from the answers.

use crate::capture::frame;
use crate::capture::showing::{Showing, key};
use crate::capture::visit::Visit;

/// One question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Epilepsy, or a seizure or odd feeling with light or patterns.
    Seizures,
    /// Migraine.
    Migraine,
    /// Motion sickness.
    MotionSickness,
}

impl Question {
    /// All of them, in the order they are asked.
    pub const ALL: [Question; 3] = [Question::Seizures, Question::Migraine, Question::MotionSickness];

    /// Stable id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Question::Seizures => "seizures",
            Question::Migraine => "migraine",
            Question::MotionSickness => "motion_sickness",
        }
    }

    /// The question.
    #[must_use]
    pub const fn asks(self) -> &'static str {
        match self {
            Question::Seizures => "Epilepsy, a seizure ever, or odd feelings with flicker or stripes?",
            Question::Migraine => "Migraine?",
            Question::MotionSickness => "Sick when travelling, or from moving pictures?",
        }
    }
}

/// The answers so far, in the order of [`Question::ALL`]. Not asked is not "no".
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Asked {
    /// Yes, no, or not asked yet.
    pub answers: [Option<bool>; 3],
    /// Why it is shown all the same, in the examiner's words.
    pub despite: String,
}

/// What follows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Something was not asked yet.
    Unasked,
    /// No stripes on a screen.
    Refused(&'static str),
    /// Only when the examiner says why.
    SayWhy(&'static str),
    /// It may be shown.
    Go,
}

impl Asked {
    /// What the visit already says: what was asked before the last stripes of it, and a caution of its frame above that.
    #[must_use]
    pub fn known(visit: &Visit) -> Asked {
        let ticked = |ids: &[&str]| frame::has_caution(visit, ids).then_some(true);
        let Asked { answers: [seizures, migraine, sickness], despite } = Asked::last(visit);
        let answers = [ticked(&["seizures", "light"]).or(seizures), ticked(&["migraine"]).or(migraine), sickness];
        Asked { answers, despite }
    }

    /// What was asked before the last run of a visit that was asked for.
    fn last(visit: &Visit) -> Asked {
        let runs = visit.records.iter().flat_map(|record| &record.showings);
        let of = |showing: &Showing| {
            Question::ALL.map(|question| match showing.word(&format!("{}{}", key::ASKED, question.id())) {
                Some("yes") => Some(true),
                Some("no") => Some(false),
                Some(_) | None => None,
            })
        };
        let asked = runs.filter(|showing| of(showing) != [None; 3]).max_by_key(|showing| showing.at.unix_ms);
        asked.map_or_else(Asked::default, |showing| Asked {
            answers: of(showing),
            despite: showing.word(key::DESPITE).unwrap_or_default().to_string(),
        })
    }

    /// The answer to a question.
    #[must_use]
    pub fn answer(&self, question: Question) -> Option<bool> {
        Question::ALL.iter().zip(self.answers).find(|(one, _)| **one == question).and_then(|(_, answer)| answer)
    }

    /// The same with an answer.
    #[must_use]
    pub fn with(mut self, question: Question, yes: bool) -> Asked {
        for (one, answer) in Question::ALL.iter().zip(&mut self.answers) {
            if *one == question {
                *answer = Some(yes);
            }
        }
        self
    }

    /// What follows from the answers. That a yes to the first refuses and to the others needs a reason is common practice,
    /// from memory.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let [seizures, migraine, sickness] = self.answers;
        if seizures == Some(true) {
            return Verdict::Refused(
                "No stripes on a screen for them. Use a tape or passing fingers, briefly, or leave it out.",
            );
        }
        if self.answers.contains(&None) {
            return Verdict::Unasked;
        }
        let why = match (migraine, sickness) {
            (Some(true), Some(true)) => {
                "Stripes can bring on headache, dizziness or nausea, both from migraine and from motion."
            }
            (Some(true), _) => "Stripes can bring on a migraine.",
            (_, Some(true)) => "Stripes can bring on dizziness or nausea.",
            _ => return Verdict::Go,
        };
        if self.despite.trim().is_empty() { Verdict::SayWhy(why) } else { Verdict::Go }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;
    use crate::capture::showing::{Setting, Value};
    use crate::stage::{Wanted, of_task};

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn asked(answers: [Option<bool>; 3], despite: &str) -> Verdict {
        Asked { answers, despite: despite.to_string() }.verdict()
    }

    #[test]
    fn nothing_starts_before_all_three_were_asked() {
        let no = Some(false);
        for answers in [[None, no, no], [no, None, no], [no, no, None], [None; 3], [no, Some(true), None]] {
            assert_eq!(asked(answers, "a reason"), Verdict::Unasked, "{answers:?}");
        }
        assert_eq!(asked([no; 3], ""), Verdict::Go);
    }

    #[test]
    fn no_reason_gets_past_seizures_and_one_is_needed_for_the_others() {
        let (no, yes) = (Some(false), Some(true));
        for rest in [[no, no], [yes, yes], [None, None]] {
            assert!(matches!(asked([yes, rest[0], rest[1]], "a reason"), Verdict::Refused(_)));
        }
        for rest in [[yes, no], [no, yes], [yes, yes]] {
            assert!(matches!(asked([no, rest[0], rest[1]], "  "), Verdict::SayWhy(_)), "{rest:?}");
            assert_eq!(asked([no, rest[0], rest[1]], "mild, and it is short"), Verdict::Go);
        }
    }

    #[test]
    fn what_the_frame_says_is_not_asked_again() {
        let mut visit = Visit::begin("v", "p", "full", NOW, "test");
        assert_eq!(Asked::known(&visit).answers, [None; 3]);
        let cautions = Answer::Many(vec!["light".to_string(), "migraine".to_string()]);
        visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(cautions));
        assert_eq!(Asked::known(&visit).answers, [Some(true), Some(true), None]);
        // An empty list is "nothing", but the frame asks neither in these words, so it is asked here.
        visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(Answer::Many(Vec::new())));
        assert_eq!(Asked::known(&visit).answers, [None; 3]);
    }

    #[test]
    fn what_was_asked_before_the_last_run_stands_until_it_is_changed() {
        let mut visit = Visit::begin("v", "p", "full", NOW, "test");
        let offer = of_task("optokinetic").expect("is there");
        for (hours, migraine) in [(2, "yes"), (1, "no")] {
            let at = Moment { unix_ms: NOW.unix_ms + hours * 3_600_000, ..NOW };
            let mut showing = Wanted::usual(offer).showing_elsewhere(at);
            let said = [("asked_seizures", "no"), ("asked_migraine", migraine), ("despite", "mild, and it is short")];
            showing.settings.extend(said.map(|(key, word)| Setting {
                key: key.to_string(),
                value: Value::Word(word.to_string()),
                unit: String::new(),
            }));
            visit.record_mut("optokinetic", at).showings.push(showing);
        }
        let known = Asked::known(&visit);
        assert_eq!(known.answers, [Some(false), Some(true), None], "the later run, whatever the order");
        assert_eq!(known.despite, "mild, and it is short");
        // A caution noted since then stands above it.
        let cautions = Answer::Many(vec!["seizures".to_string()]);
        visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(cautions));
        assert_eq!(Asked::known(&visit).answers[0], Some(true));
        // A run that nobody was asked for says nothing.
        let later = Moment { unix_ms: NOW.unix_ms + 9 * 3_600_000, ..NOW };
        visit.record_mut("pursuit", NOW).showings.push(Wanted::usual(offer).showing_elsewhere(later));
        assert_eq!(Asked::known(&visit).answers[1], Some(true));
    }
}
