//! Laws over any taps and any time: nothing a family does breaks the page, loses what is kept, or passes over a rule.

use super::tests::sheet;
use super::*;
use crate::catalogue::Language;
use crate::sheet::MOST_ROUNDS;
use crate::tolerance::Rating;
use proptest::prelude::*;

/// A tap, or time that passes, or minutes between looks.
#[derive(Debug, Clone)]
enum Event {
    Tap(Act),
    Pass(u32),
    Hidden,
    Later(i64),
}

fn any_event() -> impl Strategy<Value = Event> {
    let acts = [
        "read",
        "lists",
        "begin",
        "begin",
        "alone",
        "hold",
        "go-on",
        "counted",
        "stop",
        "back",
        "back",
        "wrong",
        "danger",
        "no-danger",
        "settled-under",
        "settled-over",
        "settled-not-yet",
        "told",
        "log",
        "save",
        "clear",
        "clear-yes",
        "remove",
        "keep",
        "sound",
        "start 0",
        "start 1",
        "start 9",
        "steps 0",
        "steps 7",
        "open 0",
        "language es",
    ];
    let plain = proptest::sample::select(acts.to_vec()).prop_filter_map("an act", Act::parse);
    let rate = (0u8..=10).prop_filter_map("a rating", |value| Rating::new(value).map(Act::Rate));
    prop_oneof![
        6 => plain.prop_map(Event::Tap),
        3 => rate.prop_map(Event::Tap),
        4 => (0u32..40_000).prop_map(Event::Pass),
        1 => Just(Event::Hidden),
        1 => (-200i64..3000).prop_map(Event::Later),
    ]
}

/// The page loaded anew stands where it stood, with its clock still.
fn same_again(session: &Session, text: String, now: Now) -> Result<(), TestCaseError> {
    let (again, _) = Session::open("", &[text], true, "en", now);
    prop_assert!(!again.runs());
    match (session.view(), again.view()) {
        (View::Round(at, round), View::Round(same, again)) => {
            prop_assert_eq!((at, round.stage(), round.outcome()), (same, again.stage(), again.outcome()));
        }
        (View::Danger(open), View::Danger(again)) => {
            prop_assert_eq!(open.as_ref().map(|open| open.1.stage()), again.as_ref().map(|open| open.1.stage()));
        }
        (View::Told(reason), View::Told(again)) => prop_assert_eq!(reason, again),
        (view, again) => {
            prop_assert!(!matches!(view, View::Round(..) | View::Danger(_) | View::Told(_)));
            prop_assert_eq!(again, &View::Today);
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_day_keeps_the_rules(events in proptest::collection::vec(any_event(), 0..120)) {
        let mut now = Now { day: 100, minute: 144_000 };
        let (mut session, _) = Session::open(&sheet().encode(), &[], true, "en", now);
        let mut tapped = now.day;
        for event in events {
            let held = session.course().and_then(|course| course.held(now));
            match event {
                Event::Tap(act) => {
                    let before = session.view().clone();
                    tapped = now.day;
                    let effects = session.act(act, now);
                    // What is kept comes back as it was.
                    for effect in effects {
                        if let Effect::Keep(_, text) = effect {
                            prop_assert_eq!(Course::decode(&text), session.course().cloned());
                            same_again(&session, text, now)?;
                        }
                    }
                    if matches!(act, Act::Start(_)) && session.view() != &before {
                        prop_assert!(before == View::Today && held.is_none(), "nothing begins against a hold");
                    }
                }
                Event::Pass(milliseconds) => {
                    let passed = session.pass(milliseconds);
                    if let Some(Effect::Keep(_, text)) = passed.keep
                        && tapped == now.day
                    {
                        same_again(&session, text, now)?;
                    }
                    if let Some((_, over)) = passed.left {
                        prop_assert!((0.0..=1.0).contains(&over));
                    }
                    if milliseconds > LONGEST_GAP {
                        prop_assert!(passed.cue.is_none(), "time nobody looked at ends nothing");
                        prop_assert!(!session.runs());
                    }
                }
                Event::Hidden => {
                    session.hidden();
                    prop_assert!(!session.runs());
                }
                Event::Later(minutes) => {
                    now.minute += minutes;
                    now.day = now.minute.div_euclid(1440);
                }
            }
            let html = session.html(now);
            prop_assert_eq!(html.matches("<h1").count(), 1);
            prop_assert_eq!(html.matches("<main").count(), 1);
            prop_assert!(!html.contains("<script") && !html.contains("style="), "{}", html);
            if let Some(course) = session.course() {
                prop_assert!(course.log.days.iter().all(|day| day.rounds.iter().all(|rounds| *rounds <= MOST_ROUNDS)));
                prop_assert!(course.log.days.windows(2).all(|two| two[0].number < two[1].number));
                if session.view() != &View::Today && course.held(now) == Some(Hold::UntilTold) {
                    prop_assert!(!session.runs(), "nothing runs while a word is waited for");
                }
            }
        }
    }

    #[test]
    fn any_text_given_is_opened_or_refused_with_our_own_words(text in ".{0,300}", kept in ".{0,200}") {
        let now = Now { day: 1, minute: 1 };
        let (session, _) = Session::open(&text, &[kept], true, "es", now);
        prop_assert!(session.course().is_none());
        let html = session.html(now);
        prop_assert!(html.contains(crate::catalogue::text(Language::Spanish, "empty.private")));
    }
}
