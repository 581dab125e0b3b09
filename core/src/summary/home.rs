//! Practice at home: what was given to take home at this visit, and what came back since an earlier one.

use super::heading;
use super::words::{lower, sentence};
use crate::advice::Advice;
use crate::capture::home::{Despite, Given};
use crate::capture::visit::Visit;
use crate::catalogue::Language;
use crate::document::{Block, Said, foreign};
use crate::exercise;
use crate::home_practice::practised;
use crate::sheet::{Entry, Sheet, dose_lines};
use crate::tolerance::Limits;

/// What came back; nothing when no log did.
pub fn since(visit: &Visit, visits: &[Visit]) -> Vec<Block> {
    if visit.logs.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Practised at home since")];
    for practised in practised(visit, visits) {
        let key = ["home.log"];
        let lines = practised.lines().into_iter().map(|line| Said::new(line, &key)).collect();
        blocks.extend([Block::Heading { level: 3, text: practised.title() }, Block::List(lines)]);
    }
    blocks
}

/// What was given; nothing when no sheet was.
pub fn given(visit: &Visit) -> Vec<Block> {
    if visit.sheets.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Given to take home")];
    blocks.extend(visit.sheets.iter().flat_map(sheet));
    blocks
}

fn sheet(given: &Given) -> Vec<Block> {
    let key = ["home.sheet"];
    let signed = match foreign(&given.by) {
        by if by.is_empty() => format!("Signed off at {}.", given.at.clock()),
        by => format!("Signed off by {by} at {}.", given.at.clock()),
    };
    let sheet = match Sheet::decode(&given.text) {
        Ok(sheet) => sheet,
        Err(why) => {
            let said = format!("{signed} The sheet cannot be read here. {why}");
            return vec![Block::Paragraph(Said::new(said, &key))];
        }
    };
    let lines: Vec<Said> = lines(given, &sheet).into_iter().map(|line| Said::new(line, &key)).collect();
    vec![Block::List(lines), Block::Note(Said::new(format!("{signed} {}", rule(&sheet)), &key))]
}

/// Exercises with their doses, advice, and what is given although something speaks against it.
pub fn lines(given: &Given, sheet: &Sheet) -> Vec<String> {
    let exercises = sheet.entries.iter().map(exercise_line);
    let advice = sheet.advice.iter().map(|advice| advice_line(advice));
    exercises.chain(advice).chain(given.despite.iter().map(despite_line)).collect()
}

/// "Pencil toward the nose: 10 times. 2 times a day. 5 days a week. For 4 weeks."
fn exercise_line(entry: &Entry) -> String {
    format!("{}: {}", entry.exercise.title, dose_lines(Language::English, &entry.dose).join(" "))
}

fn advice_line(advice: &Advice) -> String {
    format!("Advice: {}.", lower(advice.title))
}

fn despite_line(despite: &Despite) -> String {
    let title = exercise::by_id(&despite.exercise).map_or_else(|| foreign(&despite.exercise), |e| e.title.to_string());
    sentence(&format!("{title} is given although something speaks against it: {}", lower(&foreign(&despite.why))))
}

/// What symptoms may do, in which language, and who stays beside.
fn rule(sheet: &Sheet) -> String {
    let Limits { rise, minutes } = sheet.limits;
    let points = if rise == 1 { "point" } else { "points" };
    let helper = if sheet.helper { " An adult stays beside the child." } else { "" };
    let language = match sheet.language {
        Language::English => "English",
        Language::Spanish => "Spanish",
    };
    format!(
        "Symptoms may rise by {rise} {points} of 10 for less than {minutes} minutes; beyond that the sheet says stop and \
         rest. In {language}.{helper}"
    )
}
