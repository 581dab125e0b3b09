//! A document as blocks: what is printed, pasted or exported, before any format is chosen.

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

impl Said {
    /// Words that rest on these keys.
    #[must_use]
    pub fn new(text: impl Into<String>, from: &[&str]) -> Said {
        Said { text: text.into(), from: from.iter().map(|key| (*key).to_string()).collect() }
    }
}
