//! Tests of gaze at rest: normal, abnormal, long known, not done and mirrored records.

use super::evidence::SMALL_PUPIL;
use super::form::{ALIGNMENT, LID, NYSTAGMUS, PUPILS, WAY};
use super::*;
use crate::calendar::Moment;
use crate::capture::answer::{Answer, Answers};
use crate::capture::form::Kind;
use crate::sign::{self, Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn visit(pairs: &[(&str, &str)]) -> Visit {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let record = visit.record_mut(TASK.id, NOW);
    record.state = State::Done;
    for (key, id) in pairs {
        let answer = Answer::One((*id).to_string());
        assert!(TASK.form.field(key).is_some_and(|field| field.accepts(&answer)), "the form refuses {key} {id}");
        record.answers.set(key, Some(answer));
    }
    visit
}

fn read_visit(visit: &Visit) -> Reading {
    (TASK.read)(&Context { visit, age: None }, visit.record(TASK.id).expect("opened by the test"))
}

fn read(pairs: &[(&str, &str)]) -> Reading {
    read_visit(&visit(pairs))
}

/// A visit in which everything is as expected but these answers.
fn but(pairs: &[(&str, &str)]) -> Reading {
    read_visit(&all_but(pairs))
}

fn all_but(pairs: &[(&str, &str)]) -> Visit {
    let mut visit = visit(&[]);
    let record = visit.record_mut(TASK.id, NOW);
    for (key, answer) in FORM.usual_answers() {
        record.answers.set(key, Some(answer));
    }
    for (key, id) in pairs {
        record.answers.set(key, Some(Answer::One((*id).to_string())));
    }
    visit
}

fn dizzy(mut visit: Visit) -> Visit {
    let cautions = Answer::Many(vec!["vertigo".into()]);
    visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(cautions));
    visit
}

fn knocked(mut visit: Visit) -> Visit {
    visit.record_mut(frame::SLOT, NOW).answers.set("reason", Some(Answer::One("knock".into())));
    visit
}

#[track_caller]
fn finding<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("resting_gaze.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no finding {key}"))
}

fn seen(reading: &Reading) -> Vec<(&str, &str)> {
    reading.flags.iter().map(|flag| (flag.id.as_str(), flag.seen.as_str())).collect()
}

fn gaps_of(reading: &Reading) -> Vec<(&str, Why)> {
    reading.gaps.iter().map(|gap| (gap.what.as_str(), gap.why.clone())).collect()
}

#[test]
fn all_as_expected_is_one_finding() {
    let reading = but(&[]);
    assert_eq!(reading.findings.len(), 1);
    let all = finding(&reading, "as_expected");
    assert_eq!(
        all.headline,
        "Gaze steady, no nystagmus, lids level, pupils equal and reacting, no movement on covering, target single"
    );
    assert_eq!(all.grade, Grade::WithinRange);
    assert_eq!((seen(&reading), gaps_of(&reading)), (vec![], vec![]));
}

#[test]
fn every_answer_is_either_as_expected_or_a_finding() {
    let usual = FORM.usual_answers();
    for (key, expected) in &usual {
        let field = FORM.field(key).expect("a field of the form");
        let Kind::One(choices) = &field.kind else { panic!("{key} is a list") };
        for choice in *choices {
            let reading = read(&[(key, choice.id)]);
            let as_expected = *expected == Answer::One(choice.id.to_string());
            let what = if as_expected { "as_expected" } else { key };
            assert_eq!(reading.findings.len(), 1, "{key} {}", choice.id);
            finding(&reading, what);
        }
    }
    let keys: Vec<&str> = usual.iter().map(|(key, _)| *key).collect();
    assert_eq!(keys, ["fixation", "nystagmus", "lid", "pupils", "alignment", "double"]);
}

#[test]
fn what_may_be_new_is_a_danger_sign_and_what_is_old_is_not() {
    type Sign = &'static [(&'static str, &'static str)];
    let cases: &[(Sign, &str, &str)] = &[
        (&[("fixation", "bursts")], "fixation_new", "resting_gaze.bursts"),
        (&[("nystagmus", "up")], "nystagmus_new", "resting_gaze.vertical_nystagmus"),
        (&[("nystagmus", "down")], "nystagmus_new", "resting_gaze.vertical_nystagmus"),
        (&[("lid", "left")], "lid_new", "resting_gaze.lid_pupil"),
        (&[("pupils", "both_fixed")], "pupils_new", "resting_gaze.lid_pupil"),
        (&[("alignment", "left"), ("alignment_way", "down")], "alignment_new", "resting_gaze.height"),
        (&[("alignment", "both"), ("alignment_way", "up")], "alignment_new", "resting_gaze.height"),
        (&[("double", "two_eyes")], "double_new", "resting_gaze.double"),
        (&[("double", "not_covered")], "double_new", "resting_gaze.double"),
    ];
    for (sign, key, id) in cases {
        let with = |new: &'static str| but(&[*sign, &[(*key, new)]].concat());
        for (new, words) in [("new", ", new"), ("unknown", ", not known whether new")] {
            let reading = with(new);
            assert_eq!(reading.flags.len(), 1, "{sign:?}");
            assert_eq!(reading.flags[0].id, *id);
            assert!(reading.flags[0].seen.ends_with(words), "{}", reading.flags[0].seen);
            assert!(finding(&reading, sign[0].0).grade == Grade::Urgent && reading.gaps.is_empty());
        }
        let old = with("old");
        assert_eq!(seen(&old), []);
        assert_eq!(finding(&old, sign[0].0).grade, Grade::NoRange, "{sign:?}");
        // Left without an answer it counts as new, and the missing answer is listed.
        let unasked = but(sign);
        assert_eq!((unasked.flags.len(), unasked.gaps.len()), (1, 1), "{sign:?}");
    }
}

#[test]
fn other_signs_are_findings_without_a_flag() {
    let signs: &[&[(&str, &str)]] = &[
        &[("fixation", "drifts")],
        &[("fixation", "cannot")],
        &[("nystagmus", "right"), ("nystagmus_new", "new")],
        &[("nystagmus", "pendular"), ("nystagmus_new", "unknown")],
        &[("nystagmus", "torsional"), ("nystagmus_new", "new")],
        &[("nystagmus", "changes"), ("nystagmus_new", "new")],
        &[("alignment", "left"), ("alignment_way", "in"), ("alignment_new", "new")],
        &[("double", "one_eye"), ("double_new", "new")],
    ];
    for sign in signs {
        let reading = but(sign);
        assert_eq!(seen(&reading), [], "{sign:?}");
        assert_eq!(finding(&reading, sign[0].0).grade, Grade::OutsideRange, "{sign:?}");
    }
    let jerks = but(&[("fixation", "jerks")]);
    assert_eq!(finding(&jerks, "fixation").grade, Grade::NoRange);
    assert_eq!(finding(&jerks, "fixation").healthy.len(), 2);
    let ordinary = but(&[("alignment", "both"), ("alignment_way", "in"), ("alignment_new", "new")]);
    assert_eq!(finding(&ordinary, "alignment").grade, Grade::NearLimit);
}

/// In continuous vertigo direction-changing, vertical or torsional nystagmus is a central sign: Kattah et al. 2009.
#[test]
fn vertigo_makes_danger_signs_of_twisting_and_changing_nystagmus() {
    for (id, new, flags) in
        [("torsional", "new", 1), ("changes", "unknown", 1), ("torsional", "old", 0), ("right", "new", 0)]
    {
        let reading = read_visit(&dizzy(all_but(&[("nystagmus", id), ("nystagmus_new", new)])));
        assert_eq!(reading.flags.len(), flags, "{id} {new}");
    }
    let sideways = read_visit(&dizzy(all_but(&[("nystagmus", "left"), ("nystagmus_new", "new")])));
    let said = finding(&sideways, "nystagmus").details.join(" ");
    assert!(said.contains("the same day") && said.contains("cannot rule out a stroke"), "{said}");
    let mut rated = all_but(&[("nystagmus", "changes"), ("nystagmus_new", "new")]);
    let ratings = Answer::Ratings(vec![("dizziness".into(), 3)]);
    rated.record_mut(symptoms::BEFORE, NOW).answers.set("now", Some(ratings));
    assert_eq!(read_visit(&rated).flags.len(), 1);
}

/// 30.7 % of healthy adults show nystagmus on video goggles, 5.9 % of them downbeat: Young et al. 2020.
#[test]
fn nystagmus_that_only_a_video_shows_needs_dizziness_and_newness() {
    let on_video = |new: &'static str| all_but(&[("nystagmus", "down"), ("nystagmus_new", new), ("seen_by", "video")]);
    for (visit, flags) in [
        (on_video("new"), 0),
        (on_video("unknown"), 0),
        (dizzy(on_video("unknown")), 0),
        (dizzy(on_video("new")), 1),
        (all_but(&[("nystagmus", "down"), ("nystagmus_new", "unknown"), ("seen_by", "eye")]), 1),
    ] {
        let reading = read_visit(&visit);
        assert_eq!(reading.flags.len(), flags);
        assert_eq!(finding(&reading, "nystagmus").healthy[0].share(), "5.9 in 100");
    }
    let said = finding(&read_visit(&on_video("new")), "nystagmus").details.join(" ");
    assert!(said.contains("30.7 %"), "{said}");
}

#[test]
fn lid_and_pupil_are_one_danger_sign() {
    let both = |lid_new, pupils_new, pupils| {
        but(&[("lid", "right"), ("lid_new", lid_new), ("pupils", pupils), ("pupils_new", pupils_new)])
    };
    let same_side = both("new", "new", "right_larger");
    assert_eq!(seen(&same_side), [("resting_gaze.lid_pupil", "a drooping right lid with a larger right pupil, new")]);
    assert_eq!(same_side.flags[0].source.short, "Kissel et al. 1983");
    assert!(finding(&same_side, "lid").details.join(" ").contains("an aneurysm has to be excluded at once"));
    let smaller = both("new", "new", "left_larger");
    assert_eq!(smaller.flags[0].source, &SMALL_PUPIL);
    assert!(finding(&smaller, "lid").details.join(" ").contains("neck artery"));
    let mixed = both("new", "unknown", "right_fixed");
    let words = "a drooping right lid, new; a right pupil that does not react, not known whether new";
    assert_eq!(seen(&mixed), [("resting_gaze.lid_pupil", words)]);
    // Only what may be new is in the sign.
    let old_pupil = both("new", "old", "right_larger");
    assert_eq!(seen(&old_pupil), [("resting_gaze.lid_pupil", "a drooping right lid, new")]);
    assert_eq!(seen(&both("old", "old", "right_larger")), []);
    // Kissel et al. 1983: 7 of 51 aneurysms began with normal pupils.
    let alone = but(&[("lid", "right"), ("lid_new", "new")]);
    assert!(finding(&alone, "lid").details.join(" ").contains("7 of 51"));
    // Lam et al. 1987: 19 % of healthy people at any one look.
    assert_eq!(finding(&smaller, "pupils").healthy[0].share(), "19 in 100");
    assert!(finding(&mixed, "pupils").healthy.is_empty(), "no rate is for a pupil that does not react");
}

#[test]
fn a_question_still_on_the_screen_raises_no_flag_yet() {
    let mut open = all_but(&[("double", "two_eyes")]);
    open.record_mut(TASK.id, NOW).state = State::Open;
    open.at = TASK.id.to_string();
    let reading = read_visit(&open);
    assert_eq!(seen(&reading), []);
    assert_eq!(finding(&reading, "double").grade, Grade::OutsideRange);
    assert_eq!(gaps_of(&reading), [("whether the double vision is new", Why::NotRecorded)]);
    // An answer counts at once; moving on or closing counts as "not known".
    open.record_mut(TASK.id, NOW).answers.set("double_new", Some(Answer::One("new".into())));
    assert_eq!(read_visit(&open).flags.len(), 1);
    open.record_mut(TASK.id, NOW).answers.set("double_new", None);
    let mut moved = open.clone();
    moved.at = "near_point".to_string();
    assert_eq!(read_visit(&moved).flags.len(), 1);
    open.closed = Some(NOW);
    assert_eq!(read_visit(&open).flags.len(), 1);
}

/// Double vision is a red flag after a knock, whatever its kind: Patricios et al. 2023.
#[test]
fn after_a_knock_double_vision_of_one_eye_is_a_danger_sign_too() {
    let one_eye = |new: &'static str| knocked(all_but(&[("double", "one_eye"), ("double_new", new)]));
    assert_eq!(seen(&read_visit(&one_eye("new"))), [("resting_gaze.double", "double vision after a knock, new")]);
    assert_eq!(seen(&read_visit(&one_eye("old"))), []);
}

#[test]
fn nothing_not_done_and_partly_done_are_three_things() {
    assert_eq!(gaps_of(&read(&[])), [("gaze at rest", Why::NotRecorded)]);
    let mut skipped = visit(&[]);
    skipped.record_mut(TASK.id, NOW).state = State::NotDone("no time".into());
    let reading = read_visit(&skipped);
    assert_eq!(gaps_of(&reading), [("gaze at rest", Why::NotDone("no time".into()))]);
    assert_eq!(reading.findings, vec![]);
    let partly = read(&[("lid", "level")]);
    assert_eq!(finding(&partly, "as_expected").headline, "Lids level");
    let missing = ["steadiness of gaze", "nystagmus at rest", "pupils", "alignment on covering", "single or double"];
    assert_eq!(gaps_of(&partly), missing.map(|what| (what, Why::NotRecorded)));
}

#[test]
fn a_danger_sign_outlives_a_skip() {
    let mut visit = all_but(&[("pupils", "left_fixed"), ("pupils_new", "new")]);
    visit.record_mut(TASK.id, NOW).state = State::NotTestable("became drowsy".into());
    let reading = read_visit(&visit);
    assert_eq!(seen(&reading), [("resting_gaze.lid_pupil", "a left pupil that does not react, new")]);
    assert_eq!(gaps_of(&reading), [("gaze at rest", Why::NotTestable("became drowsy".into()))]);
}

#[test]
fn answers_of_a_newer_program_are_gaps_and_never_a_value() {
    let mut answers = Answers::default();
    answers.set("fixation", Some(Answer::One("something new".into())));
    answers.set("lid", Some(Answer::Number(3.0)));
    answers.set("pupils", Some(Answer::One("equal".into())));
    let mut visit = visit(&[]);
    visit.record_mut(TASK.id, NOW).answers = answers;
    let reading = read_visit(&visit);
    assert_eq!(finding(&reading, "as_expected").headline, "Pupils equal and reacting");
    assert_eq!(reading.findings.len(), 1);
    let unread: Vec<_> = gaps_of(&reading).into_iter().filter(|(_, why)| *why == Why::Unread).collect();
    assert_eq!(unread, [("steadiness of gaze", Why::Unread), ("upper lids", Why::Unread)]);
}

fn signs(reading: &Reading) -> Vec<(What, Place, bool)> {
    reading.signs.iter().map(|sign| (sign.what, sign.place, sign.seen == Seen::Yes)).collect()
}

#[test]
fn nothing_seen_is_not_the_same_as_not_looked_for() {
    let toward = Place::Toward;
    let usual = but(&[]);
    let mut absent = vec![
        (What::RestingNystagmus, toward(Direction::Right), false),
        (What::RestingNystagmus, toward(Direction::Left), false),
        (What::VerticalNystagmus, toward(Direction::Up), false),
        (What::VerticalNystagmus, toward(Direction::Down), false),
        (What::TorsionalNystagmus, Place::Both, false),
        (What::ChangingNystagmus, Place::Both, false),
    ];
    for what in [What::Ptosis, What::Skew] {
        absent.extend([Eye::Right, Eye::Left].map(|eye| (what, Place::In(eye), false)));
    }
    absent.push((What::DoubleVision, Place::Both, false));
    assert_eq!(signs(&usual), absent);
    assert_eq!(signs(&read(&[("fixation", "steady"), ("pupils", "equal")])), []);
}

#[test]
fn a_kind_that_was_seen_says_nothing_of_the_other_kinds() {
    let toward = Place::Toward;
    for (id, expected) in [
        (
            "left",
            vec![
                (What::RestingNystagmus, toward(Direction::Left), true),
                (What::RestingNystagmus, toward(Direction::Right), false),
            ],
        ),
        (
            "down",
            vec![
                (What::VerticalNystagmus, toward(Direction::Down), true),
                (What::VerticalNystagmus, toward(Direction::Up), false),
            ],
        ),
        ("torsional", vec![(What::TorsionalNystagmus, Place::Both, true)]),
        ("changes", vec![(What::ChangingNystagmus, Place::Both, true)]),
        ("pendular", vec![]),
    ] {
        assert_eq!(signs(&read(&[("nystagmus", id), ("nystagmus_new", "old")])), expected, "{id}");
    }
    assert_eq!(signs(&read(&[("double", "one_eye")])), []);
    assert_eq!(signs(&read(&[("double", "not_covered")])), [(What::DoubleVision, Place::Both, true)]);
}

/// The eye that moves up was looking too low while it was covered: the other one stands higher.
#[test]
fn the_higher_eye_follows_from_the_way_it_moves() {
    for (moves, way, higher) in [
        ("right", "up", Some(Eye::Left)),
        ("right", "down", Some(Eye::Right)),
        ("left", "up", Some(Eye::Right)),
        ("left", "down", Some(Eye::Left)),
        ("both", "up", Some(Eye::Left)),
        ("both", "down", Some(Eye::Right)),
        ("both", "in", None),
        ("left", "out", None),
    ] {
        let reading = read(&[("alignment", moves), ("alignment_way", way), ("alignment_new", "new")]);
        let seen: Vec<Place> = sign::all(&reading.signs, What::Skew).map(|sign| sign.place).collect();
        assert_eq!(seen, higher.map(Place::In).into_iter().collect::<Vec<_>>(), "{moves} {way}");
        let looked = higher.is_some_and(|eye| sign::looked_for(&reading.signs, What::Skew, Place::In(eye.other())));
        assert_eq!(looked, higher.is_some());
    }
}

/// Young et al. 2020: 30.7 % of healthy adults show nystagmus on video goggles.
#[test]
fn no_pattern_rests_on_what_only_a_video_shows_in_someone_well() {
    let on_video = |id: &'static str| all_but(&[("nystagmus", id), ("nystagmus_new", "new"), ("seen_by", "video")]);
    let any = |visit: &Visit| signs(&read_visit(visit)).iter().any(|(what, _, _)| *what == What::VerticalNystagmus);
    assert!(!any(&on_video("up")));
    assert!(any(&dizzy(on_video("up"))));
    assert!(any(&all_but(&[("nystagmus", "up"), ("nystagmus_new", "new")])));
}

#[test]
fn every_sign_names_a_finding_of_the_same_reading() {
    for (key, _) in FORM.usual_answers() {
        let Kind::One(choices) = &FORM.field(key).expect("a field of the form").kind else { panic!("{key} is a list") };
        for choice in *choices {
            for reading in [but(&[(key, choice.id)]), but(&[(key, choice.id), ("alignment_way", "up")])] {
                for sign in &reading.signs {
                    assert!(reading.findings.iter().any(|f| f.key == sign.finding), "{key} {}: {sign:?}", choice.id);
                }
            }
        }
    }
}

#[test]
fn mirrored_answers_give_mirrored_findings() {
    let mut cases: Vec<Vec<(&str, &str)>> = Vec::new();
    for choice in NYSTAGMUS {
        cases.push(vec![("nystagmus", choice.id), ("nystagmus_new", "new")]);
    }
    for lid in LID {
        for pupils in PUPILS {
            cases.push(vec![("lid", lid.id), ("lid_new", "new"), ("pupils", pupils.id), ("pupils_new", "unknown")]);
        }
    }
    for alignment in ALIGNMENT {
        for way in WAY {
            cases.push(vec![("alignment", alignment.id), ("alignment_way", way.id), ("alignment_new", "new")]);
        }
    }
    for case in &cases {
        let both = case.contains(&("alignment", "both"));
        let mirrored: Vec<(&str, &str)> = case.iter().map(|(key, id)| (*key, mirror(key, id, both))).collect();
        let mut one_way: Vec<String> = told(&but(case)).iter().map(|words| swapped(words)).collect();
        let mut other_way = told(&but(&mirrored));
        one_way.sort();
        other_way.sort();
        assert_eq!(other_way, one_way, "{case:?}");
    }
}

fn mirror<'a>(key: &str, id: &'a str, both: bool) -> &'a str {
    match (key, id) {
        (_, "right") => "left",
        (_, "left") => "right",
        ("pupils", "right_larger") => "left_larger",
        ("pupils", "left_larger") => "right_larger",
        ("pupils", "right_fixed") => "left_fixed",
        ("pupils", "left_fixed") => "right_fixed",
        // Of both eyes the way of the right one is asked; in a mirror that is the other eye, which moves the other way.
        ("alignment_way", "up") if both => "down",
        ("alignment_way", "down") if both => "up",
        _ => id,
    }
}

/// All that a reading says about sides, as words.
fn told(reading: &Reading) -> Vec<String> {
    let findings = reading.findings.iter();
    let mut told: Vec<String> = findings
        .map(|f| format!("{} {:?} {:?} {} {}", f.key, f.place, f.grade, f.headline, f.details.join(" ")))
        .collect();
    told.extend(reading.flags.iter().map(|flag| format!("{} {}", flag.id, flag.seen)));
    told.extend(reading.signs.iter().map(|sign| format!("{:?} {:?} {:?}", sign.what, sign.place, sign.seen)));
    told
}

fn swapped(words: &str) -> String {
    let pairs = [
        ("right", "\u{1}"),
        ("left", "right"),
        ("\u{1}", "left"),
        ("Right", "\u{1}"),
        ("Left", "Right"),
        ("\u{1}", "Left"),
    ];
    pairs.iter().fold(words.to_string(), |words, (from, to)| words.replace(from, to))
}
