//! The part "Side and region" as it is printed and shown.

use super::*;
use crate::anatomy::Place;
use crate::assess::assess;
use crate::calendar::Moment;
use crate::contradiction::Contradiction;
use crate::demo;
use crate::evidence::Level;
use crate::export::text;
use crate::summary::{Options, compose, findings};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// An invented visit's assessment, with these patterns and contradictions in place of its own.
fn with(patterns: Vec<Pattern>, contradictions: Vec<Contradiction>) -> Assessment {
    let (people, visits) = demo::people(NOW);
    let person = people.iter().find(|person| person.id == visits[0].person).expect("its person");
    Assessment { patterns, contradictions, ..assess(person, &visits[0]) }
}

fn pattern() -> Pattern {
    let mut pattern = Pattern::new("p", "Compatible with a thing".to_string(), Place::Both, Level::B, "a causes b");
    pattern.seen = vec!["following worse to the left".into(), "stripes worse moving to the left".into()];
    pattern.from = vec!["pursuit.right_left".into()];
    pattern.also = vec![
        OtherCause { words: "alcohol or drugs".into(), named_by: Some("frame.influences.alcohol".into()) },
        OtherCause { words: "tiredness".into(), named_by: None },
    ];
    pattern.says = vec!["It was seen in ten.".into()];
    pattern.against = vec!["jumps were fine".into()];
    pattern.not_looked_at = vec!["touch".into()];
    pattern
}

fn words(blocks: &[Block]) -> Vec<String> {
    let of = |block: &Block| match block {
        Block::Reading { headline, details, .. } | Block::Graded { headline, details, .. } => {
            std::iter::once(headline).chain(details).map(|said| said.text.clone()).collect()
        }
        Block::List(items) => items.iter().map(|said| said.text.clone()).collect(),
        Block::Note(said) => vec![said.text.clone()],
        _ => vec![format!("unexpected {block:?}")],
    };
    blocks.iter().flat_map(of).collect()
}

#[test]
fn the_brief_tells_what_was_seen_and_what_else_it_can_be_those_of_today_first() {
    let assessment = with(vec![pattern()], vec![]);
    let expected = [
        "Compatible with a thing",
        "Seen: following worse to the left and stripes worse moving to the left.",
        "Also seen with alcohol or drugs (as here today) and tiredness (from memory).",
    ];
    assert_eq!(words(&in_brief(&assessment)), expected);
    let behind = words(&behind(&assessment));
    assert_eq!(
        behind,
        [
            "Compatible with a thing. It was seen in ten. Grade B is for this claim: a causes b. Against it: jumps were fine. \
          Not looked at: touch."
        ]
    );
    assert_eq!(words(&blocks(&assessment)).len(), 7);
}

#[test]
fn an_urgent_one_says_first_what_to_do_then_what_it_rests_on() {
    let urgent = Pattern { urgent: true, says: vec!["Have it seen now.".into()], ..pattern() };
    let told = with(vec![urgent], vec![]);
    let brief = in_brief(&told);
    assert!(matches!(&brief[0], Block::Graded { grade: Grade::Urgent, .. }));
    let said = words(&brief);
    assert_eq!(said[1], "Have it seen now.");
    assert!(said[2].starts_with("Seen: following worse"), "{said:?}");
    let behind = words(&behind(&told)).join(" ");
    assert!(behind.contains("Grade B (human cases and animal data) is for"), "{behind}");
    assert!(!behind.contains("Have it seen now."), "{behind}");
}

#[test]
fn contradictions_are_said_with_what_they_rest_on() {
    let found = Contradiction { says: "This and that.".into(), from: vec!["a.b".into(), "c.d".into()] };
    let blocks = blocks(&with(vec![], vec![found]));
    let Block::List(items) = &blocks[0] else { panic!("a list") };
    assert_eq!(items[0].text, "Does not go together: This and that.");
    assert_eq!(items[0].from, ["a.b", "c.d"]);
}

#[test]
fn a_normal_visit_says_nothing_of_side_and_region_from_patterns() {
    let (people, visits) = demo::people(NOW);
    let well = visits.iter().find(|visit| visit.id == "demo-visit-5").expect("the baseline");
    let person = people.iter().find(|person| person.id == well.person).expect("its person");
    let assessment = assess(person, well);
    assert_eq!((assessment.patterns.len(), assessment.contradictions.len()), (0, 0));
    assert_eq!((blocks(&assessment), in_brief(&assessment), behind(&assessment)), (vec![], vec![], vec![]));
}

#[test]
fn the_level_is_told_in_words_on_screen_and_in_print() {
    let (people, visits) = demo::people(NOW);
    let stroke = visits.iter().find(|visit| visit.id == "demo-visit-4").expect("the stroke");
    let person = people.iter().find(|person| person.id == stroke.person).expect("its person");
    let assessment = assess(person, stroke);
    let printed = text::render(&compose(person, stroke, &assessment, &Options::new("test")));
    let shown = text::render(&findings(stroke, &assessment, &Options::new("test")));
    for page in [printed, shown] {
        let line = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(line.contains("[grade B: human cases and animal data]"), "{page}");
        assert!(line.contains("SIDE AND REGION"), "{page}");
    }
}
