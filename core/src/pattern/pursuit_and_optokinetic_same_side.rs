//! Following and stripes worse in the same direction. Two tasks agree, so it is stronger than each. It names a region and
//! a direction of movement, and no side of the brain: two looks by eye are too few for a test, and the test across tasks
//! counts where jumps land, which never gives a side.

use super::evidence::{
    BEH, FLOCCULUS, HALE, LEFT_PARIETAL, MORROW_1990, MORROW_1995, PARIETAL_33, SMALL_FIELD, TEXTBOOK, VAHEDI,
};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "pursuit_and_optokinetic_same_side", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let worse =
        case.one_way(What::PursuitWorse).filter(|worse| case.one_way(What::OptokineticWorse) == Some(*worse))?;
    let side = worse.side()?;
    let toward = Place::Toward(worse);
    let headline = format!("Compatible with a cause in a posterior hemisphere, among others; worse {}", worse.phrase());
    let claim = "following and stripes are worse toward a lesion of the posterior hemisphere";
    let mut pattern = Pattern::new(RULE.id, headline, toward, Level::B, claim)
        .rests_on(case, case.all(&[What::PursuitWorse, What::OptokineticWorse]))
        .also(
            case,
            &[
                Influence::Display("pursuit"),
                Influence::Nystagmus,
                Influence::Attention,
                Influence::Tired,
                Influence::Glasses,
            ],
            &[],
        )
        .says(
            "Of 23 lesions of one hemisphere 10 made following worse toward the lesion and none away from it; 33 \
             parietal cases show the same for stripes, 9 left parietal ones do not.",
            &[&MORROW_1990, &PARIETAL_33, &SMALL_FIELD, &LEFT_PARIETAL],
        )
        .says(
            "The frontal lobe and the cerebellum of that side do the same to following, and one textbook has the \
             direction the other way round.",
            &[&MORROW_1995, &FLOCCULUS, &BEH, &TEXTBOOK],
        )
        .says("A tape tests following too, so the two tasks are not two independent witnesses.", &[&HALE]);
    let tested = match case.worse {
        Some(direction) if direction == worse => {
            "No side of the brain is named: the test across tasks finds the same direction worse, but where jumps land \
             counts in it, and that never gives a side."
        }
        Some(_) => "No side of the brain is named: the test across tasks finds the other direction worse.",
        None => "No side of the brain is named: the test across tasks does not name this direction.",
    };
    pattern = pattern.says(tested, &[]);
    if case.both_ways(What::Hypometric) {
        let vermis = "Jumps short both ways beside it were found in infarcts of the posterior vermis.";
        pattern = pattern.says(vermis, &[&VAHEDI]);
    }
    let body = |what| case.seen(what, Place::On(side));
    pattern = pattern
        .argues_against(
            body(What::TouchLess) || body(What::ArmDrift),
            format!(
                "touch or strength is less on the {}, a hemisphere would show on the {}",
                side.word(),
                side.other().word()
            ),
        )
        .would_need(case, &[What::TouchLess, What::ArmDrift], "touch and strength of both sides")
        .would_need(case, &[What::RestingNystagmus], "the eyes at rest");
    pattern.covers = &["pursuit_worse_one_side", "optokinetic_worse_one_side"];
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::super::{Case, read as read_all};
    use super::*;
    use crate::anatomy::{Direction, Side};

    fn both(direction: Direction) -> Signs {
        Signs::new().toward(What::PursuitWorse, direction).toward(What::OptokineticWorse, direction)
    }

    #[test]
    fn two_tasks_tell_one_pattern_and_cover_the_single_ones() {
        let signs = both(Direction::Right);
        let ids: Vec<&str> = read_all(&signs.case()).iter().map(|pattern| pattern.id).collect();
        assert_eq!(ids, [RULE.id]);
    }

    #[test]
    fn a_region_and_a_direction_are_named_and_no_side_whatever_the_test_across_tasks_says() {
        let signs = both(Direction::Right);
        for (tested, word) in [
            (None, "does not name"),
            (Some(Direction::Right), "never gives a side"),
            (Some(Direction::Left), "the other direction"),
        ] {
            let pattern = read(&Case { worse: tested, ..signs.case() }).expect("read");
            assert!(pattern.headline.contains("a posterior hemisphere, among others; worse to the right"));
            let said = pattern.says.iter().find(|text| text.starts_with("No side of the brain is named"));
            assert!(said.is_some_and(|text| text.contains(word)), "{said:?}");
        }
    }

    #[test]
    fn weakness_on_the_same_side_argues_against_a_hemisphere() {
        let same = told(both(Direction::Left).on(What::ArmDrift, Side::Left), read).expect("read");
        assert_eq!(same.against, ["touch or strength is less on the left, a hemisphere would show on the right"]);
        let opposite = told(both(Direction::Left).on(What::ArmDrift, Side::Right), read).expect("read");
        assert!(opposite.against.is_empty());
    }

    #[test]
    fn tasks_that_disagree_are_not_this_pattern() {
        let signs =
            Signs::new().toward(What::PursuitWorse, Direction::Right).toward(What::OptokineticWorse, Direction::Left);
        assert_eq!(told(signs, read), None);
        assert_eq!(told(Signs::new().toward(What::PursuitWorse, Direction::Right), read), None);
    }
}
