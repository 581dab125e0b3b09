//! Sheets are given at a visit, and logs of earlier ones come back: what changes them, as long as the visit is open.

use super::edit::EditRefused;
use super::home::{Given, LONGEST_WORDS, MOST, Returned};
use super::visit::Visit;

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
    use crate::calendar::Moment;
    use crate::capture::home::{Despite, How};
    use crate::capture::unread::Unread;

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
