//! How often healthy people have as much outside the range, in words: the count, the published share, and that the rules
//! differ.

use super::heading;
use super::words::and;
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::evidence::{BaseRate, Citation};
use crate::how_common::{CORWIN, COULD_NOT_COMPLETE, Count, EXAMINED, HowCommon, RISE};

/// The part; nothing when nothing is outside, and nothing beside a danger sign: that something is common must never stand
/// next to it.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    if !assessment.flags.is_empty() || assessment.stopped {
        return Vec::new();
    }
    let common = &assessment.how_common;
    let said = [tasks(common), rises(common)];
    let said: Vec<Said> = said.into_iter().flatten().collect();
    if said.is_empty() {
        return Vec::new();
    }
    vec![heading("How often healthy people have as much"), Block::List(said)]
}

fn tasks(common: &HowCommon) -> Option<Said> {
    let count = common.tasks.as_ref().filter(|count| count.outside > 0)?;
    let outside = match (count.outside, count.of) {
        (1, 1) => "The one task with a range lies outside it".to_string(),
        (1, of) => format!("1 of the {of} tasks with a range lies outside it"),
        (n, of) => format!("{n} of the {of} tasks with a range lie outside it"),
    };
    let (youngest, oldest) = EXAMINED;
    let age = match common.years {
        Some(years) if (youngest..=oldest).contains(&years) => "",
        Some(_) => " No share for this age was found.",
        None => " The age is not known here.",
    };
    let text = format!(
        "{outside}. In a physician's examination of eye movements, near point and balance, {} ({}). {COULD_NOT_COMPLETE} in \
         100 could not complete it. Its tests and limits are not those used here.{age}",
        shares(count),
        CORWIN.short
    );
    Some(said(text, count))
}

/// With one task the finding on symptoms carries the share itself; here it is for rises with several.
fn rises(common: &HowCommon) -> Option<Said> {
    let count = common.rises.as_ref().filter(|count| count.outside > 1)?;
    let rate = count.rates.last()?;
    let text = format!(
        "Symptoms rose by {RISE} or more with {} of {} rated tasks of the symptom screen: {} of {} {} ({}). They did seven \
         tests; with fewer, fewer rises are expected.",
        count.outside,
        count.of,
        rate.share(),
        rate.population,
        rate.rule,
        rate.source.short
    );
    Some(said(text, count))
}

/// Published sources behind this part.
pub fn sources(assessment: &Assessment) -> Vec<&'static Citation> {
    if blocks(assessment).is_empty() {
        return Vec::new();
    }
    let common = &assessment.how_common;
    let rises = common.rises.as_ref().filter(|count| count.outside > 1);
    common.tasks.iter().chain(rises).flat_map(|count| &count.rates).map(|rate| rate.source).collect()
}

/// "32 in 100 of healthy people of 12 to 14 years fail one or more elements and 13 in 100 of ... fail two or more"; the
/// same sample is named once.
fn shares(count: &Count) -> String {
    let told = |(at, rate): (usize, &&BaseRate)| {
        let named = count.rates[..at].iter().any(|earlier| earlier.population == rate.population);
        let of = if named { String::new() } else { format!(" of {}", rate.population) };
        format!("{}{of} {}", rate.share(), rate.rule)
    };
    and(&count.rates.iter().enumerate().map(told).collect::<Vec<_>>())
}

fn said(text: String, count: &Count) -> Said {
    Said { text, from: count.from.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::how_common::ELEMENTS;

    fn common(outside: usize, years: Option<u8>) -> HowCommon {
        let rates = ELEMENTS.iter().take(outside).collect();
        let count = Count { outside, of: 5, from: vec!["pursuit.left".to_string()], rates };
        HowCommon { tasks: Some(count), rises: None, years }
    }

    #[test]
    fn a_count_stands_beside_the_share_and_what_differs() {
        let said = tasks(&common(1, Some(12))).expect("one is outside");
        assert_eq!(
            said.text,
            "1 of the 5 tasks with a range lies outside it. In a physician's examination of eye movements, near point and balance, 24 \
             in 100 of 295 healthy people of 6 to 18 years fail one or more elements (Corwin et al. 2018). 10 in 100 could \
             not complete it. Its tests and limits are not those used here."
        );
        assert_eq!(said.from, ["pursuit.left"]);
        let adult = tasks(&common(2, Some(40))).expect("two are outside").text;
        assert!(
            adult.starts_with("2 of the 5 tasks with a range lie outside it.")
                && adult.ends_with("No share for this age was found.")
        );
        assert_eq!(adult.matches("healthy people of 6 to 18 years").count(), 1, "{adult}");
        assert_eq!(tasks(&common(0, None)), None);
    }
}
