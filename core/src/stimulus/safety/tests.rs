//! What the guard lets through and what it refuses, each case worked out by hand.

use super::*;
use crate::anatomy::Direction;
use crate::quantity::{Centimetres, Degrees, Millimetres};
use crate::stimulus::program::{Antisaccade, Following, HeadTurns, Jumps, NearFar, Pace, Path, Still, Timing};
use crate::stimulus::screen::Scale;
use crate::stimulus::target::Kind;

/// A phone of 140.7 by 64.9 mm, held flat, shows 26.4 by 12.4° at 30 cm and 20.0 by 9.3° at 40 cm.
fn phone(distance_cm: f64) -> Screen {
    screen(140.7, 64.9, distance_cm)
}

fn screen(width: f64, height: f64, distance_cm: f64) -> Screen {
    let scale = Scale::from_px_per_mm(6.028).expect("a phone");
    let px = |mm| scale.px(Millimetres(mm));
    Screen::new(scale, px(width), px(height), Centimetres(distance_cm)).expect("a screen")
}

fn stripes(toward: Direction, speed: f64, period: f64) -> Stripes {
    let (light, dark) = (Srgb::WHITE, Srgb::BLACK);
    Stripes { toward: vec![toward], speed, period: Degrees(period), light, dark, seconds: 10.0, rest: 3.0 }
}

fn across(speed: f64, period: f64) -> Program {
    Program::Stripes(stripes(Direction::Right, speed, period))
}

fn target(kind: Kind, size: f64) -> Target {
    Target::new(kind, Degrees(size), Srgb::BLACK, Srgb::WHITE).expect("within bounds")
}

fn following(path: Path, pace: Pace, half_width: f64, target: Target) -> Program {
    Program::Following(Following { path, pace, half_width: Degrees(half_width), seconds: 20.0, target })
}

#[track_caller]
fn refused(program: &Program, screen: &Screen, rule: Rule) -> Refused {
    let refused = check(program, screen).expect_err("must be refused");
    assert!(refused.broke(rule), "{rule:?} was not broken: {refused}");
    refused
}

/// 30 / 12 = 2.5 flashes a second pass; 30 / 8 = 3.75 and an exact 3 do not.
#[test]
fn stripes_flash_two_and_a_half_times_a_second_at_most() {
    assert!(check(&across(30.0, 12.0), &phone(30.0)).is_ok());
    assert!(check(&across(20.0, 8.0), &phone(30.0)).is_ok());
    assert!(check(&across(10.0, 5.0), &phone(40.0)).is_ok());
    let said = refused(&across(30.0, 8.0), &phone(30.0), Rule::Rate).to_string();
    assert_eq!(
        said,
        "Stripes of 4° at 30° a second flash 3.75 times a second at each place; at most 2.5 are let through. Possible \
         here: stripes of 6° at 30° a second."
    );
    refused(&across(20.0, 20.0 / 3.0), &phone(30.0), Rule::Rate);
    refused(&across(30.0, 11.99), &phone(30.0), Rule::Rate);
}

/// The rate holds for stripes too dim to flash by the guideline, because no page knows how bright white is.
#[test]
fn dim_stripes_keep_the_rate_too() {
    let (light, dark) = Stripes::DIM;
    let dim = |period| Program::Stripes(Stripes { light, dark, ..stripes(Direction::Right, 30.0, period) });
    assert!(!general_flash(light, dark));
    refused(&dim(8.0), &phone(30.0), Rule::Rate);
    let safe = check(&dim(12.0), &phone(30.0)).expect("wide enough");
    assert!(safe.asks_first() && !safe.is_bright());
    assert!(check(&across(30.0, 12.0), &phone(30.0)).expect("wide enough").is_bright());
}

/// On 19.95° (140.7 mm at 40 cm): a period of 4° puts 4.99 pairs in view, 5° puts 3.99.
#[test]
fn at_most_eight_stripes_are_in_view() {
    let said = refused(&across(10.0, 4.0), &phone(40.0), Rule::Pairs).to_string();
    assert!(said.starts_with("10 light and dark stripes would be in view; at most 8 are let through."), "{said}");
    assert!(said.ends_with("Possible here: stripes of 2.5° at 10° a second."), "{said}");
    assert!(check(&across(10.0, 5.0), &phone(40.0)).is_ok());
    // 26.4° at 30 cm: five degrees a second could have 2° by its rate, and needs 6.6° by its number.
    let Some(nearest) = refused(&across(5.0, 2.0), &phone(30.0), Rule::Pairs).nearest else { panic!("there is one") };
    assert_eq!(*nearest, across(5.0, 6.6));
}

/// Up and down a phone that lies shows 9.28° at 40 cm: no period of 12° fits in, and 2.5 × 9.2 = 23° a second are left.
#[test]
fn stripes_too_wide_for_the_screen_become_slower() {
    let up = |speed, period| Program::Stripes(stripes(Direction::Up, speed, period));
    let refused = refused(&up(30.0, 12.0), &phone(40.0), Rule::Fits);
    assert!(refused.to_string().contains("shows 9.2° along the way of the stripes"), "{refused}");
    assert_eq!(refused.nearest.as_deref(), Some(&up(23.0, 9.2)));
}

/// 20 s of movement in all may go without a whole rest: 21 s one way, 11 s each of two ways with 5 s between, and five times
/// 5 s are too long; with 10 s between, 20 s each way are not.
#[test]
fn stripes_move_for_twenty_seconds_and_rest_for_ten() {
    let set = |ways: &[Direction], seconds, rest| {
        Program::Stripes(Stripes { toward: ways.to_vec(), seconds, rest, ..stripes(Direction::Right, 15.0, 8.0) })
    };
    let (one, two, five) = (&[Direction::Right][..], &[Direction::Right, Direction::Left][..], &[Direction::Up; 5][..]);
    for (ways, seconds, rest) in
        [(one, 20.0, 3.0), (two, 10.0, 3.0), (two, 10.0, 5.0), (two, 20.0, 10.0), (two, 5.0, 60.0)]
    {
        assert!(check(&set(ways, seconds, rest), &phone(30.0)).is_ok(), "{seconds} s, {rest} s");
    }
    let longer = refused(&set(one, 21.0, 3.0), &phone(30.0), Rule::Length);
    assert_eq!(longer.nearest.as_deref(), Some(&set(one, 20.0, 3.0)));
    assert_eq!(
        longer.to_string(),
        "Stripes would move for 21 s without a rest of 10 s; at most 20 s are let through. Possible here: stripes of 4° at \
         15° a second, for 20 s."
    );
    let both = refused(&set(two, 11.0, 5.0), &phone(30.0), Rule::Length);
    assert_eq!(both.nearest.as_deref(), Some(&set(two, 11.0, 10.0)));
    assert!(both.to_string().ends_with("at 15° a second, 11 s each way and 10 s of rest between."), "{both}");
    assert!(both.to_string().starts_with("Stripes would move for 22 s without a rest of 10 s;"), "{both}");
    let often = refused(&set(five, 5.0, 9.0), &phone(30.0), Rule::Length);
    assert_eq!(often.nearest.as_deref(), Some(&set(five, 5.0, 10.0)));
}

#[test]
fn saturated_red_is_never_shown() {
    let red = Srgb::new(255, 0, 0);
    for (light, dark) in [(red, Srgb::BLACK), (Srgb::WHITE, red), (Srgb::new(255, 0x40, 0x40), Srgb::BLACK)] {
        let program = Program::Stripes(Stripes { light, dark, ..stripes(Direction::Right, 10.0, 8.0) });
        let refused = refused(&program, &phone(40.0), Rule::Red);
        let Some(Program::Stripes(nearest)) = refused.nearest.as_deref() else { panic!("there is one: {refused}") };
        assert!(!nearest.light.is_saturated_red() && !nearest.dark.is_saturated_red(), "{nearest:?}");
        assert!(refused.to_string().ends_with("Possible here: stripes of 4° at 10° a second, in other colours."));
    }
    let dot = Target::new(Kind::Dot, Degrees(1.0), red, Srgb::WHITE).expect("4:1");
    let still = |target| Program::Still(Still { place: At::MIDDLE, seconds: 20.0, target });
    let refused = refused(&still(dot), &phone(40.0), Rule::Red);
    assert!(refused.to_string().contains("#ff0000"), "{refused}");
    assert_eq!(refused.nearest.as_deref(), Some(&still(dot.plain())));
}

#[test]
fn stripes_no_one_sees_are_refused() {
    let with = |light, dark| Program::Stripes(Stripes { light, dark, ..stripes(Direction::Right, 10.0, 8.0) });
    assert!(check(&with(Srgb::WHITE, Srgb::grey(0xe8)), &phone(40.0)).is_ok(), "10.7 %");
    refused(&with(Srgb::WHITE, Srgb::grey(0xf5)), &phone(40.0), Rule::Visible);
    refused(&with(Srgb::BLACK, Srgb::BLACK), &phone(40.0), Rule::Visible);
}

/// ±9.97° at 40 cm less half a degree of target: 10° do not fit, 9.4° do; ±13.2° at 30 cm leave room for 10°.
#[test]
fn what_the_screen_cannot_show_is_refused_with_the_largest_that_fits() {
    let one = target(Kind::Face, 1.0);
    let swing = |half_width| following(Path::Horizontal, Pace::Swings(0.3), half_width, one);
    let refused_swing = refused(&swing(10.0), &phone(40.0), Rule::Fits);
    assert!(
        refused_swing
            .to_string()
            .starts_with("At 40 cm this screen shows 9.9° to each side from the middle; 10.5° are"),
        "{refused_swing}"
    );
    assert_eq!(refused_swing.nearest.as_deref(), Some(&swing(9.4)));
    assert!(check(&swing(9.4), &phone(40.0)).is_ok());
    assert!(check(&swing(10.0), &phone(30.0)).is_ok());

    let jumps = |half_width| {
        let timing = Timing::Unforeseen(1);
        Program::Jumps(Jumps { axis: Axis::Vertical, half_width: Degrees(half_width), timing, count: 10, target: one })
    };
    assert_eq!(refused(&jumps(8.0), &phone(40.0), Rule::Fits).nearest.as_deref(), Some(&jumps(4.1)));
    let anti = |half_width| {
        let half_width = Degrees(half_width);
        Program::Antisaccade(Antisaccade { half_width, gap: 0.0, trials: 20, seed: 1, target: one })
    };
    assert_eq!(refused(&anti(10.0), &phone(40.0), Rule::Fits).nearest.as_deref(), Some(&anti(9.4)));
    let still = |right, up| Program::Still(Still { place: At { right, up }, seconds: 20.0, target: one });
    assert_eq!(refused(&still(-20.0, 0.0), &phone(40.0), Rule::Fits).nearest.as_deref(), Some(&still(-9.4, 0.0)));
    assert!(refused(&still(8.0, 8.0), &phone(40.0), Rule::Fits).nearest.is_some());
}

/// The largest that fits is the largest: a tenth of a degree more does not.
#[test]
fn the_largest_that_fits_is_the_largest() {
    let one = target(Kind::Face, 1.0);
    for distance in [25.0, 30.0, 40.0, 55.0, 80.0] {
        let swing = |half_width| following(Path::Horizontal, Pace::Swings(0.1), half_width, one);
        let refused = check(&swing(30.0), &phone(distance)).expect_err("no phone shows 30°");
        let Some(Program::Following(nearest)) = refused.nearest.as_deref() else { panic!("there is one: {refused}") };
        assert!(check(&swing(nearest.half_width.0 + 0.1), &phone(distance)).is_err(), "{distance} cm");
    }
}

/// From a fifth nearer a face of 2° is 2.5° across: within ten degrees it sweeps 25 square degrees of the 19.7 that 0.006
/// sr are. One of 1.5° sweeps 18.75, one of 1.6° would sweep 20. A dot passes each place twice a second, a flash each time.
#[test]
fn large_faces_move_slowly() {
    let tablet = screen(262.0, 196.0, 40.0);
    let with = |target, speed| following(Path::Horizontal, Pace::Constant(speed), 12.0, target);
    let refused = refused(&with(target(Kind::Face, 2.0), 20.0), &tablet, Rule::Area);
    assert_eq!(refused.nearest.as_deref(), Some(&with(target(Kind::Face, 1.5), 20.0)));
    assert!(check(&with(target(Kind::Dot, 2.0), 20.0), &tablet).is_ok());
    assert!(check(&with(target(Kind::Face, 2.0), 4.0), &tablet).is_ok());
    assert!(check(&with(target(Kind::Face, 1.0), 40.0), &tablet).is_ok());
}

/// Up and down, a phone that lies shows ±0.93° at 2 m: a smaller face fits in, the mark of the beat does not.
#[test]
fn where_nothing_fits_it_says_so() {
    let large = target(Kind::Face, 2.0);
    let near_far = |target| Program::NearFar(NearFar { every: 3.0, count: 10, target });
    let smaller = refused(&near_far(large), &phone(200.0), Rule::Fits);
    assert_eq!(smaller.nearest.as_deref(), Some(&near_far(target(Kind::Face, 1.8))));
    let beat = crate::stimulus::beat::Beat::new(180.0).expect("within bounds");
    let turns = Program::HeadTurns(HeadTurns { beat, beats: 20, target: large });
    let nothing = refused(&turns, &phone(200.0), Rule::Fits);
    assert_eq!(nothing.nearest, None);
    assert!(nothing.to_string().ends_with("Nothing like it is possible on this screen at this distance."), "{nothing}");
}

#[test]
fn a_face_too_coarse_for_the_screen_is_refused() {
    let coarse = Scale::from_px_per_mm(1.6).expect("zoomed out");
    let screen = Screen::new(coarse, Px(1000.0), Px(600.0), Centimetres(30.0)).expect("a screen");
    let still = |size| Program::Still(Still { place: At::MIDDLE, seconds: 20.0, target: target(Kind::Face, size) });
    let refused = refused(&still(0.5), &screen, Rule::Visible);
    assert!(refused.to_string().contains("only 4 pixels wide here"), "{refused}");
    // 12 px at 1.6 px/mm and 300 mm are 1.43°.
    assert_eq!(refused.nearest.as_deref(), Some(&still(1.5)));
}

#[test]
fn ordinary_programs_pass_on_a_phone() {
    let one = target(Kind::Face, 1.0);
    let beat = crate::stimulus::beat::Beat::new(180.0).expect("within bounds");
    let both = vec![Direction::Right, Direction::Left];
    let (light, dark) = Stripes::DIM;
    for program in [
        following(Path::Horizontal, Pace::Constant(20.0), 10.0, one),
        following(Path::Horizontal, Pace::Swings(0.4), 10.0, one),
        following(Path::Clockwise, Pace::Swings(0.4), 5.0, one),
        Program::NearFar(NearFar { every: 3.0, count: 10, target: one }),
        Program::HeadTurns(HeadTurns { beat, beats: 20, target: one }),
        Program::Stripes(Stripes { toward: both, light, dark, ..stripes(Direction::Right, 20.0, 8.0) }),
    ] {
        let safe = check(&program, &phone(30.0)).unwrap_or_else(|refused| panic!("{program:?}: {refused}"));
        assert_eq!((safe.program(), safe.screen()), (&program, &phone(30.0)));
    }
}

/// In pixels the stripes go the way of their name: to the right the numbers grow, and downward as pages count.
#[test]
fn stripes_in_pixels() {
    let shown = |toward, phase| {
        let safe = check(&Program::Stripes(stripes(toward, 20.0, 8.0)), &phone(30.0)).expect("wide enough");
        let stripes = safe.light_stripes(&Shown { toward, phase, strength: 1.0 });
        assert!(stripes.iter().all(|(from, to)| from < to), "{stripes:?}");
        stripes
    };
    let begins_at = |stripes: &[(Px, Px)], px: f64| stripes.iter().any(|(from, _)| (from.0 - px).abs() < 0.01);
    let ends_at = |stripes: &[(Px, Px)], px: f64| stripes.iter().any(|(_, to)| (to.0 - px).abs() < 0.01);
    // 300 tan 2° is 10.476 mm, 63.15 px.
    assert!(begins_at(&shown(Direction::Right, 0.25), 63.15));
    assert!(ends_at(&shown(Direction::Left, 0.25), -63.15));
    assert!(ends_at(&shown(Direction::Up, 0.25), -63.15));
    assert!(begins_at(&shown(Direction::Down, 0.25), 63.15));
}

/// The grey of black and #595959 has half the light of the second, 0.05; white with black gives 0.5, and targets stand on
/// white.
#[test]
fn only_dim_stripes_want_a_dark_edge() {
    let (light, dark) = Stripes::DIM;
    assert!(Program::Stripes(Stripes { light, dark, ..stripes(Direction::Right, 15.0, 8.0) }).is_dim());
    assert!(!across(15.0, 8.0).is_dim());
    assert!(!following(Path::Horizontal, Pace::Constant(15.0), 8.0, target(Kind::Face, 1.0)).is_dim());
}

#[test]
fn every_rule_of_safety_names_its_source() {
    for rule in [Rule::Red, Rule::Rate, Rule::Pairs, Rule::Area, Rule::Length] {
        assert!(rule.source().is_some_and(|source| !source.link.is_empty()), "{rule:?}");
    }
    for rule in [Rule::Bounds, Rule::Fits, Rule::Visible] {
        assert_eq!(rule.source(), None);
    }
}
