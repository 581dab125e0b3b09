//! Visits with near and far as it comes: smooth, broken, tiring, blurred, half done, not done, mirrored and newer.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::Answer;
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::measure::{Amount, Better, Values};
use crate::sign::{Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn read_at(years: Option<u8>, answers: &[(&str, Answer)]) -> Reading {
    read_in(State::Done, years, answers)
}

fn read_in(state: State, years: Option<u8>, answers: &[(&str, Answer)]) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let record = visit.record_mut(TASK.id, NOW);
    record.state = state;
    for (key, answer) in answers {
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    read(&Context { visit: &visit, age: years.map(|years| Age { years, exact: true }) }, &record)
}

fn one(id: &str) -> Answer {
    Answer::One(id.into())
}

fn noted(ids: &[&str]) -> Answer {
    Answer::Many(ids.iter().map(|id| (*id).to_string()).collect())
}

fn counted_jumps(first: f64, second: f64) -> [(&'static str, Answer); 2] {
    [("first", Answer::Number(first)), ("second", Answer::Number(second))]
}

/// Smooth both ways, clear and single, with these counts.
fn smooth(first: f64, second: f64) -> Vec<(&'static str, Answer)> {
    let mut answers = vec![("convergence", one("smooth")), ("divergence", one("smooth")), ("way", noted(&[]))];
    answers.extend(counted_jumps(first, second));
    answers
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("vergence.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

#[test]
fn smooth_clear_and_single_is_in_range_and_the_count_is_recorded() {
    let reading = read_at(Some(30), &smooth(12.0, 12.0));
    assert_eq!((&reading.gaps, &reading.flags), (&vec![], &vec![]));
    assert_eq!(found(&reading, "convergence").headline, "Slow convergence smooth");
    let jumps = found(&reading, "jumps");
    assert_eq!((jumps.headline.as_str(), jumps.grade), ("Near-far jumps: 24 in 30 s", Grade::NoRange));
    assert!(jumps.details[0].contains("No limit was found for this count"));
    let others = reading.findings.iter().filter(|finding| finding.key != "vergence.jumps");
    assert!(others.clone().count() == 4 && others.clone().all(|finding| finding.grade == Grade::WithinRange));
}

#[test]
fn an_eye_that_lets_go_is_named_and_no_cause_is() {
    let mut answers = smooth(10.0, 10.0);
    answers[0].1 = one("broken");
    answers[1].1 = one("cannot");
    answers.push(("convergence_eye", one("left")));
    answers.push(("divergence_eye", one("left")));
    let reading = read_at(Some(30), &answers);
    let turned_in = found(&reading, "convergence");
    assert_eq!(turned_in.headline, "Slow convergence broken, left eye lets go");
    assert_eq!((turned_in.grade, turned_in.place), (Grade::NearLimit, Place::In(Eye::Left)));
    assert!(turned_in.details.iter().any(|said| said.contains("does not tell where a cause lies")));
    assert_eq!(found(&reading, "divergence").headline, "Slow divergence not possible, left eye lags");
    assert_eq!(found(&reading, "divergence").grade, Grade::OutsideRange);
    let signs: Vec<_> = reading.signs.iter().map(|sign| (sign.what, sign.place, sign.seen)).collect();
    let expected =
        [(What::BrokenConvergence, Place::In(Eye::Left), Seen::Yes), (What::BrokenDivergence, Place::Both, Seen::Yes)];
    assert_eq!(signs, expected);
    // The answer was smooth after all: the eye noted before says nothing.
    answers[0].1 = one("smooth");
    assert_eq!(found(&read_at(Some(30), &answers), "convergence").headline, "Slow convergence smooth");
}

/// Given all 19, the first half's are binomial with 1/2: P(X <= 4) = (1 + 19 + 171 + 969 + 3876) / 2^19 = 0.0096, twice
/// that for both sides. For 12 and 5 of 17 it is 2 x 9402 / 2^17 = 0.143.
#[test]
fn fewer_jumps_in_the_second_half_count_only_beyond_chance() {
    let tiring = |first, second| {
        let reading = read_at(Some(30), &smooth(first, second));
        let finding = found(&reading, "tiring").clone();
        (finding.headline, finding.grade, finding.details.concat())
    };
    let (headline, grade, said) = tiring(15.0, 4.0);
    assert_eq!((headline.as_str(), grade), ("Fewer near-far jumps in the second half", Grade::NearLimit));
    assert!(said.contains("would still come up in 1.9 of 100"), "{said}");
    let (headline, grade, said) = tiring(12.0, 5.0);
    assert_eq!(headline, "Fewer near-far jumps in the second half, but within chance");
    assert!(grade == Grade::NoRange && said.contains("14 of 100"), "{said}");
    assert_eq!(tiring(5.0, 15.0).1, Grade::WithinRange);
    // Nine jumps are too few to test.
    assert!(read_at(Some(30), &smooth(9.0, 0.0)).findings.iter().all(|finding| finding.key != "vergence.tiring"));
}

#[test]
fn no_jump_at_all_is_a_count_and_one_half_is_none() {
    let none = read_at(Some(30), &smooth(0.0, 0.0));
    assert_eq!(found(&none, "jumps").headline, "Near-far jumps: 0 in 30 s");
    assert!(none.gaps.is_empty());
    let half = read_at(Some(30), &smooth(11.0, 0.0)[..4]);
    assert_eq!(found(&half, "jumps").headline, "Near-far jumps: 11 in the first 15 s");
    assert_eq!(half.gaps[0].what, "near-far jumps in the second 15 s");
    assert!(half.measures.iter().all(|measure| measure.key != "vergence.jumps"));
}

/// By an instrument 7.33 - 0.0035 x 33² = 3.52 dioptres at 36 years, 7.33 - 0.0035 x 34² = 3.28 at 37, 2.54 at 40; by
/// report 15 - 0.25 x 50 = 2.5 at 50 years and 2.25 at 51. 30 cm asks for 3.33, 40 cm for 2.5.
#[test]
fn blur_near_is_ordinary_from_the_age_at_which_focusing_ends() {
    let blurred = |years, near: Option<f64>, glasses: &str| {
        let mut answers = vec![("way", noted(&["blur_near"])), ("glasses", one(glasses))];
        answers.extend(near.map(|cm| ("near", Answer::Number(cm))));
        found(&read_at(years, &answers), "blur_near").clone()
    };
    assert_eq!(blurred(Some(36), None, "none").grade, Grade::NearLimit);
    let ordinary = blurred(Some(37), None, "none");
    assert_eq!(ordinary.grade, Grade::NoRange);
    let told =
        "30 cm asks for 3.33 dioptres of focusing, and at this age no more than 3.28 are sure to be there (Anderson";
    assert!(ordinary.details[0].contains(told), "{ordinary:#?}");
    assert_eq!(blurred(Some(50), Some(40.0), "none").grade, Grade::NearLimit);
    let older = blurred(Some(51), Some(40.0), "none");
    assert!(older.grade == Grade::NoRange && older.details[0].contains("2.5 dioptres"), "{older:#?}");
    assert!(older.details[0].contains("no more than 2.25 are sure to be there (Hofstetter 1950)"), "{older:#?}");
    assert_eq!(blurred(Some(80), Some(40.0), "none").grade, Grade::NoRange);
    assert_eq!(blurred(Some(20), None, "not_worn").grade, Grade::NoRange, "without their glasses nothing is said");
    assert_eq!(blurred(None, None, "none").grade, Grade::NoRange);
}

#[test]
fn blur_and_double_are_told_apart() {
    let reading = read_at(Some(30), &[("way", noted(&["blur_far", "double"]))]);
    assert_eq!(found(&reading, "double").grade, Grade::NearLimit);
    assert_eq!(found(&reading, "blur_far").grade, Grade::NoRange);
    assert!(found(&reading, "blur_far").details.iter().any(|said| said == NOT_DOUBLE));
    assert!(reading.findings.iter().all(|finding| finding.key != "vergence.way"));
}

#[test]
fn what_was_not_recorded_is_a_gap_and_no_sign() {
    let reading = read_at(Some(30), &[("far", Answer::Number(300.0))]);
    let gaps: Vec<_> = reading.gaps.iter().map(|gap| (gap.what.as_str(), &gap.why)).collect();
    assert_eq!(
        gaps,
        [
            ("slow convergence", &Why::NotRecorded),
            ("slow divergence", &Why::NotRecorded),
            ("near-far jumps", &Why::NotRecorded),
            ("blur or double between near and far", &Why::NotRecorded),
        ]
    );
    assert!(reading.findings.is_empty() && reading.signs.is_empty() && reading.measures.is_empty());
}

#[test]
fn a_skipped_record_says_nothing() {
    for state in [State::NotDone("no time".into()), State::NotTestable("asleep".into())] {
        assert_eq!(read_in(state, Some(30), &smooth(12.0, 3.0)), Reading::default());
    }
}

#[test]
fn answers_of_a_newer_version_are_gaps() {
    let reading = read_at(Some(30), &[("convergence", one("wavering")), ("way", noted(&["shimmering"]))]);
    let unread = reading.gaps.iter().filter(|gap| gap.why == Why::Unread).map(|gap| gap.what.as_str());
    let expected = ["slow convergence", "something seen between near and far that is unknown here"];
    assert_eq!(unread.collect::<Vec<_>>(), expected);
    assert!(reading.findings.is_empty());
}

#[test]
fn the_count_is_handed_on_with_its_distances_and_halves() {
    let mut answers = smooth(12.0, 10.0);
    answers.extend([("near", Answer::Number(30.0)), ("far", Answer::Number(300.0)), ("glasses", one("worn"))]);
    let reading = read_at(Some(30), &answers);
    let [turned_in, turned_out, jumps] = &reading.measures[..] else { panic!("{:#?}", reading.measures) };
    assert_eq!(jumps.amount, Amount::Number { value: 22.0, unit: "" });
    assert_eq!((jumps.key.as_str(), jumps.better), ("vergence.jumps", Better::Higher));
    let method: Vec<_> = jumps.method.iter().map(|(name, words)| format!("{name}: {words}")).collect();
    assert_eq!(
        method,
        [
            "distance of the near target: 30 cm",
            "distance of the far target: 300 cm",
            "glasses for near: worn, for this distance",
        ]
    );
    let smooth = Amount::Step { step: 0, words: &["smooth", "broken", "not possible"] };
    assert_eq!((&turned_in.amount, &turned_out.amount), (&smooth, &smooth));
    assert_eq!(reading.courses[0].values, Values::Numbers(vec![12.0, 10.0], ""));
}

#[test]
fn a_mirrored_visit_names_the_other_eye() {
    let with = |eye: &str| {
        let mut answers = smooth(12.0, 10.0);
        answers[0].1 = one("broken");
        answers.push(("convergence_eye", one(eye)));
        read_at(Some(30), &answers)
    };
    let (right, left) = (with("right"), with("left"));
    assert_eq!(found(&right, "convergence").place, Place::In(Eye::Right));
    assert_eq!(found(&left, "convergence").place, Place::In(Eye::Left));
    let swapped = found(&right, "convergence").headline.replace("right", "left");
    assert_eq!(found(&left, "convergence").headline, swapped);
    assert_eq!(right.signs[0].place, Place::In(Eye::Right));
}

#[test]
fn the_usual_tap_leaves_the_counts_to_be_typed() {
    let reading = read_at(Some(30), &FORM.usual_answers());
    assert!(reading.findings.iter().all(|finding| finding.grade == Grade::WithinRange));
    assert_eq!(reading.gaps.iter().map(|gap| gap.what.as_str()).collect::<Vec<_>>(), ["near-far jumps"]);
    assert!(GRADES.iter().all(|grade| Quality::from_id(grade.id).is_some()));
}
