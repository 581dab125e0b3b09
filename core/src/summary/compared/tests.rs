//! The part "Compared with", word for word, on changes made for the purpose.

use super::*;
use crate::anatomy::{Direction, Place};
use crate::calendar::Moment;
use crate::export::text;
use crate::measure::{Better, Measure};
use crate::statistics::proportion::Proportion;
use crate::task::near_point::CHANGE_LIMITS;

fn measure(key: &str, what: &str, amount: Amount) -> Measure {
    let task = if key.starts_with("symptoms") { "symptoms" } else { "near_point" };
    Measure {
        key: key.into(),
        task,
        what: what.into(),
        place: Place::Both,
        amount,
        better: Better::Lower,
        method: Vec::new(),
        limits: &[],
        norm: None,
    }
}

fn near_point(cm: f64) -> Measure {
    let amount = Amount::Number { value: cm, unit: "cm" };
    Measure { limits: CHANGE_LIMITS, ..measure("near_point.break", "near point, break", amount) }
}

fn share(events: u32) -> Measure {
    let amount = Amount::Share(Proportion::new(events, 10).expect("fits"));
    measure("near_point.share", "jumps to the left not on target", amount)
}

fn step(step: u8) -> Measure {
    measure("near_point.step", "following", Amount::Step { step, words: &["smooth", "few catch-ups"] })
}

fn changes(pairs: &[(Measure, Measure)]) -> Changes {
    Changes {
        earlier: "then".into(),
        since: Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 },
        relation: Relation::Earlier,
        all: pairs.iter().map(|(then, now)| crate::change::compare(then, now)).collect(),
        only_then: Vec::new(),
        only_now: Vec::new(),
        circumstances: Vec::new(),
        turned: None,
    }
}

fn written(blocks: Vec<Block>) -> String {
    let rendered = text::render(&crate::document::Document { title: "T".into(), blocks });
    rendered.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_worse_side_that_changed_is_told_before_any_value() {
    let all = Changes { turned: Some((Direction::Left, Direction::Right)), ..changes(&[(share(3), share(9))]) };
    let said = written(in_brief(&all));
    let turned = "T COMPARED WITH 2 MARCH 2026 Does not go together: movements to the left were worse then, movements to \
                  the right now.";
    assert!(said.starts_with(turned), "{said}");
    assert!(!written(in_brief(&changes(&[(share(3), share(9))]))).contains("go together"));
}

#[test]
fn what_changed_by_more_than_error_comes_first() {
    let all = changes(&[(step(1), step(0)), (near_point(12.5), near_point(6.0)), (share(3), share(9))]);
    let said = written(in_brief(&all));
    let expected = "T COMPARED WITH 2 MARCH 2026 \
        - Jumps to the left not on target: 3 of 10 then, 9 of 10 now, worse 60 in 100 more, 95 % interval 17 to 81 \
        (Newcombe 1998), so more than chance. \
        - Near point, break: 12.5 cm then, 6 cm now, better A difference of 6.5 cm, which reaches every published limit \
        of error (2 cm, 2.5 cm and 4 cm). \
        Told as seen, because no limit of error is published: following (few catch-ups then, smooth now, better). \
        2 values were compared. Limits and intervals are 95 %: when nothing has changed, about 1 value in 20 still goes \
        beyond them.";
    assert_eq!(said, expected);
    let rest = written(behind(&all));
    assert!(rest.contains("4 cm (378 at college, 17 to 25 years, a year apart; CARE consortium 2021)"), "{rest}");
}

#[test]
fn where_the_limits_disagree_it_is_perhaps() {
    let said = written(blocks(&changes(&[(near_point(8.0), near_point(11.0))])));
    assert!(said.contains("Near point, break: 8 cm then, 11 cm now, perhaps worse"), "{said}");
    assert!(said.contains("beyond some published limits of error (2 cm and 2.5 cm), not all (4 cm)"), "{said}");
}

#[test]
fn no_more_than_error_is_one_line() {
    let said = written(blocks(&changes(&[(near_point(8.0), near_point(9.0)), (share(3), share(3))])));
    assert!(said.contains("Nothing changed by more than the error of measuring."), "{said}");
    let line = "No change beyond measurement error in: near point, break (8 cm then, 9 cm now); jumps to the left not on \
                target (3 of 10 both times).";
    assert!(said.contains(line), "{said}");
}

#[test]
fn another_way_of_measuring_is_named_with_what_it_does() {
    let with = |measure: Measure, words: &str| Measure { method: vec![("end point", words.into())], ..measure };
    let pair = (with(near_point(12.0), "blurred"), with(near_point(7.0), "double"));
    let said = written(blocks(&changes(&[pair])));
    assert!(said.contains("Near point measured in another way"), "{said}");
    assert!(said.contains("End point: blurred then, double now. The difference is not read as a change."), "{said}");
    assert!(said.contains("about 4.1 cm farther out"), "{said}");
    assert!(said.contains("Nothing was measured alike at both visits."), "{said}");
}

#[test]
fn a_baseline_is_named_and_so_is_one_dated_later() {
    let mut all = changes(&[(near_point(8.0), near_point(8.0))]);
    all.relation = Relation::OwnBaseline;
    assert!(written(blocks(&all)).contains("COMPARED WITH THE OWN BASELINE OF 2 MARCH 2026"));
    all.relation = Relation::BeforeBaseline;
    assert!(written(blocks(&all)).contains("The later visit is the own baseline; the visit compared with it is dated"));
}

#[test]
fn symptoms_that_went_one_way_are_told_together() {
    use crate::provocation::limits::CONSORTIUM;
    static ONE: &[ChangeLimit] = &[ChangeLimit { value: 1.0, unit: "", population: "378", source: &CONSORTIUM }];
    let symptom = |key: &str, what: &str, value: f64| {
        let amount = Amount::Number { value, unit: "" };
        Measure { limits: ONE, ..measure(key, what, amount) }
    };
    let pair = |key: &str, what: &str, then, now| (symptom(key, what, then), symptom(key, what, now));
    let all = changes(&[
        pair("symptoms.sum.near_point", "symptoms after near point", 5.0, 2.0),
        pair("symptoms.sum.pursuit", "symptoms after following", 4.0, 2.0),
        pair("symptoms.sum.saccade", "symptoms after jumps", 0.0, 0.0),
    ]);
    let said = written(blocks(&all));
    let expected =
        "- Symptoms better Symptoms after near point: 5 then, 2 now; symptoms after following: 4 then, 2 now.";
    assert!(said.contains(expected), "{said}");
    assert!(said.contains("No change beyond measurement error in: symptoms after jumps (0 both times)."), "{said}");
}
