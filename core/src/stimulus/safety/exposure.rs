//! How much a target makes the screen flicker at its worst: how often at one place, and over how large an area.

use super::NEARER;
use crate::stimulus::program::{Following, HeadTurns, Jumps, Program};
use crate::stimulus::target::Kind;

/// Half of the ten degrees within which areas are added up (WCAG 2.2, SC 2.3.1).
const HALF_WINDOW: f64 = 5.0;

/// Flicker at its worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Exposure {
    /// Flashes at one place within any second, at most.
    pub(super) a_second: f64,
    /// Steradians, within any ten degrees, of all that is swept in one second, at most: as if it all flashed together.
    pub(super) area: f64,
}

/// The flicker of a program with a target, seen from a fifth nearer than said. Stripes have rules of their own.
pub(super) fn exposure(program: &Program) -> Exposure {
    match program {
        Program::Following(following) => of_following(following),
        Program::Jumps(jumps) => of_jumps(jumps),
        Program::HeadTurns(turns) => of_head_turns(turns),
        // Each picture stands for a second or more before it changes.
        Program::Antisaccade(_) => Exposure { a_second: 1.0, area: 0.0 },
        Program::NearFar(_) | Program::Still(_) | Program::Stripes(_) => Exposure { a_second: 0.0, area: 0.0 },
    }
}

fn of_following(following: &Following) -> Exposure {
    let passes = match following.path.line() {
        Some(_) => passes(following.swings()),
        None if following.swings() < 1.0 => 1.0,
        None => 2.0,
    };
    let across = following.target.size().0 / NEARER;
    let way = following.peak_speed() / NEARER;
    let long = match following.path.line() {
        Some(_) => (way + across).min(2.0 * HALF_WINDOW),
        None => way.min(round_within(following.half_width.0 / NEARER, across)) + across,
    };
    let strokes = f64::from(following.target.kind().strokes());
    Exposure { a_second: passes * strokes, area: steradians(across * long) }
}

fn of_jumps(jumps: &Jumps) -> Exposure {
    // Each place changes at every jump, and two changes are a flash.
    let changes = (1.0 / jumps.shortest()).floor() + 1.0;
    let across = jumps.target.size().0 / NEARER;
    Exposure { a_second: changes / 2.0, area: steradians(2.0 * across * across) }
}

fn of_head_turns(turns: &HeadTurns) -> Exposure {
    let across = HeadTurns::MARK / NEARER;
    let way = 2.0 * HeadTurns::SWING / NEARER;
    let passes = passes(turns.beat.per_minute() / 120.0) * f64::from(Kind::Dot.strokes());
    Exposure { a_second: passes, area: steradians(across * (way + across)) }
}

/// How often a swing there and back passes one place within any second: twice a swing, and near a turn the two follow
/// each other at once, so a second that holds no whole swing holds two.
fn passes(swings_a_second: f64) -> f64 {
    if swings_a_second < 1.0 { 2.0 } else { 2.0 * swings_a_second.floor() + 2.0 }
}

/// The longest part of a round that lies within ten degrees: all of a small circle, and of a larger one the arc over a
/// chord of ten degrees, the longer the smaller the circle, so its inner rim counts.
fn round_within(radius: f64, across: f64) -> f64 {
    let inner = radius - across / 2.0;
    if inner <= HALF_WINDOW { std::f64::consts::TAU * radius } else { 2.0 * inner * (HALF_WINDOW / inner).asin() }
}

/// Square degrees as steradians.
fn steradians(square_degrees: f64) -> f64 {
    square_degrees * 1.0_f64.to_radians().powi(2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swings_pass_a_place_twice() {
        assert_eq!([0.1, 0.4, 0.999, 1.0, 1.5, 2.0].map(passes), [2.0, 2.0, 2.0, 4.0, 4.0, 6.0]);
    }

    /// A circle of 5° fills the ten degrees; one of 10° has an arc of 2 · 10 asin(0.5) = 10.47° over a chord of ten.
    #[test]
    fn the_part_of_a_circle_within_ten_degrees() {
        assert!((round_within(5.0, 0.0) - 31.416).abs() < 1e-3);
        assert!((round_within(10.0, 0.0) - 10.472).abs() < 1e-3);
    }

    /// 0.006 sr are 19.70 square degrees.
    #[test]
    fn square_degrees() {
        assert!((steradians(19.70) - 0.006).abs() < 1e-5);
    }
}
