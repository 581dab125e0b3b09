//! A course as the text a phone keeps, line by line: a word and its values. Lines of a later version are passed over; a
//! text that is damaged is none.

use super::course::{Course, Hold, Settling};
use crate::catalogue::Language;
use crate::sheet::{Log, Sheet};
use crate::tolerance::Rating;

impl Course {
    /// The text.
    #[must_use]
    pub fn encode(&self) -> String {
        let mut lines = vec![
            format!("sheet {}", self.sheet.encode()),
            format!("log {}", self.log.encode()),
            format!("language {}", self.language.tag()),
            format!("opened {}", self.opened),
        ];
        if self.read {
            lines.push("read".to_string());
        }
        lines.extend(self.first.map(|day| format!("first {day}")));
        lines.extend(self.hold.map(|hold| match hold {
            Hold::Day(day) => format!("rest {day}"),
            Hold::UntilTold => "wait".to_string(),
        }));
        lines.extend(self.settling.map(|Settling { exercise, number, before, after, minute }| {
            format!("settling {exercise} {number} {} {} {minute}", before.value(), after.value())
        }));
        let easier = self.easier.iter().enumerate().filter(|(_, easier)| **easier);
        lines.extend(easier.map(|(at, _)| format!("easier {at}")));
        lines.join("\n")
    }

    /// The course of a text; `None` when it is not one.
    #[must_use]
    pub fn decode(text: &str) -> Option<Course> {
        let rest_of = |word: &str| value(text, word);
        let mut course = Course::new(Sheet::decode(rest_of("sheet")?).ok()?);
        course.log = Log::decode(rest_of("log")?).ok().filter(|log| log.belongs_to(&course.sheet))?;
        course.language = Language::from_tag(rest_of("language")?)?;
        course.opened = rest_of("opened")?.parse().ok()?;
        course.read = text.lines().any(|line| line == "read");
        course.first = rest_of("first").and_then(|day| day.parse().ok());
        course.hold = match (text.lines().any(|line| line == "wait"), rest_of("rest")) {
            (true, _) => Some(Hold::UntilTold),
            (false, day) => day.and_then(|day| day.parse().ok()).map(Hold::Day),
        };
        course.settling = rest_of("settling").and_then(|values| settling(values, course.sheet.entries.len()));
        for at in text.lines().filter_map(|line| line.strip_prefix("easier ")?.parse::<usize>().ok()) {
            if let Some(easier) = course.easier.get_mut(at) {
                *easier = true;
            }
        }
        Some(course)
    }
}

/// What stands behind a word at the beginning of a line.
pub(super) fn value<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    text.lines().find_map(|line| line.split_once(' ').filter(|(first, _)| *first == word).map(|(_, rest)| rest))
}

fn settling(values: &str, exercises: usize) -> Option<Settling> {
    let mut values = values.split(' ');
    let exercise = values.next()?.parse().ok().filter(|exercise| *exercise < exercises)?;
    let number = values.next()?.parse().ok()?;
    let mut rating = || values.next()?.parse().ok().and_then(Rating::new);
    let (before, after) = (rating()?, rating()?);
    let minute = values.next()?.parse().ok()?;
    Some(Settling { exercise, number, before, after, minute })
}
