//! Which sheet a log belongs to, and what is told of it.

use super::*;
use crate::capture::unread::Unread;
use crate::catalogue::Language;
use crate::exercise;
use crate::sheet::Entry;
use crate::tolerance::{Limits, Rating};

/// 2 March 2026, 15:52.
const NOW: i64 = 1_772_463_128_000;
const DAY: i64 = 86_400_000;

fn at(days: i64) -> Moment {
    Moment { unix_ms: NOW + days * DAY, offset_minutes: 60 }
}

fn sheet(exercises: usize) -> Sheet {
    let entries = exercise::ALL.iter().take(exercises).map(|exercise| Entry { exercise, dose: exercise.start });
    Sheet {
        entries: entries.collect(),
        advice: vec![],
        limits: Limits::CONSENSUS,
        emergency: "112".to_string(),
        helper: false,
        language: Language::English,
    }
}

fn visit(id: &str, days: i64, given: &[&Sheet]) -> Visit {
    let mut visit = Visit::begin(id, "p", "sideline", at(days), "test");
    let given = given.iter().map(|sheet| Given {
        at: at(days),
        by: "E. Example".to_string(),
        language: "en".to_string(),
        text: sheet.encode(),
        despite: vec![],
        unread: Unread::default(),
    });
    visit.sheets = given.collect();
    visit
}

fn back(visit: &mut Visit, how: How, text: &str) {
    let text = taken(how, text).unwrap_or_else(|why| panic!("{why}"));
    visit.logs.push(Returned { at: visit.started, how, text, unread: Unread::default() });
}

fn rating(value: u8) -> Option<Rating> {
    Rating::new(value)
}

/// Three days: one calm, one with a rise of 3, one on which the practice was called.
fn log(sheet: &Sheet) -> Log {
    let mut log = Log::of(sheet);
    log.note(1, 0, (rating(1), rating(2)), Ended::Planned);
    log.note(2, 0, (rating(1), rating(4)), Ended::Rested);
    log.note(4, 1, (rating(2), rating(2)), Ended::Practice);
    log
}

#[test]
fn a_log_is_laid_beside_its_own_sheet_and_not_the_latest() {
    let (first, second) = (sheet(2), sheet(3));
    let all = [visit("a", 0, &[&first]), visit("b", 7, &[&second]), visit("later", 20, &[&first])];
    let mut now = visit("now", 14, &[]);
    back(&mut now, How::Code, &log(&first).encode());
    let practised = practised(&now, &all);
    assert_eq!(practised[0].title(), "Sheet of 2 March 2026, by code");
    let lines = practised[0].lines();
    assert_eq!(lines[0], "The practice was called on day 4.");
    assert!(lines[1].starts_with("Exercises on 3 of 4 days: "), "{lines:?}");
    let titles: Vec<String> = first.entries.iter().map(|entry| lower(entry.exercise.title)).collect();
    assert!(lines.contains(&format!("Rounds done: {} 2; {} 1.", titles[0], titles[1])), "{lines:?}");
    // More than 2 points: 1 to 4 on day 2. 2022 consensus.
    assert_eq!(lines.last().map(String::as_str), Some("By the rule of the sheet it was too much on day 2."));
}

#[test]
fn a_log_of_another_sheet_says_so() {
    let all = [visit("a", 0, &[&sheet(2)]), Visit { person: "q".into(), ..visit("q", 1, &[&sheet(3)]) }];
    let mut now = visit("now", 14, &[]);
    back(&mut now, How::File, &log(&sheet(3)).encode());
    let practised = practised(&now, &all);
    assert_eq!(practised[0].of, Of::Other, "what was given to someone else is none of theirs");
    assert_eq!(practised[0].title(), "From a file, of none of the sheets given here");
    let lines = practised[0].lines();
    assert_eq!(lines[0], "The practice was called on day 4.");
    assert!(lines[1].contains("is not known here"), "{lines:?}");
}

#[test]
fn numbers_are_set_beside_the_last_sheet_and_say_that_they_name_none() {
    let given = sheet(2);
    let all = [visit("a", 0, &[&sheet(3)]), visit("b", 7, &[&given])];
    let mut now = visit("now", 14, &[]);
    let spoken = Spoken::of(&log(&given), &given);
    back(&mut now, How::Numbers, &spoken.numbers().join(", "));
    let practised = practised(&now, &all);
    assert_eq!(practised[0].title(), "Six numbers read aloud, set beside the sheet of 9 March 2026");
    assert_eq!(practised[0].content, Ok(Content::Numbers(spoken)));
    assert!(practised[0].lines().iter().any(|line| line.contains("do not say whose")), "{:?}", practised[0].lines());
}

#[test]
fn without_an_earlier_sheet_nothing_is_expected_and_a_log_says_that_its_sheet_is_not_at_hand() {
    let mut now = visit("now", 14, &[&sheet(2)]);
    back(&mut now, How::Code, &log(&sheet(2)).encode());
    let all = [now.clone(), visit("later", 20, &[&sheet(2)])];
    assert!(sheets_before(&now, &all).is_empty(), "neither its own sheets nor later ones");
    assert_eq!(practised(&now, &all)[0].title(), "By code; its sheet is not at hand");
}

#[test]
fn what_is_no_log_is_refused_with_what_to_do() {
    let log = log(&sheet(2)).encode();
    for (how, text) in [
        (How::Code, ""),
        (How::Code, "https://example.org"),
        (How::Code, sheet(2).encode().as_str()),
        (How::File, &log[..log.len() - 3]),
        (How::File, &log.replace("SHEETLOG1", "SHEETLOG9")),
        (How::Numbers, "1 2 3"),
        (How::Numbers, "001 001 001 001 001 001"),
    ] {
        let said = taken(how, text).expect_err(text).to_string();
        assert!(said.ends_with('.') && said.len() > 20, "{text}: {said}");
    }
    assert_eq!(taken(How::Code, &format!("https://example.org/x#{log}")), Ok(log), "a whole link is a log as well");
}

#[test]
fn one_misheard_number_is_named() {
    let given = sheet(2);
    let mut numbers = Spoken::of(&log(&given), &given).numbers();
    let last: u32 = numbers[2][2..].parse().expect("a digit");
    numbers[2].replace_range(2.., &((last + 1) % 10).to_string());
    let fit: Vec<bool> = numbers.iter().enumerate().map(|(at, number)| fits(at, number)).collect();
    assert_eq!(fit, [true, true, false, true, true, true]);
    assert!(!fits(0, "1") && !fits(0, "12x") && !fits(300, "000"));
    let said = taken(How::Numbers, &numbers.join(" ")).expect_err("misheard").to_string();
    assert_eq!(said, "Number 3 cannot be right. Ask for it again.");
}

#[test]
fn a_stored_text_that_cannot_be_read_any_more_is_told() {
    let mut now = visit("now", 14, &[]);
    now.logs.push(Returned { at: at(14), how: How::Code, text: "SHEETLOG1.AA".into(), unread: Unread::default() });
    let all = [visit("a", 0, &[&sheet(2)])];
    let lines = practised(&now, &all)[0].lines();
    assert!(lines.len() == 1 && lines[0].starts_with("It cannot be read. "), "{lines:?}");
}
