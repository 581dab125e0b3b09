//! What the screens say, in the language of this device. English is its own key, so that code stays readable:
//! `say!("Hand over")`, `say!("{count} visits cannot be read.", count)`.
//!
//! Static words of tasks and forms are put into the language by [`of`], where they are shown. A text that a table lacks is
//! shown in English.

use std::cell::Cell;
use std::fmt::Display;

use sidelight_core::capture::form::Choice;
use sidelight_core::catalogue::screens::{OFFERED, screen};
use sidelight_core::catalogue::{self, Language};

thread_local! {
    static LANGUAGE: Cell<Language> = const { Cell::new(Language::English) };
}

/// A text of the screens: as it stands, or with its words in braces filled in. That the words fit is checked when it is
/// compiled.
macro_rules! say {
    ($text:literal) => {{
        const { assert!($crate::words::fits($text, &[]), "a text has words in braces that nothing fills in") };
        $crate::words::of($text)
    }};
    ($text:literal, $($name:ident $(= $value:expr)?),+ $(,)?) => {{
        const { assert!($crate::words::fits($text, &[$(stringify!($name)),+]), "words in braces and values differ") };
        $crate::words::filled($text, &[$((stringify!($name), &say!(@ $name $($value)?) as &dyn ::std::fmt::Display)),+])
    }};
    (@ $name:ident) => { $name };
    (@ $name:ident $value:expr) => { $value };
}

/// A text that is kept in a table or a constant, and put into the language by [`of`] where it is shown.
macro_rules! text {
    ($text:literal) => {
        $text
    };
}

/// The text of one, or of any other count, in which `{count}` is filled in.
macro_rules! counted {
    ($count:expr, $one:literal, $many:literal) => {
        match $count {
            1 => say!($one).to_string(),
            count => say!($many, count),
        }
    };
}

/// Takes the language with this tag, where the screens are offered in it.
pub fn speak(tag: &str) {
    let offered = Language::from_tag(tag).filter(|language| OFFERED.contains(language));
    LANGUAGE.set(offered.unwrap_or(Language::English));
}

/// The language of the screens.
#[must_use]
pub fn language() -> Language {
    LANGUAGE.get()
}

/// A text of the screens, or a static word of a task or form; what is in no table comes back as it is.
#[must_use]
pub fn of(english: &str) -> &str {
    screen(language(), english)
}

/// The label of a choice; the id itself when the list does not know it.
#[must_use]
pub fn label<'a>(choices: &'a [Choice], id: &'a str) -> &'a str {
    choices.iter().find(|choice| choice.id == id).map_or(id, |choice| of(choice.label))
}

/// A text with its words in braces filled in.
#[must_use]
pub fn filled(english: &str, values: &[(&str, &dyn Display)]) -> String {
    let values: Vec<(&str, String)> = values.iter().map(|(name, value)| (*name, value.to_string())).collect();
    let values: Vec<(&str, &str)> = values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    catalogue::fill(of(english), &values)
}

/// Stands in a text for what is drawn in a way of its own, such as a name.
pub const HERE: char = '\u{fffc}';

/// What stands before and behind [`HERE`].
#[must_use]
pub fn around(text: &str) -> (String, String) {
    let (before, after) = text.split_once(HERE).unwrap_or((text, ""));
    (before.to_string(), after.to_string())
}

/// A phrase as a sentence.
pub fn sentence(phrase: &str) -> String {
    let mut letters = phrase.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    let end = if phrase.ends_with(['.', '?', '!']) { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

/// Sentences one behind the other; an empty one is none.
#[must_use]
pub fn sentences(all: &[&str]) -> String {
    all.iter().copied().filter(|sentence| !sentence.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Whether the words in braces of a text are these names, none missing and none too many.
#[must_use]
pub const fn fits(text: &str, names: &[&str]) -> bool {
    let text = text.as_bytes();
    let mut seen = 0;
    let mut at = 0;
    while at < text.len() {
        if text[at] == b'{' {
            let from = at + 1;
            while at < text.len() && text[at] != b'}' {
                at += 1;
            }
            match place(text, from, at, names) {
                Some(index) => seen |= 1 << index,
                None => return false,
            }
        }
        at += 1;
    }
    seen == (1u32 << names.len()) - 1
}

/// Which of the names stands in the text from here to there.
const fn place(text: &[u8], from: usize, to: usize, names: &[&str]) -> Option<u32> {
    let mut index = 0;
    while index < names.len() {
        let name = names[index].as_bytes();
        let mut same = 0;
        while same < name.len() && from + same < to && name[same] == text[from + same] {
            same += 1;
        }
        if same == name.len() && from + same == to {
            return Some(index as u32);
        }
        index += 1;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn words_in_braces_are_filled_in_by_name_and_once() {
        let count = 3;
        assert_eq!(say!("{count} visits of {who}", who = "{count} people", count), "3 visits of {count} people");
        assert_eq!(counted!(1, "1 visit", "{count} visits"), "1 visit");
        assert_eq!(counted!(0, "1 visit", "{count} visits"), "0 visits");
    }

    #[wasm_bindgen_test]
    fn a_name_is_drawn_between_the_words_around_it() {
        let told = say!("{count} visits of {name}.", count = 2, name = HERE);
        assert_eq!(around(&told), ("2 visits of ".to_string(), ".".to_string()));
        assert_eq!(around("none"), ("none".to_string(), String::new()));
    }

    #[wasm_bindgen_test]
    fn a_text_and_its_values_must_fit() {
        assert!(fits("Hand over", &[]));
        assert!(fits("{a} of {b}, {a} again", &["b", "a"]));
        for (text, names) in [("{a}", &[][..]), ("none", &["a"]), ("{ab}", &["a"]), ("{a}", &["ab"]), ("{a", &["b"])] {
            assert!(!fits(text, names), "{text} {names:?}");
        }
    }

    #[wasm_bindgen_test]
    fn a_language_that_is_not_offered_is_english() {
        for tag in ["es", "", "english", "zz"] {
            speak(tag);
            assert_eq!(language(), Language::English, "{tag}");
        }
    }
}
