//! Following worse to one side: one sign, so it names neither a place nor a side of the brain.

use super::evidence::{FLOCCULUS, MORROW_1990, MORROW_1995, POSTERIOR, TEXTBOOK};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "pursuit_worse_one_side", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let worse = case.one_way(What::PursuitWorse)?;
    let toward = Place::Toward(worse);
    let headline =
        format!("Compatible with one-sided trouble in following {}; alone it names no place", worse.phrase());
    let claim = "after lesions of one hemisphere following is worse toward the lesion, when it is uneven at all";
    let pattern = Pattern::new(RULE.id, headline, toward, Level::A, claim)
        .rests_on(case, case.sideways(What::PursuitWorse))
        .also(
            case,
            &[
                Influence::Display("pursuit"),
                Influence::Nystagmus,
                Influence::Attention,
                Influence::Tired,
                Influence::Younger(7),
            ],
            &[],
        )
        // 10/23 = 43 %, Wilson 26 to 63; 4/16 = 25 %, Wilson 10 to 49.
        .says(
            "Of 23 lesions of one hemisphere 10 made following uneven, all worse toward the lesion and most with loss \
             both ways; in another series 4 of 16. So even following excludes nothing.",
            &[&MORROW_1990, &POSTERIOR],
        )
        .says(
            "Frontal lobe and cerebellum do the same; in the pons a human case lost both directions, and one textbook \
             has the direction the other way round.",
            &[&MORROW_1995, &FLOCCULUS, &TEXTBOOK],
        )
        .argues_against(
            case.absent(What::OptokineticWorse, toward),
            format!("stripes were no worse moving {}", worse.phrase()),
        )
        .would_need(case, &[What::OptokineticWorse], "stripes")
        .would_need(case, &[What::TouchLess, What::ArmDrift], "touch and strength of both sides");
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;

    #[test]
    fn one_sign_names_a_direction_and_no_side() {
        let pattern = told(Signs::new().toward(What::PursuitWorse, Direction::Right), read).expect("read");
        assert_eq!(pattern.place, Place::Toward(Direction::Right));
        assert!(pattern.headline.ends_with("to the right; alone it names no place"), "{}", pattern.headline);
        assert_eq!(pattern.not_looked_at, ["stripes", "touch and strength of both sides"]);
        assert!(pattern.against.is_empty());
    }

    #[test]
    fn even_stripes_argue_against_it() {
        let signs = Signs::new().toward(What::PursuitWorse, Direction::Left).none_sideways(What::OptokineticWorse);
        let pattern = told(signs, read).expect("read");
        assert_eq!(pattern.against, ["stripes were no worse moving to the left"]);
        assert_eq!(pattern.not_looked_at, ["touch and strength of both sides"]);
    }

    #[test]
    fn even_following_is_no_pattern() {
        assert_eq!(told(Signs::new().none_sideways(What::PursuitWorse), read), None);
        assert_eq!(told(Signs::new(), read), None);
    }
}
