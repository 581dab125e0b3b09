//! What is proposed, what is taken away, and what has to be answered before a sign-off.

use super::*;
use crate::anatomy::{Eye, Place};
use crate::assess::assess;
use crate::calendar::{Born, Moment};
use crate::capture::answer::Answer;
use crate::capture::unread::Unread;
use crate::capture::visit::Person;
use crate::catalogue::Language;
use crate::exercise::Dose;
use crate::finding::{Finding, Flag};
use crate::provocation::{After, Ratings};
use crate::sign::{Sign, What};
use crate::task;
use crate::tolerance::Limits;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// A visit with nothing outside the range; what the test is about is put in by hand.
fn quiet() -> Assessment {
    let person = Person {
        id: "p".into(),
        label: "R-21".into(),
        born: Some(Born::Year(2012)),
        invented: true,
        changed: None,
        unread: Unread::default(),
    };
    assess(&person, &Visit::begin("v", "p", "sideline", NOW, "Sidelight 0.1.0"))
}

/// A well person of 14 who came for something else, asked about everything.
fn about() -> About {
    About {
        years: Some(14),
        cautions: Some(Vec::new()),
        reason: Some("other".into()),
        since: Some("month".into()),
        safety: true,
    }
}

fn with_caution(id: &str) -> About {
    About { cautions: Some(vec![id.into()]), ..about() }
}

fn finding(key: &'static str, grade: Grade) -> Assessment {
    let (task, what) = key.split_once('.').expect("task and what");
    let mut assessment = quiet();
    let headline = format!("Told as {key}");
    let finding = Finding { grade, ..Finding::new(task, what, Place::Both, headline) };
    assessment.symptoms.findings.push(finding);
    assessment
}

fn rise(task: &str, change: i32) -> Assessment {
    let mut assessment = quiet();
    let task = task::by_id(task).expect("a task");
    let ratings = Ratings(vec![Some(1), Some(2), Some(0), Some(0)]);
    assessment.symptoms.after.push(After { task, ratings, change: Some(change) });
    assessment
}

fn ids(plan: &Plan) -> Vec<&'static str> {
    plan.proposed.iter().map(|proposal| proposal.exercise.id).collect()
}

fn removed(plan: &Plan) -> Vec<(&'static str, String)> {
    plan.removed.iter().map(|removed| (removed.exercise.id, removed.why.join("; "))).collect()
}

#[test]
fn without_findings_nothing_is_proposed() {
    let plan = propose(&quiet(), &about());
    assert_eq!((ids(&plan), removed(&plan).len(), plan.advice.len()), (vec![], 0, 0));
    assert_eq!(plan.held, None);
}

#[test]
fn a_far_near_point_speaks_for_practice_and_says_how_little_it_is_supported() {
    let plan = propose(&finding("near_point.break", Grade::OutsideRange), &about());
    assert_eq!(ids(&plan), ["near_point_practice"]);
    let because = &plan.proposed[0].because[0];
    assert_eq!((because.from.as_str(), because.says.as_str()), ("near_point.break", "Told as near_point.break"));
    assert_eq!(plan.proposed[0].exercise.support, crate::exercise::Support::D);
    let near = propose(&finding("near_point.break", Grade::NearLimit), &about());
    assert_eq!(ids(&near), Vec::<&str>::new(), "near the limit is not outside");
    let urgent = propose(&finding("near_point.break", Grade::Urgent), &about());
    assert_eq!(ids(&urgent), Vec::<&str>::new(), "an urgent finding is no matter of exercises");
}

#[test]
fn head_turns_are_proposed_from_a_rise_of_two_and_the_better_supported_stands_first() {
    assert_eq!(ids(&propose(&rise("head_turn_gaze", 1), &about())), Vec::<&str>::new());
    let plan = propose(&rise("head_turn_gaze", 2), &about());
    assert_eq!(ids(&plan), ["head_turn_seated", "eyes_then_head"]);
    assert_eq!(plan.proposed[0].because[0].says, "Symptoms rose by 2 with head turns");
}

/// Each caution of the frame takes away what it must, and says why.
#[test]
fn cautions_take_exercises_away_and_say_why() {
    let turns = rise("head_turn_gaze", 3);
    let plan = propose(&turns, &with_caution("neck"));
    assert_eq!(ids(&plan), Vec::<&str>::new());
    assert_eq!(removed(&plan).len(), 2);
    assert!(removed(&plan).iter().all(|(_, why)| why.contains("neck")), "{:?}", removed(&plan));
    assert_eq!(ids(&propose(&turns, &with_caution("surgery"))), Vec::<&str>::new());
    assert_eq!(ids(&propose(&turns, &with_caution("falls"))).len(), 2, "sitting stays");

    let scenes = rise("optokinetic", 2);
    assert_eq!(ids(&propose(&scenes, &about())), ["busy_scenes"]);
    for caution in ["seizures", "light"] {
        assert_eq!(removed(&propose(&scenes, &with_caution(caution)))[0].0, "busy_scenes");
    }
    assert_eq!(ids(&propose(&scenes, &with_caution("migraine"))), ["busy_scenes"]);

    let standing = finding("balance.feet_together", Grade::OutsideRange);
    assert_eq!(ids(&propose(&standing, &about())), ["stance_steps"]);
    assert_eq!(removed(&propose(&standing, &with_caution("falls")))[0].0, "stance_steps");
}

#[test]
fn who_is_old_is_asked_about_falls() {
    let standing = finding("balance.feet_together", Grade::OutsideRange);
    let asks = |years| {
        let plan = propose(&standing, &About { years: Some(years), ..about() });
        plan.remarks.iter().any(|remark| remark.contains("ask about falls"))
    };
    assert!(asks(65) && !asks(64));
}

#[test]
fn not_asked_is_not_the_same_as_nothing() {
    let unasked = About { cautions: None, ..about() };
    let plan = propose(&rise("head_turn_gaze", 2), &unasked);
    assert_eq!(ids(&plan), Vec::<&str>::new());
    let why = "what to take care with was not asked: ask first";
    assert!(removed(&plan).iter().all(|(_, said)| said == why), "said once: {:?}", removed(&plan));
}

#[test]
fn age_takes_exercises_away_and_an_unknown_one_does_too() {
    let turns = rise("head_turn_gaze", 2);
    assert_eq!(ids(&propose(&turns, &About { years: Some(6), ..about() })).len(), 2);
    assert_eq!(ids(&propose(&turns, &About { years: Some(5), ..about() })).len(), 0);
    let plan = propose(&turns, &About { years: None, ..about() });
    assert!(removed(&plan)[0].1.contains("the age is not known; from 6 years"), "{:?}", removed(&plan));
}

/// Only the year is known: born 2012 and seen in March 2026 may be 13.
#[test]
fn a_birth_year_alone_counts_as_the_lower_age() {
    let visit = Visit::begin("v", "p", "sideline", NOW, "Sidelight 0.1.0");
    assert_eq!(About::of(&visit, &quiet()).years, Some(13));
}

#[test]
fn what_a_visit_says_is_taken_over_and_an_open_safety_check_is_none() {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "Sidelight 0.1.0");
    let nothing = About::of(&visit, &quiet());
    assert_eq!((nothing.cautions, nothing.reason, nothing.safety), (None, None, false));
    let frame = visit.record_mut(frame::SLOT, NOW);
    frame.answers.set("reason", Some(Answer::One("knock".into())));
    frame.answers.set("cautions", Some(Answer::Many(Vec::new())));
    visit.record_mut(safety::SLOT, NOW).answers.set("neck", Some(Answer::One("no".into())));
    let some = About::of(&visit, &quiet());
    assert_eq!((some.cautions, some.reason.as_deref()), (Some(Vec::new()), Some("knock")));
    assert!(!some.safety, "one answer is not the whole check");
    for (key, answer) in safety::FORM.usual_answers() {
        visit.record_mut(safety::SLOT, NOW).answers.set(key, Some(answer));
    }
    assert!(About::of(&visit, &quiet()).safety);
}

#[test]
fn signs_of_the_eyes_take_convergence_work_away() {
    let mut assessment = finding("near_point.break", Grade::OutsideRange);
    assessment.tasks[0].reading.signs.push(Sign::new(What::Skew, Place::In(Eye::Right), true, "resting_gaze.skew"));
    let plan = propose(&assessment, &about());
    assert_eq!(ids(&plan), Vec::<&str>::new());
    assert!(removed(&plan)[0].1.contains("refer instead"));
    let mut looked = finding("near_point.break", Grade::OutsideRange);
    looked.tasks[0].reading.signs.push(Sign::new(What::Skew, Place::In(Eye::Right), false, "resting_gaze.skew"));
    assert_eq!(ids(&propose(&looked, &about())), ["near_point_practice"], "looked for and not seen");
}

/// The guideline's advice: no drill without head movement is ever proposed for what belongs to gaze stability.
#[test]
fn findings_of_gaze_stability_never_lead_to_eye_drills_alone() {
    for task in ["head_turn_gaze", "whole_body_turn"] {
        let plan = propose(&rise(task, 6), &about());
        assert!(plan.proposed.iter().all(|proposal| proposal.exercise.group != Group::EyesAlone), "{task}");
    }
    let following = propose(&rise("pursuit", 2), &about());
    assert_eq!(ids(&following), ["slow_following"]);
    assert!(following.remarks.iter().any(|remark| remark.contains("guideline says not to offer")));
}

#[test]
fn after_a_knock_rest_comes_first_and_walking_after_it() {
    let knock =
        |since: Option<&str>| About { reason: Some("knock".into()), since: since.map(str::to_string), ..about() };
    for since in [Some("minutes"), Some("hours"), Some("yesterday"), None] {
        let plan = propose(&quiet(), &knock(since));
        assert_eq!(ids(&plan), Vec::<&str>::new(), "{since:?}");
        assert_eq!(removed(&plan)[0].0, "steady_walk");
        assert_eq!(plan.advice[0].advice.id, "rest");
    }
    let plan = propose(&quiet(), &knock(Some("week")));
    assert_eq!(ids(&plan), ["steady_walk"]);
    let advice: Vec<&str> = plan.advice.iter().map(|advised| advised.advice.id).collect();
    assert_eq!(advice, ["rest", "screens", "school", "sport"]);
    assert!(plan.remarks.iter().any(|remark| remark.contains("recover without exercises by 4 weeks")));
    let child = propose(&quiet(), &About { years: Some(9), ..knock(Some("week")) });
    assert_eq!(removed(&child)[0].0, "steady_walk", "trials took 13 to 18 years");
}

fn flag() -> Flag {
    Flag { id: "neck".into(), seen: "neck pain".into(), neck: true, source: &crate::exercise::evidence::CDC }
}

#[test]
fn a_danger_sign_a_stop_or_no_safety_check_holds_everything() {
    let mut flagged = rise("head_turn_gaze", 2);
    flagged.flags.push(flag());
    let mut stopped = rise("head_turn_gaze", 2);
    stopped.stopped = true;
    let unchecked = About { safety: false, ..about() };
    for (assessment, about, word) in [
        (&flagged, &about(), "danger sign"),
        (&stopped, &about(), "emergency stop"),
        (&rise("head_turn_gaze", 2), &unchecked, "safety check"),
    ] {
        let plan = propose(assessment, about);
        assert_eq!(ids(&plan), Vec::<&str>::new());
        assert!(plan.held.as_deref().is_some_and(|held| held.contains(word)), "{:?}", plan.held);
        let choice = Choice::from_plan(&plan, Language::English).edited(Edit::Add(exercise::ALL[6]));
        let refused = choice.sign_off(&plan, assessment, "A. Demo", NOW).expect_err("held");
        assert!(matches!(&refused, NotYet::Held(_)), "{refused}");
    }
}

#[test]
fn a_choice_starts_from_the_plan_and_is_changed_by_edits() {
    let assessment = rise("head_turn_gaze", 2);
    let plan = propose(&assessment, &about());
    let choice = Choice::from_plan(&plan, Language::Spanish);
    assert_eq!(choice.items.len(), 2);
    assert_eq!(choice.limits, Limits::CONSENSUS);
    assert!(!choice.helper, "14 years");
    let seated = exercise::by_id("head_turn_seated").expect("listed");
    let standing = exercise::by_id("head_turn_standing").expect("listed");
    let dose = Dose { beat: 120, ..seated.start };
    let changed = choice
        .edited(Edit::Add(standing))
        .edited(Edit::Add(standing))
        .edited(Edit::Up(standing))
        .edited(Edit::Dose(seated, dose))
        .edited(Edit::Helper(true))
        .edited(Edit::Emergency(" 1 1 2 ".into()));
    let order: Vec<&str> = changed.items.iter().map(|item| item.exercise.id).collect();
    assert_eq!(order, ["head_turn_seated", "head_turn_standing", "eyes_then_head"]);
    assert_eq!(changed.items[0].dose.beat, 120);
    assert_eq!((changed.emergency.as_str(), changed.helper), ("112", true));
    let less = changed.clone().edited(Edit::Remove(standing)).edited(Edit::Dose(standing, dose));
    assert_eq!(less.items.len(), 2, "an edit of what is not chosen changes nothing");
    let signed = changed.sign_off(&plan, &assessment, " A. Demo ", NOW).expect("nothing in the way");
    assert_eq!((signed.by(), signed.at(), signed.choice()), ("A. Demo", NOW, &changed));
}

/// An exercise that something speaks against can be given, with a reason, whatever way it came onto the list.
#[test]
fn what_speaks_against_an_exercise_has_to_be_answered() {
    let assessment = rise("head_turn_gaze", 2);
    let plan = propose(&assessment, &with_caution("falls"));
    let standing = exercise::by_id("head_turn_standing").expect("listed");
    let choice = Choice::from_plan(&plan, Language::English).edited(Edit::Add(standing));
    let refused = choice.sign_off(&plan, &assessment, "A. Demo", NOW).expect_err("falls");
    assert!(matches!(&refused, NotYet::Barred { why, .. } if why.contains("falls")), "{refused}");
    let answered = choice.edited(Edit::Despite(standing, "  ".into()));
    assert!(answered.sign_off(&plan, &assessment, "A. Demo", NOW).is_err(), "a blank is no reason");
    let answered = answered.edited(Edit::Despite(standing, "their therapist stands beside".into()));
    assert!(answered.sign_off(&plan, &assessment, "A. Demo", NOW).is_ok());
}

#[test]
fn what_cannot_be_is_refused_with_a_sentence() {
    let assessment = rise("head_turn_gaze", 2);
    let plan = propose(&assessment, &about());
    let choice = Choice::from_plan(&plan, Language::English);
    let seated = exercise::by_id("head_turn_seated").expect("listed");
    let sign = |choice: &Choice, by: &str| choice.sign_off(&plan, &assessment, by, NOW).map_err(|no| no.to_string());
    let empty = Choice { items: Vec::new(), advice: Vec::new(), ..choice.clone() };
    assert_eq!(sign(&empty, "A").expect_err("empty"), "Choose an exercise or a piece of advice first.");
    assert_eq!(sign(&choice, " ").expect_err("nobody"), "Write who signs off.");
    let wrong = choice.clone().edited(Edit::Emergency("call me".into()));
    assert!(sign(&wrong, "A").expect_err("letters").contains("in digits"));
    let wrong = choice.clone().edited(Edit::Limits(Limits { rise: 5, minutes: 60 }));
    assert!(sign(&wrong, "A").expect_err("limits").contains("A rise of 3 at most"));
    let wrong = choice.clone().edited(Edit::Dose(seated, Dose { a_day: 20, ..seated.start }));
    assert!(sign(&wrong, "A").expect_err("dose").contains("rounds a day"));
    let many = exercise::ALL.iter().copied().fold(choice, |choice, exercise| choice.edited(Edit::Add(exercise)));
    assert_eq!(sign(&many, "A").expect_err("14"), "A sheet holds 6 exercises; take some off.");
    assert!(many.remarks()[0].starts_with("14 exercises: with fewer than four"));
}

#[test]
fn a_first_choice_holds_four_exercises_at_most_and_an_adult_stays_below_twelve() {
    let mut assessment = rise("head_turn_gaze", 2);
    assessment.symptoms.after.extend(rise("whole_body_turn", 2).symptoms.after);
    assessment.symptoms.after.extend(rise("optokinetic", 2).symptoms.after);
    assessment.symptoms.after.extend(rise("pursuit", 2).symptoms.after);
    assessment.symptoms.after.extend(rise("saccade", 2).symptoms.after);
    let plan = propose(&assessment, &About { years: Some(11), ..about() });
    assert!(plan.proposed.len() > 4, "{:?}", ids(&plan));
    let choice = Choice::from_plan(&plan, Language::English);
    assert_eq!((choice.items.len(), choice.helper), (4, true));
}

#[test]
fn what_is_proposed_is_added_to_what_was_chosen_and_changed() {
    let plan = propose(&finding("near_point.break", Grade::OutsideRange), &about());
    let first = plan.proposed[0].exercise;
    let own = exercise::by_id("steady_walk").expect("an exercise");
    let dose = Dose { weeks: 2, ..first.start };
    let chosen = Choice::empty(&plan, Language::English)
        .edited(Edit::Add(own))
        .edited(Edit::Add(first))
        .edited(Edit::Dose(first, dose));
    let chosen = chosen.with_proposed(&plan);
    assert_eq!(chosen.items[0].exercise, own);
    assert_eq!(chosen.item(first).map(|item| item.dose), Some(dose), "a changed dose stays");
    let proposed: Vec<_> = plan.proposed.iter().map(|proposal| proposal.exercise).collect();
    assert!(proposed.iter().take(3).all(|exercise| chosen.item(exercise).is_some()));
    assert_eq!(chosen.advice.len(), plan.advice.len());
    assert_eq!(chosen.clone().with_proposed(&plan), chosen, "the second time changes nothing");
    assert!(chosen.items.len() <= 4);
}
