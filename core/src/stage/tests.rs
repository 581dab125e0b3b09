//! What each task can show, checked against its form, the guard and screens of several sizes.

use super::asked::Asked;
use super::*;
use crate::calendar::Moment;
use crate::capture::edit::{self, Edit};
use crate::capture::visit::Visit;
use crate::quantity::Centimetres;
use crate::reading_level::Counts;
use crate::stimulus::program::Following;
use crate::stimulus::run::{Frames, Run};
use crate::stimulus::safety::{Rule, check};
use crate::stimulus::screen::{Calibration, Px, Scale};
use crate::task;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// A phone of 6 px to the millimetre, with the strip taken off its lower edge.
fn phone(width: f64, height: f64, cm: f64) -> Screen {
    let scale = Scale::from_px_per_mm(6.0).expect("a phone");
    Screen::new(scale, Px(width), Px(height), Centimetres(cm)).expect("a phone")
}

#[test]
fn each_offer_belongs_to_a_task_and_taps_a_field_of_it() {
    for offer in ALL {
        let task = task::by_id(offer.task).unwrap_or_else(|| panic!("no task {}", offer.task));
        if let Some(key) = offer.taps {
            assert!(task.form.field(key).is_some(), "{} has no {key}", offer.task);
        }
    }
    assert!(of_task("pursuit").is_some() && of_task("balance").is_none());
}

/// What is said about stripes is kept by the ids the task asks for, so that it fills the field.
#[test]
fn what_was_told_is_one_of_the_tasks_own_choices() {
    let task = task::by_id("optokinetic").expect("is there");
    let field = task.form.field("instruction").expect("is there");
    let offer = of_task("optokinetic").expect("is there");
    for wanted in all_choices(offer) {
        assert!(field.accepts(&crate::capture::answer::Answer::One(wanted.told())), "{}", wanted.told());
    }
    let following = Wanted::usual(of_task("pursuit").expect("is there"));
    assert_eq!(following.told(), "Keep your head still. Follow the face with your eyes only.");
}

/// On a phone held upright or on its side, and on a tablet, at every distance offered first, nothing usual is refused.
#[test]
fn what_is_usual_can_be_shown_on_phones_and_tablets() {
    for (width, height) in [(844.0, 300.0), (390.0, 740.0), (820.0, 1080.0)] {
        for cm in [30.0, 40.0, 50.0] {
            for offer in ALL {
                let program = Wanted::usual(offer).program(&phone(width, height, cm), 7);
                let refused = check(&program, &phone(width, height, cm)).err();
                // Held upright at 50 cm a phone shows 7.4° across: following of 15° a second would swing too quickly, and
                // looking away has no room.
                let narrow = width < 400.0 && cm == 50.0 && matches!(offer.task, "pursuit" | "antisaccade");
                assert_eq!(narrow, refused.is_some(), "{} at {cm} cm on {width}: {refused:?}", offer.task);
                let nearest = refused.is_none_or(|refused| refused.nearest.is_some());
                assert!(nearest || offer.task == "antisaccade", "{} at {cm} cm on {width}", offer.task);
            }
        }
    }
}

/// Whatever is chosen either passes the guard or is refused with words, and never for red.
#[test]
fn every_choice_passes_or_is_refused_in_words() {
    let (mut passed, mut refused) = (0, 0);
    for offer in ALL {
        for wanted in all_choices(offer) {
            let screen = phone(844.0, 300.0, 40.0);
            match check(&wanted.program(&screen, 7), &screen) {
                Ok(_) => passed += 1,
                Err(why) => {
                    refused += 1;
                    assert!(!why.broke(Rule::Red) && why.nearest.is_some(), "{wanted:?}: {why}");
                    assert!(why.to_string().ends_with('.'), "{why}");
                }
            }
        }
    }
    assert!(passed > 500 && refused > 50, "{passed} passed, {refused} refused");
}

/// 844 px of 6 to the millimetre are 140.67 mm: atan(70.33 / 400) = 9.97° to each side, less half a degree of target.
#[test]
fn as_far_as_fits_is_what_the_screen_shows_less_half_the_target() {
    let usual = Wanted::usual(of_task("pursuit").expect("is there"));
    let out = |screen: &Screen| match usual.program(screen, 0) {
        Program::Following(Following { half_width, .. }) => half_width.0,
        other => panic!("{other:?}"),
    };
    assert_eq!(out(&phone(844.0, 300.0, 40.0)), 9.4);
    assert_eq!(out(&phone(844.0, 300.0, 30.0)), 10.0);
}

/// 15° a second over 2.5 a second are 6°, and a field of 19.9° over four pairs is less; the field of a tablet decides.
#[test]
fn stripes_are_as_narrow_as_speed_and_screen_allow() {
    let usual = Wanted::usual(of_task("optokinetic").expect("is there"));
    let period = |screen: &Screen| match usual.program(screen, 0) {
        Program::Stripes(stripes) => stripes.period.0,
        other => panic!("{other:?}"),
    };
    assert_eq!(period(&phone(844.0, 300.0, 40.0)), 6.0);
    let tablet = phone(1600.0, 1000.0, 40.0);
    let needs = tablet.field(Axis::Horizontal).0 / 4.0;
    assert!((period(&tablet) - needs).abs() < 0.1 && period(&tablet) >= needs);
}

#[test]
fn what_is_chosen_stays_and_what_is_not_offered_changes_nothing() {
    let wanted =
        Wanted::usual(of_task("saccade").expect("is there")).with("when", "2").with("when", "77").with("x", "2");
    assert_eq!((wanted.of("when"), wanted.of("x")), ("2", ""));
}

#[test]
fn the_person_is_told_in_plain_words() {
    for offer in ALL {
        for wanted in all_choices(offer) {
            let level = Counts::english(&wanted.tells()).grade();
            assert!(level <= 6.0, "grade {level:.1}: {}", wanted.tells());
        }
    }
}

/// 15° a second is the task's slow, 30° its fast; a circle has no direction of its own.
#[test]
fn following_is_graded_in_the_column_of_its_speed() {
    let usual = Wanted::usual(of_task("pursuit").expect("is there"));
    let graded = |wanted: Wanted| Wanted::graded(&wanted.program(&phone(844.0, 300.0, 40.0), 0));
    let sides = [Direction::Right, Direction::Left];
    assert_eq!(graded(usual.clone()), Some(("slow", sides)));
    assert_eq!(graded(usual.clone().with("speed", "30")), Some(("fast", sides)));
    assert_eq!(graded(usual.clone().with("way", "vertical")), Some(("slow", [Direction::Up, Direction::Down])));
    assert_eq!(graded(usual.with("way", "clockwise")), None);
}

/// A prompt every 2 s is 30 a minute.
#[test]
fn what_is_heard_goes_with_what_is_shown() {
    let beat = |task: &str| Wanted::beat(&Wanted::usual(of_task(task).expect("is there")).program_elsewhere(0));
    assert_eq!(beat("vergence"), Some((30.0, 10)));
    assert_eq!(beat("head_turn_gaze"), Some((180.0, 20)));
    assert_eq!(beat("saccade"), None);
}

/// What is kept answers the task's own questions about how it was done.
#[test]
fn what_was_shown_fills_the_tasks_record() {
    let screen = phone(844.0, 300.0, 40.0);
    let calibration = Calibration { scale: screen.scale(), pixel_ratio: 3.0, zoom: 1.0 };
    let run = Run::new(&calibration, &screen, (3.0, 1.0), Frames::from_times(&[]));
    let asked = Asked { answers: [Some(false), Some(true), Some(false)], despite: "mild".to_string() };
    let wanted = Wanted::usual(of_task("optokinetic").expect("is there"));
    let safe = check(&wanted.program(&screen, 0), &screen).expect("is usual");
    let showing = wanted.showing(&safe, &run, NOW, 8.0, true, Some(&asked));
    assert_eq!((showing.word("asked_seizures"), showing.word("asked_migraine")), (Some("no"), Some("yes")));
    assert_eq!(showing.word("despite"), Some("mild"));
    let task = task::by_id("optokinetic").expect("is there");
    let mut visit = Visit::begin("v", "p", "full", NOW, "test");
    edit::apply(&mut visit, task.form, task.id, Edit::Shown(showing), NOW).expect("is kept");
    let answers = &visit.record(task.id).expect("is there").answers;
    assert_eq!((answers.one("stimulus"), answers.one("instruction")), (Some("screen"), Some("follow")));
    assert_eq!((answers.number("speed"), answers.number("width")), (Some(15.0), Some(3.0)));
}

/// Of another screen only what was set is known, and not what was made to fit this one.
#[test]
fn what_fits_this_screen_is_not_said_of_another() {
    let usual = Wanted::usual(of_task("pursuit").expect("is there"));
    let (fits, set) = (usual.showing_elsewhere(NOW), usual.with("far", "8").showing_elsewhere(NOW));
    assert!(fits.elsewhere && fits.screen.is_none());
    assert_eq!((fits.number("each_way"), set.number("each_way")), (None, Some(8.0)));
    assert_eq!((fits.number("speed"), fits.seconds), (Some(15.0), 20.0));
}

/// Two sets of ten seconds with five of rest between, and rests before the next run.
#[test]
fn stripes_run_for_twenty_seconds_and_rest() {
    let usual = Wanted::usual(of_task("optokinetic").expect("is there"));
    assert_eq!(usual.program_elsewhere(0).seconds(), 25.0);
    assert_eq!(usual.clone().with("toward", "left").program_elsewhere(0).seconds(), 20.0);
    assert_eq!((usual.rest(), Wanted::usual(of_task("pursuit").expect("is there")).rest()), (10, 3));
}
