//! Every text a family reads, by key, in each language. Texts are data: `catalogue/en.rs`, `catalogue/es.rs`.
//!
//! Words in braces are filled in by [`filled`]. A family's language is its own choice, made on the sheet.

/// A table of texts, one `"key" = "text";` a line.
macro_rules! texts {
    ($($key:literal = $text:literal;)+) => {
        /// Key and text, in reading order.
        pub(super) static TEXTS: &[(&str, &str)] = &[$(($key, $text)),+];
    };
}

mod en;
mod es;
pub mod screens;

#[cfg(test)]
mod tests;

/// A language that is complete.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// English.
    English,
    /// Spanish. It needs a clinician's reading.
    Spanish,
}

impl Language {
    /// Every language, in the order it is offered.
    pub const ALL: [Language; 2] = [Language::English, Language::Spanish];

    /// The tag a page carries (BCP 47): "en".
    #[must_use]
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
        }
    }

    /// Its own name, as its readers look for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Language::English => "English",
            Language::Spanish => "Español",
        }
    }

    /// The language of a tag such as "es-MX", by its first part.
    #[must_use]
    pub fn from_tag(tag: &str) -> Option<Language> {
        let first = tag.split(['-', '_']).next().unwrap_or_default().to_ascii_lowercase();
        Language::ALL.into_iter().find(|language| language.tag() == first)
    }

    /// Its texts, key and text, in reading order.
    #[must_use]
    pub fn texts(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Language::English => en::TEXTS,
            Language::Spanish => es::TEXTS,
        }
    }
}

/// A text in this language, else in English; empty when there is no such key, which a test keeps from happening.
#[must_use]
pub fn text(language: Language, key: &str) -> &'static str {
    find(language, key).or_else(|| find(Language::English, key)).unwrap_or_default()
}

/// A text with its words in braces filled in: `filled(language, "call.emergency", &[("number", "112")])`.
#[must_use]
pub fn filled(language: Language, key: &str, values: &[(&str, &str)]) -> String {
    fill(text(language, key), values)
}

/// Any text with its words in braces filled in; a word that nobody gives stays as it stands.
#[must_use]
pub fn fill(text: &str, values: &[(&str, &str)]) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    // One pass: what is filled in is never read for braces again.
    while let Some((before, behind)) = rest.split_once('{') {
        out.push_str(before);
        let Some((name, after)) = behind.split_once('}') else {
            out.push('{');
            rest = behind;
            continue;
        };
        match values.iter().find(|(known, _)| *known == name) {
            Some((_, value)) => out.push_str(value),
            None => out.push_str(&format!("{{{name}}}")),
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// The words in braces of a text, sorted.
#[must_use]
pub fn placeholders(text: &str) -> Vec<&str> {
    let parts = text.split('{').skip(1).filter_map(|part| part.split_once('}'));
    let mut names: Vec<&str> = parts.map(|(name, _)| name).collect();
    names.sort_unstable();
    names
}

/// Texts that are read together as one passage: an exercise, the list of danger signs. Each is the keys that share a start.
#[must_use]
pub fn passages(language: Language) -> Vec<(&'static str, Vec<&'static str>)> {
    let mut passages: Vec<(&str, Vec<&str>)> = Vec::new();
    for (key, text) in language.texts() {
        let name = key.rsplit_once('.').map_or(*key, |(start, _)| start);
        match passages.iter_mut().find(|(known, _)| *known == name) {
            Some((_, texts)) => texts.push(text),
            None => passages.push((name, vec![text])),
        }
    }
    passages
}

fn find(language: Language, key: &str) -> Option<&'static str> {
    language.texts().iter().find(|(known, _)| *known == key).map(|(_, text)| *text)
}
