//! Where somebody stands in the middle of an exercise, as one line beside the course: a page that is loaded anew, a tab that
//! the phone ended or a call that came in between loses no round. The line holds on its own day only.

use super::course::{Course, Now};
use super::kept::value;
use super::round::{Round, Stage};
use super::view::View;
use crate::tolerance::Reason;

const WORD: &str = "going";

/// What may be told outside an exercise.
static REASONS: &[(&str, Reason)] =
    &[("danger", Reason::Danger), ("day", Reason::ADay), ("lasted", Reason::Lasted), ("rose", Reason::Rose)];

/// The line of a view; `None` where the next reader begins at the list anyway.
pub(super) fn line(view: &View, day: i64) -> Option<String> {
    let round = |at: &usize, round: &Round| format!("round {at} {}", round.encode());
    let going = match view {
        View::Round(at, of) => round(at, of),
        View::Danger(Some((at, of))) => format!("asked {}", round(at, of)),
        View::Danger(None) => "asked".to_string(),
        View::Told(reason) => format!("told {}", REASONS.iter().find(|(_, of)| of == reason)?.0),
        View::Empty | View::Unreadable(_) | View::Today | View::Log => return None,
    };
    Some(format!("{WORD} {day} {going}"))
}

/// The view a kept text of this course holds; `None` on another day, and for a line that describes none.
pub(super) fn view(text: &str, course: &Course, now: Now) -> Option<View> {
    if value(text, "sheet")? != course.sheet.encode() {
        return None;
    }
    let mut words = value(text, WORD)?.split(' ');
    if words.next()?.parse::<i64>().ok()? != now.day {
        return None;
    }
    match words.next()? {
        "round" => round(&mut words, course, now).map(|(at, round)| View::Round(at, round)),
        "asked" => match words.next() {
            Some("round") => round(&mut words, course, now).map(|open| View::Danger(Some(open))),
            Some(_) => None,
            None => Some(View::Danger(None)),
        },
        "told" => {
            let word = words.next()?;
            REASONS.iter().find(|(of, _)| *of == word).map(|(_, reason)| View::Told(*reason))
        }
        _ => None,
    }
}

/// Nothing goes on against a hold; what was told is told again.
fn round<'a>(words: &mut impl Iterator<Item = &'a str>, course: &Course, now: Now) -> Option<(usize, Round)> {
    let at = words.next()?.parse::<usize>().ok()?;
    let round = Round::decode(words, *course.sheet.entries.get(at)?, course.sheet.limits)?;
    let may = course.held(now).is_none() || matches!(round.stage(), Stage::Told(..));
    may.then_some((at, round))
}

#[cfg(test)]
mod tests;
