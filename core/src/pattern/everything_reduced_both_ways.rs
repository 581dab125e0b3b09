//! Following, and stripes or jumps, worse than ordinary to both sides: the least telling picture.

use super::evidence::{FLOCCULUS, MORROW_1990, VAHEDI};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::{Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "everything_reduced_both_ways", read };

/// One kind of sign for each of following, stripes and jumps.
const SYSTEMS: [What; 3] = [What::PursuitReduced, What::OptokineticReduced, What::Hypometric];

fn read(case: &Case<'_>) -> Option<Pattern> {
    let reduced: Vec<What> = SYSTEMS.into_iter().filter(|what| case.both_ways(*what)).collect();
    if reduced.len() < 2 || !reduced.contains(&What::PursuitReduced) {
        return None;
    }
    let headline = "Compatible with a general cause: reduced to both sides, which names no place";
    let claim = "loss to both sides is unspecific: drugs, tiredness and age give it, and so do lesions in many places";
    let signs: Vec<&Sign> = reduced.iter().flat_map(|what| case.sideways(*what)).collect();
    let mut pattern = Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::C, claim)
        .rests_on(case, signs)
        .also(
            case,
            &[
                Influence::Display("pursuit"), Influence::Medicines,
                Influence::Alcohol,
                Influence::Tired,
                Influence::Unwell,
                Influence::Attention,
                Influence::Glasses,
                Influence::Younger(7),
                Influence::Older(50),
            ],
            &["diseases of the basal ganglia", "dementia"],
        )
        .says(
            "Most of 23 lesions of one hemisphere reduced following both ways, and so did a pontine case; infarcts of the \
             posterior vermis made jumps short both ways.",
            &[&MORROW_1990, &FLOCCULUS, &VAHEDI],
        )
        .argues_against(case.absent_both_ways(What::Hypometric), "jumps were not short")
        .argues_against(case.absent_both_ways(What::OptokineticReduced), "stripes were followed well")
        .would_need(case, &[What::OptokineticReduced], "stripes")
        .would_need(case, &[What::Hypometric], "jumps");
    pattern.covers = &["saccade_accuracy"];
    // Past the target is no slowing, and is told beside it.
    if !reduced.contains(&What::Hypometric) {
        pattern.covers = &[];
    }
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::read as read_all;
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;

    fn all() -> Signs {
        Signs::new().sideways(What::PursuitReduced).sideways(What::OptokineticReduced).sideways(What::Hypometric)
    }

    #[test]
    fn everything_reduced_is_one_unspecific_reading() {
        let patterns = read_all(&all().influence("tired").influence("alcohol").case());
        let ids: Vec<&str> = patterns.iter().map(|pattern| pattern.id).collect();
        assert_eq!(ids, [RULE.id]);
        let named: Vec<&str> =
            patterns[0].also.iter().filter(|c| c.named_by.is_some()).map(|c| c.words.as_str()).collect();
        assert_eq!(named, ["alcohol or drugs", "tiredness"]);
        assert_eq!(patterns[0].level, Level::C);
    }

    #[test]
    fn one_system_or_one_direction_is_not_everything() {
        assert_eq!(told(Signs::new().sideways(What::PursuitReduced), read), None);
        let one_way = Signs::new().sideways(What::PursuitReduced).toward(What::OptokineticReduced, Direction::Left);
        assert_eq!(told(one_way, read), None);
    }

    #[test]
    fn jumps_past_the_target_are_still_told_beside_it() {
        let signs =
            Signs::new().sideways(What::PursuitReduced).sideways(What::OptokineticReduced).sideways(What::Hypermetric);
        let ids: Vec<&str> = read_all(&signs.case()).iter().map(|pattern| pattern.id).collect();
        assert_eq!(ids, ["saccade_accuracy", RULE.id]);
    }
}
