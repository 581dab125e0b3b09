//! Practice at home as it is stored: the sheets that were given at a visit, and the logs that came back at one.
//!
//! Both are kept as the texts that travel, so that what a family holds and what the practice has can be set side by side.

use super::unread::Unread;
use crate::calendar::Moment;

/// Most sheets and most logs of one visit.
pub const MOST: usize = 20;

/// Most characters of a reason or a name.
pub const LONGEST_WORDS: usize = 400;

/// A sheet that was signed off and given.
#[derive(Debug, Clone, PartialEq)]
pub struct Given {
    /// When it was signed off.
    pub at: Moment,
    /// Who signed it off; stays in the practice.
    pub by: String,
    /// The language it opens in, by its code ("en").
    pub language: String,
    /// The sheet itself, as the text of its link.
    pub text: String,
    /// Exercises something speaks against, with why they are given all the same.
    pub despite: Vec<Despite>,
    /// What this program cannot read.
    pub unread: Unread,
}

/// Why an exercise is given although something speaks against it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Despite {
    /// The exercise's id.
    pub exercise: String,
    /// The practitioner's reason.
    pub why: String,
}

/// A log that came back.
#[derive(Debug, Clone, PartialEq)]
pub struct Returned {
    /// When it was taken in.
    pub at: Moment,
    /// How it came.
    pub how: How,
    /// The text of the log, or six numbers.
    pub text: String,
    /// What this program cannot read.
    pub unread: Unread,
}

/// How a log came back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// A code was scanned.
    Code,
    /// A file was opened.
    File,
    /// The text of a message was pasted.
    Message,
    /// Six numbers were read aloud.
    Numbers,
}
