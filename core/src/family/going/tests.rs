//! A page that ends in the middle of an exercise.

use super::super::tests::{MONDAY, later, opened, rating, seconds, sheet};
use super::super::{Act, Cue, Effect, Held, Now, Session, Stage, View};
use crate::catalogue::Language;
use crate::sheet::Ended;
use crate::tolerance::Reason;

/// The page loaded anew at that time, from what the phone keeps.
fn again(effects: Vec<Effect>, now: Now) -> Session {
    let kept =
        effects.into_iter().find_map(|effect| if let Effect::Keep(_, text) = effect { Some(text) } else { None });
    Session::open("", &[kept.expect("something is kept")], true, "en", now).0
}

/// The first exercise, begun, felt 3 before.
fn begun() -> (Session, Vec<Effect>) {
    let mut session = opened();
    session.act(Act::Start(0), MONDAY);
    session.act(Act::Rate(rating(3)), MONDAY);
    let effects = session.act(Act::Begin, MONDAY);
    (session, effects)
}

/// Lets time pass in quarters of a second; the last that was to be kept.
fn kept_while(session: &mut Session, quarters: u32) -> Vec<Effect> {
    (0..quarters).filter_map(|_| session.pass(250).keep).last().into_iter().collect()
}

/// 5 s to get ready, 20 s, 10 s of rest, 20 s: ended at 31.5 s, in the rest, with 3.5 s of it left and 4 s on the screen.
#[test]
fn a_round_goes_on_where_it_stood_when_somebody_says_so() {
    let (mut session, _) = begun();
    let kept = kept_while(&mut session, 4 * 31 + 2);
    let mut again = again(kept, later(0, 20));
    let View::Round(0, round) = again.view() else { panic!("{:?}", again.view()) };
    assert_eq!((round.stage(), round.held()), (Stage::Work { at: 1, left: 4000 }, Some(Held::Away)));
    let html = again.html(MONDAY);
    assert!(html.contains("You were away") && html.contains("data-act=\"go-on\""), "{html}");
    // The clock stands still.
    assert_eq!(seconds(&mut again, 60), []);
    again.act(Act::GoOn, later(0, 20));
    assert_eq!(seconds(&mut again, 4), [Cue::Begin]);
    assert_eq!(seconds(&mut again, 20), [Cue::Over]);
    again.act(Act::Rate(rating(4)), later(0, 21));
    let course = again.course().expect("a plan");
    assert_eq!((course.log.rounds(1, 0), course.log.days[0].before), (1, Some(rating(3))));
}

#[test]
fn every_step_of_a_round_comes_back() {
    let mut session = opened();
    let mut steps = vec![(session.act(Act::Start(1), MONDAY), "before")];
    for (act, place) in [(Act::Rate(rating(3)), "ready"), (Act::Begin, "work"), (Act::Stop, "after")] {
        steps.push((session.act(act, MONDAY), place));
    }
    steps.push((session.act(Act::Rate(rating(4)), MONDAY), "told"));
    for (effects, place) in steps {
        let again = again(effects, MONDAY);
        assert_eq!(again.place(), place);
        assert!(!again.runs());
    }
    // Stopped before the end, it is no round, and reading what to do twice notes nothing twice.
    let mut told = again(session.act(Act::Sound, MONDAY), MONDAY);
    assert_eq!(told.course(), session.course());
    assert_eq!(told.course().map(|course| course.log.rounds(1, 1)), Some(0));
    let list = again(told.act(Act::Back, MONDAY), MONDAY);
    assert_eq!(list.view(), &View::Today);
}

#[test]
fn a_set_that_is_counted_still_waits_for_its_tap() {
    let mut session = opened();
    for act in [Act::Start(1), Act::Rate(rating(0)), Act::Begin] {
        session.act(act, MONDAY);
    }
    let mut again = again(kept_while(&mut session, 4 * 20), MONDAY);
    again.act(Act::GoOn, MONDAY);
    assert_eq!(seconds(&mut again, 300), []);
    assert!(again.html(MONDAY).contains("1 of 2: 5 times"));
    again.act(Act::Counted, MONDAY);
    assert!(again.html(MONDAY).contains("2 of 2: 5 times"));
}

#[test]
fn another_day_begins_anew() {
    let (mut session, _) = begun();
    let kept = kept_while(&mut session, 40);
    for day in [1, -1, 30] {
        let again = again(kept.clone(), later(day, 0));
        assert_eq!(again.view(), &View::Today);
        assert!(again.course().is_some_and(|course| course.log.days.is_empty()), "nothing is noted");
    }
}

#[test]
fn danger_signs_are_asked_again_and_what_was_told_is_told_again() {
    let (mut session, _) = begun();
    kept_while(&mut session, 40);
    let mut asked = again(session.act(Act::Wrong, MONDAY), MONDAY);
    assert_eq!(asked.place(), "danger");
    let mut back = again(asked.act(Act::NoDanger, MONDAY), MONDAY);
    assert_eq!((back.place(), back.runs()), ("work", false));
    back.act(Act::Wrong, MONDAY);
    let called = again(back.act(Act::Danger, MONDAY), later(0, 2));
    assert_eq!(called.view(), &View::Told(Reason::Danger));
    let course = called.course().expect("a plan");
    assert_eq!((course.log.days.len(), course.log.days[0].ended), (1, Ended::Emergency));
}

/// The same link once more is the same plan; another plan's page is its own.
#[test]
fn a_link_to_the_same_plan_goes_on_and_another_does_not() {
    let (_, effects) = begun();
    let [Effect::Keep(_, text)] = effects.as_slice() else { panic!("{effects:?}") };
    let other = crate::sheet::Sheet { language: Language::Spanish, ..sheet() };
    let open = |given: &str| Session::open(given, std::slice::from_ref(text), true, "en", MONDAY).0;
    assert_eq!(open(&sheet().encode()).place(), "work");
    assert_eq!(open(&other.encode()).place(), "first");
}

#[test]
fn what_cannot_have_been_is_no_round() {
    let (_, effects) = begun();
    let [Effect::Keep(_, text)] = effects.as_slice() else { panic!("{effects:?}") };
    let line = "going 20000 round 0 3 - part lead 5000";
    assert!(text.ends_with(line), "{text}");
    let lines = [
        "going 20000",
        "going 20000 round 2 3 - part lead 5000",
        "going 20000 round 0 3 - part lead 5001",
        "going 20000 round 0 3 - part lead 0",
        "going 20000 round 0 11 - part lead 5000",
        "going 20000 round 0 7 - part lead 5000",
        "going 20000 round 0 - - part ready",
        "going 20000 round 0 3 - whole ready",
        "going 20000 round 0 3 - part work 0 20001",
        "going 20000 round 0 3 - part work 0 0",
        "going 20000 round 0 3 - part work 3 100",
        "going 20000 round 1 3 - part work 0 100",
        "going 20000 round 0 3 - part told",
        "going 20000 round 0 3 4 part after",
        "going 20000 asked twice",
        "going 20000 told within",
        "going 20000 <b>",
    ];
    for damaged in lines {
        let text = text.replace(line, damaged);
        let (session, _) = Session::open("", &[text], true, "en", MONDAY);
        assert_eq!((session.place(), session.view()), ("today", &View::Today), "{damaged}");
    }
    // Nothing goes on while a word is waited for.
    let (session, _) = Session::open("", &[text.replace(line, &format!("wait\n{line}"))], true, "en", MONDAY);
    assert_eq!(session.view(), &View::Today);
}
