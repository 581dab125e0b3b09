//! Visits with following as it comes: smooth, worse to one side, young, tiring, half done, mirrored and absurd.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Cell as Answered};
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::figure::Shape;
use crate::measure::{Amount, Values};
use crate::sign::{Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const ROWS: [&str; 4] = ["right", "left", "up", "down"];

/// Reads grades written as two letters for each direction in exam order, slow then fast: s smooth, f few, m many,
/// c cannot follow, - not recorded.
fn read_grades(grades: [&str; 4], years: u8) -> Reading {
    read_with(grades, years, |record| {
        record.answers.set("head", Some(Answer::One("still".into())));
    })
}

fn read_with(grades: [&str; 4], years: u8, change: impl FnOnce(&mut Record)) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let mut cells = Vec::new();
    for (row, letters) in ROWS.iter().zip(grades) {
        for (letter, column) in letters.chars().zip(["slow", "fast"]) {
            let grade = match letter {
                's' => "smooth",
                'f' => "few",
                'm' => "many",
                'c' => "cannot",
                _ => continue,
            };
            let (row, column) = (row.to_string(), column.to_string());
            cells.push(Answered { row, column, grade: grade.into(), from_cycle: None });
        }
    }
    let record = visit.record_mut("pursuit", NOW);
    if !cells.is_empty() {
        record.answers.set("follow", Some(Answer::Grid(cells)));
    }
    change(record);
    let record = record.clone();
    read(&Context { visit: &visit, age: Some(Age { years, exact: true }) }, &record)
}

fn from_cycle(record: &mut Record, row: &str, column: &str, cycle: u8) {
    let Some(Answer::Grid(cells)) = record.answers.get("follow") else { panic!("no grades") };
    let mut cells = cells.clone();
    let cell = cells.iter_mut().find(|cell| cell.row == row && cell.column == column).expect("graded");
    cell.from_cycle = Some(cycle);
    record.answers.set("follow", Some(Answer::Grid(cells)));
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("pursuit.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

#[track_caller]
fn check_grade(grades: [&str; 4], years: u8, what: &str, grade: Grade) {
    assert_eq!(found(&read_grades(grades, years), what).grade, grade, "{grades:?} at {years}");
}

#[test]
fn the_usual_tap_reads_as_in_range_throughout() {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let record = visit.record_mut("pursuit", NOW);
    for (key, answer) in FORM.usual_answers() {
        record.answers.set(key, Some(answer));
    }
    let record = record.clone();
    let reading = read(&Context { visit: &visit, age: None }, &record);
    assert!(reading.gaps.is_empty());
    assert!(reading.findings.iter().all(|finding| finding.grade == Grade::WithinRange));
    assert_eq!(found(&reading, "up").headline, "Following upward: smooth, slow and fast");
    assert_eq!(found(&reading, "right_left").headline, "Following to the right and to the left alike");
    assert_eq!(reading.figures.len(), 1);
}

#[test]
fn what_is_ordinary_depends_on_speed_and_age() {
    for (grades, years, grade) in [
        ("sf", 30, Grade::WithinRange),
        ("ff", 30, Grade::NearLimit),
        ("sm", 30, Grade::NearLimit),
        ("mm", 30, Grade::OutsideRange),
        ("sc", 30, Grade::OutsideRange),
        ("ff", 6, Grade::WithinRange),
        ("fm", 6, Grade::WithinRange),
        ("mm", 6, Grade::NearLimit),
        ("cc", 6, Grade::OutsideRange),
        ("ff", 7, Grade::NearLimit),
    ] {
        check_grade([grades, "ss", "ss", "ss"], years, "right", grade);
    }
}

#[test]
fn a_target_moved_too_fast_forgives_one_step_and_no_more() {
    let hurried = |fast: &str| {
        let reading = read_with(["ss", fast, "ss", "ss"], 30, |record| {
            record.answers.set("speed", Some(Answer::One("faster".into())));
        });
        found(&reading, "left").grade
    };
    assert_eq!(hurried("sm"), Grade::WithinRange);
    assert_eq!(hurried("sc"), Grade::NearLimit);
}

#[test]
fn worse_to_one_side_is_set_down_without_a_p() {
    let reading = read_grades(["ss", "fm", "ss", "ss"], 14);
    let finding = found(&reading, "right_left");
    assert_eq!(finding.headline, "Following to the left is worse than to the right");
    assert_eq!((finding.grade, finding.place), (Grade::NearLimit, Place::Toward(Direction::Left)));
    assert!(finding.details[0].contains("the smallest possible p is 0.5"));
    assert!(reading.comparisons.is_empty());
    // The figure quoted: two differences of one sign.
    let test = crate::statistics::exact::sign_test(&[1.0, 2.0]).expect("two differences");
    assert!((test.p - 0.5).abs() < 1e-12);
}

#[test]
fn one_step_at_one_speed_is_recorded_and_contradictions_name_no_side() {
    check_grade(["ss", "sf", "ss", "ss"], 14, "right_left", Grade::NoRange);
    check_grade(["sm", "ss", "ss", "ss"], 14, "right_left", Grade::NearLimit);
    let mixed = read_grades(["sm", "fs", "ss", "ss"], 14);
    assert_eq!(found(&mixed, "right_left").place, Place::Both);
    assert!(found(&mixed, "left").details.iter().any(|detail| detail.contains("Worse slow than fast is unusual")));
}

#[test]
fn breaking_after_some_cycles_is_told_with_its_cycle() {
    let reading = read_with(["ss", "fm", "ss", "ss"], 30, |record| from_cycle(record, "left", "fast", 3));
    let finding = found(&reading, "tiring");
    let headline = "Following breaks from the 3rd time on (to the left, fast)";
    assert_eq!((finding.headline.as_str(), finding.grade), (headline, Grade::NoRange));
    let left = found(&reading, "left");
    assert_eq!(left.grade, Grade::NearLimit, "the tap is graded once, with its direction");
    assert!(left.headline.ends_with("many catch-ups when fast (from the 3rd time on)"));
    assert!(left.details.iter().any(|detail| detail.contains("may be tiring")));
    // From the start, or noted on a smooth cell, is no breaking.
    let reading = read_with(["ss", "fm", "ss", "ss"], 30, |record| {
        from_cycle(record, "left", "fast", 1);
        from_cycle(record, "up", "slow", 4);
    });
    assert!(reading.findings.iter().all(|finding| finding.key != "pursuit.tiring"));
}

#[test]
fn missing_cells_are_gaps_and_never_smooth() {
    let reading = read_with(["s-", "ss", "--", "-f"], 30, |_| {});
    let gaps: Vec<_> = reading.gaps.iter().map(|gap| (gap.what.as_str(), &gap.why)).collect();
    assert_eq!(
        gaps,
        [
            ("following to the right, fast", &Why::NotRecorded),
            ("following upward", &Why::NotRecorded),
            ("following downward, slow", &Why::NotRecorded),
            ("what the head did while following", &Why::NotRecorded),
        ]
    );
    assert!(reading.findings.iter().all(|finding| finding.key != "pursuit.up"));
    assert_eq!(found(&reading, "down").headline, "Following downward: few catch-ups when fast");
    let only_head = read_grades(["--"; 4], 30);
    assert_eq!(only_head.gaps[0].what, "following in any direction");
    assert_eq!((only_head.findings.len(), only_head.figures.len()), (1, 0));
}

#[test]
fn nothing_recorded_or_skipped_says_nothing() {
    assert_eq!(read_with(["--"; 4], 30, |_| {}), Reading::default());
    let skipped = read_with(["mm"; 4], 30, |record| record.state = State::NotTestable("fell asleep".into()));
    assert_eq!(skipped, Reading::default());
}

#[test]
fn a_helping_head_is_near_the_limit_only_from_seven_years_on() {
    let head = |years, id: &str| {
        let reading = read_with(["ss"; 4], years, |record| {
            record.answers.set("head", Some(Answer::One(id.into())));
        });
        found(&reading, "head").grade
    };
    assert_eq!(head(30, "with_eyes"), Grade::NearLimit);
    assert_eq!(head(5, "with_eyes"), Grade::NoRange);
    assert_eq!(head(30, "little"), Grade::NoRange);
}

#[test]
fn young_children_get_the_caution_beside_what_stands_out() {
    let reading = read_grades(["cc", "ss", "ss", "ss"], 5);
    let said = &found(&reading, "right").details[0];
    assert!(said.contains("few catch-ups when slow and many catch-ups when fast count as ordinary here"), "{said}");
    assert!(said.contains("Gilligan et al. 1981"), "{said}");
    assert_eq!(TASK.cautions[0].below_age, Some(YOUNG));
}

#[test]
fn a_mirrored_visit_has_mirrored_findings() {
    let swap = |text: &str| text.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
    for (right, left) in [("ss", "fm"), ("sm", "sf"), ("c-", "ss"), ("ff", "ff")] {
        let (one, other) = (read_grades([right, left, "sf", "ff"], 20), read_grades([left, right, "sf", "ff"], 20));
        assert_eq!(one.findings.len(), other.findings.len());
        for finding in &one.findings {
            let what = finding.key.trim_start_matches("pursuit.");
            let twin = found(&other, &if what == "right_left" { what.to_string() } else { swap(what) });
            assert_eq!(twin.grade, finding.grade);
            if !finding.headline.ends_with("alike") {
                assert_eq!(twin.headline, swap(&finding.headline));
            }
        }
    }
}

/// 50 cm at 60 cm is 45.2°; in 3 s 15° a second and in 1.5 s 30°, the two speeds of a published film protocol (plane
/// trigonometry).
#[test]
fn the_described_sweeps_give_the_two_speeds_of_the_rule() {
    let arc = 2.0 * (25.0_f64 / 60.0).atan().to_degrees();
    assert!((arc / 3.0 - 15.0).abs() < 0.2 && (arc / 1.5 - 30.0).abs() < 0.3, "{arc}");
}

#[test]
fn the_drawing_stands_as_the_examiner_sees_it() {
    let figure = read_grades(["ss", "cc", "ss", "f-"], 30).figures.remove(0);
    let heading = |words: &str| {
        let at = figure.shapes.iter().find_map(|shape| match shape {
            Shape::Text { at, text, .. } if text == words => Some(*at),
            Shape::Text { .. } | Shape::Line { .. } | Shape::Rect { .. } | Shape::Mark { .. } => None,
        });
        at.expect("a heading")
    };
    assert!(heading("their right").0 < heading("their left").0);
    assert!(heading("up").1 < heading("down").1);
    // The widest words still end on the paper, at 7.5 units a letter of 13 units.
    let widest =
        read_with(["ss", "cc", "ss", "ss"], 30, |record| from_cycle(record, "left", "fast", 4)).figures.remove(0);
    for shape in &widest.shapes {
        if let Shape::Text { at, text, .. } = shape {
            assert!(at.0 + 7.5 * text.chars().count() as f64 <= widest.width, "{text}");
        }
    }
    assert!(figure.says.contains("to the left: cannot follow, slow and fast"));
}

#[test]
fn every_grade_the_form_can_give_is_read() {
    assert!(GRADES.iter().all(|grade| Quality::from_id(grade.id).is_some()));
    assert!(DIRECTIONS.iter().all(|row| Direction::from_word(row.id).is_some()));
    assert!(Speed::BOTH.iter().zip(SPEEDS).all(|(speed, column)| speed.word() == column.id));
    let cycles: Vec<_> = [1, 2, 3, 4, 11, 12, 21, 113, 255].map(ordinal).into();
    assert_eq!(cycles, ["1st", "2nd", "3rd", "4th", "11th", "12th", "21st", "113th", "255th"]);
}

fn sign_of(reading: &Reading, what: What, toward: Direction) -> Option<Seen> {
    let sign = reading.signs.iter().find(|sign| sign.what == what && sign.place == Place::Toward(toward))?;
    assert!(reading.findings.iter().any(|finding| finding.key == sign.finding), "{sign:?} rests on nothing");
    Some(sign.seen)
}

#[test]
fn following_hands_on_what_is_reduced_and_what_is_worse() {
    let reading = read_grades(["ss", "fm", "--", "ss"], 30);
    let reduced = Direction::ALL.map(|toward| sign_of(&reading, What::PursuitReduced, toward));
    assert_eq!(reduced, [Some(Seen::No), Some(Seen::Yes), None, Some(Seen::No)]);
    let worse = |reading: &Reading| {
        [Direction::Right, Direction::Left].map(|toward| sign_of(reading, What::PursuitWorse, toward))
    };
    assert_eq!(worse(&reading), [Some(Seen::No), Some(Seen::Yes)]);
    // One step at one speed is told, but does not count.
    assert_eq!(worse(&read_grades(["ss", "sf", "ss", "ss"], 30)), [Some(Seen::No), Some(Seen::No)]);
    assert_eq!(worse(&read_grades(["--", "ss", "ss", "ss"], 30)), [None, None]);
    let other = read_grades(["fm", "ss", "--", "ss"], 30);
    assert_eq!(worse(&other), [Some(Seen::Yes), Some(Seen::No)]);
}

#[test]
fn following_hands_on_steps_pairs_and_breaks() {
    let reading = read_with(["sf", "m-", "--", "--"], 30, |record| {
        from_cycle(record, "left", "slow", 3);
        record.answers.set("head", Some(Answer::One("with_eyes".into())));
    });
    let steps: Vec<_> = reading.measures.iter().map(|m| (m.key.as_str(), m.amount.clone())).collect();
    let step = |step| Amount::Step { step, words: &["smooth", "few catch-ups", "many catch-ups", "cannot follow"] };
    assert_eq!(
        steps,
        [("pursuit.right.slow", step(0)), ("pursuit.right.fast", step(1)), ("pursuit.left.slow", step(2))]
    );
    assert!(reading.measures[0].method.contains(&("head", "moved with the eyes".to_string())));
    // Fast was done to the right only, so only slow is a pair.
    let scores: Vec<_> = reading.sided[0].repetitions.iter().map(|r| (r.toward, r.score)).collect();
    assert_eq!(scores, [(Direction::Right, 0), (Direction::Left, 2)]);
    let broke: Vec<_> = reading.courses.iter().map(|course| course.values.clone()).collect();
    assert_eq!(broke, [Values::BrokeAt(None, 4), Values::BrokeAt(None, 4), Values::BrokeAt(Some(3), 4)]);
}
