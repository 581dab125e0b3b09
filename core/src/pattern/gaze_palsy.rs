//! Both eyes limited in the same direction: a palsy of gaze, not of one eye.

use super::evidence::{STRUPP_2014, TEXTBOOK, VERTICAL};
use super::{Case, Pattern, Rule};
use crate::anatomy::{Direction, Eye, Place};
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::{Seen, Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "gaze_palsy", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let limited: Vec<Direction> = Direction::ALL.into_iter().filter(|direction| both_eyes(case, *direction)).collect();
    let sideways: Vec<Direction> = limited.iter().copied().filter(|direction| direction.side().is_some()).collect();
    let vertical = sideways.len() < limited.len();
    let place = match limited.as_slice() {
        [] => return None,
        [one] => Place::Toward(*one),
        _ => Place::Both,
    };
    let (headline, level, claim) = match (sideways.as_slice(), vertical) {
        ([], _) if limited == [Direction::Up] && case.years.is_some_and(|years| years >= OLDER) => {
            let headline = "Compatible with age, or a palsy of upward gaze: upper midbrain, among others";
            (headline.to_string(), Level::C, UPWARD)
        }
        ([], _) => {
            ("Compatible with a palsy of vertical gaze: upper midbrain, among others".to_string(), Level::A, MIDBRAIN)
        }
        ([one], false) => {
            let to = one.phrase();
            let places = format!("Compatible with a palsy of gaze {to}: pons on that side or hemisphere on the other");
            (places, Level::A, PONS)
        }
        (_, false) => ("Compatible with a palsy of gaze to both sides: pons, among others".to_string(), Level::A, PONS),
        (_, true) => {
            let places = "Compatible with gaze limited in several directions: muscle, junction or brainstem";
            (places.to_string(), Level::C, SEVERAL)
        }
    };
    let signs = case.signs.iter().filter(|sign| sign.seen == Seen::Yes && of(&limited, sign));
    let mut pattern = Pattern::new(RULE.id, headline, place, level, claim)
        .rests_on(case, signs)
        .also(
            case,
            &[Influence::Medicines, Influence::Attention],
            &[
                "muscle weakness that tires (myasthenia)",
                "stiff muscles of a thyroid disease",
                "Parkinson-like diseases",
            ],
        )
        .says("Of acute onset it calls for rapid admission.", &[&STRUPP_2014]);
    pattern.sources.extend(if sideways.is_empty() { [&VERTICAL] } else { [&TEXTBOOK] });
    if limited.contains(&Direction::Up) {
        // From memory.
        pattern = pattern.says("Looking up grows less with age in health (from memory).", &[]);
    }
    let smooth = |direction: &Direction| case.absent(What::PursuitReduced, Place::Toward(*direction));
    pattern = pattern
        .argues_against(limited.iter().any(smooth), "following into the limited direction was smooth")
        .argues_against(
            [Eye::Right, Eye::Left].into_iter().any(|eye| case.seen(What::Ptosis, Place::In(eye))),
            "a lid hangs low, as with a nerve or tiring muscle",
        )
        .would_need(
            case,
            &[What::SteadyImpulse, What::CatchUpImpulse],
            "whether turning the head moves the eyes further",
        )
        .would_need(case, &[What::PursuitReduced], "following");
    Some(pattern)
}

const PONS: &str = "a lesion of the pons limits gaze toward its side, one of a hemisphere gaze away from it";
const SEVERAL: &str = "limits of both eyes in several directions fit no single place";
const UPWARD: &str = "looking up lessens with age in health and with lesions of the upper midbrain alike";

/// From this age on a short look upward is read with age first: it is the direction that loses most (Lee et al. 2019, Eye
/// 33:1145); the age itself is common practice.
const OLDER: u8 = 60;

const MIDBRAIN: &str = "palsy of vertical gaze goes with lesions of the upper midbrain";

fn both_eyes(case: &Case<'_>, direction: Direction) -> bool {
    [Eye::Right, Eye::Left].into_iter().all(|eye| case.seen(What::LimitedGaze(direction), Place::In(eye)))
}

fn of(directions: &[Direction], sign: &Sign) -> bool {
    directions.iter().any(|direction| sign.what == What::LimitedGaze(*direction))
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;

    fn limited(directions: &[Direction]) -> Signs {
        directions.iter().fold(Signs::new(), |signs, direction| {
            let what = What::LimitedGaze(*direction);
            signs.eye(what, Eye::Right).eye(what, Eye::Left)
        })
    }

    #[test]
    fn one_side_names_pons_and_hemisphere_as_two_possibilities() {
        let pattern = told(limited(&[Direction::Left]), read).expect("read");
        assert!(pattern.headline.ends_with("to the left: pons on that side or hemisphere on the other"));
        assert_eq!(pattern.place, Place::Toward(Direction::Left));
        assert_eq!(pattern.sources.iter().filter(|source| source.short == TEXTBOOK.short).count(), 1);
    }

    #[test]
    fn up_and_down_name_the_upper_midbrain_and_age() {
        let pattern = told(limited(&[Direction::Up]), read).expect("read");
        assert!(pattern.headline.contains("upper midbrain"), "{}", pattern.headline);
        assert!(pattern.says.iter().any(|text| text.contains("grows less with age")));
        assert!(told(limited(&[Direction::Down]), read).expect("read").says.iter().all(|text| !text.contains("age")));
    }

    #[test]
    fn at_sixty_a_short_look_upward_is_read_with_age_first() {
        let at = |years| told(limited(&[Direction::Up]).aged(years), read).expect("read");
        assert_eq!((at(59).level, at(60).level), (Level::A, Level::C));
        assert!(at(80).headline.starts_with("Compatible with age, or a palsy"), "{}", at(80).headline);
        // Downward age explains nothing.
        assert_eq!(told(limited(&[Direction::Down]).aged(80), read).expect("read").level, Level::A);
    }

    #[test]
    fn several_directions_name_no_single_place() {
        let pattern = told(limited(&[Direction::Up, Direction::Right]), read).expect("read");
        assert!(pattern.headline.contains("several directions"));
        assert_eq!(pattern.place, Place::Both);
    }

    #[test]
    fn one_eye_alone_is_not_a_gaze_palsy() {
        let signs = Signs::new()
            .eye(What::LimitedGaze(Direction::Right), Eye::Right)
            .eye(What::LimitedGaze(Direction::Left), Eye::Left);
        assert_eq!(told(signs, read), None);
    }

    #[test]
    fn smooth_following_into_the_limited_direction_argues_against_it() {
        let signs = limited(&[Direction::Right]).none_sideways(What::PursuitReduced);
        assert_eq!(told(signs, read).expect("read").against, ["following into the limited direction was smooth"]);
    }
}
