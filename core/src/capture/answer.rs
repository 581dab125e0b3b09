//! Answers: the values a form can hold, whatever the task.

use crate::calendar::Date;

/// One answer. An unanswered field has no answer at all: absent is never zero.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// One of a list, by its id.
    One(String),
    /// Any of a list, by their ids, in the order of the list; empty means "none of these", which was asked.
    Many(Vec<String>),
    /// A number in the unit of the field's quantity.
    Number(f64),
    /// Free text.
    Text(String),
    /// A day.
    Day(Date),
    /// Ratings by item id, each 0 to 10.
    Ratings(Vec<(String, u8)>),
    /// Repeated trials in the order they were done.
    Trials(Vec<Trial>),
    /// Taps in the order they were made, with the runs they belong to.
    Series(Series),
    /// A table of grades.
    Grid(Vec<Cell>),
}

/// One trial of a repeated measurement: answers to the trial's own fields.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Trial {
    /// Milliseconds after the record was started.
    pub at_ms: u32,
    /// Answers by field key.
    pub answers: Answers,
}

/// How a tap came about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Made {
    /// The examiner tapped it.
    Tapped,
    /// A beat passed without an exception being tapped.
    Paced,
    /// A beat passed and the examiner then tapped an exception to it.
    PacedThenTapped,
}

/// One tap on a pad.
#[derive(Debug, Clone, PartialEq)]
pub struct Tap {
    /// Milliseconds after the record was started.
    pub at_ms: u32,
    /// The pad: a direction, by its id.
    pub pad: String,
    /// What was seen, by the mark's id.
    pub mark: String,
    /// What was seen besides, by the ids of the form's additional marks.
    pub also: Vec<String>,
    /// How it came about.
    pub made: Made,
}

/// A stretch of time in which taps were made on one pad, or on all.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The pad's id; empty when the run covers all pads.
    pub pad: String,
    /// Start, milliseconds after the record was started.
    pub from_ms: u32,
    /// End, if it was ended.
    pub to_ms: Option<u32>,
    /// Beats per minute when the app gave the pace.
    pub bpm: Option<f64>,
}

/// Taps and runs of one record.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Series {
    /// Runs in time order.
    pub runs: Vec<Run>,
    /// Taps in time order.
    pub taps: Vec<Tap>,
}

impl Series {
    /// Taps on one pad, in order.
    pub fn on<'a>(&'a self, pad: &'a str) -> impl Iterator<Item = &'a Tap> + 'a {
        self.taps.iter().filter(move |tap| tap.pad == pad)
    }

    /// Seconds that the ended runs on this pad lasted together; `None` when no run of it was ended.
    #[must_use]
    pub fn seconds(&self, pad: &str) -> Option<f64> {
        let ended = self.runs.iter().filter(|run| run.pad == pad);
        let total: u32 = ended.filter_map(|run| run.to_ms.map(|to| to.saturating_sub(run.from_ms))).sum();
        (total > 0).then(|| f64::from(total) / 1000.0)
    }
}

/// One cell of a table of grades.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Row id.
    pub row: String,
    /// Column id.
    pub column: String,
    /// The grade's id.
    pub grade: String,
    /// The cycle from which on this grade was seen, counted from 1; `None` when from the start or not noted.
    pub from_cycle: Option<u8>,
}

/// Answers by field key, in the order they were first given.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answers(Vec<(String, Answer)>);

impl Answers {
    /// The answer to a field.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Answer> {
        self.0.iter().find(|(k, _)| k == key).map(|(_, answer)| answer)
    }

    /// Sets or, with `None`, takes away an answer; returns what stood there before.
    pub fn set(&mut self, key: &str, answer: Option<Answer>) -> Option<Answer> {
        let at = self.0.iter().position(|(k, _)| k == key);
        match (at, answer) {
            (Some(at), Some(answer)) => Some(std::mem::replace(&mut self.0[at].1, answer)),
            (Some(at), None) => Some(self.0.remove(at).1),
            (None, Some(answer)) => {
                self.0.push((key.to_string(), answer));
                None
            }
            (None, None) => None,
        }
    }

    /// All answers in order.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Answer)> {
        self.0.iter().map(|(key, answer)| (key.as_str(), answer))
    }

    /// Whether nothing was answered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The id of a one-of answer.
    #[must_use]
    pub fn one(&self, key: &str) -> Option<&str> {
        match self.get(key)? {
            Answer::One(id) => Some(id),
            _ => None,
        }
    }

    /// The ids of an any-of answer; `None` when it was not asked.
    #[must_use]
    pub fn many(&self, key: &str) -> Option<&[String]> {
        match self.get(key)? {
            Answer::Many(ids) => Some(ids),
            _ => None,
        }
    }

    /// A number.
    #[must_use]
    pub fn number(&self, key: &str) -> Option<f64> {
        match self.get(key)? {
            Answer::Number(value) => Some(*value),
            _ => None,
        }
    }

    /// Text that is not blank.
    #[must_use]
    pub fn text(&self, key: &str) -> Option<&str> {
        match self.get(key)? {
            Answer::Text(text) => Some(text.trim()).filter(|t| !t.is_empty()),
            _ => None,
        }
    }

    /// A day.
    #[must_use]
    pub fn day(&self, key: &str) -> Option<Date> {
        match self.get(key)? {
            Answer::Day(date) => Some(*date),
            _ => None,
        }
    }

    /// Ratings.
    #[must_use]
    pub fn ratings(&self, key: &str) -> Option<&[(String, u8)]> {
        match self.get(key)? {
            Answer::Ratings(ratings) => Some(ratings),
            _ => None,
        }
    }

    /// Trials; none when the field was not answered.
    #[must_use]
    pub fn trials(&self, key: &str) -> &[Trial] {
        match self.get(key) {
            Some(Answer::Trials(trials)) => trials,
            _ => &[],
        }
    }

    /// Taps and runs.
    #[must_use]
    pub fn series(&self, key: &str) -> Option<&Series> {
        match self.get(key)? {
            Answer::Series(series) => Some(series),
            _ => None,
        }
    }

    /// The cell of a grid.
    #[must_use]
    pub fn cell(&self, key: &str, row: &str, column: &str) -> Option<&Cell> {
        match self.get(key)? {
            Answer::Grid(cells) => cells.iter().find(|cell| cell.row == row && cell.column == column),
            _ => None,
        }
    }
}

impl FromIterator<(String, Answer)> for Answers {
    fn from_iter<I: IntoIterator<Item = (String, Answer)>>(pairs: I) -> Self {
        let mut answers = Answers::default();
        for (key, answer) in pairs {
            answers.set(&key, Some(answer));
        }
        answers
    }
}
