//! What several showings of one program say together: the same, different things, or nothing.

use super::{Showing, program};
use crate::capture::answer::Answer;

/// What showings say of one thing.
#[derive(Debug, Clone, PartialEq)]
pub enum Told<T> {
    /// None of them says it.
    Nothing,
    /// All that say it say this.
    Same(T),
    /// They differ, so that no one value is true.
    Differs,
}

impl<T: PartialEq> Told<T> {
    /// What all showings of this program say. A program that other showings are of counts for nothing here.
    pub fn by(showings: &[Showing], program: &str, says: impl Fn(&Showing) -> Option<T>) -> Told<T> {
        let mut told = Told::Nothing;
        for said in showings.iter().filter(|showing| showing.program == program).filter_map(says) {
            told = match told {
                Told::Nothing => Told::Same(said),
                Told::Same(before) if before == said => Told::Same(before),
                Told::Same(_) | Told::Differs => return Told::Differs,
            };
        }
        told
    }

    /// The answer a form gets by it: none to set when nothing is said, and taken away when no one value is true.
    pub fn fills(self, key: &'static str, answer: impl FnOnce(T) -> Answer) -> Option<(&'static str, Option<Answer>)> {
        match self {
            Told::Nothing => None,
            Told::Same(said) => Some((key, Some(answer(said)))),
            Told::Differs => Some((key, None)),
        }
    }
}

impl Showing {
    /// Whether it is of a program this version knows.
    #[must_use]
    pub fn known(&self) -> bool {
        program::ALL.contains(&self.program.as_str())
    }
}
