//! A document as blocks: what is printed, pasted or exported, before any format is chosen.

use crate::evidence::Level;
use crate::figure::Figure;
use crate::finding::Grade;

/// A document.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Title.
    pub title: String,
    /// Blocks in reading order.
    pub blocks: Vec<Block>,
}

/// A sentence, or a few, with the keys of the findings it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// The words.
    pub text: String,
    /// Keys of findings, flags or answers behind it.
    pub from: Vec<String>,
}

/// One block.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading; level 1 is the title's, so blocks use 2 and 3.
    Heading {
        /// 2 or 3.
        level: u8,
        /// Its text.
        text: String,
    },
    /// A paragraph.
    Paragraph(Said),
    /// Something that must not be overlooked.
    Alert(Said),
    /// A graded finding: headline, grade, sentences.
    Graded {
        /// Its grade.
        grade: Grade,
        /// Its headline.
        headline: Said,
        /// Its sentences.
        details: Vec<Said>,
    },
    /// A headline whose further sentences open in place; it stands to no range.
    Folded {
        /// Its headline.
        headline: Said,
        /// Its sentences, the first always in sight.
        details: Vec<Said>,
    },
    /// A reading of side or region: headline, grade of evidence, sentences.
    Reading {
        /// How well it is supported.
        level: Level,
        /// Its headline.
        headline: Said,
        /// Its sentences, the first always in sight.
        details: Vec<Said>,
    },
    /// A list.
    List(Vec<Said>),
    /// Names and values.
    Facts(Vec<(String, Said)>),
    /// A table.
    Table {
        /// What the table shows.
        caption: String,
        /// Column heads.
        head: Vec<String>,
        /// Rows of cells.
        rows: Vec<Vec<String>>,
    },
    /// A drawing.
    Figure(Figure),
    /// Small print: sources, versions.
    Note(Said),
}

/// Starts words that came from outside: Unicode FIRST STRONG ISOLATE. The HTML export turns it into `<bdi>`.
pub const ISOLATE: char = '\u{2068}';
/// Ends them: Unicode POP DIRECTIONAL ISOLATE.
pub const END_ISOLATE: char = '\u{2069}';

/// Words that came from outside (a name, a note), ready to stand in a sentence: on one line, without control characters,
/// and set apart when they are not plain ASCII so that their writing direction cannot reorder the words around them.
#[must_use]
pub fn foreign(text: &str) -> String {
    let kept = |c: &char| !matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}');
    let clean: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).filter(kept).collect();
    let line = clean.split_whitespace().collect::<Vec<_>>().join(" ");
    if line.is_ascii() { line } else { format!("{ISOLATE}{line}{END_ISOLATE}") }
}

impl Said {
    /// Words that rest on these keys.
    #[must_use]
    pub fn new(text: impl Into<String>, from: &[&str]) -> Said {
        Said { text: text.into(), from: from.iter().map(|key| (*key).to_string()).collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn foreign_words_cannot_reorder_or_break_the_line() {
        assert_eq!(foreign("  R-21\n<b> "), "R-21 <b>");
        assert_eq!(foreign("\u{202E}דנה\u{2069} x"), "\u{2068}דנה x\u{2069}");
        assert_eq!(foreign("a\u{0007}b"), "a b");
    }
}
