//! Showings: what is kept of a checked run, and its words.

use super::*;
use crate::anatomy::Direction;
use crate::stimulus::beat::Beat;
use crate::stimulus::colour::Srgb;
use crate::stimulus::program::{Antisaccade, Following, HeadTurns, Jumps, NearFar, Pace, Path, Still, Stripes, Timing};
use crate::stimulus::safety::check;
use crate::stimulus::screen::{At, Calibration, CardEdge};
use crate::stimulus::target::{Kind, Target};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// A phone of 516 px along a card, held across 40 cm away: 140.0 by 64.7 mm, so 19.85° by 9.25°.
fn phone() -> (Calibration, Screen) {
    let scale = Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone");
    let screen = Screen::new(scale, Px(844.0), Px(390.0), Centimetres(40.0)).expect("a phone");
    (Calibration { scale, pixel_ratio: 3.0, zoom: 1.0 }, screen)
}

fn frames(drawn: u32, dropped: u32) -> Frames {
    Frames { a_second: Some(60.0), drawn, dropped }
}

fn shown(program: &Program, frames: Frames, ended: (f64, f64)) -> Showing {
    let (calibration, screen) = phone();
    let safe = check(program, &screen).unwrap_or_else(|refused| panic!("{refused}"));
    Showing::of(&safe, &Run::new(&calibration, &screen, ended, frames), NOW, program.seconds(), false)
}

fn face() -> Target {
    Target::new(Kind::Face, Degrees(1.0), Srgb::grey(0x1a), Srgb::WHITE).expect("a target")
}

fn stripes() -> Program {
    Program::Stripes(Stripes {
        toward: vec![Direction::Right, Direction::Left],
        speed: 10.0,
        period: Degrees(8.0),
        light: Stripes::DIM.0,
        dark: Stripes::DIM.1,
        seconds: 10.0,
        rest: 3.0,
    })
}

fn following(path: Path, pace: Pace) -> Program {
    Program::Following(Following { path, pace, half_width: Degrees(8.0), seconds: 20.0, target: face() })
}

#[test]
fn what_is_kept_is_what_was_shown() {
    let showing = shown(&stripes(), frames(1379, 1), (3.0, 1.0));
    assert_eq!((showing.program.as_str(), showing.word(key::TOWARD)), ("stripes", Some("right left")));
    assert_eq!((showing.speed(), showing.number(key::STRIPE), showing.seconds), (Some(10.0), Some(4.0), 23.0));
    let screen = showing.screen.expect("this device's");
    assert_eq!((screen.width_px, screen.height_px, screen.distance_cm), (844.0, 390.0, 40.0));
    assert!((screen.px_per_mm - 516.0 / 85.6).abs() < 1e-12 && screen.held && !showing.elsewhere);
    assert_eq!(showing.geometry(), Some(phone().1), "the screen comes back whole");
}

#[test]
fn each_program_is_told_in_words() {
    let jumps = |timing| {
        let (axis, half_width) = (Axis::Horizontal, Degrees(8.0));
        Program::Jumps(Jumps { axis, half_width, timing, count: 20, target: face() })
    };
    let anti = |gap| {
        Program::Antisaccade(Antisaccade { half_width: Degrees(8.0), gap, trials: 4, seed: u64::MAX, target: face() })
    };
    let turns = HeadTurns { beat: Beat::new(180.0).expect("a pace"), beats: 20, target: face() };
    let still = Still { place: At { right: -5.0, up: 2.0 }, seconds: 10.0, target: face() };
    let cases = [
        (stripes(), "Stripes on a screen: to the right, then to the left, 10°/s, each stripe 4° wide, 23 s."),
        (
            following(Path::Horizontal, Pace::Constant(15.0)),
            "Following on a screen: side to side, 15°/s, 8° to each side, a face of 1°, 20 s.",
        ),
        // 2π 0.4 × 3 = 7.54: the vertical half of the screen is 4.6°.
        (
            Program::Following(Following {
                path: Path::Vertical,
                pace: Pace::Swings(0.4),
                half_width: Degrees(3.0),
                seconds: 20.0,
                target: face(),
            }),
            "Following on a screen: up and down, swinging, up to 7.5°/s, 3° up and down, a face of 1°, 20 s.",
        ),
        (
            jumps(Timing::Fixed(1.5)),
            "Jumps on a screen: side to side, 8° to each side, every 1.5 s, a face of 1°, 32 s.",
        ),
        (anti(0.2), "Looking away on a screen: 8° to each side, gap of 0.2 s, a face of 1°, "),
        (anti(0.0), "Looking away on a screen: 8° to each side, no gap, a face of 1°, "),
        (
            Program::NearFar(NearFar { every: 3.0, count: 10, target: face() }),
            "Prompts to look near and far on a screen: every 3 s, a face of 1°, 30 s.",
        ),
        (Program::Still(still), "A target that stays on a screen: 5° to the left and 2° up, a face of 1°, 10 s."),
        (Program::HeadTurns(turns), "Head turns to a beat on a screen: 180 a minute, a face of 1°, 6.7 s."),
    ];
    for (program, expected) in cases {
        let said = what(&shown(&program, frames(600, 0), (3.0, 1.0)));
        assert!(said.starts_with(expected), "{said}");
        assert!(said.ends_with("The screen showed 20° by 9° at 40 cm."), "{said}");
    }
    let unforeseen = way(&shown(&jumps(Timing::Unforeseen(7)), frames(600, 0), (3.0, 1.0)));
    assert_eq!(unforeseen, "8° to each side, at times no one can foresee");
    let seeded = shown(&anti(0.2), frames(600, 0), (3.0, 1.0));
    assert_eq!(seeded.word(key::SEED), Some("18446744073709551615"), "to the last bit");
}

#[test]
fn what_was_said_is_told() {
    let told = |instruction: &str| what(&shown(&stripes(), frames(600, 0), (3.0, 1.0)).told(instruction));
    assert!(told("follow").ends_with(" Told “look at each stripe”."));
    assert!(told("Keep looking.").ends_with(" Told “Keep looking.”"));
    assert!(told("Let your eyes go").ends_with(" Told “Let your eyes go”."));
    assert!(told("").ends_with(" at 40 cm."));
}

/// 70 of 1,400 frames are 5 %, 71 are more.
#[test]
fn what_a_reader_must_know_is_told() {
    let target = following(Path::Horizontal, Pace::Constant(15.0));
    let remarks_of = |dropped, ended| remarks(&shown(&target, frames(1400 - dropped, dropped), ended));
    assert!(remarks_of(70, (3.0, 1.0)).is_empty());
    let late = remarks_of(71, (3.0, 1.0));
    assert!(late.len() == 1 && late[0].starts_with("The display dropped 5.1 % of its frames"), "{late:?}");
    let zoomed = remarks_of(0, (3.0, 2.0));
    assert!(zoomed.len() == 1 && zoomed[0].contains("sizes and speeds do not hold"), "{zoomed:?}");
    let field = remarks(&shown(&stripes(), frames(1400, 0), (3.0, 1.0)));
    assert!(field.len() == 1 && field[0].contains("not a full-field response"), "{field:?}");
}

#[test]
fn what_another_device_showed_is_told_as_set_and_not_as_measured() {
    let showing = Showing::on_another_device(&stripes(), NOW, 7.0, true);
    assert_eq!((showing.elsewhere, showing.screen, showing.distance()), (true, None, None));
    let said = says(&showing);
    assert!(
        said[0].starts_with("Stripes on another device: ") && said[0].ends_with(", stopped after 7 s."),
        "{said:?}"
    );
    assert!(said[1..].iter().any(|remark| remark.contains("another device")), "{said:?}");
}

/// 40 cm × tan 8° is 5.62 cm, printed to a tenth.
#[test]
fn angles_become_centimetres_at_the_distance() {
    let showing = shown(&following(Path::Horizontal, Pace::Constant(15.0)), frames(600, 0), (3.0, 1.0));
    assert_eq!((showing.distance(), showing.offset()), (Some(40.0), Some(5.6)));
}

#[test]
fn numbers_of_a_file_that_cannot_be_have_no_geometry_and_do_not_stop_anything() {
    let mut showing = shown(&stripes(), frames(600, 0), (3.0, 1.0));
    let screen = Shown {
        px_per_mm: -1.0,
        distance_cm: 1e300,
        width_px: 0.0,
        drawn: u32::MAX,
        dropped: u32::MAX,
        ..showing.screen.expect("a screen")
    };
    showing.screen = Some(screen);
    showing.settings.clear();
    showing.seconds = -1e300;
    assert_eq!((showing.geometry(), showing.offset()), (None, None));
    assert!(says(&showing)[1..].iter().any(|remark| remark.contains("50 %")));
}

#[test]
fn a_program_of_a_newer_version_is_told_by_its_keys() {
    let setting = |key: &str, value, unit: &str| Setting { key: key.to_string(), value, unit: unit.to_string() };
    let settings = vec![
        setting("speed", Value::Number(12.5), "°/s"),
        setting("turn", Value::Word("twice".to_string()), ""),
        setting("wave", Value::Newer, ""),
    ];
    let known = Showing::on_another_device(&stripes(), NOW, 10.0, false);
    let newer = Showing { program: "spiral".to_string(), settings, ..known.clone() };
    assert!(
        what(&newer).starts_with("“spiral” on another device: speed 12.5 °/s, turn twice, 10 s."),
        "{}",
        what(&newer)
    );
    assert!(known.known() && !newer.known());
}

#[test]
fn several_showings_say_one_thing_or_differ() {
    let by = |showings: &[Showing]| Told::by(showings, program::STRIPES, Showing::speed);
    let one = shown(&stripes(), frames(600, 0), (3.0, 1.0));
    let mut faster = one.clone();
    faster.settings[1].value = Value::Number(20.0);
    let other = shown(&following(Path::Horizontal, Pace::Constant(15.0)), frames(600, 0), (3.0, 1.0));
    assert_eq!(by(&[]), Told::Nothing);
    assert_eq!(by(std::slice::from_ref(&other)), Told::Nothing, "another program");
    assert_eq!(by(&[one.clone(), other, one.clone()]), Told::Same(10.0));
    assert_eq!(by(&[one, faster]), Told::Differs);
}

#[test]
fn a_reason_to_show_it_all_the_same_is_told() {
    let word = |key: &str, word: &str| Setting {
        key: key.to_string(),
        value: Value::Word(word.to_string()),
        unit: String::new(),
    };
    let mut showing = shown(&stripes(), frames(600, 0), (3.0, 1.0));
    let usual = remarks(&showing);
    showing.settings.extend([
        word("asked_seizures", "no"),
        word("asked_migraine", "yes"),
        word("despite", "rare, none now"),
    ]);
    let told = remarks(&showing);
    assert_eq!(told.len(), usual.len() + 1);
    assert!(told.contains(&"Asked before: migraine. Shown all the same: “rare, none now”.".to_string()), "{told:?}");
}

/// A record without the setting says nothing of it, as all older ones.
#[test]
fn a_wish_for_less_motion_that_was_overruled_is_told() {
    let showing = shown(&stripes(), frames(600, 0), (3.0, 1.0));
    let said = "The device was set to less motion. It was confirmed, and shown all the same.".to_string();
    assert!(!remarks(&showing).contains(&said));
    let overruled = showing.despite_less_motion();
    assert_eq!(overruled.word(key::LESS_MOTION), Some("yes"));
    assert!(remarks(&overruled).contains(&said), "{:?}", remarks(&overruled));
}
