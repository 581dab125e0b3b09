//! What was not done, not testable, not asked or cannot be said: one line for each reason.

use super::heading;
use super::words::{and, lower};
use crate::assess::Assessment;
use crate::capture::safety;
use crate::document::{Block, Said, foreign};
use crate::finding::{Gap, Why};

/// The gaps, those with the same reason on one line; nothing when there are none.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    // What a rule leaves out says why behind the task: its reasons carry a colon of their own.
    let mut lines: Vec<(String, Vec<&Gap>)> = Vec::new();
    for gap in &assessment.gaps {
        let lead = lead(gap);
        let alike =
            |gaps: &[&Gap]| !matches!(gap.why, Why::Dropped(_)) || gaps.iter().all(|other| other.why == gap.why);
        match lines.iter_mut().find(|(known, gaps)| *known == lead && alike(gaps)) {
            Some((_, gaps)) => gaps.push(gap),
            None => lines.push((lead, vec![gap])),
        }
    }
    if lines.is_empty() {
        return Vec::new();
    }
    let line = |(lead, gaps): (String, Vec<&Gap>)| {
        let what: Vec<String> = gaps.iter().map(|gap| lower(&foreign(&gap.what))).collect();
        let keys: Vec<&str> = gaps.iter().map(|gap| gap.slot.as_str()).collect();
        let what = and(&what);
        let said = match gaps.first().map(|gap| &gap.why) {
            Some(Why::Dropped(reason)) => format!("{lead}: {what} ({}).", lower(&foreign(reason))),
            _ => format!("{lead}: {what}."),
        };
        Said::new(said, &keys)
    };
    vec![heading("Not done"), Block::List(lines.into_iter().map(line).collect())]
}

fn lead(gap: &Gap) -> String {
    match &gap.why {
        Why::NotDone(reason) => with_reason("Not done", reason),
        Why::NotTestable(reason) => with_reason("Not testable", reason),
        Why::Dropped(_) => "Left out".to_string(),
        Why::NotRecorded if gap.slot == safety::SLOT => "Danger signs not asked for".to_string(),
        Why::NotRecorded => "Not recorded".to_string(),
        Why::TooFew => "Too few to say".to_string(),
        Why::Unread => "Written by a newer version and not read here".to_string(),
    }
}

fn with_reason(lead: &str, reason: &str) -> String {
    let reason = foreign(reason);
    if reason.is_empty() { format!("{lead} (no reason given)") } else { format!("{lead} ({})", lower(&reason)) }
}
