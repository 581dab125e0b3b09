//! A little HTML: words are escaped, buttons carry what a tap on them means.

use super::act::Act;
use crate::catalogue::{Language, filled, text};

/// Text that may stand inside an element or an attribute.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

/// The words of one language, ready for a page.
#[derive(Clone, Copy)]
pub(super) struct Words(pub Language);

impl Words {
    /// A text.
    pub fn say(self, key: &str) -> String {
        escape(text(self.0, key))
    }

    /// A text with its gaps filled in.
    pub fn fill(self, key: &str, values: &[(&str, &str)]) -> String {
        escape(&filled(self.0, key, values))
    }

    /// A button.
    pub fn button(self, class: &str, act: Act, key: &str) -> String {
        button(class, act, &self.say(key))
    }
}

/// A button with words that are escaped already.
pub(super) fn button(class: &str, act: Act, words: &str) -> String {
    format!("<button type=\"button\" class=\"{class}\" data-act=\"{act}\">{words}</button>")
}

/// A button that opens or closes what stands beside it.
pub(super) fn toggle(act: Act, open: bool, words: &str) -> String {
    format!("<button type=\"button\" class=\"plain\" data-act=\"{act}\" aria-expanded=\"{open}\">{words}</button>")
}

/// A list of texts that are escaped already.
pub(super) fn list(tag: &str, items: impl IntoIterator<Item = String>) -> String {
    let items: String = items.into_iter().map(|item| format!("<li>{item}</li>")).collect();
    format!("<{tag}>{items}</{tag}>")
}

/// The emergency call: a link that dials, or words where the number is not known.
pub(super) fn emergency(words: Words, number: &str) -> String {
    // Digits only by construction; anything else is not made into a link.
    if number.is_empty() || !number.bytes().all(|byte| byte.is_ascii_digit()) {
        return format!("<p class=\"call\"><strong>{}</strong></p>", words.say("call.emergency_none"));
    }
    let said = words.fill("call.emergency", &[("number", number)]);
    format!("<p class=\"call\"><a href=\"tel:{number}\">{said}</a></p>")
}
