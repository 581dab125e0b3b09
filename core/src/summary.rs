//! The summary: an assessment as a page a doctor reads in one minute. What decides stands first, how it was worked out last.

mod addenda;
mod compared;
mod emergency;
mod findings;
mod gaps;
mod head;
mod home;
mod how_common;
mod notes;
mod patterns;
mod region;
mod shown;
mod side;
pub mod person;
mod symptoms;
mod tiring;
mod words;
mod working_model;

use crate::assess::Assessment;
use crate::calendar::{Moment, long_date};
use crate::capture::addendum::Addendum;
use crate::capture::home::Given;
use crate::capture::visit::{Person, Visit};
use crate::change::Changes;
use crate::document::{Block, Document, Said};
use crate::sheet::Sheet;

/// The sentence every summary ends with.
pub const NOT_A_DIAGNOSIS: &str = "This is a record of an examination, not a diagnosis and not a clearance to play.";

/// What the summary says about itself.
#[derive(Debug, Clone, Copy)]
pub struct Options<'a> {
    /// Name and version of the program.
    pub program: &'a str,
    /// When it is printed or exported; left out when not given.
    pub printed: Option<Moment>,
    /// What changed since an earlier visit, if there is one.
    pub changes: Option<&'a Changes>,
    /// Corrections of closed visits; those of this visit are told.
    pub addenda: &'a [Addendum],
    /// Visits of the person, among which are those that gave the sheets of logs that came back; this one may be among them.
    pub visits: &'a [Visit],
    /// Whether the working model of the practice school is shown; off in everything that leaves the device.
    pub working_model: bool,
}

impl<'a> Options<'a> {
    /// Options of a summary that names this program and nothing that is off by default.
    #[must_use]
    pub const fn new(program: &'a str) -> Options<'a> {
        Options { program, printed: None, changes: None, addenda: &[], visits: &[], working_model: false }
    }

    /// The same, with the moment of printing.
    #[must_use]
    pub const fn printed_at(self, now: Moment) -> Options<'a> {
        Options { printed: Some(now), ..self }
    }

    /// The same, with what changed since an earlier visit.
    #[must_use]
    pub const fn with_changes(self, changes: &'a Changes) -> Options<'a> {
        Options { changes: Some(changes), ..self }
    }

    /// The same, with what was corrected after closing; addenda of other visits are passed over.
    #[must_use]
    pub const fn with_addenda(self, addenda: &'a [Addendum]) -> Options<'a> {
        Options { addenda, ..self }
    }

    /// The same, with the visits of the person; those of other people are passed over.
    #[must_use]
    pub const fn with_visits(self, visits: &'a [Visit]) -> Options<'a> {
        Options { visits, ..self }
    }

    /// The same, with or without the working model of the practice school.
    #[must_use]
    pub const fn with_working_model(self, shown: bool) -> Options<'a> {
        Options { working_model: shown, ..self }
    }
}

/// Writes the summary of a visit.
///
/// The title carries no name: browsers offer it as a file name.
#[must_use]
pub fn compose(person: &Person, visit: &Visit, assessment: &Assessment, options: &Options<'_>) -> Document {
    let mut blocks = vec![head::facts(person, visit, assessment)];
    blocks.extend(emergency::blocks(visit, assessment));
    blocks.extend(addenda::blocks(visit, options.addenda));
    blocks.extend(findings::in_brief(visit, assessment));
    blocks.extend(region::in_brief(assessment));
    blocks.extend(options.changes.into_iter().flat_map(compared::in_brief));
    blocks.extend(home::since(visit, options.visits));
    blocks.extend(home::given(visit));
    blocks.extend(caveats(assessment));
    blocks.extend(how_common::blocks(assessment));
    blocks.extend(tiring::blocks(assessment));
    blocks.extend(findings::as_expected(assessment));
    blocks.extend(shown::blocks(visit));
    blocks.extend(gaps::blocks(assessment));
    blocks.extend(symptoms::table(assessment));
    blocks.extend(findings::right_against_left(assessment));
    blocks.extend(drawings(assessment));
    blocks.extend(findings::behind(assessment));
    blocks.extend(region::behind(assessment));
    blocks.extend(options.changes.into_iter().flat_map(compared::behind));
    if options.working_model {
        blocks.extend(working_model::blocks(assessment));
    }
    blocks.extend(notes::blocks(visit, assessment, options));
    Document { title: format!("Eye movement examination, {}", long_date(visit.started.date())), blocks }
}

/// The screen "What stands out": the summary's own blocks without the head, the notes and the decision.
#[must_use]
pub fn findings(visit: &Visit, assessment: &Assessment, options: &Options<'_>) -> Document {
    let mut blocks = emergency::blocks(visit, assessment);
    blocks.extend(addenda::blocks(visit, options.addenda));
    blocks.extend(findings::standing_out(visit, assessment));
    blocks.extend(region::blocks(assessment));
    if options.working_model {
        blocks.extend(working_model::blocks(assessment));
    }
    blocks.extend(options.changes.into_iter().flat_map(compared::blocks));
    blocks.extend(home::since(visit, options.visits));
    blocks.extend(caveats(assessment));
    blocks.extend(how_common::blocks(assessment));
    blocks.extend(tiring::blocks(assessment));
    blocks.extend(drawings(assessment));
    blocks.extend(findings::right_against_left(assessment));
    blocks.extend(symptoms::table(assessment));
    blocks.extend(findings::as_expected(assessment));
    blocks.extend(shown::blocks(visit));
    blocks.extend(gaps::blocks(assessment));
    Document { title: "What stands out".to_string(), blocks }
}

/// What came back of practice at home, by itself: what a screen shows while it is taken in.
#[must_use]
pub fn home_practice(visit: &Visit, visits: &[Visit]) -> Document {
    Document { title: "Home practice".to_string(), blocks: home::since(visit, visits) }
}

/// What a sheet asks for, a line each: exercises with their doses, advice, and what is given all the same.
#[must_use]
pub fn sheet_lines(given: &Given, sheet: &Sheet) -> Vec<String> {
    home::lines(given, sheet)
}

fn drawings(assessment: &Assessment) -> Vec<Block> {
    let mut blocks: Vec<Block> = assessment.figures().cloned().map(Block::Figure).collect();
    if !blocks.is_empty() {
        blocks.insert(0, heading("Drawings"));
    }
    blocks
}

fn caveats(assessment: &Assessment) -> Vec<Block> {
    if assessment.caveats.is_empty() {
        return Vec::new();
    }
    let said = assessment.caveats.iter().map(|caveat| Said::new(caveat.says.as_str(), &[&caveat.from]));
    vec![heading("What else can change the result today"), Block::List(said.collect())]
}

fn heading(text: &str) -> Block {
    Block::Heading { level: 2, text: text.to_string() }
}

#[cfg(test)]
mod tests;
