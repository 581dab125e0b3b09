//! Sheets and logs for tests, from one exercise to the most there can be. Invented.

use sidelight_core::advice;
use sidelight_core::catalogue::Language;
use sidelight_core::exercise;
use sidelight_core::plan::MOST_ITEMS;
use sidelight_core::sheet::{Ended, Entry, Log, Sheet};
use sidelight_core::tolerance::{Limits, Rating};

/// Where a family's page might lie.
pub const ADDRESS: &str = "https://clinic.example/sidelight/sheet/";

/// One exercise, four, and as many as there can be.
#[must_use]
pub fn sheets() -> Vec<(&'static str, Sheet)> {
    let of = |count: usize, language| Sheet {
        entries: exercise::ALL.iter().take(count).map(|e| Entry { exercise: e, dose: e.start }).collect(),
        advice: advice::ALL.iter().take(count).copied().collect(),
        limits: Limits::CONSENSUS,
        emergency: "112".into(),
        helper: count > 1,
        language,
    };
    vec![
        ("a sheet of one", of(1, Language::English)),
        ("a sheet of four", of(4, Language::Spanish)),
        ("the largest sheet", of(MOST_ITEMS, Language::English)),
    ]
}

/// A log of so many days on which everything was done and rated.
#[must_use]
pub fn practised(sheet: &Sheet, days: u8) -> Log {
    let mut log = Log::of(sheet);
    for day in 1..=days {
        for at in 0..sheet.entries.len() {
            let before = day % 4;
            log.note(day, at, (Rating::new(before), Rating::new(before + 1)), Ended::Planned);
        }
    }
    log
}

/// Every kind of text that is held before a camera.
#[must_use]
pub fn texts() -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for (what, sheet) in sheets() {
        texts.push((format!("link of {what}"), sheet.link(ADDRESS)));
        texts.push((format!("log of {what}, a week"), practised(&sheet, 7).encode()));
        texts.push((format!("log of {what}, twelve weeks"), practised(&sheet, 84).encode()));
    }
    texts
}
