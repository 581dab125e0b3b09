//! Practice at home between two visits: which sheet was given, which log came back, and which sheet a log belongs to.
//!
//! A log names its sheet by a mark; six numbers read aloud name none and are set beside the last sheet before the visit.

#[cfg(test)]
mod tests;

use crate::calendar::{Moment, long_date};
use crate::capture::home::{Given, How, Returned};
use crate::capture::visit::Visit;
use crate::catalogue::Language;
use crate::evidence::capital;
use crate::sheet::{Ended, Log, Misheard, Sheet, Spoken, Unreadable};
use crate::sorted;
use crate::tolerance::{Limits, Round, Verdict, judge};
use std::fmt;

/// A log that came back at a visit, as far as it can be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Practised<'a> {
    /// As it is stored.
    pub returned: &'a Returned,
    /// What it says, or why it cannot be read.
    pub content: Result<Content, String>,
    /// Whose sheet it is of.
    pub of: Of<'a>,
}

/// What came back.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// A log, day by day.
    Log(Log),
    /// Six numbers.
    Numbers(Spoken),
}

/// Which earlier sheet a log belongs to.
#[derive(Debug, Clone, PartialEq)]
pub enum Of<'a> {
    /// This one, by its mark.
    Sheet(&'a Given, Sheet),
    /// Numbers name no sheet; this is the last one before the visit.
    Perhaps(&'a Given),
    /// None of the sheets before the visit.
    Other,
    /// No sheet was given before the visit, or none is at hand.
    NoneKnown,
}

/// Why nothing was taken in, as one sentence that says what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotTaken {
    /// The text is no log that can be read.
    Unreadable(Unreadable),
    /// The numbers were misheard.
    Misheard(Misheard),
}

impl fmt::Display for NotTaken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotTaken::Unreadable(why) => why.fmt(f),
            NotTaken::Misheard(why) => why.fmt(f),
        }
    }
}

impl std::error::Error for NotTaken {}

/// How many numbers are read aloud.
pub const NUMBERS: usize = 6;

/// Whether a number of three digits fits its check digit at this place, counted from 0.
#[must_use]
pub fn fits(place: usize, number: &str) -> bool {
    u8::try_from(place + 1).is_ok_and(|place| Spoken::fits(place, number))
}

/// What to store of a text that was scanned, read from a file or typed: the log or the numbers in it and nothing else.
///
/// # Errors
/// [`NotTaken`] says what is wrong and what to do.
pub fn taken(how: How, text: &str) -> Result<String, NotTaken> {
    match how {
        How::Code | How::File | How::Message => Log::decode(text).map(|log| log.encode()).map_err(NotTaken::Unreadable),
        How::Numbers => Spoken::read(text).map(|spoken| spoken.numbers().join(" ")).map_err(NotTaken::Misheard),
    }
}

/// The sheets given to the person of a visit before it began, the latest first, each with the day of its visit.
#[must_use]
pub fn sheets_before<'a>(visit: &Visit, all: &'a [Visit]) -> Vec<&'a Given> {
    let earlier = |other: &&Visit| {
        other.person == visit.person && other.id != visit.id && other.started.unix_ms < visit.started.unix_ms
    };
    let mut sheets: Vec<&Given> = all.iter().filter(earlier).flat_map(|other| &other.sheets).collect();
    sorted::by_key(&mut sheets, |given| std::cmp::Reverse(given.at.unix_ms));
    sheets
}

/// What came back at a visit, in order, with the sheet each belongs to.
#[must_use]
pub fn practised<'a>(visit: &'a Visit, all: &'a [Visit]) -> Vec<Practised<'a>> {
    let sheets = sheets_before(visit, all);
    visit.logs.iter().map(|returned| read(returned, &sheets)).collect()
}

/// The figures of a log by itself, without those of a plan: a share of rounds is known of numbers only. None when it cannot
/// be read.
#[must_use]
pub fn told(returned: &Returned) -> Option<Spoken> {
    match read(returned, &[]).content.ok()? {
        Content::Numbers(spoken) => Some(spoken),
        Content::Log(log) => Some(Spoken::of(&log, &NO_SHEET)),
    }
}

/// A sheet that asks for nothing.
const NO_SHEET: Sheet = Sheet {
    entries: Vec::new(),
    advice: Vec::new(),
    limits: Limits::CONSENSUS,
    emergency: String::new(),
    helper: false,
    language: Language::English,
};

fn read<'a>(returned: &'a Returned, sheets: &[&'a Given]) -> Practised<'a> {
    let content = match returned.how {
        How::Code | How::File | How::Message => {
            Log::decode(&returned.text).map(Content::Log).map_err(|why| why.to_string())
        }
        How::Numbers => Spoken::read(&returned.text).map(Content::Numbers).map_err(|why| why.to_string()),
    };
    let of = match (&content, sheets.first()) {
        (_, None) => Of::NoneKnown,
        (Ok(Content::Numbers(_)), Some(last)) => Of::Perhaps(last),
        (Ok(Content::Log(log)), Some(_)) => sheets.iter().find_map(|given| own(log, given)).unwrap_or(Of::Other),
        (Err(_), Some(_)) => Of::Other,
    };
    Practised { returned, content, of }
}

fn own<'a>(log: &Log, given: &'a Given) -> Option<Of<'a>> {
    let sheet = Sheet::decode(&given.text).ok()?;
    log.belongs_to(&sheet).then_some(Of::Sheet(given, sheet))
}

impl Practised<'_> {
    /// Of which sheet, and how it came: "Sheet of 2 March 2026, by code".
    #[must_use]
    pub fn title(&self) -> String {
        let how = match self.returned.how {
            How::Code => "by code",
            How::File => "from a file",
            How::Message => "from a message",
            How::Numbers => "six numbers read aloud",
        };
        let day = |at: Moment| long_date(at.date());
        match &self.of {
            Of::Sheet(given, _) => format!("Sheet of {}, {how}", day(given.at)),
            Of::Perhaps(given) => format!("{}, set beside the sheet of {}", capital(how), day(given.at)),
            Of::Other => format!("{}, of none of the sheets given here", capital(how)),
            Of::NoneKnown => format!("{}; its sheet is not at hand", capital(how)),
        }
    }

    /// How it went, in sentences: calls for help first, then days, symptoms and what the rule of the sheet says.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        match (&self.content, &self.of) {
            (Err(why), _) => vec![format!("It cannot be read. {why}")],
            (Ok(Content::Numbers(spoken)), _) => {
                let mut lines = spoken.lines();
                lines.push("Six numbers do not say whose they are or which sheet they are of.".to_string());
                lines
            }
            (Ok(Content::Log(log)), Of::Sheet(_, sheet)) => {
                let mut lines = log.lines(sheet);
                lines.extend(by_exercise(log, sheet));
                lines.extend(by_rule(log, sheet));
                lines
            }
            (Ok(Content::Log(log)), Of::Other | Of::NoneKnown | Of::Perhaps(_)) => without_sheet(log),
        }
    }
}

/// Rounds of each exercise: "Rounds done: string with three beads 12; near-far jumps 8."
fn by_exercise(log: &Log, sheet: &Sheet) -> Option<String> {
    let rounds = |at: usize| log.days.iter().filter_map(|day| day.rounds.get(at)).map(|n| u32::from(*n)).sum::<u32>();
    let each: Vec<String> = sheet
        .entries
        .iter()
        .enumerate()
        .map(|(at, entry)| format!("{} {}", lower(entry.exercise.title), rounds(at)))
        .collect();
    (!each.is_empty() && !log.days.is_empty()).then(|| format!("Rounds done: {}.", each.join("; ")))
}

/// On which days the rule of the sheet said stop: the rise of the round in which it rose most.
fn by_rule(log: &Log, sheet: &Sheet) -> Option<String> {
    let rated: Vec<(u8, Verdict)> = log
        .days
        .iter()
        .filter_map(|day| {
            let round = Round { before: day.before?, after: Some(day.after?), settled: None, danger: false };
            Some((day.number, judge(&round, sheet.limits).0))
        })
        .collect();
    if rated.is_empty() {
        return None;
    }
    let over: Vec<String> = rated.iter().filter(|(_, v)| *v != Verdict::GoOn).map(|(day, _)| day.to_string()).collect();
    let word = if over.len() == 1 { "day" } else { "days" };
    Some(if over.is_empty() {
        "By the rule of the sheet no rated day was too much.".to_string()
    } else {
        format!("By the rule of the sheet it was too much on {word} {}.", over.join(", "))
    })
}

/// What a log tells by itself: days, and days that ended early.
fn without_sheet(log: &Log) -> Vec<String> {
    let days = |ended: Ended| -> Vec<String> {
        log.days.iter().filter(|day| day.ended == ended).map(|day| day.number.to_string()).collect()
    };
    let mut lines = Vec::new();
    for (ended, what) in
        [(Ended::Emergency, "The emergency number was called"), (Ended::Practice, "The practice was called")]
    {
        let days = days(ended);
        if !days.is_empty() {
            lines.push(format!("{what} on day {}.", days.join(", ")));
        }
    }
    let active = log.days.iter().filter(|day| day.rounds.iter().any(|rounds| *rounds > 0)).count();
    let last = log.days.last().map_or(0, |day| day.number);
    lines
        .push(format!("Exercises on {active} of {last} days; which ones and how many were planned is not known here."));
    lines
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_lowercase().chain(chars).collect()).unwrap_or_default()
}
