//! Stripes worse in one direction: one sign, and a tape tests following, so it names no place.

use super::evidence::{HALE, LEFT_PARIETAL, PARIETAL_33, PARIETAL_TWO, SKEWED, SMALL_FIELD};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "optokinetic_worse_one_side", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let worse = case.one_way(What::OptokineticWorse)?;
    let toward = Place::Toward(worse);
    let headline =
        format!("Compatible with one-sided trouble with stripes moving {}; alone it names no place", worse.phrase());
    let claim = "after parietal lesions stripes moving toward the lesion are followed worse";
    let pattern = Pattern::new(RULE.id, headline, toward, Level::C, claim)
        .rests_on(case, case.sideways(What::OptokineticWorse))
        .also(
            case,
            &[Influence::Display("optokinetic"), Influence::Nystagmus, Influence::Attention, Influence::Tired, Influence::Glasses],
            &["stripes moved faster one way", "poor sight of one eye since childhood"],
        )
        .says(
            "Seen in 33 parietal cases and in two more, and in scans from the posterior hemisphere to the internal \
             capsule; 9 left parietal cases showed no direction at all.",
            &[&PARIETAL_33, &PARIETAL_TWO, &SMALL_FIELD, &LEFT_PARIETAL],
        )
        .says(
            "A tape tests following and jumps back, not a reflex of its own; nystagmus at rest can skew it by up to 70 %.",
            &[&HALE, &SKEWED],
        )
        .argues_against(
            case.absent(What::PursuitWorse, toward),
            format!("following was no worse {}", worse.phrase()),
        )
        .would_need(case, &[What::PursuitWorse], "following")
        .would_need(case, &[What::RestingNystagmus], "the eyes at rest");
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;

    #[test]
    fn one_sign_names_a_direction_and_no_side() {
        let pattern = told(Signs::new().toward(What::OptokineticWorse, Direction::Left), read).expect("read");
        assert_eq!((pattern.place, pattern.level), (Place::Toward(Direction::Left), Level::C));
        assert!(pattern.headline.contains("names no place"));
        assert_eq!(pattern.not_looked_at, ["following", "the eyes at rest"]);
    }

    #[test]
    fn nystagmus_at_rest_is_named_first_when_it_was_seen() {
        let signs = Signs::new()
            .toward(What::OptokineticWorse, Direction::Left)
            .toward(What::RestingNystagmus, Direction::Left);
        let pattern = told(signs, read).expect("read");
        assert_eq!(pattern.also[0].words, "nystagmus at rest");
        assert!(pattern.also[0].named_by.is_some() && pattern.also[1].named_by.is_none());
    }

    #[test]
    fn stripes_alike_are_no_pattern() {
        assert_eq!(told(Signs::new().none_sideways(What::OptokineticWorse), read), None);
    }
}
