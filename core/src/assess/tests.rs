//! The assessment on whole visits: what is missing, what is skipped, what ends it, and that nothing odd makes it fail.

use super::*;
use crate::calendar::{Born, Moment};
use crate::capture::answer::Answer;
use crate::capture::form::Form;
use crate::capture::record::State;
use crate::capture::unread::Unread;
use crate::capture::{frame, safety, symptoms};
use crate::finding::Why;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

fn person() -> Person {
    Person {
        id: "p".into(),
        label: "R-21".into(),
        born: Some(Born::Year(2012)),
        invented: true,
        changed: None,
        unread: Unread::default(),
    }
}

fn visit() -> Visit {
    Visit::begin("v", "p", "sideline", NOW, "Sidelight 0.1.0")
}

fn usual(visit: &mut Visit, slot: &str, form: &'static Form) {
    for (key, answer) in form.usual_answers() {
        visit.record_mut(slot, NOW).answers.set(key, Some(answer));
    }
}

fn one(visit: &mut Visit, slot: &str, key: &str, id: &str) {
    visit.record_mut(slot, NOW).answers.set(key, Some(Answer::One(id.into())));
}

fn missing(assessment: &Assessment, slot: &str) -> Vec<(String, Why)> {
    let of_slot = assessment.gaps.iter().filter(|gap| gap.slot == slot);
    of_slot.map(|gap| (gap.what.clone(), gap.why.clone())).collect()
}

#[test]
fn an_empty_visit_is_all_gaps_and_no_findings() {
    let assessment = assess(&person(), &visit());
    assert_eq!(assessment.findings().count(), 0);
    assert_eq!(assessment.tasks.len(), 5);
    assert!(assessment.tasks.iter().all(|task| !task.done));
    let slots: Vec<&str> = assessment.gaps.iter().map(|gap| gap.slot.as_str()).collect();
    let expected =
        ["frame", "safety", "resting_gaze", "near_point", "pursuit", "saccade", "optokinetic", "symptoms.before"];
    assert_eq!(slots[..8], expected);
    assert_eq!(slots[8..], ["decision"]);
    assert!(assessment.gaps.iter().all(|gap| gap.why == Why::NotRecorded));
    assert_eq!(overview(&assessment).text, "nothing recorded");
}

#[test]
fn skipped_is_not_done_with_its_reason_even_when_something_had_been_recorded() {
    let mut visit = visit();
    usual(&mut visit, "pursuit", crate::task::pursuit::TASK.form);
    visit.record_mut("pursuit", NOW).state = State::NotTestable("eyes kept closing".into());
    let assessment = assess(&person(), &visit);
    assert_eq!(assessment.findings().count(), 0);
    assert_eq!(
        missing(&assessment, "pursuit"),
        [("following".to_string(), Why::NotTestable("eyes kept closing".into()))]
    );
}

#[test]
fn unanswered_questions_are_listed_one_by_one() {
    let mut visit = visit();
    one(&mut visit, frame::SLOT, "reason", "knock");
    usual(&mut visit, safety::SLOT, &safety::FORM);
    visit.record_mut(safety::SLOT, NOW).answers.set("vomiting", None);
    let assessment = assess(&person(), &visit);
    let frame: Vec<String> = missing(&assessment, "frame").into_iter().map(|(what, _)| what).collect();
    let expected =
        ["time since it began", "consent", "glasses", "what else can change eye movements today", "cautions"];
    assert_eq!(frame, expected);
    assert_eq!(missing(&assessment, "safety"), [("vomiting".to_string(), Why::NotRecorded)]);
}

#[test]
fn a_stop_explains_what_was_not_done() {
    let mut visit = visit();
    usual(&mut visit, safety::SLOT, &safety::FORM);
    one(&mut visit, safety::SLOT, "neck", "yes");
    let before = assess(&person(), &visit);
    assert_eq!((before.flags.len(), before.open_flags.len(), before.stopped), (1, 1, false));
    assert_eq!(overview(&before).text, "emergency sign");

    visit.record_mut("stop.1", NOW).answers.set("seen", Some(Answer::Text("neck".into())));
    let after = assess(&person(), &visit);
    assert_eq!((after.flags.len(), after.open_flags.len(), after.stopped), (1, 0, true));
    assert_eq!(overview(&after), Overview { grade: Grade::Urgent, text: "stopped: emergency sign".into() });
    let reason = Why::NotDone("stopped at an emergency sign".into());
    assert_eq!(missing(&after, "saccade"), [("jumps".to_string(), reason)]);
}

#[test]
fn parts_of_a_newer_program_are_named_and_not_read() {
    let mut visit = visit();
    one(&mut visit, "pupil_video", "size", "large");
    visit.record_mut("near_point", NOW).unread = Unread(vec![("film".into(), "1".into())]);
    one(&mut visit, safety::SLOT, "a_new_sign", "yes");
    let assessment = assess(&person(), &visit);
    assert_eq!(missing(&assessment, "pupil_video"), [("a part called “pupil_video”".to_string(), Why::Unread)]);
    assert!(missing(&assessment, "near_point").contains(&("a detail of near point".into(), Why::Unread)));
    let asked = missing(&assessment, safety::SLOT);
    assert!(asked.contains(&("a danger sign this version does not know".into(), Why::Unread)));
}

#[test]
fn caveats_come_from_the_frame_and_the_age() {
    let mut visit = visit();
    one(&mut visit, frame::SLOT, "glasses", "not_worn");
    one(&mut visit, frame::SLOT, "reason", "knock");
    one(&mut visit, frame::SLOT, "since", "longer");
    let tired = Answer::Many(vec!["tired".into(), "something newer".into()]);
    visit.record_mut(frame::SLOT, NOW).answers.set("influences", Some(tired));
    let six = Person { born: Some(Born::Year(2020)), ..person() };
    let from: Vec<String> = assess(&six, &visit).caveats.into_iter().map(|caveat| caveat.from).collect();
    assert_eq!(from, ["frame.glasses.not_worn", "frame.influences.tired", "frame.since", "person.born"]);
    assert_eq!(assess(&person(), &Visit::begin("v", "p", "sideline", NOW, "")).caveats, []);
}

#[test]
fn a_rise_of_symptoms_stands_out_once() {
    let mut visit = visit();
    let rate = |visit: &mut Visit, slot: &str, value: u8| {
        let rated = symptoms::ITEMS.iter().map(|item| (item.id.to_string(), value)).collect();
        visit.record_mut(slot, NOW).answers.set("now", Some(Answer::Ratings(rated)));
    };
    rate(&mut visit, symptoms::BEFORE, 0);
    rate(&mut visit, &symptoms::after("pursuit"), 2);
    let assessment = assess(&person(), &visit);
    let keys: Vec<&str> = assessment.outside().iter().map(|finding| finding.key.as_str()).collect();
    assert_eq!(keys, ["symptoms.provoked"]);
    assert_eq!(overview(&assessment).text, "1 outside, 5 tasks not done");
}

#[test]
fn odd_answers_do_not_fail() {
    let mut visit = visit();
    for slot in ["frame", "safety", "decision", "near_point", "saccade", "stop", "stop.", "symptoms.", "", "."] {
        for key in ["reason", "neck", "action", "trials", "jumps", "now", "seen", "go_on", "influences"] {
            visit.record_mut(slot, NOW).answers.set(key, Some(Answer::Number(f64::NAN)));
        }
    }
    visit.routine = "unheard of".into();
    visit.started = Moment { unix_ms: i64::MIN, offset_minutes: i16::MIN };
    let assessment = assess(&person(), &visit);
    assert_eq!(assessment.age, None);
    assert!(assessment.flags.is_empty());
}
