//! Sides alike, one side less, both sides less, not done, and mirrored.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::{Answer, Cell};
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::sign::{looked_for, seen};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

/// A table as expected everywhere but in these cells: test, side, grade. An empty grade leaves the cell out.
fn table(but: &[(&str, &str, &str)]) -> Answer {
    let usual = FORM.usual_answers();
    let Answer::Grid(mut cells) = usual[0].1.clone() else { panic!("a table") };
    for (row, column, grade) in but {
        cells.retain(|cell| !(cell.row == *row && cell.column == *column));
        if !grade.is_empty() {
            let cell = |text: &str| text.to_string();
            cells.push(Cell { row: cell(row), column: cell(column), grade: cell(grade), from_cycle: None });
        }
    }
    Answer::Grid(cells)
}

fn read_for(reason: &str, answers: &[(&str, Answer)], state: State) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    visit.record_mut(frame::SLOT, NOW).answers.set("reason", Some(one(reason)));
    let record = visit.record_mut(TASK.id, NOW);
    record.state = state;
    for (key, answer) in answers {
        assert!(FORM.field(key).is_some_and(|field| field.accepts(answer)), "the form refuses {key}");
        record.answers.set(key, Some(answer.clone()));
    }
    let record = record.clone();
    read(&Context { visit: &visit, age: None }, &record)
}

fn read_new(but: &[(&str, &str, &str)], new: &str) -> Reading {
    read_for("dizzy", &[("sides", table(but)), ("new", one(new))], State::Done)
}

fn headlines(reading: &Reading) -> Vec<(&str, Grade)> {
    reading.findings.iter().map(|finding| (finding.headline.as_str(), finding.grade)).collect()
}

#[test]
fn sides_alike_are_as_expected() {
    let reading = read_for("dizzy", &FORM.usual_answers(), State::Done);
    let told = "As expected on both sides: touch, arms held out, finger to nose, quick hand turns";
    assert_eq!(headlines(&reading), [(told, Grade::WithinRange)]);
    assert_eq!((reading.gaps.len(), reading.flags.len(), reading.measures.len()), (0, 0, 2));
    assert_eq!(reading.signs.len(), 6);
    for side in [Side::Right, Side::Left] {
        for what in [What::TouchLess, What::ArmDrift, What::ClumsyLimb] {
            let place = Place::On(side);
            assert!(looked_for(&reading.signs, what, place) && !seen(&reading.signs, what, place));
        }
    }
}

#[test]
fn a_new_loss_on_one_side_is_a_danger_sign() {
    let reading = read_new(&[("touch_hand", "right", "clear"), ("drift", "right", "little")], "new");
    let urgent = &reading.findings[0];
    assert_eq!(urgent.headline, "Right side: touch of the hand clearly less, the arm drifts a little");
    assert_eq!((urgent.grade, urgent.place), (Grade::Urgent, Place::On(Side::Right)));
    assert_eq!(reading.flags.len(), 1);
    let said = "weak, numb or clumsy: right side, touch of the hand clearly less, the arm drifts a little, new";
    assert_eq!((reading.flags[0].seen.as_str(), reading.flags[0].neck), (said, false));
    assert_eq!(reading.flags[0].source.short, "Aroor et al. 2017");
    assert!(seen(&reading.signs, What::TouchLess, Place::On(Side::Right)));
    assert!(seen(&reading.signs, What::ArmDrift, Place::On(Side::Right)));
    assert!(!seen(&reading.signs, What::ClumsyLimb, Place::On(Side::Right)));
    assert!(!seen(&reading.signs, What::TouchLess, Place::On(Side::Left)));
}

#[test]
fn not_known_whether_new_counts_as_new_and_long_known_does_not() {
    let but = [("drift", "left", "little")];
    assert_eq!(read_new(&but, "unknown").flags.len(), 1);
    // The question was never answered, and the form is not in hand any more.
    let unanswered = read_for("dizzy", &[("sides", table(&but))], State::Done);
    assert_eq!(unanswered.flags.len(), 1);
    assert_eq!(
        unanswered.gaps.iter().map(|gap| gap.what.as_str()).collect::<Vec<_>>(),
        ["whether what is less on a side is new"]
    );
    let old = read_new(&but, "old");
    assert_eq!((old.flags.len(), old.findings[0].grade), (0, Grade::NoRange));
    assert!(seen(&old.signs, What::ArmDrift, Place::On(Side::Left)), "it is seen, however old");
}

/// Two small differences, or an arm that sinks at all, count; one small difference of touch or skill is tested again.
#[test]
fn one_small_difference_alone_is_no_danger_sign() {
    for test in ["touch_hand", "touch_arm", "touch_leg", "finger_nose", "alternation"] {
        let reading = read_new(&[(test, "left", "little")], "new");
        assert_eq!((reading.flags.len(), reading.findings[0].grade), (0, Grade::NearLimit), "{test}");
    }
    assert_eq!(read_new(&[("touch_hand", "left", "little"), ("touch_leg", "left", "little")], "new").flags.len(), 1);
    // One on each side is one on each side.
    assert!(read_new(&[("touch_hand", "left", "little"), ("touch_leg", "right", "little")], "new").flags.is_empty());
}

#[test]
fn after_a_knock_or_on_both_sides_the_neck_is_held() {
    let but = [("touch_leg", "right", "clear")];
    let knock = read_for("knock", &[("sides", table(&but)), ("new", one("new"))], State::Done);
    assert!(knock.flags[0].neck && knock.flags[0].source.short == "Patricios et al. 2023");
    let both = read_new(&[("touch_leg", "right", "clear"), ("touch_leg", "left", "clear")], "new");
    assert_eq!(both.flags.len(), 1, "one flag for both sides");
    assert!(
        both.flags[0].neck && both.flags[0].seen.contains("right side") && both.flags[0].seen.contains("left side")
    );
}

#[test]
fn the_other_hand_may_turn_a_little_slower() {
    let but = [("alternation", "left", "little")];
    let writes = |hand: &str| read_for("dizzy", &[("sides", table(&but)), ("hand", one(hand))], State::Done);
    let ordinary = writes("right");
    assert_eq!(headlines(&ordinary)[0], ("Left side: quick hand turns a little slow or uneven", Grade::NoRange));
    assert!(!ordinary.findings[1].headline.contains("hand turns"), "what was slow is not told as expected");
    let place = Place::On(Side::Left);
    assert!(ordinary.flags.is_empty() && looked_for(&ordinary.signs, What::ClumsyLimb, place));
    assert!(!seen(&ordinary.signs, What::ClumsyLimb, place));
    assert_eq!(writes("left").findings[0].grade, Grade::NearLimit);
    assert_eq!(writes("left").findings[0].headline, "Left side: quick hand turns a little slow or uneven");
    let clear = [("sides", table(&[("alternation", "left", "clear")])), ("hand", one("right"))];
    assert_eq!(read_for("dizzy", &clear, State::Done).findings[0].grade, Grade::Urgent);
}

#[test]
fn what_was_not_tested_is_a_gap_and_no_sign() {
    let reading = read_new(&[("touch_leg", "left", ""), ("drift", "right", ""), ("drift", "left", "")], "old");
    let gaps: Vec<&str> = reading.gaps.iter().map(|gap| gap.what.as_str()).collect();
    assert_eq!(gaps, ["touch of the leg on the left", "arm held out"]);
    assert!(!looked_for(&reading.signs, What::ArmDrift, Place::On(Side::Right)));
    let told = "As expected on both sides: touch of the hand, touch of the arm, finger to nose, quick hand turns";
    assert_eq!(headlines(&reading), [(told, Grade::WithinRange)]);
    let nothing = read_for("dizzy", &[("hand", one("right"))], State::Done);
    assert_eq!(nothing.gaps.len(), 1);
    assert!(nothing.findings.is_empty() && nothing.signs.is_empty() && nothing.measures.is_empty());
    for state in [State::NotDone("no time".into()), State::NotTestable("asleep".into())] {
        let skipped = read_for("dizzy", &FORM.usual_answers(), state);
        assert!(skipped.findings.is_empty() && skipped.signs.is_empty());
    }
}

#[test]
fn a_mirrored_table_says_the_mirrored_thing() {
    let swap = |text: &str| {
        let swapped = text.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
        swapped.replace("Right", "\u{1}").replace("Left", "Right").replace('\u{1}', "Left")
    };
    let but = [("touch_arm", "right", "clear"), ("alternation", "left", "little"), ("drift", "left", "")];
    let mirrored: Vec<_> = but.iter().map(|(row, column, grade)| (*row, swap(column), *grade)).collect();
    let mirrored: Vec<_> = mirrored.iter().map(|(row, column, grade)| (*row, column.as_str(), *grade)).collect();
    let (there, back) = (read_new(&but, "new"), read_new(&mirrored, "new"));
    let mut told: Vec<String> = there.findings.iter().map(|f| format!("{:?} {}", f.grade, swap(&f.headline))).collect();
    let mut twin: Vec<String> = back.findings.iter().map(|f| format!("{:?} {}", f.grade, f.headline)).collect();
    told.sort();
    twin.sort();
    assert_eq!(told, twin);
    assert_eq!(swap(&there.flags[0].seen), back.flags[0].seen);
    let places = |reading: &Reading, turn: bool| {
        let place = |sign: &Sign| match sign.place {
            Place::On(side) if turn => Place::On(side.other()),
            place => place,
        };
        let mut all: Vec<String> =
            reading.signs.iter().map(|sign| format!("{:?} {:?} {:?}", sign.what, place(sign), sign.seen)).collect();
        all.sort();
        all
    };
    assert_eq!(places(&there, true), places(&back, false));
}
