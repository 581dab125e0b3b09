//! An eye slow to turn in while the other beats as it turns out: the internuclear picture, of one side or of both.

use super::evidence::{INTERNUCLEAR, TEXTBOOK};
use super::{Case, Pattern, Rule, outward};
use crate::anatomy::{Eye, Place};
use crate::evidence::Level;
use crate::sign::{Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "internuclear", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let slow: Vec<Eye> = [Eye::Right, Eye::Left].into_iter().filter(|eye| slow(case, *eye)).collect();
    let whole = slow.iter().any(|eye| beats(case, eye.other()));
    let (headline, place) = match slow.as_slice() {
        [] => return None,
        [eye] if whole => (
            format!("Compatible with an internuclear palsy on the {}, side of the slow eye", eye.word()),
            Place::In(*eye),
        ),
        [eye] => (
            format!("Compatible with a weak turning in of the {} eye, of nerve path or muscle", eye.word()),
            Place::In(*eye),
        ),
        _ if whole => ("Compatible with an internuclear palsy on both sides".to_string(), Place::Both),
        _ => ("Compatible with a weak turning in of both eyes, of nerve path or muscle".to_string(), Place::Both),
    };
    let (level, claim) = if whole { (Level::A, BUNDLE) } else { (Level::C, ANYWHERE) };
    let other_limits = slow.iter().any(|eye| limited_elsewhere(case, *eye));
    let ptosis = slow.iter().any(|eye| case.seen(What::Ptosis, Place::In(*eye)));
    let known = case.all(&[What::SlowAdduction]).all(|sign| case.only_recorded(sign));
    let turns_in_near = case.signs.iter().any(|sign| sign.what == What::BrokenConvergence) && !broken_near(case, &slow);
    let mut pattern = Pattern::new(RULE.id, headline, place, level, claim)
        .rests_on(case, case.all(&[What::SlowAdduction, What::AbductingNystagmus]))
        .also(case, &[], &["muscle weakness that tires (myasthenia)", "part of a third nerve palsy", "an old squint"])
        .says(
            if whole {
                "Beats of the other eye as it turns out make the picture whole."
            } else {
                "Without beats of the other eye as it turns out the picture is not whole."
            },
            &[&INTERNUCLEAR, &TEXTBOOK],
        )
        .says(
            if known {
                "Here it is said to be long known; a new one calls for emergency care (from memory). Ask whether it grows \
                 with tiring."
            } else {
                "A new one calls for emergency care (from memory); ask whether it grows with tiring."
            },
            &[],
        )
        .argues_against(other_limits, "the slow eye is limited in other directions too, as with a nerve or muscle")
        .argues_against(ptosis, "the lid of the slow eye hangs low, as with a nerve or tiring muscle")
        .would_need(case, &[What::BrokenConvergence], "slow convergence, which is often kept (from memory)");
    if turns_in_near {
        pattern = pattern.says("Slow convergence was kept, so the muscle itself can turn the eye in.", &[]);
    }
    Some(pattern)
}

const BUNDLE: &str =
    "the lesion lies in the medial longitudinal fasciculus, on the side of the eye that turns in slowly";
/// The lag alone is one sign, which names no place.
const ANYWHERE: &str =
    "turning in alone is slow with a fault of the nerve path, the nerve, its junction or the muscle (from memory)";

fn slow(case: &Case<'_>, eye: Eye) -> bool {
    case.seen(What::SlowAdduction, Place::In(eye))
}

fn beats(case: &Case<'_>, eye: Eye) -> bool {
    case.seen(What::AbductingNystagmus, Place::In(eye))
}

fn broken_near(case: &Case<'_>, eyes: &[Eye]) -> bool {
    let places = eyes.iter().map(|eye| Place::In(*eye)).chain([Place::Both]);
    places.into_iter().any(|place| case.seen(What::BrokenConvergence, place))
}

/// Whether the eye is limited in a direction other than inward.
fn limited_elsewhere(case: &Case<'_>, eye: Eye) -> bool {
    let inward = outward(eye).mirrored();
    let elsewhere = |sign: &Sign| match sign.what {
        What::LimitedGaze(direction) => direction != inward && sign.place == Place::In(eye),
        _ => false,
    };
    case.signs.iter().filter(super::is_seen).any(elsewhere)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;

    #[test]
    fn the_whole_picture_names_the_side_of_the_slow_eye() {
        let signs = Signs::new().eye(What::SlowAdduction, Eye::Left).eye(What::AbductingNystagmus, Eye::Right);
        let pattern = told(signs, read).expect("read");
        assert!(pattern.headline.contains("palsy on the left"), "{}", pattern.headline);
        assert_eq!(pattern.seen, ["the left eye slow to turn in", "the right eye beating as it turns out"]);
        assert_eq!((pattern.level, pattern.place), (Level::A, Place::In(Eye::Left)));
    }

    #[test]
    fn a_slow_eye_alone_names_no_place_in_the_brain() {
        let pattern = told(Signs::new().eye(What::SlowAdduction, Eye::Right), read).expect("read");
        assert!(pattern.headline.ends_with("right eye, of nerve path or muscle"), "{}", pattern.headline);
        // The evidence for a place is not evidence for this.
        assert_eq!(pattern.level, Level::C);
        assert!(!pattern.claim.contains("fasciculus"), "{}", pattern.claim);
        // Beats of the same eye are not the picture.
        let same = Signs::new().eye(What::SlowAdduction, Eye::Right).eye(What::AbductingNystagmus, Eye::Right);
        assert_eq!(told(same, read).expect("read").headline, pattern.headline);
    }

    #[test]
    fn both_sides_are_told_as_both() {
        let signs = Signs::new()
            .eye(What::SlowAdduction, Eye::Right)
            .eye(What::SlowAdduction, Eye::Left)
            .eye(What::AbductingNystagmus, Eye::Right)
            .eye(What::AbductingNystagmus, Eye::Left);
        assert_eq!(told(signs, read).expect("read").headline, "Compatible with an internuclear palsy on both sides");
    }

    #[test]
    fn limits_in_other_directions_and_a_low_lid_argue_against_it() {
        let signs = Signs::new()
            .eye(What::SlowAdduction, Eye::Right)
            .eye(What::LimitedGaze(Direction::Up), Eye::Right)
            .eye(What::Ptosis, Eye::Right);
        assert_eq!(told(signs, read).expect("read").against.len(), 2);
        // Limited inward is the picture itself: to the left for the right eye.
        let inward =
            Signs::new().eye(What::SlowAdduction, Eye::Right).eye(What::LimitedGaze(Direction::Left), Eye::Right);
        assert!(told(inward, read).expect("read").against.is_empty());
    }

    #[test]
    fn full_turning_in_is_no_pattern() {
        assert_eq!(told(Signs::new().eye(What::AbductingNystagmus, Eye::Right), read), None);
    }
}
