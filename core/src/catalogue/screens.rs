//! Texts of the practitioner's screens. English is its own key there, and another language is a table from it.
//!
//! A table is written as `"English" = "text";`, in the order of the screens, and covers what the app's sources say and
//! every static word of tasks and forms. Sentences that are composed from findings stay English.

use super::Language;

/// Languages the screens are offered in. Only those whose table is complete stand here, which a test works out.
pub static OFFERED: &[Language] = &[Language::English];

/// A screen's text in this language, else the English itself.
#[must_use]
pub fn screen(language: Language, english: &str) -> &str {
    find(table(language), english).unwrap_or(english)
}

/// The table of a language, English and its text; empty for English, and for one that is not begun.
#[must_use]
pub fn table(language: Language) -> &'static [(&'static str, &'static str)] {
    match language {
        Language::English | Language::Spanish => &[],
    }
}

fn find<'a>(table: &[(&str, &'a str)], english: &str) -> Option<&'a str> {
    table.iter().find(|(known, _)| *known == english).map(|(_, text)| *text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_found_by_its_english_and_what_is_missing_stays_english() {
        let table = [("Hand over", "Übergeben"), ("{count} visits", "{count} Besuche")];
        assert_eq!(find(&table, "Hand over"), Some("Übergeben"));
        assert_eq!(find(&table, "{count} visits"), Some("{count} Besuche"));
        assert_eq!(find(&table, "hand over"), None);
        assert_eq!(screen(Language::English, "Hand over"), "Hand over");
        assert_eq!(screen(Language::Spanish, "Nobody has put this into Spanish"), "Nobody has put this into Spanish");
    }
}
