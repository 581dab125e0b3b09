//! Jumps that land short or past in both directions, or past one way and short the other. Never a side.
//!
//! With lesions on the same side the vermis and the superior cerebellar artery give one crossed picture, the fastigial
//! nucleus and the lateral medulla the other; so each crossed picture is described with lesions on either side.

use super::evidence::{MIDLINE, PALIWAL, RANALLI, VAHEDI};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "saccade_accuracy", read };

/// How the landings of the two directions go together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Picture {
    ShortBoth,
    PastBoth,
    Crossed,
}

fn read(case: &Case<'_>) -> Option<Pattern> {
    let picture = picture(case)?;
    let pattern = Pattern::new(RULE.id, picture.headline().to_string(), Place::Both, Level::A, picture.claim())
        .rests_on(case, case.all(&[What::Hypermetric, What::Hypometric]))
        .also(
            case,
            &[
                Influence::Medicines,
                Influence::Alcohol,
                Influence::Tired,
                Influence::Attention,
                Influence::Glasses,
                Influence::Older(51),
            ],
            picture.further(),
        );
    let pattern = match picture {
        Picture::ShortBoth => pattern.says(
            "Short both ways is described with lesions of both halves of the vermis, and with infarcts of the posterior \
             vermis together with following worse toward the lesion; it is also the most frequent miss in health.",
            &[&MIDLINE, &VAHEDI],
        ),
        Picture::PastBoth => {
            pattern.says("Past both ways is described with lesions of both fastigial nuclei.", &[&MIDLINE])
        }
        Picture::Crossed => pattern.says(
            "It gives no side: lesions of the vermis and of the superior cerebellar artery overshoot away from their side, \
             those of the fastigial nucleus and of the lateral medulla toward it.",
            &[&MIDLINE, &RANALLI, &PALIWAL],
        ),
    };
    Some(
        pattern
            .argues_against(
                case.absent_both_ways(What::PursuitReduced) && picture == Picture::ShortBoth,
                "following was smooth both ways",
            )
            .would_need(case, &[What::PursuitReduced], "following")
            .would_need(case, &[What::GazeEvokedNystagmus], "range of gaze")
            .would_need(case, &[What::ClumsyLimb], "finger to nose and rapid movements"),
    )
}

fn picture(case: &Case<'_>) -> Option<Picture> {
    if case.both_ways(What::Hypometric) {
        return Some(Picture::ShortBoth);
    }
    if case.both_ways(What::Hypermetric) {
        return Some(Picture::PastBoth);
    }
    let (past, short) = (case.one_way(What::Hypermetric)?, case.one_way(What::Hypometric)?);
    (past != short).then_some(Picture::Crossed)
}

impl Picture {
    fn headline(self) -> &'static str {
        match self {
            Picture::ShortBoth => "Compatible with many causes, the cerebellar vermis among them; no side",
            Picture::PastBoth => "Compatible with a cause in the cerebellum, among others; no side",
            Picture::Crossed => "Compatible with a cause in the cerebellum or lateral medulla; no side",
        }
    }

    fn claim(self) -> &'static str {
        match self {
            Picture::ShortBoth => "lesions of the posterior vermis make jumps short both ways",
            Picture::PastBoth => "lesions of both fastigial nuclei make jumps go past both ways",
            Picture::Crossed => "past one way and short the other goes with lesions of four places, on opposite sides",
        }
    }

    fn further(self) -> &'static [&'static str] {
        match self {
            Picture::ShortBoth => &["large jumps", "slow jumps of any cause"],
            Picture::PastBoth => &["haste"],
            Picture::Crossed => &["haste", "a half field of sight that is lost"],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, names_a_side, told};
    use super::*;
    use crate::anatomy::Direction;

    fn crossed(past: Direction) -> Signs {
        Signs::new().toward(What::Hypermetric, past).toward(What::Hypometric, past.mirrored())
    }

    #[test]
    fn the_two_crossed_pictures_read_word_for_word_alike_and_name_no_side() {
        let right = told(crossed(Direction::Right), read).expect("read");
        let left = told(crossed(Direction::Left), read).expect("read");
        assert_eq!((&right.headline, &right.says, right.place), (&left.headline, &left.says, Place::Both));
        assert!(!names_a_side(&right.headline) && !right.says.iter().any(|text| names_a_side(text)));
        assert_ne!(right.seen, left.seen);
    }

    #[test]
    fn short_both_ways_says_how_ordinary_it_is() {
        let pattern = told(Signs::new().sideways(What::Hypometric), read).expect("read");
        assert!(pattern.headline.starts_with("Compatible with many causes"));
        assert!(pattern.says[0].contains("most frequent miss in health"));
    }

    #[test]
    fn past_both_ways_is_told_without_a_side() {
        let pattern = told(Signs::new().sideways(What::Hypermetric), read).expect("read");
        assert_eq!(pattern.headline, "Compatible with a cause in the cerebellum, among others; no side");
    }

    #[test]
    fn one_direction_alone_is_one_sign_and_no_pattern() {
        for what in [What::Hypometric, What::Hypermetric] {
            assert_eq!(told(Signs::new().toward(what, Direction::Left), read), None);
        }
        let same = Signs::new().toward(What::Hypometric, Direction::Left).toward(What::Hypermetric, Direction::Left);
        assert_eq!(told(same, read), None);
    }
}
