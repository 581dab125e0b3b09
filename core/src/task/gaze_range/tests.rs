//! Tests of the range of gaze: normal, abnormal, long known, not done, not testable and mirrored records.

use super::*;
use crate::calendar::Moment;
use crate::capture::answer::{Answer, Cell};
use crate::capture::{frame, symptoms};
use crate::figure::Shape;
use crate::sign::{self, Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Changes to a visit in which everything is as expected.
enum But<'a> {
    /// A cell of a table: key, row, column, grade.
    At(&'a str, &'a str, &'a str, &'a str),
    One(&'a str, &'a str),
    Double(&'a [&'a str]),
}
use But::{At, Double, One};

fn set(visit: &mut Visit, changes: &[But<'_>]) {
    let record = visit.record_mut(TASK.id, NOW);
    for change in changes {
        let (key, answer) = match change {
            At(key, row, column, grade) => {
                let cell =
                    Cell { row: (*row).into(), column: (*column).into(), grade: (*grade).into(), from_cycle: None };
                let mut cells = match record.answers.get(key) {
                    Some(Answer::Grid(cells)) => cells.clone(),
                    _ => Vec::new(),
                };
                cells.retain(|known| (&known.row, &known.column) != (&cell.row, &cell.column));
                cells.push(cell);
                (*key, Answer::Grid(cells))
            }
            One(key, id) => (*key, Answer::One((*id).into())),
            Double(ids) => ("double", Answer::Many(ids.iter().map(|id| (*id).to_string()).collect())),
        };
        assert!(FORM.field(key).is_some_and(|field| field.accepts(&answer)), "the form refuses {key}: {answer:?}");
        record.answers.set(key, Some(answer));
    }
}

fn empty() -> Visit {
    let mut visit = Visit::begin("v", "p", "full", NOW, "test");
    visit.record_mut(TASK.id, NOW).state = State::Done;
    visit
}

fn all_but(changes: &[But<'_>]) -> Visit {
    let mut visit = empty();
    for (key, answer) in FORM.usual_answers() {
        visit.record_mut(TASK.id, NOW).answers.set(key, Some(answer));
    }
    set(&mut visit, changes);
    visit
}

fn framed(mut visit: Visit, key: &str, id: &str) -> Visit {
    let answer = if key == "reason" { Answer::One(id.into()) } else { Answer::Many(vec![id.into()]) };
    visit.record_mut(frame::SLOT, NOW).answers.set(key, Some(answer));
    visit
}

fn dizzy(visit: Visit) -> Visit {
    framed(visit, "cautions", "vertigo")
}

/// Come for dizziness, without vertigo going on now.
fn unsteady(visit: Visit) -> Visit {
    framed(visit, "reason", "dizzy")
}

fn read_visit(visit: &Visit) -> Reading {
    (TASK.read)(&Context { visit, age: None }, visit.record(TASK.id).expect("opened by the test"))
}

fn but(changes: &[But<'_>]) -> Reading {
    read_visit(&all_but(changes))
}

#[track_caller]
fn finding<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("gaze_range.{what}");
    let found = reading.findings.iter().find(|finding| finding.key == key);
    found.unwrap_or_else(|| panic!("no finding {key} in {:?}", keys(reading)))
}

fn keys(reading: &Reading) -> Vec<&str> {
    reading.findings.iter().filter_map(|finding| finding.key.strip_prefix("gaze_range.")).collect()
}

fn flags(reading: &Reading) -> Vec<(&str, &str)> {
    reading.flags.iter().map(|flag| (flag.id.as_str(), flag.seen.as_str())).collect()
}

fn gaps_of(reading: &Reading) -> Vec<(&str, Why)> {
    reading.gaps.iter().map(|gap| (gap.what.as_str(), gap.why.clone())).collect()
}

fn limited(reading: &Reading, eye: Eye) -> Vec<Direction> {
    let seen = |direction: &Direction| sign::seen(&reading.signs, What::LimitedGaze(*direction), Place::In(eye));
    Direction::ALL.into_iter().filter(seen).collect()
}

#[test]
fn all_as_expected_is_one_finding_and_every_sign_is_absent() {
    let reading = but(&[]);
    assert_eq!(keys(&reading), ["as_expected"]);
    let all = finding(&reading, "as_expected");
    assert_eq!(all.headline, "Both eyes full in all directions, single, no beats at the end of gaze");
    assert_eq!(all.grade, Grade::WithinRange);
    assert_eq!((flags(&reading), gaps_of(&reading)), (vec![], vec![]));
    assert!(reading.signs.iter().all(|sign| sign.seen == Seen::No));
    // Four directions of each eye, double vision and two kinds of beats in four directions, and changing beats.
    assert_eq!(reading.signs.len(), 8 + 4 + 8 + 1);
    // A quick look across was not asked for.
    assert!(!sign::looked_for(&reading.signs, What::SlowAdduction, Place::In(Eye::Right)));
}

#[test]
fn an_eye_that_falls_short_is_told_by_its_directions() {
    let reading = but(&[
        At("reach", "right", "right", "clear"),
        At("reach", "up_right", "right", "clear"),
        At("reach", "down_right", "right", "slight"),
        One("reach_new", "old"),
    ]);
    // The slanting directions are explained by the one between them.
    assert_eq!(finding(&reading, "right_eye").headline, "Right eye clearly short to the right");
    assert_eq!(finding(&reading, "right_eye").grade, Grade::NoRange);
    assert_eq!(limited(&reading, Eye::Right), [Direction::Right]);
    assert_eq!(limited(&reading, Eye::Left), []);
    assert_eq!(flags(&reading), []);
    let slanting = but(&[At("reach", "down_left", "right", "slight"), One("reach_new", "old")]);
    assert_eq!(finding(&slanting, "right_eye").headline, "Right eye slightly short down and to the left");
    assert_eq!(limited(&slanting, Eye::Right), [Direction::Left, Direction::Down]);
    for sign in reading.signs.iter().chain(&slanting.signs) {
        assert!(!sign.finding.is_empty());
    }
}

#[test]
fn what_falls_short_and_may_be_new_is_a_danger_sign() {
    for (grade, new, expected, flagged) in [
        ("slight", "new", Grade::Urgent, true),
        ("slight", "unknown", Grade::NearLimit, false),
        ("slight", "old", Grade::NoRange, false),
        ("clear", "new", Grade::Urgent, true),
        ("clear", "unknown", Grade::Urgent, true),
        ("middle", "unknown", Grade::Urgent, true),
        ("middle", "old", Grade::NoRange, false),
    ] {
        let reading = but(&[At("reach", "left", "left", grade), One("reach_new", new)]);
        assert_eq!(finding(&reading, "left_eye").grade, expected, "{grade} {new}");
        assert_eq!(reading.flags.len(), usize::from(flagged), "{grade} {new}");
    }
    let reading = but(&[At("reach", "left", "left", "clear"), One("reach_new", "new")]);
    assert_eq!(flags(&reading), [("gaze_range.limited", "a left eye that does not move fully, new")]);
    let both =
        but(&[At("reach", "up", "left", "clear"), At("reach", "up", "right", "middle"), One("reach_new", "unknown")]);
    let words = "both eyes not moving fully in one direction, not known whether new";
    assert_eq!(flags(&both), [("gaze_range.limited", words)]);
    assert_eq!(both.flags[0].source.short, "Strupp et al. 2014");
    let other =
        but(&[At("reach", "right", "right", "clear"), At("reach", "left", "left", "clear"), One("reach_new", "new")]);
    assert_eq!(flags(&other), [("gaze_range.limited", "eyes that do not move fully, new")]);
    assert!(finding(&other, "left_eye").details.join(" ").contains("raised pressure in the head"));
}

#[test]
fn a_question_still_on_the_screen_raises_no_flag_yet() {
    let mut open = all_but(&[At("reach", "left", "left", "clear")]);
    open.record_mut(TASK.id, NOW).state = State::Open;
    open.at = TASK.id.to_string();
    assert_eq!(flags(&read_visit(&open)), []);
    assert_eq!(gaps_of(&read_visit(&open)), [("whether it is new that an eye falls short", Why::NotRecorded)]);
    open.at = "near_point".to_string();
    assert_eq!(read_visit(&open).flags.len(), 1);
}

#[test]
fn both_eyes_short_the_same_way_are_told_once() {
    let reading = but(&[
        At("reach", "up", "right", "slight"),
        At("reach", "up", "left", "clear"),
        At("reach", "left", "left", "slight"),
        One("reach_new", "old"),
    ]);
    assert_eq!(keys(&reading), ["both", "left_eye", "as_expected"]);
    assert_eq!(finding(&reading, "both").headline, "Both eyes clearly short upward");
    assert_eq!(finding(&reading, "left_eye").headline, "Left eye slightly short to the left");
    let said = finding(&reading, "both").details.join(" ");
    // Lee et al. 2019: 27.9° upward; 44.9° inward, 44.2° outward, 47.1° downward.
    assert!(said.contains("28° on average against 44 to 47°"), "{said}");
    let [up, left] = [Direction::Up, Direction::Left].map(|direction| {
        let what = What::LimitedGaze(direction);
        let found = reading.signs.iter().find(|sign| sign.what == what && sign.place == Place::In(Eye::Left));
        found.map(|sign| sign.finding.as_str()).expect("looked for")
    });
    assert_eq!((up, left), ("gaze_range.both", "gaze_range.left_eye"));
}

#[test]
fn a_nerve_is_named_from_two_signs_only() {
    let says = |changes: &[But<'_>], what: &str| finding(&but(changes), what).details.join(" ");
    let outward = At("reach", "right", "right", "clear");
    let alone = says(&[At("reach", "right", "right", "clear"), One("reach_new", "new")], "right_eye");
    assert!(!alone.contains("nerve"), "{alone}");
    let double = says(&[outward, Double(&["right"]), One("reach_new", "new")], "right_eye");
    assert!(double.contains("compatible with a sixth nerve palsy, also seen with"), "{double}");
    // Double on looking away from it does not speak for it.
    let elsewhere =
        says(&[At("reach", "right", "right", "clear"), Double(&["left"]), One("reach_new", "new")], "right_eye");
    assert!(!elsewhere.contains("nerve"), "{elsewhere}");
    let third = says(
        &[At("reach", "left", "right", "clear"), At("reach", "up", "right", "slight"), One("reach_new", "new")],
        "right_eye",
    );
    assert!(third.contains("compatible with a third nerve palsy") && third.contains("7 of 51"), "{third}");
    let inward = says(&[At("reach", "left", "right", "clear"), One("reach_new", "new")], "right_eye");
    assert!(!inward.contains("nerve"), "{inward}");
}

#[test]
fn many_directions_are_counted_in_the_headline_and_listed_below() {
    let reading = but(&[
        At("reach", "left", "right", "slight"),
        At("reach", "up", "right", "slight"),
        At("reach", "down", "right", "middle"),
        One("reach_new", "old"),
    ]);
    let short = finding(&reading, "right_eye");
    assert_eq!(short.headline, "Right eye short in 3 directions, at worst not past the middle");
    assert_eq!(short.details[0], "Slightly short to the left, slightly short upward, not past the middle downward.");
    assert_eq!(limited(&reading, Eye::Right), [Direction::Left, Direction::Up, Direction::Down]);
}

#[test]
fn an_eye_that_lags_tells_the_side_only_when_the_other_beats() {
    let look = |grade, new| but(&[At("across", "right", "look", grade), One("across_new", new)]);
    let lags = look("lags", "new");
    assert_eq!(finding(&lags, "lag_left_eye").headline, "On a quick look to the right the left eye lags");
    assert_eq!((finding(&lags, "lag_left_eye").grade, flags(&lags)), (Grade::NearLimit, vec![]));
    assert!(!finding(&lags, "lag_left_eye").details.join(" ").contains("internuclear"));
    assert_eq!(finding(&look("lags", "old"), "lag_left_eye").grade, Grade::NoRange);
    let beats = look("lags_beats", "new");
    let told = finding(&beats, "lag_left_eye");
    assert_eq!(told.headline, "On a quick look to the right the left eye lags and the right beats");
    assert_eq!((told.grade, told.place), (Grade::Urgent, Place::In(Eye::Left)));
    let said = told.details.join(" ");
    assert!(said.contains("grade A") && said.contains("also seen with") && said.contains("from memory"), "{said}");
    assert_eq!(beats.flags[0].id, "gaze_range.internuclear");
    assert_eq!(flags(&look("lags_beats", "old")), []);
    let seen = |what, eye| sign::seen(&beats.signs, what, Place::In(eye));
    assert!(seen(What::SlowAdduction, Eye::Left) && seen(What::AbductingNystagmus, Eye::Right));
    assert!(!seen(What::SlowAdduction, Eye::Right) && !seen(What::AbductingNystagmus, Eye::Left));
    // The look to the other side was not graded.
    assert!(!sign::looked_for(&beats.signs, What::SlowAdduction, Place::In(Eye::Right)));
}

#[test]
fn a_few_beats_are_ordinary_and_carry_their_rate() {
    let reading = but(&[At("beats", "left", "held", "few")]);
    let few = finding(&reading, "few");
    assert_eq!(few.headline, "A few beats on looking to the left, which stop");
    assert_eq!((few.grade, few.place), (Grade::WithinRange, Place::Toward(Direction::Left)));
    // Whyte et al. 2010: 43 % at 30°, 93 % at the far end.
    assert_eq!(few.healthy.iter().map(|rate| rate.share()).collect::<Vec<_>>(), ["43 in 100", "93 in 100"]);
    let toward = Place::Toward(Direction::Left);
    assert!(sign::seen(&reading.signs, What::EndPointNystagmus, toward));
    assert!(sign::looked_for(&reading.signs, What::GazeEvokedNystagmus, toward));
    assert!(!sign::seen(&reading.signs, What::GazeEvokedNystagmus, toward));
    assert_eq!(flags(&reading), []);
}

/// Direction-changing nystagmus in continuous vertigo is a central sign: Kattah et al. 2009.
#[test]
fn beats_to_both_sides_are_a_danger_sign_in_vertigo_whatever_drugs_and_in_other_dizziness_without() {
    let both = |new: &'static str| {
        all_but(&[
            At("beats", "right", "held", "sustained"),
            At("beats", "left", "held", "sustained"),
            One("beats_new", new),
        ])
    };
    for (visit, grade, flagged) in [
        (both("new"), Grade::NearLimit, false),
        (dizzy(both("new")), Grade::Urgent, true),
        (dizzy(both("unknown")), Grade::Urgent, true),
        (dizzy(both("old")), Grade::NoRange, false),
        (framed(dizzy(both("new")), "influences", "alcohol"), Grade::Urgent, true),
        (framed(dizzy(both("new")), "influences", "medicines"), Grade::Urgent, true),
        (framed(unsteady(both("new")), "influences", "medicines"), Grade::NearLimit, false),
        (unsteady(both("new")), Grade::Urgent, true),
        (framed(dizzy(both("new")), "influences", "tired"), Grade::Urgent, true),
    ] {
        let reading = read_visit(&visit);
        let lasting = finding(&reading, "sustained");
        assert_eq!((lasting.grade, reading.flags.len()), (grade, usize::from(flagged)));
        // 9 of 20 (Shallo-Hoffmann et al. 1990).
        assert_eq!(lasting.healthy[1].share(), "45 in 100");
        assert!(sign::seen(&reading.signs, What::ChangingNystagmus, Place::Both));
    }
    let one_side = all_but(&[At("beats", "right", "held", "sustained"), One("beats_new", "new")]);
    let reading = read_visit(&dizzy(one_side));
    assert_eq!(flags(&reading), []);
    assert!(finding(&reading, "sustained").details.join(" ").contains("To one side only"));
    assert!(sign::seen(&reading.signs, What::GazeEvokedNystagmus, Place::Toward(Direction::Right)));
    assert!(sign::looked_for(&reading.signs, What::ChangingNystagmus, Place::Both));
    assert!(!sign::seen(&reading.signs, What::ChangingNystagmus, Place::Both));
}

#[test]
fn beats_up_or_down_on_looking_aside_count_as_they_do_at_rest() {
    let down = |new| but(&[At("beats", "right", "held", "few"), One("beats_way", "down"), One("beats_way_new", new)]);
    assert_eq!(flags(&down("new")).len(), 1);
    assert_eq!(finding(&down("new"), "beats_way").healthy[0].share(), "5.9 in 100");
    assert_eq!(flags(&down("unknown")).len(), 1);
    assert_eq!(flags(&down("old")), []);
    // A way that was left from beats since taken back is not read.
    assert_eq!(keys(&but(&[One("beats_way", "down")])), ["as_expected"]);
    let vertical = |sign: &crate::sign::Sign| sign.what == What::VerticalNystagmus;
    assert!(!down("new").signs.iter().any(vertical));
}

#[test]
fn double_vision_is_told_by_direction() {
    let double = |ids: &[&str], cover: &str, new: &str| {
        all_but(&[Double(ids), One("double_cover", cover), One("double_new", new)])
    };
    let reading = read_visit(&double(&["right", "down_right"], "gone", "new"));
    let told = finding(&reading, "double");
    assert_eq!(told.headline, "Double on looking to the right, and down and to the right");
    assert_eq!((told.grade, told.place), (Grade::Urgent, Place::Toward(Direction::Right)));
    let words = "double vision with both eyes open on looking aside, new";
    assert_eq!(flags(&reading), [("gaze_range.double", words)]);
    let toward: Vec<Place> = sign::all(&reading.signs, What::DoubleVision).map(|sign| sign.place).collect();
    assert_eq!(toward, [Place::Toward(Direction::Right)]);
    assert_eq!(flags(&read_visit(&double(&["up"], "gone", "old"))), []);
    assert_eq!(read_visit(&double(&["up"], "not_covered", "unknown")).flags.len(), 1);
    let one_eye = double(&["up"], "stays", "new");
    assert_eq!(flags(&read_visit(&one_eye)), []);
    assert!(read_visit(&one_eye).signs.iter().all(|sign| sign.what != What::DoubleVision));
    // Patricios et al. 2023: after a knock double vision of any kind.
    assert_eq!(read_visit(&framed(one_eye, "reason", "knock")).flags.len(), 1);
}

#[test]
fn nothing_not_done_not_testable_and_partly_done_are_four_things() {
    assert_eq!(gaps_of(&read_visit(&empty())), [("range of eye movements", Why::NotRecorded)]);
    for (state, why) in [
        (State::NotDone("no time".into()), Why::NotDone("no time".into())),
        (State::NotTestable("eye swollen shut".into()), Why::NotTestable("eye swollen shut".into())),
    ] {
        let mut skipped = empty();
        skipped.record_mut(TASK.id, NOW).state = state;
        let reading = read_visit(&skipped);
        assert_eq!(gaps_of(&reading), [("range of eye movements", why)]);
        assert!(reading.findings.is_empty() && reading.signs.is_empty() && reading.figures.is_empty());
    }
    let mut partly = empty();
    set(&mut partly, &[At("reach", "right", "right", "full"), At("beats", "up", "held", "none")]);
    let reading = read_visit(&partly);
    assert_eq!(finding(&reading, "as_expected").headline, "Full where it was looked at, no beats on looking upward");
    assert_eq!(
        reading.gaps.iter().map(|gap| gap.what.as_str()).collect::<Vec<_>>(),
        [
            "range of the right eye, 7 of 8 directions",
            "range of the left eye",
            "single or double by direction",
            "beats on looking to the right, to the left and downward"
        ]
    );
    let looked: Vec<_> = reading.signs.iter().map(|sign| (sign.what, sign.place)).collect();
    assert_eq!(
        looked,
        [
            (What::LimitedGaze(Direction::Right), Place::In(Eye::Right)),
            (What::GazeEvokedNystagmus, Place::Toward(Direction::Up)),
            (What::EndPointNystagmus, Place::Toward(Direction::Up)),
        ]
    );
    assert!(reading.measures.is_empty(), "an eye seen in one direction has no worst one");
}

#[test]
fn a_danger_sign_outlives_a_skip() {
    let mut visit = all_but(&[At("reach", "left", "left", "clear"), One("reach_new", "new")]);
    visit.record_mut(TASK.id, NOW).state = State::NotTestable("became drowsy".into());
    assert_eq!(read_visit(&visit).flags.len(), 1);
}

#[test]
fn every_sign_names_a_finding_of_the_same_reading() {
    let grades = [("reach", "left", "slight"), ("reach", "left", "full")];
    for row in form::DIRECTIONS {
        for (key, column, grade) in grades {
            for held in ["none", "few", "wearing", "sustained"] {
                let reading = but(&[
                    At(key, row.id, column, grade),
                    At("reach", "up", "right", grade),
                    At("beats", "right", "held", held),
                    At("beats", "left", "held", "sustained"),
                    At("across", "left", "look", "lags"),
                    At("across", "right", "look", "together"),
                    Double(&[row.id]),
                ]);
                for sign in &reading.signs {
                    let known = reading.findings.iter().any(|finding| finding.key == sign.finding);
                    assert!(known, "{} {grade} {held}: {sign:?}", row.id);
                }
            }
        }
    }
}

#[test]
fn the_drawing_stands_as_the_examiner_faces_the_person() {
    let reading = but(&[At("reach", "right", "right", "middle"), One("reach_new", "old")]);
    let figure = &reading.figures[0];
    assert!(figure.says.contains("Their right eye: to the right not past the middle"), "{}", figure.says);
    assert!(figure.says.contains("Their left eye: full in all eight directions"), "{}", figure.says);
    let x_of = |wanted: &str| {
        let found = figure.shapes.iter().find_map(|shape| match shape {
            Shape::Text { at, text, .. } if text == wanted => Some(at.0),
            _ => None,
        });
        found.expect("drawn")
    };
    assert!(x_of("their right eye") < x_of("their left eye"));
    assert!(x_of("their right") < x_of("their left"));
    let cross = figure.shapes.iter().find_map(|shape| match shape {
        Shape::Mark { at, kind: crate::figure::MarkKind::Cross, .. } => Some(at.0),
        _ => None,
    });
    // To their right is to the left of the middle of that eye.
    assert!(cross.expect("drawn") < x_of("their right eye"));
    assert!(read_visit(&empty()).figures.is_empty());
}

#[test]
fn mirrored_answers_give_mirrored_findings() {
    let cases: &[&[But<'_>]] = &[
        &[At("reach", "right", "left", "clear"), One("reach_new", "new")],
        &[At("reach", "up_left", "right", "slight"), At("reach", "down", "right", "slight"), One("reach_new", "new")],
        &[At("across", "left", "look", "lags_beats"), One("across_new", "new")],
        &[Double(&["down_left"]), One("double_cover", "gone"), One("double_new", "unknown")],
        &[At("beats", "right", "held", "sustained"), One("beats_new", "new")],
        &[At("beats", "left", "held", "few")],
    ];
    for (at, case) in cases.iter().enumerate() {
        let turned: Vec<But<'_>> = case.iter().map(turned).collect();
        let mut here: Vec<String> = told(&but(case)).iter().map(|words| swapped(words)).collect();
        let mut there = told(&but(&turned));
        here.sort();
        there.sort();
        assert_eq!(here, there, "case {at}");
    }
}

fn turned<'a>(change: &But<'a>) -> But<'a> {
    let side = |id: &'a str| match id {
        "right" => "left",
        "left" => "right",
        "up_right" => "up_left",
        "up_left" => "up_right",
        "down_right" => "down_left",
        "down_left" => "down_right",
        other => other,
    };
    match change {
        At(key, row, column, grade) => At(key, side(row), side(column), grade),
        One(key, id) => One(key, id),
        Double(ids) => Double(if **ids == ["down_left"] { &["down_right"] } else { ids }),
    }
}

/// All that a reading says about sides, as words.
fn told(reading: &Reading) -> Vec<String> {
    let findings = reading.findings.iter();
    let mut told: Vec<String> = findings
        .map(|f| format!("{} {:?} {:?} {} {}", f.key, f.place, f.grade, f.headline, f.details.join(" ")))
        .collect();
    told.extend(reading.flags.iter().map(|flag| format!("{} {}", flag.id, flag.seen)));
    told.extend(reading.signs.iter().map(|sign| format!("{sign:?}")));
    told.extend(reading.measures.iter().map(|measure| format!("{} {:?}", measure.key, measure.amount)));
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

#[test]
fn dizziness_rated_before_the_tasks_counts_as_vertigo() {
    let mut visit = all_but(&[
        At("beats", "right", "held", "sustained"),
        At("beats", "left", "held", "sustained"),
        One("beats_new", "new"),
    ]);
    let ratings = Answer::Ratings(vec![("dizziness".into(), 4)]);
    visit.record_mut(symptoms::BEFORE, NOW).answers.set("now", Some(ratings));
    assert_eq!(read_visit(&visit).flags.len(), 1);
}
