//! The angle between the two lines of sight on a target straight ahead, from pupillary distance and target distance.

use crate::evidence::Citation;
use crate::quantity::{Centimetres, Degrees, Millimetres, PrismDioptres};

/// How far the eyes' centres of rotation lie behind the spectacle plane, as usually assumed: 12 to 14 mm from lens to
/// cornea and about as much again from cornea to the centre of rotation. It varies from person to person.
pub const CENTRES_BEHIND_SPECTACLES: Centimetres = Centimetres(2.7);

/// The distance of 27 mm, and the ratio that adds it, are found in opticians' teaching only.
pub static CONVENTION: Citation = Citation {
    short: "opticians' teaching on the centre of rotation",
    place: "27 mm from lens to centre of rotation, as usually assumed; 25 mm is used as well",
    link: "optiboard.com/forums/showthread.php/16105-Center-of-Rotation",
};

/// One convergence, in the forms in use. They agree far away and differ by a fifth near the nose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vergence {
    /// The true angle between the lines of sight: 2 atan(PD / 2D).
    pub angle: Degrees,
    /// The true angle as 100 times its tangent; `None` from a right angle on, where no tangent exists.
    pub prism: Option<PrismDioptres>,
    /// The customary ratio 100 PD / D, which approximates the angle for targets far away.
    pub ratio: PrismDioptres,
}

/// The convergence on a target `distance` from the plane a ruler is read from, when the centres of rotation lie `behind`
/// that plane. With `behind` zero the ratio is the spectacle-plane convention.
///
/// `None` unless the pupillary distance and the whole distance are positive numbers.
#[must_use]
pub fn convergence(pupils: Millimetres, distance: Centimetres, behind: Centimetres) -> Option<Vergence> {
    let apart = pupils.0 / 10.0;
    let away = distance.0 + behind.0;
    let possible = |length: f64| length.is_finite() && length > 0.0;
    if !possible(apart) || !possible(away) {
        return None;
    }
    let angle = Degrees(2.0 * (apart / (2.0 * away)).atan().to_degrees());
    let prism = (angle.0 < 90.0).then(|| angle.in_prism_dioptres());
    Some(Vergence { angle, prism, ratio: PrismDioptres(100.0 * apart / away) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(pupils_mm: f64, distance_cm: f64, behind: Centimetres) -> Vergence {
        convergence(Millimetres(pupils_mm), Centimetres(distance_cm), behind).expect("positive lengths")
    }

    #[track_caller]
    fn check(actual: f64, expected: f64, tolerance: f64) {
        assert!((actual - expected).abs() <= tolerance, "expected {expected}, found {actual}");
    }

    /// A taught example (optometry student notes): 60 mm at 40 cm is 15 prism dioptres at the spectacle plane. The rest
    /// by arithmetic: 600 / 42.7, 2 atan(3 / 42.7) and 100 times its tangent.
    #[test]
    fn a_reading_distance() {
        check(at(60.0, 40.0, Centimetres(0.0)).ratio.0, 15.0, 1e-9);
        let from_centres = at(60.0, 40.0, CENTRES_BEHIND_SPECTACLES);
        check(from_centres.ratio.0, 14.05, 5e-3);
        check(from_centres.angle.0, 8.04, 5e-3);
        check(from_centres.prism.expect("below a right angle").0, 14.12, 5e-3);
    }

    /// By arithmetic: 6.3 cm at 7.7 cm. The ratio is a fifth too small here.
    #[test]
    fn a_near_point() {
        let near = at(63.0, 5.0, CENTRES_BEHIND_SPECTACLES);
        check(near.ratio.0, 81.8, 0.05);
        check(near.angle.0, 44.5, 0.05);
        check(near.prism.expect("below a right angle").0, 98.3, 0.1);
    }

    /// At 1 m the spectacle-plane ratio equals the pupillary distance in centimetres.
    #[test]
    fn a_metre_angle() {
        check(at(63.0, 100.0, Centimetres(0.0)).ratio.0, 6.3, 1e-9);
    }

    #[test]
    fn no_tangent_is_given_beyond_a_right_angle() {
        let nose = at(80.0, 1.0, CENTRES_BEHIND_SPECTACLES);
        check(nose.angle.0, 94.46, 5e-3);
        assert_eq!(nose.prism, None);
    }

    #[test]
    fn impossible_lengths_give_nothing() {
        let away = Centimetres(40.0);
        for pupils in [0.0, -60.0, f64::NAN, f64::INFINITY] {
            assert_eq!(convergence(Millimetres(pupils), away, CENTRES_BEHIND_SPECTACLES), None);
        }
        for distance in [-2.7, -10.0, f64::NAN, f64::INFINITY] {
            assert_eq!(convergence(Millimetres(60.0), Centimetres(distance), CENTRES_BEHIND_SPECTACLES), None);
        }
    }
}
