//! The part "Side and region": what the sides say, what lesion evidence says, what does not go together. The order is
//! fixed here and nowhere else; each part writes its own blocks.

use super::{heading, patterns, side};
use crate::assess::Assessment;
use crate::document::Block;

/// The whole part, for the screen; nothing when there is nothing to say.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    part("Side and region", [side::blocks(assessment), patterns::blocks(assessment)].concat())
}

/// What was seen and what else looks the same, for print.
pub fn in_brief(assessment: &Assessment) -> Vec<Block> {
    part("Side and region", [side::in_brief(assessment), patterns::in_brief(assessment)].concat())
}

/// What the brief leaves out: evidence, what argues against it, what was not looked at.
pub fn behind(assessment: &Assessment) -> Vec<Block> {
    part("More on side and region", [side::behind(assessment), patterns::behind(assessment)].concat())
}

fn part(title: &str, mut blocks: Vec<Block>) -> Vec<Block> {
    if !blocks.is_empty() {
        blocks.insert(0, heading(title));
    }
    blocks
}
