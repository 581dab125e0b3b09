//! Answers as words, by the labels of their form; words that came from outside are set apart.

use crate::calendar::long_date;
use crate::capture::answer::{Answer, Answers};
use crate::capture::form::{Form, Kind, label};
use crate::document::foreign;

/// The answer to a question in words; `None` when it was not answered or is not of the question's kind.
pub fn answer(form: &'static Form, answers: &Answers, key: &str) -> Option<String> {
    let field = form.field(key)?;
    match (&field.kind, answers.get(key)?) {
        (Kind::One(choices), Answer::One(id)) => Some(foreign(label(choices, id))),
        (Kind::Many { none, .. }, Answer::Many(ids)) if ids.is_empty() => Some((*none).to_string()),
        (Kind::Many { choices, .. }, Answer::Many(ids)) => {
            Some(ids.iter().map(|id| lower(&foreign(label(choices, id)))).collect::<Vec<_>>().join(", "))
        }
        (Kind::Text { .. }, Answer::Text(text)) => Some(foreign(text)).filter(|text| !text.is_empty()),
        (Kind::Day, Answer::Day(day)) => Some(long_date(*day)),
        (Kind::Number(quantity), Answer::Number(value)) => Some(quantity.show(*value)),
        // Ratings, trials, series and grids are told by the findings made from them.
        _ => None,
    }
}

/// The same words with a small first letter, unless the second is a capital too.
pub fn lower(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(_), Some(second)) if second.is_uppercase() => text.to_string(),
        (Some(first), _) => first.to_lowercase().chain(chars).collect(),
        (None, _) => String::new(),
    }
}

/// The sentence with exactly one full stop at its end, unless it ends in another closing mark.
pub fn sentence(text: &str) -> String {
    let text = text.trim_end();
    if text.is_empty() || text.ends_with(['.', '!', '?']) { text.to_string() } else { format!("{text}.") }
}

/// "a, b and c".
pub fn and(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [start @ .., last] => format!("{} and {last}", start.join(", ")),
    }
}

/// "1 task", "2 tasks".
pub fn counted(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}
