//! Visits with looking away as it comes: ordinary, poor, young, old, uneven, tiring, few, none, mirrored and absurd.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Made, Tap};
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::measure::{Amount, Values};
use crate::sign::{Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Reads trials written as letters by the side of the target: c away at once, g after a glance, w only at it. Right and
/// left take turns, 3 s apart.
fn read_at(years: Option<u8>, right: &str, left: &str) -> Reading {
    read_with(years, right, left, |_| {})
}

fn read_with(years: Option<u8>, right: &str, left: &str, change: impl FnOnce(&mut Record)) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let mut taps: Vec<Tap> = taps("right", right).into_iter().chain(taps("left", left)).collect();
    taps.sort_by_key(|tap| tap.at_ms);
    let record = visit.record_mut("antisaccade", NOW);
    record.answers.set("trials", Some(Answer::Series(Series { runs: vec![], taps })));
    change(record);
    let record = record.clone();
    read(&Context { visit: &visit, age: years.map(|years| Age { years, exact: true }) }, &record)
}

fn taps(pad: &str, letters: &str) -> Vec<Tap> {
    let tap = |(letter, at): (char, u32)| {
        let mark = match letter {
            'c' => "correct",
            'g' => "glanced",
            'w' => "wrong",
            _ => "elsewhere",
        };
        let at_ms = 6000 * at + if pad == "left" { 3000 } else { 0 };
        Tap { at_ms, pad: pad.into(), mark: mark.into(), also: vec![], made: Made::Tapped }
    };
    letters.chars().zip(0..).map(tap).collect()
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("antisaccade.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

/// How many errors of twenty are graded at an age.
#[track_caller]
fn check_grade(years: Option<u8>, errors: usize, grade: Grade) {
    let letters = format!("{}{}", "g".repeat(errors), "c".repeat(20 - errors));
    let (right, left) = letters.split_at(10);
    assert_eq!(found(&read_at(years, right, left), "errors").grade, grade, "{errors} of 20 at {years:?}");
}

#[test]
fn ordinary_errors_are_in_range() {
    let reading = read_at(Some(20), "ccccccccgw", "cccccccggc");
    let errors = found(&reading, "errors");
    assert_eq!((errors.headline.as_str(), errors.grade), ("Looking away failed in 4 of 20", Grade::WithinRange));
    // Wilson 1927 for 4 of 20: 8.1 to 41.6 %.
    assert_eq!(errors.details, ["95 % interval 8 to 42 in 100; 16 away at once, 3 after a glance, 1 only at it."]);
    assert_eq!(errors.norm.map(|norm| norm.id), Some("antisaccade.errors.young"));
    assert!(reading.findings.iter().all(|finding| finding.grade == Grade::WithinRange), "{:#?}", reading.findings);
    assert!(reading.gaps.is_empty());
    assert_eq!((reading.comparisons.len(), reading.figures.len()), (1, 2));
}

#[test]
fn errors_are_outside_only_at_the_age_the_limit_was_set_for() {
    // 8 of 20 are 40 %, 9 are 45 %, 11 are 55 %, 12 are 60 %.
    check_grade(Some(20), 8, Grade::WithinRange);
    check_grade(Some(20), 9, Grade::NearLimit);
    check_grade(Some(20), 11, Grade::NearLimit);
    check_grade(Some(20), 12, Grade::OutsideRange);
    for years in [15, 17, 26, 70] {
        check_grade(Some(years), 20, Grade::NearLimit);
    }
    for years in [Some(6), Some(9), Some(14), None] {
        check_grade(years, 20, Grade::NoRange);
        check_grade(years, 8, Grade::WithinRange);
    }
}

#[test]
fn many_errors_are_told_with_what_is_ordinary_at_the_age() {
    let first = |years| found(&read_at(years, "gggggggccc", "gggggccccc"), "errors").details[0].clone();
    for (years, words) in [
        (Some(6), "Most errors are made from 5 to 8 years"),
        (Some(11), "60 % errors at 9 years and 22 % at 15 in a harder version"),
        (Some(16), "no limit was set at this age"),
        (Some(60), "older people make more errors"),
        (None, "Age not known"),
    ] {
        let said = first(years);
        assert!(said.contains(words) && said.contains("average 23 % errors with a spread of 17"), "{years:?}: {said}");
    }
    let young = read_at(Some(20), "gggggggccc", "gggggccccc");
    let share: Vec<_> = found(&young, "errors").healthy.iter().map(|rate| rate.share()).collect();
    assert_eq!(share, ["5 in 100"]);
    assert!(found(&read_at(Some(60), "gggggggccc", "gggggccccc"), "errors").healthy.is_empty());
}

/// Beta-binomial tails computed apart from this code through log-gamma functions: 3 or more of 5, 4 of 6, 6 of 10, 12 of
/// 20, 70 of 120.
#[test]
fn few_trials_put_more_healthy_young_men_outside_than_many() {
    for (n, percent) in [(5, 14.73), (6, 9.09), (10, 9.03), (20, 6.20), (120, 4.62)] {
        assert!((beyond_by_chance(n) - percent).abs() < 0.01, "{n}: {}", beyond_by_chance(n));
    }
    let outside = read_at(Some(20), "gggggg", "gggccc");
    let told = "With 12 trials about 9 in 100 healthy young men would lie beyond";
    assert!(found(&outside, "errors").details[1].starts_with(told), "{:#?}", found(&outside, "errors").details);
}

#[test]
fn errors_left_uncorrected_ask_whether_the_task_was_understood() {
    let asks = |right, left| {
        let reading = read_at(Some(20), right, left);
        found(&reading, "errors").details.iter().any(|said| said.contains("whether the task was understood"))
    };
    assert!(asks("wwwwwwwwww", "wwwwwwwwww"));
    assert!(!asks("gggggggggg", "ggggggggww"));
}

#[test]
fn targets_near_the_middle_are_told() {
    // 10 cm aside at 60 cm away is 9.46°, 28 cm is 25.02°.
    let at = |offset: f64| {
        read_with(Some(20), "gggggggggg", "gggggggggg", |record| {
            record.answers.set("distance", Some(Answer::Number(60.0)));
            record.answers.set("offset", Some(Answer::Number(offset)));
            record.answers.set("stimulus", Some(Answer::One("finger".into())));
        })
    };
    let near = |reading: &Reading| found(reading, "errors").details.iter().any(|said| said.contains("near the middle"));
    assert!(near(&at(10.0)) && !near(&at(28.0)));
    let said = "Done so: looking away from a finger that comes up, 25° to each side";
    assert_eq!(found(&at(28.0), "method").headline, said);
}

#[test]
fn targets_on_one_side_that_are_worse_are_found() {
    let reading = read_at(Some(40), "cccccccccc", "gggwgggccc");
    let uneven = found(&reading, "right_left");
    assert_eq!(uneven.headline, "More errors with the target to the left than to the right");
    assert_eq!((uneven.grade, uneven.place), (Grade::NearLimit, Place::Toward(Direction::Left)));
    let sign = |what, place| reading.signs.iter().find(|s| s.what == what && s.place == place).map(|s| s.seen);
    assert_eq!(sign(What::AntisaccadeWorse, Place::Toward(Direction::Left)), Some(Seen::Yes));
    assert_eq!(sign(What::AntisaccadeWorse, Place::Toward(Direction::Right)), Some(Seen::No));
    // 7 of 20 are within what young men show.
    assert_eq!(sign(What::AntisaccadeErrors, Place::Both), Some(Seen::No));
}

#[test]
fn many_errors_are_a_sign_only_where_a_range_is_known() {
    let sign = |years| {
        let reading = read_at(years, "gggggggggg", "gggggggggg");
        reading.signs.iter().find(|s| s.what == What::AntisaccadeErrors).map(|s| s.seen)
    };
    assert_eq!(sign(Some(20)), Some(Seen::Yes));
    assert_eq!([sign(Some(7)), sign(Some(40)), sign(None)], [None, None, None]);
}

#[test]
fn errors_that_grow_are_told_from_a_worse_side() {
    let tiring = read_at(Some(40), "cccccggggg", "cccccggggg");
    assert_eq!(found(&tiring, "tiring").grade, Grade::NearLimit);
    assert!(found(&tiring, "tiring").details[0].contains("0 of 10 in the first half, 10 of 10 in the second"));
    assert_eq!(found(&read_at(Some(40), "cccccccccc", "gggggggggg"), "tiring").grade, Grade::WithinRange);
}

#[test]
fn three_to_each_side_are_counted_together_and_not_compared() {
    let reading = read_at(Some(20), "ccg", "ccc");
    assert_eq!(found(&reading, "errors").headline, "Looking away failed in 1 of 6");
    assert_eq!(found(&reading, "errors").grade, Grade::WithinRange);
    assert_eq!(reading.comparisons[0].p, None);
    assert!(matches!(&reading.gaps[..], [Gap { why: Why::TooFew, .. }, Gap { why: Why::TooFew, .. }]));
    assert!(reading.signs.iter().all(|sign| sign.what != What::AntisaccadeWorse));
    let four = read_at(Some(20), "gg", "gg");
    assert_eq!(found(&four, "errors").grade, Grade::NoRange);
    assert_eq!(found(&four, "errors").norm, None);
}

#[test]
fn nothing_tapped_is_a_gap_and_a_skipped_record_says_nothing() {
    let reading = read_at(Some(20), "", "");
    assert_eq!(reading.gaps, [gap("looking away", Why::NotRecorded)]);
    assert!(reading.findings.is_empty() && reading.measures.is_empty() && reading.signs.is_empty());
    for state in [State::NotDone("no time".into()), State::NotTestable("asleep".into())] {
        let skipped = read_with(Some(20), "ccccc", "ggggg", |record| record.state = state);
        assert_eq!(skipped, Reading::default());
    }
}

#[test]
fn taps_faster_than_eyes_and_marks_unknown_here_are_gaps() {
    let reading = read_with(Some(20), "cccccccccc", "cccccccccc", |record| {
        let mut series = record.answers.series("trials").cloned().expect("set");
        for (tap, at) in series.taps.iter_mut().zip(0..) {
            tap.at_ms = at * 100;
        }
        record.answers.set("trials", Some(Answer::Series(series)));
    });
    assert!(matches!(&reading.gaps[..], [Gap { why: Why::NotTestable(why), .. }] if why.contains("0.10 s apart")));
    assert!(reading.findings.is_empty() && reading.signs.is_empty() && reading.figures.len() == 1);
    let newer = read_at(Some(20), "cccccx", "ccccc");
    assert_eq!(newer.gaps, [gap("1 trial with a side or outcome unknown here", Why::Unread)]);
    assert_eq!(found(&newer, "errors").headline, "Looked away at once in all of 10");
}

#[test]
fn looking_away_hands_on_shares_sides_and_order() {
    let reading = read_at(Some(20), "cgc", "wcc");
    let share = |events, n| Amount::Share(Proportion::new(events, n).expect("fits"));
    let measured: Vec<_> = reading.measures.iter().map(|m| (m.key.as_str(), m.amount.clone())).collect();
    assert_eq!(
        measured,
        [
            ("antisaccade.errors", share(2, 6)),
            ("antisaccade.errors.right", share(1, 3)),
            ("antisaccade.errors.left", share(1, 3)),
        ]
    );
    let scores: Vec<_> = reading.sided[0].repetitions.iter().map(|r| r.score).collect();
    assert_eq!((scores, reading.sided[0].in_turn), (vec![0, 1, 1, 0, 0, 0], true));
    assert_eq!(reading.courses[1].values, Values::Events(vec![true, false, false]));
}

#[test]
fn a_mirrored_visit_has_mirrored_findings() {
    let swap = |text: &str| text.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
    for (right, left) in [("cccccccccc", "gggggggccc"), ("cgc", "ww"), ("", "gggggg"), ("cccccggggg", "cccccccccc")] {
        let (one, other) = (read_at(Some(20), right, left), read_at(Some(20), left, right));
        let told = |reading: &Reading| -> Vec<(Grade, String)> {
            reading.findings.iter().map(|finding| (finding.grade, finding.headline.clone())).collect()
        };
        let mirrored: Vec<_> = told(&other).iter().map(|(grade, said)| (*grade, swap(said))).collect();
        assert_eq!(told(&one), mirrored, "{right} {left}");
    }
}

#[test]
fn every_answer_the_form_can_give_is_read() {
    assert!(MARKS.iter().all(|mark| Response::from_id(mark.choice.id).is_some()));
    assert!(PADS.iter().all(|pad| Direction::from_word(pad.id).is_some()));
}
