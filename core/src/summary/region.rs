//! The part "Side and region": what the sides say, what lesion evidence says, what does not go together. The order is
//! fixed here and nowhere else; each part writes its own blocks.

use super::{heading, patterns, side};
use crate::assess::Assessment;
use crate::document::Block;
use crate::finding::{Finding, Grade, Place};
use crate::side::Outcome;

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

/// Whether this part says what the finding does: that one task is worse to the side which all of them are worse to, or on
/// which a pattern rests.
pub fn tells(assessment: &Assessment, finding: &Finding) -> bool {
    if finding.key != format!("{}.right_left", finding.task) || finding.grade != Grade::NearLimit {
        return false;
    }
    let by_side = match &assessment.side.outcome {
        Outcome::Worse(toward, _) => {
            let among =
                assessment.side.tasks.iter().any(|task| task.task == finding.task && task.worse == Some(*toward));
            among && finding.place == Place::Toward(*toward)
        }
        Outcome::TooFew { .. } | Outcome::NoSide(_) | Outcome::NotNamed(_) => false,
    };
    by_side || assessment.patterns.iter().any(|pattern| pattern.from.contains(&finding.key))
}

fn part(title: &str, mut blocks: Vec<Block>) -> Vec<Block> {
    if !blocks.is_empty() {
        blocks.insert(0, heading(title));
    }
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anatomy::Direction;
    use crate::assess::assess;
    use crate::calendar::Moment;
    use crate::demo;
    use crate::evidence::Level;
    use crate::export::text;
    use crate::pattern::Pattern;
    use crate::summary::{Options, compose};

    /// A visit of the demo with this one finding, the pattern that may rest on it, and nothing else outside a range.
    fn printed(rests: bool) -> String {
        let (people, visits) = demo::people(Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 });
        let well = visits.iter().find(|visit| visit.id == "demo-visit-5").expect("the baseline");
        let person = people.iter().find(|person| person.id == well.person).expect("its person");
        let mut assessment = assess(person, well);
        let pursuit = assessment.tasks.iter_mut().find(|task| task.task.id == "pursuit").expect("done");
        let headline = "Following to the left is worse than to the right".to_string();
        let mut finding = Finding::new("pursuit", "right_left", Place::Toward(Direction::Left), headline);
        finding.grade = Grade::NearLimit;
        finding.details = vec!["Told as seen.".to_string()];
        pursuit.reading.findings.push(finding);
        let mut pattern = Pattern::new("p", "Compatible with a thing".to_string(), Place::Both, Level::B, "a causes b");
        pattern.from = if rests { vec!["pursuit.right_left".to_string()] } else { Vec::new() };
        assessment.patterns = vec![pattern];
        text::render(&compose(person, well, &assessment, &Options::new("test")))
    }

    #[test]
    fn a_worse_side_that_a_pattern_rests_on_is_told_there_and_in_full_behind() {
        let (folded, apart) = (printed(true), printed(false));
        assert!(apart.contains("- Following to the left is worse than to the right [near the limit]"), "{apart}");
        assert!(apart.contains("1 finding near the limit"), "{apart}");
        assert!(!folded.contains("worse than to the right [near"), "{folded}");
        assert!(folded.contains("Following to the left is worse than to the right. Told as seen."), "{folded}");
        assert!(folded.contains("a difference between right and left"), "{folded}");
        assert!(folded.contains("Only a difference between right and left, told under side and region."), "{folded}");
        assert!(
            !folded.contains("nothing outside a range") && !folded.contains("Nothing that was recorded"),
            "{folded}"
        );
    }
}
