//! One eye that does not reach the end of its range: a nerve, its junction or a muscle, not a palsy of gaze.

use super::evidence::{BILATERAL_SIXTH, KISSEL, THIRD_145};
use super::{Case, Pattern, Rule, outward};
use crate::anatomy::{Direction, Eye, Place};
use crate::evidence::Level;
use crate::sign::{Seen, Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "one_eye_limited", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let limits = [Eye::Right, Eye::Left].map(|eye| (eye, limits(case, eye)));
    match limits.each_ref().map(|(eye, limits)| (*eye, limits.as_slice())) {
        [(_, []), (_, [])] => None,
        [(eye, own), (_, [])] | [(_, []), (eye, own)] => one_eye(case, eye, own),
        [(right, own), (left, other)] if own == [outward(right)] && other == [outward(left)] => {
            Some(both_outward(case))
        }
        _ => Some(several(case)),
    }
}

/// Directions in which this eye is limited and the other is not.
fn limits(case: &Case<'_>, eye: Eye) -> Vec<Direction> {
    let limited = |direction: Direction, eye: Eye| case.seen(What::LimitedGaze(direction), Place::In(eye));
    Direction::ALL.into_iter().filter(|d| limited(*d, eye) && !limited(*d, eye.other())).collect()
}

fn one_eye(case: &Case<'_>, eye: Eye, limits: &[Direction]) -> Option<Pattern> {
    let word = eye.word();
    let inward = outward(eye).mirrored();
    // Slow turning in with beats of the other eye is told as the internuclear picture.
    if limits == [inward] && case.seen(What::SlowAdduction, Place::In(eye)) {
        return None;
    }
    let third = limits.iter().all(|direction| *direction != outward(eye)) && limits.len() > 1;
    let lid = case.seen(What::Ptosis, Place::In(eye));
    let pupil = pupil(case, eye);
    let (headline, claim) = if limits == [outward(eye)] {
        (format!("Compatible with a weak turning out of the {word} eye: sixth nerve, junction or muscle"), SIXTH)
    } else if third && (lid || pupil == Pupil::Involved) {
        (format!("Compatible with a third nerve palsy of the {word} eye, or muscle weakness"), THIRD)
    } else {
        (format!("Compatible with a weak or held {word} eye: nerve, junction or muscle"), MUSCLE)
    };
    let mut pattern = Pattern::new(RULE.id, headline, Place::In(eye), Level::B, claim)
        .rests_on(case, signs_of(case, eye))
        .also(case, &[], OTHERS);
    if third || lid {
        pattern = match pupil {
            Pupil::Involved => pattern.says(
                "The pupil of that eye is involved: an aneurysm until it is excluded, an emergency when new. It is so in 64 \
                 of 100 palsies from pressure and in 17 of 100 from small vessels.",
                &[&KISSEL, &THIRD_145],
            ),
            Pupil::Spared => pattern.says(
                "The pupils are equal, which excludes nothing: 7 of 51 palsies from an aneurysm began so.",
                &[&KISSEL],
            ),
            Pupil::OtherSide | Pupil::NotKnown => pattern,
        };
        if pupil == Pupil::NotKnown {
            pattern.not_looked_at.push("the pupils".to_string());
        }
    }
    pattern = pattern
        .says(
            "New double vision or a new palsy is an emergency; with pain, low lid or pupil above all.",
            &[&BILATERAL_SIXTH],
        )
        .would_need(case, &[What::DoubleVision], "double vision")
        .would_need(case, &[What::Ptosis], "the lids");
    Some(pattern)
}

const SIXTH: &str = "the sixth nerve turns the eye of its own side outward (anatomy, from memory)";
const THIRD: &str = "the third nerve lifts the lid, narrows the pupil and turns the eye of its own side in, up and down \
                     (anatomy, from memory)";
const MUSCLE: &str =
    "a limit of one eye lies in its nerve, junction or muscle, not in the centres of gaze (from memory)";
const OTHERS: &[&str] = &[
    "muscle weakness that tires (myasthenia)",
    "stiff muscles of a thyroid disease",
    "a break of the orbit after a knock",
    "an old squint",
];

fn both_outward(case: &Case<'_>) -> Pattern {
    let headline = "Compatible with weak turning out of both eyes: both sixth nerves, or muscle";
    Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::B, SIXTH)
        .rests_on(case, signs_of(case, Eye::Right).chain(signs_of(case, Eye::Left)))
        .also(case, &[], &["muscle weakness that tires (myasthenia)", "an old inward squint", "weak divergence"])
        .says(
            "Both sides together are described with raised pressure in the head, lack of thiamine and botulism: have it \
             seen as an emergency when new.",
            &[&BILATERAL_SIXTH],
        )
        .would_need(case, &[What::DoubleVision], "double vision")
}

fn several(case: &Case<'_>) -> Pattern {
    let headline = "Compatible with weak or held muscles of both eyes, in different directions";
    Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::B, MUSCLE)
        .rests_on(case, signs_of(case, Eye::Right).chain(signs_of(case, Eye::Left)))
        .also(case, &[], OTHERS)
        .says("Different limits in the two eyes speak for muscles or their junction (from memory).", &[])
        .would_need(case, &[What::Ptosis], "the lids")
}

fn signs_of<'a>(case: &'a Case<'_>, eye: Eye) -> impl Iterator<Item = &'a Sign> {
    let own = move |sign: &&Sign| {
        let limited = matches!(sign.what, What::LimitedGaze(_)) || sign.what == What::Ptosis;
        limited && sign.place == Place::In(eye) && sign.seen == Seen::Yes
    };
    case.signs.iter().filter(own)
}

/// The pupil on the side of the limited eye.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Pupil {
    Involved,
    Spared,
    /// Noted, and larger or fixed on the other side: neither spared nor involved here.
    OtherSide,
    NotKnown,
}

fn pupil(case: &Case<'_>, eye: Eye) -> Pupil {
    match (case.answer("resting_gaze", "pupils"), eye) {
        (Some("equal"), _) => Pupil::Spared,
        (Some("right_larger" | "right_fixed" | "both_fixed"), Eye::Right)
        | (Some("left_larger" | "left_fixed" | "both_fixed"), Eye::Left) => Pupil::Involved,
        (Some(_), _) => Pupil::OtherSide,
        (None, _) => Pupil::NotKnown,
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::capture::answer::Answer;

    fn limited(eye: Eye, directions: &[Direction]) -> Signs {
        directions.iter().fold(Signs::new(), |signs, direction| signs.eye(What::LimitedGaze(*direction), eye))
    }

    #[test]
    fn turning_out_alone_names_nerve_junction_and_muscle() {
        let pattern = told(limited(Eye::Right, &[Direction::Right]), read).expect("read");
        assert!(pattern.headline.contains("turning out of the right eye: sixth nerve, junction or muscle"));
        assert_eq!(pattern.place, Place::In(Eye::Right));
        assert_eq!(pattern.not_looked_at, ["double vision", "the lids"]);
    }

    #[test]
    fn a_low_lid_or_wide_pupil_makes_it_the_third_nerve() {
        let three = [Direction::Right, Direction::Up, Direction::Down];
        let plain = told(limited(Eye::Left, &three), read).expect("read");
        assert!(plain.headline.contains("weak or held left eye"), "{}", plain.headline);
        let mut signs = limited(Eye::Left, &three);
        signs.answer("resting_gaze", "pupils", Answer::One("left_larger".into()));
        let pupil = told(signs, read).expect("read");
        assert!(pupil.headline.contains("third nerve palsy of the left eye"), "{}", pupil.headline);
        assert!(pupil.says[0].starts_with("The pupil of that eye is involved"));
        let mut signs = limited(Eye::Left, &three).eye(What::Ptosis, Eye::Left);
        signs.answer("resting_gaze", "pupils", Answer::One("equal".into()));
        assert!(told(signs, read).expect("read").says[0].contains("excludes nothing"));
        // A larger pupil of the other eye was looked at: neither excused, nor told as missing.
        let mut signs = limited(Eye::Left, &three).eye(What::Ptosis, Eye::Left);
        signs.answer("resting_gaze", "pupils", Answer::One("right_larger".into()));
        let other = told(signs, read).expect("read");
        assert!(!other.not_looked_at.iter().any(|what| what.contains("pupils")), "{:?}", other.not_looked_at);
        assert!(!other.says.iter().any(|said| said.starts_with("The pupil")), "{:?}", other.says);
    }

    #[test]
    fn both_eyes_weak_outward_is_said_as_an_emergency() {
        let signs = limited(Eye::Right, &[Direction::Right]).eye(What::LimitedGaze(Direction::Left), Eye::Left);
        let pattern = told(signs, read).expect("read");
        assert!(pattern.headline.contains("both sixth nerves"));
        assert!(pattern.says[0].contains("raised pressure"));
    }

    #[test]
    fn the_same_direction_in_both_eyes_is_left_to_the_gaze_palsy() {
        let signs = limited(Eye::Right, &[Direction::Up]).eye(What::LimitedGaze(Direction::Up), Eye::Left);
        assert_eq!(told(signs, read), None);
    }

    #[test]
    fn slow_turning_in_is_left_to_the_internuclear_picture() {
        let signs = limited(Eye::Right, &[Direction::Left]).eye(What::SlowAdduction, Eye::Right);
        assert_eq!(told(signs, read), None);
    }
}
