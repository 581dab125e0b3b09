//! How hard a text is to read: the Flesch-Kincaid grade for English, two formulas for Spanish.
//!
//! Formulas look at the length of words and sentences and nothing else: they are a first check, and no proof that a family
//! understands. Syllables are counted by rule, so that no word list has to travel along.

mod english;
mod spanish;

#[cfg(test)]
mod tests;

use crate::evidence::Citation;

/// Flesch-Kincaid, as restated by a health service's glossary.
pub static FLESCH_KINCAID: Citation = Citation {
    short: "Flesch-Kincaid grade",
    place: "0.39 words a sentence + 11.8 syllables a word - 15.59; as given in a research glossary (term 112)",
    link: "webarchive.library.unt.edu/eot2008/20090115223043/http:/www.hsrd.research.va.gov",
};
/// Szigriszt-Pazos.
pub static SZIGRISZT: Citation = Citation {
    short: "Szigriszt-Pazos perspicuity",
    place: "206.835 - 62.3 syllables a word - words a sentence",
    link: "legible.es/blog/perspicuidad-szigriszt-pazos/",
};
/// The bands for Spanish readers.
pub static INFLESZ: Citation = Citation {
    short: "INFLESZ scale",
    place: "bands of the Szigriszt-Pazos value for Spanish readers; 210 publications",
    link: "scielo.isciii.es/scielo.php?pid=S1137-66272008000300004&script=sci_arttext",
};
/// Fernández Huerta, corrected.
pub static FERNANDEZ_HUERTA: Citation = Citation {
    short: "Fernández Huerta, corrected reading",
    place: "206.84 - 60 syllables a word - 1.02 words a sentence; 90 to 100 is 4th grade, 60 to 70 normal",
    link: "legible.es/blog/lecturabilidad-fernandez-huerta/",
};
/// What to aim for.
pub static SIXTH_GRADE: Citation = Citation {
    short: "a review of patient materials in orthopaedics",
    place: "6th grade or lower is recommended (AMA, NIH); US adults read at about 8th",
    link: "link.springer.com/10.1007/s11999-014-4071-2",
};

/// The highest grade a family text may have.
pub const HIGHEST_GRADE: f64 = 6.0;

/// The lowest Szigriszt-Pazos value a family text may have: where "fairly easy" begins on the INFLESZ scale.
pub const LOWEST_SZIGRISZT: f64 = 65.0;

/// The lowest Fernández Huerta value: 70 to 80 is 6th grade (from memory; 60 to 70 is normal in the source).
pub const LOWEST_HUERTA: f64 = 70.0;

/// What the formulas count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Words.
    pub words: usize,
    /// Sentences.
    pub sentences: usize,
    /// Syllables.
    pub syllables: usize,
}

impl Counts {
    /// Counts of an English text.
    #[must_use]
    pub fn english(text: &str) -> Counts {
        Counts::of(text, english::syllables)
    }

    /// Counts of a Spanish text.
    #[must_use]
    pub fn spanish(text: &str) -> Counts {
        Counts::of(text, spanish::syllables)
    }

    fn of(text: &str, syllables: fn(&str) -> usize) -> Counts {
        let words: Vec<&str> = words(text).collect();
        Counts {
            words: words.len(),
            sentences: sentences(text),
            syllables: words.into_iter().map(|word| word.split('-').map(syllables).sum::<usize>()).sum(),
        }
    }

    /// Flesch-Kincaid grade; below 0 for very short words.
    #[must_use]
    pub fn grade(self) -> f64 {
        0.39 * self.words_a_sentence() + 11.8 * self.syllables_a_word() - 15.59
    }

    /// Szigriszt-Pazos: higher is easier.
    #[must_use]
    pub fn szigriszt(self) -> f64 {
        206.835 - 62.3 * self.syllables_a_word() - self.words_a_sentence()
    }

    /// Fernández Huerta in the corrected reading: higher is easier.
    #[must_use]
    pub fn huerta(self) -> f64 {
        206.84 - 60.0 * self.syllables_a_word() - 1.02 * self.words_a_sentence()
    }

    fn words_a_sentence(self) -> f64 {
        ratio(self.words, self.sentences)
    }

    fn syllables_a_word(self) -> f64 {
        ratio(self.syllables, self.words)
    }
}

/// Band of a Szigriszt-Pazos value on the INFLESZ scale; a limit belongs to the easier band.
#[must_use]
pub fn inflesz(szigriszt: f64) -> &'static str {
    match szigriszt {
        value if value >= 80.0 => "muy fácil",
        value if value >= 65.0 => "bastante fácil",
        value if value >= 55.0 => "normal",
        value if value >= 40.0 => "algo difícil",
        _ => "muy difícil",
    }
}

/// Texts as one passage: a line without an end gets a full stop, else a list reads as one long sentence.
#[must_use]
pub fn joined<'a>(texts: impl IntoIterator<Item = &'a str>) -> String {
    let mut passage = String::new();
    for text in texts {
        let text = text.trim();
        let end = if text.ends_with(['.', '!', '?']) { "" } else { "." };
        passage.push_str(&format!("{text}{end} "));
    }
    passage.trim_end().to_string()
}

/// Words of a text: letters and digits, with apostrophes and hyphens inside.
pub fn words(text: &str) -> impl Iterator<Item = &str> {
    let inside = |c: char| c.is_alphanumeric() || c == '\'' || c == '’' || c == '-';
    text.split(move |c| !inside(c)).map(|word| word.trim_matches(['\'', '’', '-'])).filter(|word| !word.is_empty())
}

/// An end of sentence is a point, an exclamation or a question mark in front of a blank or the end.
fn sentences(text: &str) -> usize {
    let text = text.trim();
    let ends = text.char_indices().filter(|(_, c)| matches!(c, '.' | '!' | '?'));
    let count = ends.filter(|(at, _)| text[at + 1..].chars().next().is_none_or(char::is_whitespace)).count();
    let open = !text.is_empty() && !text.ends_with(['.', '!', '?']);
    count + usize::from(open)
}

fn ratio(of: usize, to: usize) -> f64 {
    #[allow(clippy::cast_precision_loss)]
    let (of, to) = (of as f64, to as f64);
    if to == 0.0 { 0.0 } else { of / to }
}
