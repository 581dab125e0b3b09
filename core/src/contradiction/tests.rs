//! Each contradiction with the pair that makes it, and the pair that does not.

use super::*;
use crate::calendar::Moment;
use crate::capture::visit::Visit;
use crate::pattern;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const RIGHT: Place = Place::Toward(Direction::Right);
const LEFT: Place = Place::Toward(Direction::Left);

/// What is said of these signs; each rests on a finding called after its place in the list.
fn told(signs: &[(What, Place, bool)]) -> Vec<Contradiction> {
    let visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let signs: Vec<Sign> =
        signs.iter().enumerate().map(|(at, s)| Sign::new(s.0, s.1, s.2, &format!("test.{at}"))).collect();
    let case = Case { visit: &visit, years: None, signs: &signs, measures: &[], findings: vec![], worse: None };
    found(&case, &pattern::read(&case))
}

fn one(signs: &[(What, Place, bool)]) -> Contradiction {
    let mut told = told(signs);
    assert_eq!(told.len(), 1, "{told:?}");
    told.remove(0)
}

#[test]
fn following_and_stripes_to_opposite_sides() {
    let said = one(&[(What::PursuitWorse, RIGHT, true), (What::OptokineticWorse, LEFT, true)]);
    assert!(said.says.starts_with("Following is worse to the right, stripes are worse moving to the left."));
    assert_eq!(said.from, ["test.0", "test.1"]);
    assert_eq!(told(&[(What::PursuitWorse, RIGHT, true), (What::OptokineticWorse, RIGHT, true)]), []);
    assert_eq!(told(&[(What::PursuitWorse, RIGHT, true), (What::OptokineticWorse, LEFT, false)]), []);
}

#[test]
fn late_jumps_and_errors_to_opposite_sides() {
    let said = one(&[(What::SaccadesLate, LEFT, true), (What::AntisaccadeWorse, RIGHT, true)]);
    assert!(said.says.contains("later to the left") && said.says.contains("target to the right"));
    assert_eq!(told(&[(What::SaccadesLate, LEFT, true), (What::AntisaccadeWorse, LEFT, true)]), []);
}

#[test]
fn a_gaze_palsy_with_smooth_following_or_jumps_past() {
    let limit = What::LimitedGaze(Direction::Left);
    let both = [(limit, Place::In(Eye::Right), true), (limit, Place::In(Eye::Left), true)];
    let with = |what, seen| told(&[both[0], both[1], (what, LEFT, seen)]);
    assert_eq!(with(What::PursuitReduced, false).len(), 1);
    assert_eq!(with(What::PursuitReduced, true), []);
    assert_eq!(with(What::Hypermetric, true).len(), 1);
    // One eye alone may follow smoothly with the other.
    assert_eq!(told(&[both[0], (limit, Place::In(Eye::Left), false), (What::PursuitReduced, LEFT, false)]), []);
}

#[test]
fn limited_inward_and_yet_quick() {
    let limit = What::LimitedGaze(Direction::Left);
    let signs = [(limit, Place::In(Eye::Right), true), (What::SlowAdduction, Place::In(Eye::Right), false)];
    assert!(one(&signs).says.starts_with("The right eye is limited inward"));
    // Outward is another muscle.
    let outward = [(limit, Place::In(Eye::Left), true), (What::SlowAdduction, Place::In(Eye::Left), false)];
    assert_eq!(told(&outward), []);
}

#[test]
fn near_point_and_convergence_that_disagree() {
    let near =
        |far, broken| told(&[(What::FarNearPoint, Place::Both, far), (What::BrokenConvergence, Place::Both, broken)]);
    assert!(near(true, false)[0].says.contains("slow convergence was smooth"));
    assert!(near(false, true)[0].says.contains("near point lies within its range"));
    assert_eq!((near(true, true), near(false, false)), (vec![], vec![]));
    assert_eq!(told(&[(What::FarNearPoint, Place::Both, true)]), []);
}

#[test]
fn a_hemisphere_shows_on_the_other_side_of_the_body() {
    let eyes = [(What::PursuitWorse, RIGHT, true), (What::OptokineticWorse, RIGHT, true)];
    let body = |side| told(&[eyes[0], eyes[1], (What::ArmDrift, Place::On(side), true)]);
    assert_eq!(body(Side::Right)[0].from, ["test.2", "test.0", "test.1"]);
    assert_eq!(body(Side::Left), []);
}

#[test]
fn clumsy_limbs_away_from_the_worse_following() {
    let limb = |side| told(&[(What::PursuitWorse, LEFT, true), (What::ClumsyLimb, Place::On(side), true)]);
    assert!(limb(Side::Right)[0].says.contains("clumsy on the right"));
    assert_eq!(limb(Side::Left), []);
}
