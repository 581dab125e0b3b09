//! Patterns in words: what was seen, what else looks the same, how good the evidence is; then what does not go together.

use super::words::{and, sentence};
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::finding::Grade;
use crate::other_cause::OtherCause;
use crate::pattern::Pattern;

/// Every pattern in full, then the contradictions.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    let readings = assessment.patterns.iter().map(|pattern| reading(pattern, all(pattern)));
    readings.chain(contradictions(assessment)).collect()
}

/// The first sentences of each: what was seen, what else it can be. What is urgent says
/// first what to do.
pub fn in_brief(assessment: &Assessment) -> Vec<Block> {
    let brief = |pattern: &Pattern| if pattern.urgent { urgent(pattern) } else { first(pattern) };
    let readings = assessment.patterns.iter().map(|pattern| reading(pattern, brief(pattern)));
    readings.chain(contradictions(assessment)).collect()
}

/// What the brief leaves out, one paragraph a pattern.
pub fn behind(assessment: &Assessment) -> Vec<Block> {
    let told = assessment.patterns.iter().map(|pattern| {
        let mut rest = rest(pattern);
        if pattern.urgent {
            rest.remove(0);
        }
        let text = format!("{} {}", sentence(&pattern.headline), rest.join(" "));
        Block::Note(Said { text, from: pattern.from.clone() })
    });
    told.collect()
}

/// An urgent one stands as an urgent finding does; its grade of evidence opens the sentences.
fn reading(pattern: &Pattern, sentences: Vec<String>) -> Block {
    let said = |text: String| Said { text, from: pattern.from.clone() };
    let headline = said(pattern.headline.clone());
    let details: Vec<Said> = sentences.into_iter().map(said).collect();
    if pattern.urgent {
        return Block::Graded { grade: Grade::Urgent, headline, details };
    }
    Block::Reading { level: pattern.level, headline, details }
}

fn all(pattern: &Pattern) -> Vec<String> {
    // What to do stands before what else it can be.
    let (first, rest) = (first(pattern), rest(pattern));
    if pattern.urgent { [rest, first].concat() } else { [first, rest].concat() }
}

/// What to do, then what it rests on.
fn urgent(pattern: &Pattern) -> Vec<String> {
    rest(pattern).into_iter().take(1).chain(first(pattern)).collect()
}

fn first(pattern: &Pattern) -> Vec<String> {
    let mut said = vec![format!("Seen: {}.", and(&pattern.seen))];
    said.extend(also(&pattern.also));
    said
}

fn rest(pattern: &Pattern) -> Vec<String> {
    let mut said = pattern.says.clone();
    // The words of the level stand beside the headline, unless it is urgent; here is what it is the level of.
    let level = if pattern.urgent { format!(" ({})", pattern.level.words()) } else { String::new() };
    said.push(format!("Grade {}{level} is for this claim: {}.", pattern.level.letter(), pattern.claim));
    if !pattern.against.is_empty() {
        said.push(format!("Against it: {}.", pattern.against.join("; ")));
    }
    if !pattern.not_looked_at.is_empty() {
        said.push(format!("Not looked at: {}.", and(&pattern.not_looked_at)));
    }
    said
}

/// "Also seen with tiredness (noted today), alcohol or drugs and age (standard teaching, from memory)."
fn also(causes: &[OtherCause]) -> Option<String> {
    if causes.is_empty() {
        return None;
    }
    let told: Vec<String> = causes
        .iter()
        .map(|cause| match cause.named_by {
            Some(_) => format!("{} (as here today)", cause.words),
            None => cause.words.clone(),
        })
        .collect();
    Some(format!("Also seen with {} (from memory).", and(&told)))
}

fn contradictions(assessment: &Assessment) -> Option<Block> {
    let said: Vec<Said> = assessment
        .contradictions
        .iter()
        .map(|found| Said { text: format!("Does not go together: {}", found.says), from: found.from.clone() })
        .collect();
    (!said.is_empty()).then_some(Block::List(said))
}

#[cfg(test)]
mod tests;
