//! What was shown on a screen: under each task the program with its settings, and what a reader must know of it.

use super::heading;
use crate::capture::showing::{self, Showing};
use crate::capture::visit::Visit;
use crate::document::{Block, Said, foreign};
use crate::task;

/// One line for each task; nothing when no screen was used.
pub fn blocks(visit: &Visit) -> Vec<Block> {
    let shown = visit.records.iter().filter(|record| !record.showings.is_empty());
    let lines: Vec<Said> = shown.map(|record| line(&record.slot, &record.showings)).collect();
    if lines.is_empty() {
        return Vec::new();
    }
    vec![heading("Shown on a screen"), Block::List(lines)]
}

/// Every showing, alike ones once, and each remark once behind them.
fn line(slot: &str, showings: &[Showing]) -> Said {
    let mut told: Vec<(String, usize)> = Vec::new();
    let mut remarks: Vec<String> = Vec::new();
    for showing in showings {
        let what = showing::what(showing);
        match told.iter_mut().find(|(known, _)| *known == what) {
            Some((_, times)) => *times += 1,
            None => told.push((what, 1)),
        }
        for remark in showing::remarks(showing) {
            if !remarks.contains(&remark) {
                remarks.push(remark);
            }
        }
    }
    let times = |(what, times): &(String, usize)| match times {
        1 => what.clone(),
        n => format!("{what} ({n} times.)"),
    };
    let title = task::by_id(slot).map_or_else(|| foreign(slot), |task| task.title.to_string());
    let said = told.iter().map(times).chain(remarks).collect::<Vec<_>>().join(" ");
    // "Jumps: Jumps on a screen" says it twice.
    let said = if said.starts_with(&title) { said } else { format!("{title}: {said}") };
    Said::new(foreign(&said), &[slot])
}
