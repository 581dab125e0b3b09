//! Tests of the near point: the reading rule on normal, abnormal, incomplete and odd records, and the drawing.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Answers};
use crate::capture::visit::Visit;
use crate::evidence::Limit;
use crate::figure::{Anchor, Ink, MarkKind, Shape};
use crate::measure::{Amount, Better, Values};
use crate::sign::{Seen, What};

fn number(cm: f64) -> Answer {
    Answer::Number(cm)
}

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

fn trial(answers: &[(&str, Answer)]) -> Trial {
    Trial { at_ms: 0, answers: answers.iter().map(|(key, answer)| ((*key).to_string(), answer.clone())).collect() }
}

fn broke(distances: &[f64]) -> Vec<Trial> {
    distances.iter().map(|cm| trial(&[("break", number(*cm)), ("end", one("double"))])).collect()
}

fn single() -> Trial {
    trial(&[("end", one("no_break"))])
}

fn read_with(years: Option<u8>, trials: Vec<Trial>, state: State, details: &[(&str, Answer)]) -> Reading {
    let now = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
    let mut visit = Visit::begin("v", "p", "sideline", now, "test");
    let record = visit.record_mut(TASK.id, now);
    record.state = state;
    if !trials.is_empty() {
        record.answers.set("trials", Some(Answer::Trials(trials)));
    }
    for (key, answer) in details {
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    for (key, answer) in record.answers.iter() {
        assert!(TASK.form.field(key).is_some_and(|field| field.accepts(answer)), "the form refuses {key}");
    }
    let age = years.map(|years| Age { years, exact: true });
    (TASK.read)(&Context { visit: &visit, age }, &record)
}

fn read(years: u8, trials: Vec<Trial>) -> Reading {
    read_with(Some(years), trials, State::Done, &[])
}

#[track_caller]
fn finding<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("near_point.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no finding {key}"))
}

#[track_caller]
fn says(finding: &Finding, words: &str) {
    assert!(finding.details.iter().any(|said| said.contains(words)), "“{words}” is not in {:#?}", finding.details);
}

#[test]
fn a_near_point_in_range() {
    let reading = read(14, broke(&[4.0, 4.5, 4.0]));
    let near = finding(&reading, "break");
    assert_eq!(near.headline, "Near point 4.2 cm, mean of 3 trials");
    assert_eq!((near.grade, near.norm.map(|norm| norm.id)), (Grade::WithinRange, Some("near_point.break.child")));
    assert_eq!(near.value.as_ref().map(|value| (value.number, value.unit)), Some((4.17, "cm")));
    says(near, "In order: 4.0 cm, 4.5 cm, 4.0 cm.");
    let back = finding(&reading, "drawing_back");
    assert_eq!((back.headline.as_str(), back.grade), ("Near point stays the same over 3 trials", Grade::WithinRange));
    assert_eq!((reading.gaps, reading.flags), (vec![], vec![]));
}

#[test]
fn a_near_point_that_is_far_out_and_draws_back() {
    let reading = read(14, broke(&[8.0, 9.0, 11.5]));
    let near = finding(&reading, "break");
    assert_eq!((near.headline.as_str(), near.grade), ("Near point 9.5 cm, mean of 3 trials", Grade::OutsideRange));
    let rates: Vec<String> = near.healthy.iter().map(|rate| rate.share()).collect();
    assert_eq!(rates, ["21 to 32 in 100", "22 in 100"]);
    says(near, "2 cm (Ernst et al. 2020), 2.5 cm (Scheiman et al. 2025), 4 cm (CARE consortium 2021)");
    says(near, "certain only from 4 cm on");
    let back = finding(&reading, "drawing_back");
    assert_eq!(
        (back.headline.as_str(), back.grade),
        ("Near point draws back 3.5 cm over 3 trials", Grade::OutsideRange)
    );
    says(back, "More than measurement error");
    says(back, "How many centimetres mean tiring is not published");
}

#[test]
fn drawing_back_is_read_against_both_error_limits() {
    let grade = |from: f64, to: f64| finding(&read(30, broke(&[from, 6.0, to])), "drawing_back").grade;
    assert_eq!(grade(6.0, 8.0), Grade::WithinRange);
    assert_eq!(grade(6.3, 8.3), Grade::WithinRange);
    assert_eq!(grade(6.0, 8.5), Grade::NearLimit);
    assert_eq!(grade(6.0, 9.0), Grade::OutsideRange);
    assert_eq!(grade(9.0, 5.0), Grade::WithinRange);
}

/// Standard error from the limits of agreement: 2.5 / (1.96 √2) = 0.902 cm (Scheiman et al. 2025, derived); likewise
/// 4 cm gives 1.443 (CARE consortium 2021) and 2 cm gives 0.722 (Ernst et al. 2020).
#[test]
fn the_error_is_worked_out_from_the_limits_of_agreement() {
    let error = |limit: f64| limit / (1.96 * 2.0_f64.sqrt());
    let expected = [0.722, 0.902, 1.443];
    for (limit, expected) in CHANGE_LIMITS.iter().zip(expected) {
        assert!((error(limit.value) - expected).abs() < 5e-4, "{}", limit.value);
    }
    for norm in [&CHILD, &ADULT] {
        let printed = norm.error.expect("both have one");
        assert!((printed - error(2.5)).abs() < 5e-4);
    }
}

#[test]
fn the_limit_goes_by_age() {
    let grade = |years: Option<u8>, cm: f64| {
        let reading = read_with(years, broke(&[cm, cm, cm]), State::Done, &[]);
        let near = finding(&reading, "break");
        (near.grade, near.norm.map_or(Limit::AtMost(0.0), |norm| norm.limit))
    };
    // Hayes et al. 1998: 6 cm; error 0.9 cm on either side.
    assert_eq!(grade(Some(9), 5.0), (Grade::WithinRange, Limit::AtMost(6.0)));
    assert_eq!(grade(Some(17), 6.5), (Grade::NearLimit, Limit::AtMost(6.0)));
    assert_eq!(grade(Some(17), 7.0), (Grade::OutsideRange, Limit::AtMost(6.0)));
    // Scheiman et al. 2003: 5 cm.
    assert_eq!(grade(Some(18), 4.0), (Grade::WithinRange, Limit::AtMost(5.0)));
    assert_eq!(grade(Some(18), 5.9), (Grade::NearLimit, Limit::AtMost(5.0)));
    assert_eq!(grade(Some(59), 6.0), (Grade::OutsideRange, Limit::AtMost(5.0)));
    // Over 60 the averages of healthy people lie past that limit; mean plus two standard deviations is 18.2 cm.
    assert_eq!(grade(Some(60), 4.0), (Grade::WithinRange, Limit::AtMost(5.0)));
    assert_eq!(grade(Some(60), 13.0), (Grade::NearLimit, Limit::AtMost(5.0)));
    assert_eq!(grade(Some(75), 18.5), (Grade::OutsideRange, Limit::AtMost(5.0)));
    // Of an unknown age only what both limits say is said.
    assert_eq!(grade(None, 4.0), (Grade::WithinRange, Limit::AtMost(5.0)));
    assert_eq!(grade(None, 6.5), (Grade::NearLimit, Limit::AtMost(5.0)));
    assert_eq!(grade(None, 7.0), (Grade::OutsideRange, Limit::AtMost(6.0)));
}

#[test]
fn what_a_reader_must_know_of_the_limit_comes_first() {
    let first = |years: Option<u8>, cm: f64| {
        let reading = read_with(years, broke(&[cm; 3]), State::Done, &[]);
        finding(&reading, "break").details[0].clone()
    };
    assert!(first(None, 9.0).contains("Age not known: the limit is 6 cm for children (Hayes et al. 1998) and 5 cm"));
    assert!(first(Some(67), 9.0).contains("healthy people over 60 average 7.8 cm (Tehran 2021)"));
    assert_eq!(first(None, 4.0), "In order: 4.0 cm, 4.0 cm, 4.0 cm.");
    let one = read(20, broke(&[5.5]));
    assert_eq!(finding(&one, "break").details[0], "One trial only: two more can change the picture.");
}

#[test]
fn every_age_has_its_rates_or_averages() {
    for years in 0..=110 {
        let reading = read(years, broke(&[40.0, 40.0, 40.0]));
        let near = finding(&reading, "break");
        assert_eq!(near.grade, Grade::OutsideRange);
        assert!(near.norm.is_some_and(|norm| norm.fits(Some(years))));
        says(near, "decides nothing alone");
        assert_eq!(near.healthy.is_empty(), years >= 60);
    }
}

#[test]
fn nothing_recorded_is_a_gap_and_not_a_value() {
    for state in [State::Open, State::Done] {
        let reading = read_with(Some(14), vec![], state, &[("zero", one("brow"))]);
        assert_eq!((reading.findings, reading.figures), (vec![], vec![]));
        let why: Vec<Why> = reading.gaps.into_iter().map(|gap| gap.why).collect();
        assert_eq!(why, [Why::NotRecorded]);
    }
    let empty = read(14, vec![Trial::default(), Trial::default()]);
    assert_eq!((empty.findings.len(), empty.gaps.len()), (0, 1));
}

#[test]
fn not_done_and_not_testable_keep_their_reasons() {
    let not_done = read_with(Some(14), vec![], State::NotDone("no time".into()), &[]);
    assert_eq!(not_done.gaps[0].why, Why::NotDone("no time".into()));
    assert_eq!(not_done.findings, vec![]);
    // What was measured before it was broken off is still told.
    let broken_off = read_with(Some(14), broke(&[9.0]), State::NotTestable("felt sick".into()), &[]);
    assert_eq!(broken_off.gaps.len(), 1);
    assert_eq!(broken_off.gaps[0].why, Why::NotTestable("felt sick".into()));
    assert_eq!(finding(&broken_off, "break").headline, "Near point 9.0 cm, one trial");
}

/// Ernst et al. 2020: a first trial of 3 cm or nearer, or 7 cm or farther, needs no second.
#[test]
fn few_trials_say_what_they_are_worth() {
    for (cm, gaps, words) in [(3.0, 0, "99.6 %"), (7.0, 0, "99.6 %"), (3.5, 1, "can change"), (6.5, 1, "can change")] {
        let reading = read(20, broke(&[cm]));
        assert_eq!(reading.gaps.len(), gaps, "{cm}");
        assert!(reading.gaps.iter().all(|gap| gap.why == Why::TooFew));
        says(finding(&reading, "break"), words);
        assert_eq!(reading.findings.len(), 1, "one trial draws nothing back");
        assert_eq!(reading.figures, vec![]);
    }
    let two = read(20, broke(&[5.0, 6.0]));
    assert_eq!(two.gaps, vec![]);
    says(finding(&two, "break"), "379 of 380");
}

#[test]
fn a_target_that_stays_single_gives_no_number() {
    let reading = read(20, vec![single(), single(), single()]);
    let near = finding(&reading, "break");
    assert_eq!((near.headline.as_str(), near.grade), ("Single to the nose in 3 trials", Grade::WithinRange));
    assert_eq!(near.value, None);
    assert_eq!((reading.gaps, reading.findings.len()), (vec![], 1));
}

#[test]
fn single_trials_are_kept_out_of_the_mean_and_said() {
    let mut trials = broke(&[8.0]);
    trials.splice(0..0, [single(), single()]);
    let reading = read(20, trials);
    let near = finding(&reading, "break");
    assert_eq!(near.headline, "Near point 8.0 cm, one trial; single to the nose in 2 more trials");
    assert_eq!(near.grade, Grade::NearLimit, "two of three stayed single, so “outside” would be too much");
    says(near, "the true mean is nearer");
    let back = finding(&reading, "drawing_back");
    assert_eq!(back.headline, "Single to the nose at first, broke at 8.0 cm in the last of 3 trials");
    assert_eq!((back.grade, &back.value), (Grade::NoRange, &None));
}

#[test]
fn contradictory_and_empty_trials_are_left_out_and_said() {
    let odd = trial(&[("break", number(20.0)), ("end", one("no_break"))]);
    let lost = trial(&[("eye", one("right"))]);
    let mut trials = broke(&[4.0, 4.0]);
    trials.extend([odd, lost]);
    let near = read(20, trials);
    let near = finding(&near, "break");
    assert_eq!(near.headline, "Near point 4.0 cm, mean of 2 trials");
    says(near, "trial 3 holds both a distance and “single to the nose”; trial 4 has no distance");
}

#[test]
fn blur_is_not_read_as_double() {
    let blurred = |cm: f64| trial(&[("break", number(cm)), ("end", one("blurred"))]);
    let all = read(20, vec![blurred(9.0), blurred(9.0), blurred(9.0)]);
    assert_eq!(finding(&all, "break").grade, Grade::NearLimit);
    says(finding(&all, "break"), "the range is for double vision");
    let mut mixed = broke(&[5.0, 5.0]);
    mixed.push(blurred(9.0));
    let mixed = read(20, mixed);
    says(finding(&mixed, "break"), "End points are mixed, 1 of 3 blurred");
    assert_eq!(finding(&mixed, "drawing_back").grade, Grade::NoRange);
}

#[test]
fn ten_trials_are_all_read() {
    let distances: Vec<f64> = (0..10).map(|trial| 5.0 + f64::from(trial)).collect();
    let reading = read(30, broke(&distances));
    assert_eq!(finding(&reading, "break").headline, "Near point 9.5 cm, mean of 10 trials");
    assert_eq!(finding(&reading, "drawing_back").headline, "Near point draws back 9.0 cm over 10 trials");
    assert_eq!(drawn_marks(&reading).len(), 10);
}

#[test]
fn recovery_has_a_limit_for_adults_only() {
    let recovering = |again: f64| {
        vec![trial(&[("break", number(5.0)), ("recovery", number(again))]), trial(&[("break", number(5.0))])]
    };
    let adult = read(30, recovering(7.5));
    let again = finding(&adult, "recovery");
    assert_eq!((again.headline.as_str(), again.grade), ("Single again at 7.5 cm, one trial", Grade::OutsideRange));
    assert_eq!(finding(&read(30, recovering(7.0)), "recovery").grade, Grade::WithinRange);
    let child = read(9, recovering(7.5));
    assert_eq!(finding(&child, "recovery").grade, Grade::NoRange);
    says(finding(&child, "recovery"), "No limit is published for children");
    says(finding(&read(30, recovering(4.0)), "recovery"), "Trial 1: single again nearer than it broke");
}

/// 63 mm at 5 cm + 2.7 cm: 44.5°, 98.3 prism dioptres by 100 tan, 81.8 by the ratio (by arithmetic).
#[test]
fn the_angle_needs_the_pupillary_distance_and_names_its_convention() {
    let details = [("pd", number(63.0)), ("zero", one("spectacles"))];
    let reading = read_with(Some(30), broke(&[5.0, 5.0, 5.0]), State::Done, &details);
    let angle = finding(&reading, "angle");
    assert_eq!(
        angle.headline,
        "Eyes turned 44.5° toward each other at the near point: 98.3 prism dioptres (100 times the tangent), 81.8 by \
         the ratio 100 PD / D"
    );
    says(angle, "63 mm between the pupils");
    says(angle, "2.7 cm behind the ruler's zero, the spectacle plane.");
    let unknown = read(30, broke(&[5.0, 5.0, 5.0]));
    assert!(unknown.findings.iter().all(|finding| finding.key != "near_point.angle"));
    let wide = read_with(Some(30), broke(&[1.0, 1.0]), State::Done, &[("pd", number(80.0))]);
    assert!(finding(&wide, "angle").headline.starts_with("Eyes turned about 94.5°"));
    assert!(finding(&wide, "angle").headline.contains("a right angle has no tangent"));
    says(finding(&wide, "angle"), "so the angle is rough");
}

#[test]
fn the_way_of_measuring_is_told() {
    let bare = read_with(Some(30), vec![trial(&[("break", number(4.0))]); 3], State::Done, &[]);
    says(finding(&bare, "break"), "where the ruler's zero lay (1.8 cm");
    says(finding(&bare, "break"), "whether it doubled or blurred (4.1 cm)");
    let details = [("zero", one("canthus")), ("approach", one("5")), ("target", one("light"))];
    let told = read_with(Some(30), broke(&[4.0; 3]), State::Done, &details);
    let near = finding(&told, "break");
    says(near, "Read from the outer corner of the eye");
    says(near, "At 5 cm a second");
    says(near, "A penlight reads farther out");
    assert_eq!(
        finding(&told, "method").headline,
        "Measured so: ruler from the outer corner of the eye, about 5 cm a second, light"
    );
    assert!(bare.findings.iter().all(|finding| finding.key != "near_point.method"));
    assert!(near.details.iter().all(|said| !said.contains("Not noted")));
}

#[test]
fn mirrored_eyes_give_mirrored_findings() {
    let seen = |eyes: &[&str]| {
        let trials = eyes.iter().map(|eye| trial(&[("break", number(9.0)), ("eye", one(eye))])).collect();
        read(30, trials)
    };
    let (one_way, other_way) =
        (seen(&["right", "right", "left", "not_seen"]), seen(&["left", "left", "right", "not_seen"]));
    assert_eq!(finding(&one_way, "let_go_right").headline, "Right eye let go first in 2 of 3 trials");
    assert_eq!(finding(&one_way, "let_go_right").place, Place::In(Eye::Right));
    assert_eq!(finding(&other_way, "let_go_left").headline, "Left eye let go first in 2 of 3 trials");
    assert_eq!(finding(&other_way, "let_go_right").headline, "Right eye let go first in 1 of 3 trials");
    let but_eyes = |reading: &Reading| {
        reading.findings.iter().filter(|finding| !finding.key.contains("let_go")).cloned().collect::<Vec<_>>()
    };
    assert_eq!(but_eyes(&one_way), but_eyes(&other_way));
}

#[test]
fn the_drawing_keeps_to_its_canvas_and_says_the_same_in_words() {
    let recovering = |cm: f64| trial(&[("break", number(cm)), ("recovery", number((cm + 3.0).min(60.0)))]);
    let cases = [
        broke(&[8.0, 9.0, 11.5]),
        broke(&[60.0; 10]),
        broke(&[1.0, 60.0]),
        vec![single(), recovering(55.0), single()],
        vec![recovering(2.0), recovering(1.0)],
    ];
    for trials in cases {
        let reading = read(14, trials);
        let figure = &reading.figures[0];
        for shape in &figure.shapes {
            for (x, y) in points(shape) {
                assert!((0.0..=figure.width).contains(&x) && (0.0..=figure.height).contains(&y), "{shape:?}");
            }
        }
    }
    let figure = &read(14, broke(&[8.0, 9.0, 11.5])).figures[0];
    assert!(figure.says.contains("3 trials on a ruler: 8.0 cm, 9.0 cm, 11.5 cm. The range reaches to 6 cm."));
    assert!(figure.says.contains("From first to last: drawing back 3.5 cm."));
    let words: Vec<&str> = figure.shapes.iter().filter_map(words).collect();
    assert!(words.contains(&"drawing back 3.5 cm") && words.contains(&"range to 6 cm") && words.contains(&"11.5"));
    let joins = figure.shapes.iter().filter(|s| matches!(s, Shape::Line { ink: Ink::Strong, .. })).count();
    assert_eq!(joins, 2 + 3, "two joins between three trials, and the three strokes of the measure below");
}

#[test]
fn a_trial_without_a_distance_is_not_bridged_by_a_line() {
    let [near, far] = [broke(&[4.0]), broke(&[9.0])];
    let reading = read(30, [near, vec![single()], far].concat());
    let joins = |shape: &&Shape| matches!(shape, Shape::Line { from, to, .. } if from.0 < to.0 && from.1 < to.1);
    assert_eq!(reading.figures[0].shapes.iter().filter(joins).count(), 0);
    let joined = read(30, broke(&[4.0, 9.0]));
    assert_eq!(joined.figures[0].shapes.iter().filter(joins).count(), 1);
}

#[test]
fn marks_stand_farther_out_for_larger_distances() {
    let marks = drawn_marks(&read(30, broke(&[3.0, 5.0, 9.0])));
    assert!(marks.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 < pair[1].1));
    let kinds = [MarkKind::Ring, MarkKind::HalfRing, MarkKind::Diamond];
    assert_eq!(marks.iter().map(|mark| mark.2).collect::<Vec<_>>(), kinds);
}

#[test]
fn every_choice_of_an_unreadable_file_is_survived() {
    let mut answers = Answers::default();
    answers.set("trials", Some(Answer::Text("no trials".into())));
    answers.set("pd", Some(Answer::Number(4000.0)));
    answers.set("zero", Some(one("a place from the future")));
    let now = Moment { unix_ms: 0, offset_minutes: 0 };
    let mut visit = Visit::begin("v", "p", "sideline", now, "test");
    visit.record_mut(TASK.id, now).answers = answers;
    let context = Context { visit: &visit, age: None };
    let record = visit.record(TASK.id).expect("opened above");
    assert_eq!(read_gaps(&(TASK.read)(&context, record)), [Why::NotRecorded]);
    let absurd =
        [trial(&[("break", number(f64::INFINITY))]), trial(&[("break", number(-3.0))]), trial(&[("end", one("?"))])];
    let mut record = record.clone();
    record.answers.set("trials", Some(Answer::Trials(absurd.to_vec())));
    assert_eq!(read_gaps(&(TASK.read)(&context, &record)), [Why::NotRecorded]);
}

fn read_gaps(reading: &Reading) -> Vec<Why> {
    assert_eq!(reading.findings, vec![]);
    reading.gaps.iter().map(|gap| gap.why.clone()).collect()
}

fn drawn_marks(reading: &Reading) -> Vec<(f64, f64, MarkKind)> {
    let marks = reading.figures[0].shapes.iter();
    marks.filter_map(|s| if let Shape::Mark { at, kind, .. } = s { Some((at.0, at.1, *kind)) } else { None }).collect()
}

fn words(shape: &Shape) -> Option<&str> {
    if let Shape::Text { text, .. } = shape { Some(text) } else { None }
}

/// The outermost points of a shape; a letter is taken as 7.5 units wide, a little more than at 13 units of type.
fn points(shape: &Shape) -> Vec<(f64, f64)> {
    match shape {
        Shape::Line { from, to, .. } => vec![*from, *to],
        Shape::Rect { at, size, .. } => vec![*at, (at.0 + size.0, at.1 + size.1)],
        Shape::Mark { at, size, .. } => {
            vec![(at.0 - size / 2.0, at.1 - size / 2.0), (at.0 + size / 2.0, at.1 + size / 2.0)]
        }
        Shape::Text { at, text, anchor, .. } => {
            let wide = 7.5 * text.chars().count() as f64;
            let from = match anchor {
                Anchor::Start => at.0,
                Anchor::Middle => at.0 - wide / 2.0,
                Anchor::End => at.0 - wide,
            };
            vec![(from, at.1 - 11.0), (from + wide, at.1 + 3.0)]
        }
    }
}

fn far(reading: &Reading) -> Option<Seen> {
    reading.signs.iter().find(|sign| sign.what == What::FarNearPoint).map(|sign| sign.seen)
}

#[test]
fn a_near_point_near_its_limit_is_neither_far_nor_near() {
    assert_eq!(far(&read(14, broke(&[8.0, 9.0, 11.5]))), Some(Seen::Yes));
    assert_eq!(far(&read(14, broke(&[4.0, 4.5, 4.0]))), Some(Seen::No));
    assert_eq!(far(&read(14, vec![single(), single()])), Some(Seen::No));
    // 6.5 cm lies within 0.9 cm of the limit of 6 cm.
    assert_eq!(far(&read(14, broke(&[6.5, 6.5, 6.5]))), None);
    assert_eq!(read(14, vec![]).signs, []);
}

#[test]
fn a_near_point_hands_on_its_mean_with_how_it_was_measured() {
    let mut trials = broke(&[8.0, 9.0, 11.5]);
    trials[0].answers.set("recovery", Some(number(12.0)));
    let details = [("zero", one("canthus")), ("approach", one("3"))];
    let reading = read_with(Some(14), trials, State::Done, &details);
    let [near, back] = &reading.measures[..] else { panic!("{:#?}", reading.measures) };
    assert_eq!((near.key.as_str(), near.better), ("near_point.break", Better::Lower));
    assert_eq!(near.amount, Amount::Number { value: 9.5, unit: "cm" });
    assert_eq!(near.limits.iter().map(|limit| limit.value).collect::<Vec<_>>(), [2.0, 2.5, 4.0]);
    assert_eq!(near.norm.map(|norm| norm.id), Some("near_point.break.child"));
    let method: Vec<_> = near.method.iter().map(|(name, words)| format!("{name}: {words}")).collect();
    let expected = ["end point: double", "ruler's zero: outer corner of the eye", "approach: about 3 cm a second"];
    assert_eq!(method, expected);
    assert_eq!(back.amount, Amount::Number { value: 12.0, unit: "cm" });
    assert!(back.limits.is_empty() && back.norm.is_none(), "nothing is published on its change or for children");
    assert_eq!(reading.courses[0].values, Values::Numbers(vec![8.0, 9.0, 11.5], "cm"));
}

#[test]
fn a_trial_that_stayed_single_breaks_the_course_and_marks_the_mean() {
    let reading = read(14, vec![single(), broke(&[8.0]).remove(0), broke(&[9.0]).remove(0)]);
    assert_eq!(reading.courses, []);
    assert!(reading.measures[0].method.contains(&("left out", "trials that stayed single".to_string())));
    assert_eq!(read(14, vec![single()]).measures, [], "single to the nose has no number");
}
