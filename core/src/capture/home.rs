//! Practice at home as it is stored: the sheets that were given at a visit, and the logs that came back at one.
//!
//! Both are kept as the texts that travel, so that what a family holds and what the practice has can be set side by side.

use super::edit::EditRefused;
use super::visit::{Unread, Visit};
use crate::calendar::Moment;

/// Most sheets and most logs of one visit.
pub const MOST: usize = 20;

/// Most characters of a reason or a name.
pub const LONGEST_WORDS: usize = 400;

/// A sheet that was signed off and given.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// When it was signed off.
    pub at: Moment,
    /// Who signed it off; stays in the practice.
    pub by: String,
    /// The language it opens in, by its code ("en").
    pub language: String,
    /// The sheet itself, as the text of its link.
    pub text: String,
    /// Exercises something speaks against, with why they are given all the same.
    pub despite: Vec<Despite>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// Why an exercise is given although something speaks against it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Despite {
    /// The exercise's id.
    pub exercise: String,
    /// The practitioner's reason.
    pub why: String,
}

/// A log that came back.
#[derive(Debug, Clone, PartialEq)]
pub struct Returned {
    /// When it was taken in.
    pub at: Moment,
    /// How it came.
    pub how: How,
    /// The text of the log, or six numbers.
    pub text: String,
    /// What this program cannot read.
    pub unread: Unread,
}

/// How a log came back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// A code was scanned.
    Code,
    /// A file was opened.
    File,
    /// The text of a message was pasted.
    Message,
    /// Six numbers were read aloud.
    Numbers,
}

/// One change of a visit's sheets and logs.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// A sheet was given.
    Give(Given),
    /// The last sheet was not given after all.
    TakeBackSheet,
    /// A log came back.
    Return(Returned),
    /// The last log is taken out again.
    TakeOutLog,
}

/// Applies a change. On refusal the visit is as it was. A log that is there already is not kept twice.
///
/// # Errors
/// [`EditRefused`] says why.
pub fn apply(visit: &mut Visit, edit: Edit) -> Result<(), EditRefused> {
    if visit.closed.is_some() {
        return Err(EditRefused::Closed);
    }
    match edit {
        Edit::Give(given) => {
            let words = given.despite.iter().map(|despite| &despite.why).chain([&given.by]);
            if words.into_iter().any(|text| text.chars().count() > LONGEST_WORDS) {
                return Err(EditRefused::NotAccepted);
            }
            push(&mut visit.sheets, given)
        }
        Edit::Return(returned) if visit.logs.iter().any(|known| known.text == returned.text) => Ok(()),
        Edit::Return(returned) => push(&mut visit.logs, returned),
        Edit::TakeBackSheet => {
            visit.sheets.pop();
            Ok(())
        }
        Edit::TakeOutLog => {
            visit.logs.pop();
            Ok(())
        }
    }
}

fn push<T>(list: &mut Vec<T>, item: T) -> Result<(), EditRefused> {
    if list.len() >= MOST {
        return Err(EditRefused::Full);
    }
    list.push(item);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn given(why: &str) -> Edit {
        let despite = vec![Despite { exercise: "near_far".to_string(), why: why.to_string() }];
        Edit::Give(Given {
            at: NOW,
            by: "E. Example".to_string(),
            language: "en".to_string(),
            text: "SHEET1.AAAA".to_string(),
            despite,
            unread: Unread::default(),
        })
    }

    fn log(text: &str) -> Edit {
        Edit::Return(Returned { at: NOW, how: How::Code, text: text.to_string(), unread: Unread::default() })
    }

    #[test]
    fn sheets_and_logs_come_and_go() {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        let untouched = visit.clone();
        for edit in [given("asked for it"), given(""), log("SHEETLOG1.A"), log("SHEETLOG1.A"), log("SHEETLOG1.B")] {
            apply(&mut visit, edit).expect("accepted");
        }
        assert_eq!((visit.sheets.len(), visit.logs.len()), (2, 2), "the same log is kept once");
        for edit in [Edit::TakeBackSheet, Edit::TakeBackSheet, Edit::TakeOutLog, Edit::TakeOutLog, Edit::TakeOutLog] {
            apply(&mut visit, edit).expect("accepted");
        }
        assert_eq!(visit, untouched);
    }

    #[test]
    fn too_many_and_too_long_are_refused_and_a_closed_visit_stays() {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        assert_eq!(apply(&mut visit, given(&"x".repeat(LONGEST_WORDS + 1))), Err(EditRefused::NotAccepted));
        for n in 0..MOST {
            apply(&mut visit, given("")).expect("accepted");
            apply(&mut visit, log(&n.to_string())).expect("accepted");
        }
        assert_eq!(apply(&mut visit, given("")), Err(EditRefused::Full));
        assert_eq!(apply(&mut visit, log("one more")), Err(EditRefused::Full));
        visit.closed = Some(NOW);
        let closed = visit.clone();
        for edit in [given(""), log("z"), Edit::TakeBackSheet, Edit::TakeOutLog] {
            assert_eq!(apply(&mut visit, edit), Err(EditRefused::Closed));
        }
        assert_eq!(visit, closed);
    }
}
