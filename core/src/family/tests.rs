//! A family's days with the page, step by step.

use super::*;
use crate::advice;
use crate::catalogue::Language;
use crate::exercise::{self, Amount, Dose};
use crate::plan::MOST_ITEMS;
use crate::sheet::{Ended, Entry, Phase, Sheet, Unreadable};
use crate::tolerance::{Limits, Rating, Reason, Verdict};

fn entry(id: &str, sets: u8, amount: Amount, rest: u16) -> Entry {
    let exercise = exercise::by_id(id).expect("an exercise");
    Entry { exercise, dose: Dose { sets, amount, rest, a_day: 2, a_week: 7, weeks: 4, beat: 0 } }
}

pub(super) fn sheet() -> Sheet {
    Sheet {
        entries: vec![
            entry("head_turn_seated", 2, Amount::Seconds(20), 10),
            entry("near_point_practice", 2, Amount::Times(5), 0),
        ],
        advice: advice::ALL.to_vec(),
        limits: Limits::CONSENSUS,
        emergency: "112".into(),
        helper: true,
        language: Language::English,
    }
}

pub(super) const MONDAY: Now = Now { day: 20_000, minute: 28_800_000 };

pub(super) fn later(days: i64, minutes: i64) -> Now {
    Now { day: MONDAY.day + days, minute: MONDAY.minute + days * 1440 + minutes }
}

pub(super) fn rating(value: u8) -> Rating {
    Rating::new(value).expect("0 to 10")
}

pub(super) fn opened() -> Session {
    let (mut session, _) = Session::open(&sheet().encode(), &[], true, "en", MONDAY);
    session.act(Act::Read, MONDAY);
    session
}

/// Lets so many seconds pass as a timer does, in quarters.
pub(super) fn seconds(session: &mut Session, seconds: u32) -> Vec<Cue> {
    (0..seconds * 4).filter_map(|_| session.pass(250).cue).collect()
}

fn course(session: &Session) -> &Course {
    session.course().expect("a plan is open")
}

/// Does the first exercise by the clock, felt before and after.
fn done(session: &mut Session, before: u8, after: u8, now: Now) {
    for act in [Act::Start(0), Act::Rate(rating(before)), Act::Begin] {
        session.act(act, now);
    }
    seconds(session, 5 + 20 + 10 + 20);
    session.act(Act::Rate(rating(after)), now);
}

#[test]
fn the_page_says_first_when_to_call_and_when_to_stop() {
    for language in Language::ALL {
        let page = page(&sheet(), language);
        let place = |text: &str| page.find(text).unwrap_or_else(|| panic!("{text} is missing"));
        let call = place("<a href=\"tel:112\">");
        let text = |key| crate::catalogue::text(language, key);
        assert!(call < place(text("danger.wake")));
        assert!(place(text("danger.wake")) < place(text("stop.head")));
        assert!(place(text("stop.head")) < place(text("exercise.head_turn_seated.title")));
        assert!(place(text("exercise.head_turn_seated.title")) < place(text("exercise.near_point_practice.title")));
        assert!(place(text("rule.before")) < place(text("exercise.head_turn_seated.step1")));
        assert!(page.contains(text("page.helper")) && page.contains(text("advice.sport.gate")));
        assert!(!page.contains("<button") && !page.contains("fold"), "it is complete without a program");
        assert!(page.contains("<table>"));
    }
}

#[test]
fn without_a_number_the_call_is_said_in_words() {
    let sheet = Sheet { emergency: String::new(), ..sheet() };
    let page = page(&sheet, Language::Spanish);
    assert!(!page.contains("tel:") && page.contains("Llame ya al número de emergencias."));
    // A sheet that did not come out of a text is no way in either.
    let sheet = Sheet { emergency: "112\" onclick=\"".into(), ..sheet };
    assert!(!super::page(&sheet, Language::English).contains("onclick"));
}

/// Lead of 5 s, 20 s, 10 s rest, 20 s: 55 s in all, with a sound at each change.
#[test]
fn a_round_goes_by_the_clock() {
    let mut session = opened();
    session.act(Act::Start(0), MONDAY);
    session.act(Act::Rate(rating(1)), MONDAY);
    assert_eq!(session.place(), "ready");
    assert!(!session.runs());
    session.act(Act::Begin, MONDAY);
    assert!(session.runs());
    assert_eq!(seconds(&mut session, 5), [Cue::Begin]);
    assert_eq!(session.pass(0).left, Some((20, 0.0)));
    assert_eq!(seconds(&mut session, 19), []);
    assert_eq!(session.pass(1).left.map(|left| left.0), Some(1));
    assert_eq!(seconds(&mut session, 1), [Cue::Rest]);
    assert_eq!(seconds(&mut session, 29), [Cue::Begin]);
    assert_eq!(seconds(&mut session, 1), [Cue::Over]);
    assert_eq!(session.place(), "after");
    session.act(Act::Rate(rating(2)), MONDAY);
    assert_eq!(session.place(), "told");
    assert_eq!(course(&session).done(0, MONDAY), 1);
    assert!(session.html(MONDAY).contains("Good. Go on as planned."));
}

#[test]
fn time_in_which_nobody_looked_is_not_counted() {
    let mut session = opened();
    for act in [Act::Start(0), Act::Rate(rating(0)), Act::Begin] {
        session.act(act, MONDAY);
    }
    seconds(&mut session, 10);
    // The phone was locked and the browser told nothing: the next look comes ten minutes later.
    let passed = session.pass(600_000);
    assert!(passed.redraw && passed.cue.is_none());
    assert_eq!(passed.left.map(|left| left.0), Some(15));
    assert!(!session.runs());
    assert!(session.html(MONDAY).contains("You were away"));
    session.act(Act::GoOn, MONDAY);
    assert_eq!(seconds(&mut session, 15), [Cue::Rest]);
    // It told: the same.
    assert!(session.hidden());
    assert_eq!(seconds(&mut session, 60), []);
    assert!(!session.hidden(), "it stands still already");
}

#[test]
fn a_counted_set_waits_for_a_tap_however_long_it_takes() {
    let mut session = opened();
    for act in [Act::Start(1), Act::Rate(rating(0)), Act::Begin] {
        session.act(act, MONDAY);
    }
    seconds(&mut session, 400);
    assert!(session.html(MONDAY).contains("1 of 2: 5 times"));
    assert_eq!(session.act(Act::Counted, MONDAY)[0], Effect::Hear(Cue::Begin));
    session.act(Act::Counted, MONDAY);
    assert_eq!(session.place(), "after");
}

/// A rise of 3 where 2 is allowed: rest for this day, the easier step on the next one.
#[test]
fn a_rise_beyond_the_limit_ends_the_day() {
    let mut session = opened();
    done(&mut session, 1, 4, MONDAY);
    assert!(session.html(MONDAY).contains("Stop now and rest."));
    session.act(Act::Back, MONDAY);
    let list = session.html(MONDAY);
    assert!(list.contains("Rest for today.") && !list.contains("data-act=\"start"));
    session.act(Act::Start(1), MONDAY);
    assert_eq!(session.view(), &View::Today);
    let tuesday = later(1, 0);
    assert!(session.html(tuesday).contains("data-act=\"start 0\""));
    assert!(session.html(tuesday).contains("class=\"easier now\""));
    assert_eq!(course(&session).log.days[0].ended, Ended::Rested);
}

#[test]
fn who_feels_too_bad_does_not_begin_and_may_try_later() {
    let mut session = opened();
    session.act(Act::Start(0), MONDAY);
    session.act(Act::Rate(rating(7)), MONDAY);
    assert!(session.html(MONDAY).contains("You feel too bad to start."));
    let day = &course(&session).log.days[0];
    assert_eq!((day.rounds.as_slice(), day.before, day.ended), (&[0, 0][..], Some(rating(7)), Ended::Rested));
    session.act(Act::Back, MONDAY);
    assert!(session.html(MONDAY).contains("data-act=\"start 0\""));
}

#[test]
fn a_danger_sign_calls_whatever_is_going_on_and_holds_the_plan() {
    let mut session = opened();
    for act in [Act::Start(0), Act::Rate(rating(0)), Act::Begin] {
        session.act(act, MONDAY);
    }
    seconds(&mut session, 8);
    session.act(Act::Wrong, MONDAY);
    assert!(!session.runs() && session.html(MONDAY).contains("tel:112"));
    // None of these: the exercise is where it was, and waits.
    session.act(Act::NoDanger, MONDAY);
    assert_eq!((session.place(), session.runs()), ("work", false));
    session.act(Act::Wrong, MONDAY);
    session.act(Act::Danger, MONDAY);
    let told = session.html(MONDAY);
    assert!(told.contains("Call for help now") && told.contains("<a href=\"tel:112\">"));
    assert_eq!(course(&session).log.days[0].ended, Ended::Emergency);
    session.act(Act::Back, MONDAY);
    assert_eq!(course(&session).held(later(9, 0)), Some(Hold::UntilTold));
    assert!(!session.html(later(9, 0)).contains("data-act=\"start"));
    session.act(Act::Told, later(9, 0));
    assert!(session.html(later(9, 0)).contains("data-act=\"start 0\""));
}

#[test]
fn a_round_that_was_stopped_says_that_it_does_not_count_and_a_rise_is_waited_for() {
    let told = |acts: &[Act]| {
        let mut session = opened();
        for act in acts {
            session.act(*act, MONDAY);
        }
        let html = session.html(MONDAY);
        (html.contains("You stopped early"), html.contains("Rest until you feel as before."))
    };
    let (start, before, after) = (Act::Start(0), Act::Rate(rating(1)), Act::Rate(rating(2)));
    assert_eq!(told(&[start, before, Act::Alone, before]), (false, false));
    assert_eq!(told(&[start, before, Act::Alone, after]), (false, true));
    assert_eq!(told(&[start, before, Act::Begin, Act::Stop, after]), (true, true));
    assert_eq!(told(&[start, before, Act::Begin, Act::Stop, Act::Rate(rating(9))]), (false, false), "rest comes first");
}

#[test]
fn while_a_word_is_waited_for_nothing_else_is_asked() {
    let mut session = opened();
    done(&mut session, 1, 2, MONDAY);
    session.act(Act::Back, MONDAY);
    assert!(session.html(MONDAY).contains("How long did it take"));
    for act in [Act::Wrong, Act::Danger, Act::Back] {
        session.act(act, MONDAY);
    }
    assert!(!session.html(MONDAY).contains("How long did it take"));
    session.act(Act::Told, later(3, 0));
    assert!(!session.html(later(3, 0)).contains("How long did it take"));
}

#[test]
fn danger_outside_an_exercise_is_noted_too() {
    let mut session = opened();
    session.act(Act::Wrong, MONDAY);
    session.act(Act::Danger, MONDAY);
    assert_eq!(course(&session).log.days[0].ended, Ended::Emergency);
    assert_eq!(course(&session).log.days[0].rounds, [0, 0]);
}

/// The rule in use: less than 60 minutes, and after a day the practice is called.
#[test]
fn a_small_rise_is_asked_after_until_it_is_gone() {
    let mut session = opened();
    done(&mut session, 1, 2, MONDAY);
    session.act(Act::Back, MONDAY);
    assert!(session.html(MONDAY).contains("How long did it take"));
    session.act(Act::Settled(Settled::NotYet), later(0, 59));
    assert!(session.html(later(0, 59)).contains("Rest until it is gone."));
    assert_eq!(course(&session).held(later(0, 59)), None);
    session.act(Act::Settled(Settled::NotYet), later(0, 60));
    assert_eq!(session.view(), &View::Told(Reason::Lasted));
    assert_eq!(course(&session).held(later(0, 60)), Some(Hold::Day(MONDAY.day)));
    session.act(Act::Settled(Settled::NotYet), later(1, 0));
    assert_eq!(session.view(), &View::Told(Reason::ADay));
    assert_eq!(course(&session).held(later(30, 0)), Some(Hold::UntilTold));
    assert_eq!(course(&session).log.days[0].ended, Ended::Practice);
    assert_eq!(course(&session).log.days[0].rounds, [1, 0], "asking counts no round");
}

#[test]
fn a_rise_that_is_gone_is_not_asked_after_again() {
    for settled in [Settled::Under, Settled::Over] {
        let mut session = opened();
        done(&mut session, 1, 2, MONDAY);
        session.act(Act::Settled(settled), later(0, 90));
        assert_eq!(course(&session).settling, None);
        let held = course(&session).held(later(0, 90)).is_some();
        assert_eq!(held, settled == Settled::Over, "an hour or more ends the day");
    }
    // The next rating before says the same.
    let mut session = opened();
    done(&mut session, 2, 3, MONDAY);
    session.act(Act::Back, MONDAY);
    session.act(Act::Start(1), MONDAY);
    session.act(Act::Rate(rating(2)), MONDAY);
    assert_eq!(course(&session).settling, None);
}

#[test]
fn days_are_counted_from_the_first_with_something_in_it() {
    let mut session = opened();
    let first = later(6, 0);
    assert_eq!(course(&session).number(first), Some(1));
    done(&mut session, 1, 1, first);
    assert_eq!(course(&session).number(later(8, 0)), Some(3));
    assert_eq!(course(&session).number(MONDAY), Some(1), "a clock that was set back");
    assert_eq!(course(&session).number(later(6 + 83, 0)), Some(84));
    assert_eq!(course(&session).number(later(6 + 84, 0)), None);
    session.act(Act::Back, first);
    done(&mut session, 1, 1, later(6 + 84, 0));
    assert_eq!(course(&session).log.days.len(), 1);
    assert!(session.html(later(6 + 84, 0)).contains("Good. Go on"));
    session.act(Act::Back, later(6 + 84, 0));
    assert!(session.html(later(6 + 84, 0)).contains("The list of days is full."));
}

#[test]
fn the_day_is_done_when_every_round_is() {
    let mut session = opened();
    for _ in 0..2 {
        for at in 0..2 {
            assert!(!course(&session).done_for_today(MONDAY));
            for act in [Act::Start(at), Act::Rate(rating(0)), Act::Alone, Act::Rate(rating(0)), Act::Back] {
                session.act(act, MONDAY);
            }
        }
    }
    assert!(session.html(MONDAY).contains("You are done for today."));
    assert!(!session.html(later(1, 0)).contains("You are done for today."));
}

#[test]
fn a_plan_is_found_again_with_what_was_done() {
    let mut session = opened();
    done(&mut session, 1, 3, MONDAY);
    session.act(Act::Language(Language::Spanish), MONDAY);
    let effects = session.act(Act::Back, MONDAY);
    let [Effect::Keep(name, text)] = effects.as_slice() else { panic!("{effects:?}") };
    assert_eq!(name, &sheet().encode());
    // Nothing given: the plan opened last. The same code again: the same course.
    for given in ["".to_string(), sheet().encode(), format!("#{}", sheet().encode())] {
        let (again, _) = Session::open(&given, std::slice::from_ref(text), true, "en", MONDAY);
        assert_eq!(course(&again).log, course(&session).log);
        assert_eq!(again.language(), Language::Spanish);
        assert_eq!(again.place(), "today");
    }
}

#[test]
fn the_newest_plan_opens_and_the_older_ones_stay_in_reach() {
    let older = sheet();
    let newer = Sheet { entries: vec![older.entries[1]], ..sheet() };
    let (_, kept_older) = Session::open(&older.encode(), &[], true, "en", MONDAY);
    let kept = |effects: Vec<Effect>| match effects.as_slice() {
        [Effect::Keep(_, text)] => text.clone(),
        other => panic!("{other:?}"),
    };
    let older_text = kept(kept_older);
    // In the same minute, and still the newer one is known.
    let (_, kept_newer) = Session::open(&newer.encode(), std::slice::from_ref(&older_text), true, "en", MONDAY);
    let texts = [older_text, kept(kept_newer)];
    let (mut session, _) = Session::open("", &texts, true, "en", later(3, 0));
    assert_eq!(course(&session).sheet, newer);
    session.act(Act::Read, later(3, 0));
    assert!(session.html(later(3, 0)).contains("Other plans on this phone"));
    session.act(Act::Open(0), later(3, 1));
    assert_eq!(course(&session).sheet, older);
    // Taken away: the other one opens, and after it none is left.
    session.act(Act::RemoveYes, later(3, 1));
    assert_eq!(course(&session).sheet, older, "it has to be asked first");
    session.act(Act::Remove, later(3, 1));
    let effects = session.act(Act::RemoveYes, later(3, 1));
    assert_eq!(effects[0], Effect::Forget(older.encode()));
    assert_eq!(course(&session).sheet, newer);
    session.act(Act::Remove, later(3, 2));
    session.act(Act::RemoveYes, later(3, 2));
    assert_eq!(session.view(), &View::Empty);
}

#[test]
fn a_phone_that_keeps_nothing_says_so_and_works() {
    let (mut session, effects) = Session::open(&sheet().encode(), &[], false, "en", MONDAY);
    assert!(effects.is_empty());
    session.act(Act::Read, MONDAY);
    assert!(session.html(MONDAY).contains("This phone does not keep your plan."));
    done(&mut session, 0, 0, MONDAY);
    assert_eq!(course(&session).done(0, MONDAY), 1);
}

#[test]
fn what_cannot_be_read_is_said_and_never_shown() {
    let good = sheet().encode();
    let cases = [
        ("<img src=x onerror=alert(1)>".to_string(), Unreadable::Markup),
        (good[..good.len() / 2].to_string(), Unreadable::CutShort),
        (good.replacen("SHEET1", "SHEET2", 1), Unreadable::Newer),
        ("A".repeat(1_000_000), Unreadable::TooLong),
        ("hello".to_string(), Unreadable::Foreign),
    ];
    for (given, why) in cases {
        for tag in ["en-US", "es-MX", "fr"] {
            let (session, effects) = Session::open(&given, &[], true, tag, MONDAY);
            assert_eq!(session.view(), &View::Unreadable(why));
            assert!(effects.is_empty());
            let html = session.html(MONDAY);
            assert!(html.contains(crate::catalogue::text(session.language(), why.key())), "{html}");
            assert!(html.len() < 2000 && !html.contains("onerror") && !html.contains("hello"));
        }
    }
    let (session, _) = Session::open(" ", &[], true, "es", MONDAY);
    assert!(session.html(MONDAY).contains("Para usarla necesita un plan."));
}

#[test]
fn the_log_goes_back_as_code_file_and_numbers() {
    let mut session = opened();
    session.act(Act::Log, MONDAY);
    assert!(session.html(MONDAY).contains("Nothing yet.") && session.code().is_none());
    session.act(Act::Back, MONDAY);
    done(&mut session, 1, 2, MONDAY);
    session.act(Act::Back, MONDAY);
    session.act(Act::Log, MONDAY);
    let log = crate::sheet::Log::decode(&session.code().expect("a code")).expect("a log");
    assert_eq!(log, course(&session).log);
    assert_eq!(session.act(Act::Save, MONDAY), [Effect::Save(log.encode())]);
    let html = session.html(MONDAY);
    for number in crate::sheet::Spoken::of(&log, &sheet()).numbers() {
        assert!(html.contains(&format!("<li>{number}</li>")));
    }
    session.act(Act::ClearYes, MONDAY);
    assert_eq!(course(&session).log, log, "it has to be asked first");
    session.act(Act::Clear, MONDAY);
    session.act(Act::ClearYes, MONDAY);
    assert!(course(&session).log.days.is_empty() && course(&session).read);
}

#[test]
fn a_file_is_whole_or_there_is_none() {
    let template = Marks::ALL.join(" ");
    let text = file(&template, &sheet()).expect("a file");
    assert!(!text.contains("@@") && text.starts_with("en Your exercises SHEET1."));
    assert!(text.ends_with(&page(&sheet(), Language::English)));
    for mark in Marks::ALL {
        assert_eq!(file(&template.replace(mark, ""), &sheet()), None);
    }
}

#[test]
fn a_round_of_the_beat_beats_only_while_it_is_done() {
    let dose = Dose { beat: 60, ..sheet().entries[0].dose };
    let mut round = Round::new(Entry { dose, ..sheet().entries[0] }, Limits::CONSENSUS);
    round.rate(rating(0));
    round.begin();
    assert_eq!(round.beat(), None);
    let pass = |round: &mut Round, seconds: u32| {
        for _ in 0..seconds {
            round.pass(1000);
        }
    };
    pass(&mut round, 5);
    assert_eq!(round.beat(), Some(60));
    round.hold(Held::Asked);
    assert_eq!(round.beat(), None);
    round.go_on();
    pass(&mut round, 20);
    assert_eq!((round.phase(), round.beat()), (Some(Phase::Rest { seconds: 10 }), None));
    round.stop();
    round.rate(rating(0));
    assert_eq!(round.stage(), Stage::Told(Verdict::GoOn, Reason::Within));
    let outcome = round.outcome().expect("it is over");
    assert_eq!((outcome.whole, outcome.ended), (false, Ended::Rested));
}

/// Every exercise there is, six at a time as a sheet holds them, in every language: each text is on the page.
#[test]
fn every_exercise_is_on_the_page_with_all_its_words() {
    for some in exercise::ALL.chunks(MOST_ITEMS) {
        let entries = some.iter().map(|exercise| Entry { exercise, dose: exercise.start }).collect();
        let sheet = Sheet { entries, ..sheet() };
        for language in Language::ALL {
            let page = page(&sheet, language);
            for key in some.iter().flat_map(|exercise| exercise.family.keys()) {
                let text = super::html::escape(crate::catalogue::text(language, key));
                assert!(page.contains(&text), "{key}");
            }
        }
    }
}

#[test]
fn a_clock_counts_minutes_from_the_first_one_on() {
    assert_eq!([0, 5, 59, 60, 61, 299, 1200].map(in_minutes), ["0", "5", "59", "1:00", "1:01", "4:59", "20:00"]);
}
