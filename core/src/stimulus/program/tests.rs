//! Programs against arithmetic, and laws of every one of them.

use super::*;
use crate::quantity::{Centimetres, Degrees, Millimetres};
use crate::stimulus::beat::Beat;
use crate::stimulus::colour::Srgb;
use crate::stimulus::screen::{CardEdge, Px, Scale, Screen, speed};
use crate::stimulus::target::Kind;

fn face() -> Target {
    Target::new(Kind::Face, Degrees(1.0), Srgb::BLACK, Srgb::WHITE).expect("within bounds")
}

fn following(path: Path, pace: Pace, half_width: f64) -> Following {
    Following { path, pace, half_width: Degrees(half_width), seconds: 20.0, target: face() }
}

fn jumps(timing: Timing) -> Jumps {
    Jumps { axis: Axis::Horizontal, half_width: Degrees(8.0), timing, count: 20, target: face() }
}

fn antisaccade(gap: f64, seed: u64) -> Antisaccade {
    Antisaccade { half_width: Degrees(8.0), gap, trials: 20, seed, target: face() }
}

fn stripes(toward: &[Direction]) -> Stripes {
    let (light, dark) = Stripes::DIM;
    Stripes { toward: toward.to_vec(), speed: 20.0, period: Degrees(8.0), light, dark, seconds: 10.0, rest: 3.0 }
}

fn one_of_each() -> Vec<Program> {
    vec![
        Program::Following(following(Path::Horizontal, Pace::Constant(20.0), 8.0)),
        Program::Following(following(Path::Vertical, Pace::Swings(0.4), 8.0)),
        Program::Following(following(Path::Clockwise, Pace::Swings(0.4), 8.0)),
        Program::Following(following(Path::Anticlockwise, Pace::Constant(20.0), 8.0)),
        Program::Jumps(jumps(Timing::Fixed(1.5))),
        Program::Jumps(jumps(Timing::Unforeseen(4))),
        Program::Antisaccade(antisaccade(0.0, 4)),
        Program::Antisaccade(antisaccade(0.2, 4)),
        Program::NearFar(NearFar { every: 3.0, count: 10, target: face() }),
        Program::Stripes(stripes(&Direction::ALL)),
        Program::Still(Still { place: At { right: 8.0, up: 0.0 }, seconds: 20.0, target: face() }),
        Program::HeadTurns(HeadTurns { beat: Beat::new(180.0).expect("within bounds"), beats: 20, target: face() }),
    ]
}

fn place(program: &Program, seconds: f64) -> At {
    match program.at(seconds) {
        Scene::Target(at) => at,
        Scene::Ground | Scene::Fixation | Scene::Stripes(_) | Scene::Beat { .. } => panic!("no target at {seconds}"),
    }
}

#[track_caller]
fn close(actual: f64, expected: f64, within: f64) {
    assert!((actual - expected).abs() <= within, "expected {expected}, found {actual}");
}

/// 10° sin(2π 0.4 0.3125) = 7.0711°; 400 tan of it is 49.618 mm, 299.10 px at 516 px / 85.60 mm; 2π 0.4 10° = 25.133° a
/// second at most.
#[test]
fn g11_a_pendulum() {
    let swing = following(Path::Horizontal, Pace::Swings(0.4), 10.0);
    let at = swing.place(0.3125);
    close(at.right, 7.0711, 7e-4);
    close(swing.peak_speed(), 25.133, 2e-3);
    let scale = Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone");
    let screen = Screen::new(scale, Px(1000.0), Px(1000.0), Centimetres(40.0)).expect("a phone");
    close(screen.mm(at).0.0, 49.618, 5e-3);
    close(screen.px(at).0.0, 299.10, 3e-2);
}

/// Constant in degrees is not constant in pixels: measured over a millisecond, 20° a second at 15° is 1.0718 times what it
/// is in the middle, as the geometry says.
#[test]
fn constant_speed_is_constant_for_the_eye() {
    let swing = following(Path::Horizontal, Pace::Constant(20.0), 20.0);
    let away = Millimetres(400.0);
    let moved = |seconds: f64| {
        let x = |seconds: f64| crate::stimulus::screen::position(Degrees(swing.place(seconds).right), away).0;
        (x(seconds + 5e-4) - x(seconds - 5e-4)) / 1e-3
    };
    close(swing.place(0.75).right, 15.0, 1e-9);
    close(moved(0.75), speed(20.0, Degrees(15.0), away).0, 1e-3);
    close(moved(0.75) / moved(0.002), 1.0718, 1e-4);
}

/// By arithmetic: at 20° a second 8° take 0.4 s, so the swing takes 1.6 s.
#[test]
fn there_and_back_at_constant_speed() {
    let swing = following(Path::Horizontal, Pace::Constant(20.0), 8.0);
    for (seconds, right) in
        [(0.0, 0.0), (0.2, 4.0), (0.4, 8.0), (0.6, 4.0), (0.8, 0.0), (1.2, -8.0), (1.6, 0.0), (17.8, 4.0)]
    {
        close(swing.place(seconds).right, right, 1e-9);
    }
    let up = following(Path::Vertical, Pace::Constant(20.0), 8.0);
    assert_eq!((up.place(0.4).up, up.place(0.4).right), (8.0, 0.0));
}

/// A round at 8° is 360° sin 8° = 50.1° long, which 20° a second take 2.505 s for; from the top to the right, as a clock.
#[test]
fn round_as_a_clock_goes() {
    let clockwise = following(Path::Clockwise, Pace::Constant(20.0), 8.0);
    close(1.0 / clockwise.swings(), 2.505, 5e-4);
    let quarter = 0.25 / clockwise.swings();
    close(clockwise.place(0.0).up, 8.0, 1e-9);
    close(clockwise.place(quarter).right, 8.0, 1e-9);
    close(following(Path::Anticlockwise, Pace::Constant(20.0), 8.0).place(quarter).right, -8.0, 1e-9);
    for step in 0..100 {
        close(clockwise.place(f64::from(step) * 0.1).eccentricity().0, 8.0, 1e-9);
    }
}

/// The speed over ten seconds, counted from places, against the speed that was asked for.
#[test]
fn ten_seconds_keep_the_speed() {
    for (path, pace) in [(Path::Horizontal, Pace::Constant(20.0)), (Path::Clockwise, Pace::Constant(20.0))] {
        let swing = following(path, pace, 10.0);
        let at = |step: u32| swing.place(f64::from(step) / 1000.0);
        let moved = |one: At, other: At| (one.right - other.right).hypot(one.up - other.up);
        let way: f64 = (0..10_000).map(|step| moved(at(step + 1), at(step))).sum();
        // Round the cone a degree of the flat map is a little less than one for the eye.
        let map = if path == Path::Clockwise { 10.0_f64.to_radians() / 10.0_f64.to_radians().sin() } else { 1.0 };
        close(way / 10.0 / map, 20.0, 0.02);
    }
}

#[test]
fn jumps_stand_on_one_side_and_then_the_other() {
    let program = Program::Jumps(jumps(Timing::Fixed(1.5)));
    for (seconds, right) in [(0.0, 8.0), (1.499, 8.0), (1.5, -8.0), (2.999, -8.0), (3.0, 8.0), (30.0, 8.0)] {
        assert_eq!(place(&program, seconds).right, right, "{seconds}");
    }
    close(program.seconds(), 31.5, 1e-9);
    let cues = program.cues();
    assert_eq!(cues.len(), 21);
    assert_eq!(cues[1], Cue { seconds: 1.5, what: What::Target(Direction::Left) });
    assert_eq!(cues[20], Cue { seconds: 30.0, what: What::Target(Direction::Right) });
}

#[test]
fn jumps_no_one_can_foresee_keep_their_bounds_and_come_back_from_their_seed() {
    let mut stays = Vec::new();
    for seed in 0..200 {
        let program = Program::Jumps(jumps(Timing::Unforeseen(seed)));
        let cues = program.cues();
        assert_eq!(cues, Program::Jumps(jumps(Timing::Unforeseen(seed))).cues());
        stays.extend(cues.windows(2).map(|pair| pair[1].seconds - pair[0].seconds));
        for cue in &cues {
            let right = cue.what == What::Target(Direction::Right);
            assert_eq!(place(&program, cue.seconds).right > 0.0, right, "{seed}: {cue:?}");
        }
    }
    assert!(stays.iter().all(|stay| (0.8..=2.5 + 1e-9).contains(stay)));
    let mean = stays.iter().sum::<f64>() / stays.len() as f64;
    close(mean, 1.65, 0.03);
    assert_ne!(jumps(Timing::Unforeseen(1)).cues(), jumps(Timing::Unforeseen(2)).cues());
}

#[test]
fn antisaccades_with_and_without_a_gap() {
    for (gap, seed) in [(0.0, 3), (0.2, 3), (0.35, 9)] {
        let program = Program::Antisaccade(antisaccade(gap, seed));
        let cues = program.cues();
        let targets: Vec<&Cue> = cues.iter().filter(|cue| matches!(cue.what, What::Target(_))).collect();
        let right = targets.iter().filter(|cue| cue.what == What::Target(Direction::Right)).count();
        assert_eq!((targets.len(), right), (20, 10));
        let mut begins = 0.0;
        for cue in targets {
            let waited = cue.seconds - gap - begins;
            assert!((1.0 - 1e-9..=2.0 + 1e-9).contains(&waited), "waited {waited}");
            assert_eq!(program.at(cue.seconds - gap - 0.001), Scene::Fixation);
            let before = if gap > 0.0 { Scene::Ground } else { Scene::Fixation };
            assert_eq!(program.at(cue.seconds - 0.001), before, "gap {gap}");
            let side = if cue.what == What::Target(Direction::Right) { 8.0 } else { -8.0 };
            assert_eq!(program.at(cue.seconds), Scene::Target(At::along(Axis::Horizontal, side)));
            assert_eq!(program.at(cue.seconds + 1.0), Scene::Ground);
            begins = cue.seconds + 2.0;
        }
        close(program.seconds(), begins, 1e-9);
    }
}

#[test]
fn near_and_far_take_turns() {
    let program = Program::NearFar(NearFar { every: 3.0, count: 10, target: face() });
    let cues = program.cues();
    assert_eq!(cues[0], Cue { seconds: 0.0, what: What::Near });
    assert_eq!(cues[9], Cue { seconds: 27.0, what: What::Far });
    assert_eq!((cues.len(), program.seconds()), (10, 30.0));
    assert_eq!(place(&program, 10.0), At::MIDDLE);
}

/// At 20° a second a stripe edge that starts in the middle stands 2° further after 0.1 s, in the direction it moves.
#[test]
fn stripes_move_their_way() {
    for (toward, moved) in
        [(Direction::Right, 2.0), (Direction::Left, -2.0), (Direction::Up, 2.0), (Direction::Down, -2.0)]
    {
        let stripes = stripes(&[toward]);
        let Scene::Stripes(shown) = Program::Stripes(stripes.clone()).at(1.3) else { panic!("no stripes") };
        let Scene::Stripes(start) = Program::Stripes(stripes.clone()).at(1.2) else { panic!("no stripes") };
        close(start.phase, 0.0, 1e-9);
        assert_eq!((shown.toward, shown.strength), (toward, 1.0));
        for step in -100..100 {
            let degrees = f64::from(step) * 0.17 + 0.013;
            assert_eq!(
                stripes.is_light(&start, degrees),
                stripes.is_light(&shown, degrees + moved),
                "{toward:?} {degrees}"
            );
        }
    }
}

#[test]
fn light_stripes_are_where_it_is_light() {
    for toward in Direction::ALL {
        let stripes = stripes(&[toward]);
        for step in 0..40 {
            let shown = Shown { toward, phase: f64::from(step) / 40.0, strength: 1.0 };
            let drawn = stripes.light_stripes(&shown, Degrees(13.2));
            assert!(drawn.windows(2).all(|pair| pair[0].1 < pair[1].0), "{drawn:?}");
            for place in -130..=130 {
                let degrees = f64::from(place) * 0.1 + 0.003;
                let within = drawn.iter().any(|(from, to)| (*from..*to).contains(&degrees));
                assert_eq!(within, stripes.is_light(&shown, degrees), "{toward:?} {step} {degrees}");
            }
        }
    }
}

/// Ten seconds right, three of grey, ten left: both fade over half a second, and no turn is made but through grey.
#[test]
fn stripes_turn_through_still_grey() {
    let program = Program::Stripes(stripes(&[Direction::Right, Direction::Left]));
    let strength = |seconds: f64| match program.at(seconds) {
        Scene::Stripes(shown) => shown.strength,
        Scene::Ground => 0.0,
        Scene::Fixation | Scene::Target(_) | Scene::Beat { .. } => panic!("no stripes at {seconds}"),
    };
    for (seconds, expected) in [
        (0.0, 0.0),
        (0.25, 0.5),
        (0.5, 1.0),
        (9.5, 1.0),
        (9.75, 0.5),
        (10.0, 0.0),
        (12.9, 0.0),
        (13.25, 0.5),
        (22.0, 1.0),
    ] {
        close(strength(seconds), expected, 1e-9);
    }
    assert_eq!(program.seconds(), 23.0);
    assert_eq!(
        program.cues(),
        [
            Cue { seconds: 0.0, what: What::Stripes(Direction::Right) },
            Cue { seconds: 10.0, what: What::Rest },
            Cue { seconds: 13.0, what: What::Stripes(Direction::Left) },
            Cue { seconds: 23.0, what: What::Rest },
        ]
    );
}

#[test]
fn the_mark_of_the_beat_turns_with_it() {
    let turns = HeadTurns { beat: Beat::new(180.0).expect("within bounds"), beats: 20, target: face() };
    let program = Program::HeadTurns(turns);
    for cue in program.cues() {
        let Scene::Beat { swing } = program.at(cue.seconds) else { panic!("no beat at {}", cue.seconds) };
        close(swing.abs(), 1.0, 1e-9);
    }
    close(program.seconds(), 20.0 / 3.0, 1e-9);
}

/// Whatever the order the frames come in, and however late, the picture of a time is that of the time.
#[test]
fn every_program_is_a_function_of_time_alone() {
    for program in one_of_each() {
        assert_eq!(program.check(), Ok(()), "{program:?}");
        let times: Vec<f64> = (0..300).map(|step| f64::from(step) * program.seconds() / 290.0).collect();
        let forward: Vec<Scene> = times.iter().map(|seconds| program.at(*seconds)).collect();
        let mut backward: Vec<Scene> = times.iter().rev().map(|seconds| program.at(*seconds)).collect();
        backward.reverse();
        assert_eq!(forward, backward);
        assert_eq!(program.at(-1.0), program.at(0.0), "before the start");
        assert_eq!(program.at(program.seconds()), Scene::Ground, "after the end");
        assert_eq!(program.at(f64::INFINITY), Scene::Ground);
    }
}

#[test]
fn nothing_is_drawn_further_out_than_its_extent() {
    for program in one_of_each() {
        for step in 0..2000 {
            let at = match program.at(f64::from(step) * program.seconds() / 2000.0) {
                Scene::Target(at) => at,
                Scene::Beat { swing } => HeadTurns::mark(swing),
                Scene::Ground | Scene::Fixation | Scene::Stripes(_) => continue,
            };
            assert!(at.right.abs() <= program.extent(Axis::Horizontal) - 0.25, "{program:?} at {at:?}");
            assert!(at.up.abs() <= program.extent(Axis::Vertical) - 0.25, "{program:?} at {at:?}");
        }
    }
}

/// Aslant, the extent in degrees along each axis holds what a flat screen needs there.
#[test]
fn places_aslant_stay_within_their_extent() {
    let scale = Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone");
    let screen = Screen::new(scale, Px(3000.0), Px(3000.0), Centimetres(40.0)).expect("a wall");
    for right in -30..=30 {
        for up in -30..=30 {
            let place = At { right: f64::from(right), up: f64::from(up) };
            let program = Program::Still(Still { place, seconds: 10.0, target: face() });
            let (x, y) = screen.mm(place);
            for (axis, part) in [(Axis::Horizontal, x), (Axis::Vertical, y)] {
                let out = crate::stimulus::screen::eccentricity(part, Millimetres(400.0)).0.abs();
                assert!(out + 0.5 <= program.extent(axis) + 1e-9, "{place:?} {axis:?}: {out}");
            }
        }
    }
}

#[test]
fn parameters_that_cannot_be_are_refused_by_name() {
    let said = |program: Program| program.check().expect_err("refused").to_string();
    let horizontal = |pace, half_width| Program::Following(following(Path::Horizontal, pace, half_width));
    assert!(said(horizontal(Pace::Constant(41.0), 8.0)).contains("41 is not possible for the speed"));
    assert!(said(horizontal(Pace::Constant(f64::NAN), 8.0)).contains("speed"));
    assert!(said(horizontal(Pace::Swings(0.4), 0.0)).contains("way from the middle"));
    assert!(said(horizontal(Pace::Swings(0.8), 10.0)).contains("speed"), "50° a second at most");
    assert!(said(horizontal(Pace::Constant(20.0), 4.0)).contains("swings there and back"), "1.25 swings a second");
    assert!(said(Program::Jumps(jumps(Timing::Fixed(0.1)))).contains("seconds between jumps"));
    assert!(said(Program::Jumps(Jumps { count: 0, ..jumps(Timing::Unforeseen(1)) })).contains("number of jumps"));
    assert!(said(Program::Antisaccade(antisaccade(0.5, 1))).contains("gap before the target"));
    assert!(
        said(Program::Stripes(Stripes { speed: 60.0, ..stripes(&[Direction::Up]) })).contains("speed of the stripes")
    );
    assert!(said(Program::Stripes(Stripes { rest: 0.0, ..stripes(&Direction::ALL) })).contains("rest"));
    assert!(said(Program::Stripes(stripes(&[]))).contains("number of directions"));
}
