//! What is kept of a run: what was shown, what was told, and what was asked before.

use super::Wanted;
use super::asked::{Asked, Question};
use crate::calendar::Moment;
use crate::capture::showing::{Setting, Showing, Value, key};
use crate::stimulus::run::Run;
use crate::stimulus::safety::Safe;

impl Wanted {
    /// What was shown on this screen.
    #[must_use]
    pub fn showing(
        &self,
        safe: &Safe,
        run: &Run,
        at: Moment,
        seconds: f64,
        stopped: bool,
        asked: Option<&Asked>,
    ) -> Showing {
        let mut showing = Showing::of(safe, run, at, seconds, stopped).told(&self.told());
        showing.settings.extend(asked.into_iter().flat_map(settings));
        showing
    }

    /// What was shown on another screen with these settings, to its end. How far it went and how wide its stripes were is
    /// only known where it was chosen.
    #[must_use]
    pub fn showing_elsewhere(&self, at: Moment) -> Showing {
        let program = self.program_elsewhere(0);
        let mut showing = Showing::on_another_device(&program, at, program.seconds(), false).told(&self.told());
        let unknown: &[&str] =
            if self.as_far_as_fits() { &[key::EACH_WAY, key::SEED, key::STRIPE] } else { &[key::SEED, key::STRIPE] };
        showing.settings.retain(|setting| !unknown.contains(&setting.key.as_str()));
        showing
    }
}

/// Answers to the questions before, and the reason, as settings.
fn settings(asked: &Asked) -> Vec<Setting> {
    let word = |key: String, word: &str| Setting { key, value: Value::Word(word.to_string()), unit: String::new() };
    let answer = |question: Question| {
        let yes = asked.answer(question)?;
        Some(word(format!("{}{}", key::ASKED, question.id()), if yes { "yes" } else { "no" }))
    };
    let mut settings: Vec<Setting> = Question::ALL.into_iter().filter_map(answer).collect();
    let despite = asked.despite.trim();
    if asked.answers.contains(&Some(true)) && !despite.is_empty() {
        settings.push(word(key::DESPITE.to_string(), despite));
    }
    settings
}
