//! Emergency signs and what was done about them.

use super::heading;
use super::words::{and, answer, lower, sentence};
use crate::assess::Assessment;
use crate::capture::record::Record;
use crate::capture::visit::Visit;
use crate::capture::{safety, stop};
use crate::document::{Block, Said, foreign};
use crate::finding::Flag;

/// The signs first, then every stop in order; nothing when there was neither.
pub fn blocks(visit: &Visit, assessment: &Assessment) -> Vec<Block> {
    let stops: Vec<&Record> = stop::all(visit).collect();
    if assessment.flags.is_empty() && stops.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Emergency")];
    blocks.extend(signs("Emergency sign", &assessment.flags));
    blocks.extend(stops.iter().map(|record| stopped(record, &assessment.flags)));
    let open = &assessment.open_flags;
    if !open.is_empty() && *open == assessment.flags {
        let keys: Vec<&str> = open.iter().map(|flag| flag.id.as_str()).collect();
        blocks.push(Block::Paragraph(Said::new("There is no record yet of what was done about it.", &keys)));
    } else {
        blocks.extend(signs("No record yet of what was done about", open));
    }
    blocks
}

fn signs(lead: &str, flags: &[Flag]) -> Option<Block> {
    if flags.is_empty() {
        return None;
    }
    let seen: Vec<String> = flags.iter().map(|flag| format!("{} ({})", flag.seen, flag.source.short)).collect();
    let keys: Vec<&str> = flags.iter().map(|flag| flag.id.as_str()).collect();
    Some(Block::Alert(Said::new(format!("{lead}: {}.", and(&seen)), &keys)))
}

fn stopped(record: &Record, flags: &[Flag]) -> Block {
    let at = record.started.map(|at| format!(" at {}", at.clock())).unwrap_or_default();
    let done = answer(&stop::FORM, &record.answers, "done").map_or("not recorded".to_string(), |done| lower(&done));
    let mut text = format!("Stopped{at}. What was done: {done}.");
    if let Some(note) = answer(&stop::FORM, &record.answers, "note") {
        text.push_str(&format!(" {}", sentence(&note)));
    }
    let gone: Vec<String> = stop::seen(record).filter(|id| flags.iter().all(|flag| flag.id != *id)).map(sign).collect();
    if !gone.is_empty() {
        text.push_str(&format!(" Noted then, and changed since: {}.", and(&gone)));
    }
    text.push_str(&match stop::reason_to_go_on(record) {
        Some(reason) => format!(" The examination went on all the same. Reason: {}", sentence(&foreign(reason))),
        None => " The examination ended there.".to_string(),
    });
    Block::Paragraph(Said::new(text, &[&record.slot]))
}

fn sign(id: &str) -> String {
    safety::danger_of(id).map_or_else(|| foreign(id), |danger| danger.seen.to_string())
}
