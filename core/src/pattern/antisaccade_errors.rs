//! Many errors in looking away: weak suppression of the glance, which alone names no place.

use super::evidence::{ANTI, EVDOKIMIDIS, FISCHER, RIVAUD};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "antisaccade_errors", read };

/// Errors fall steeply until about this age (Fischer et al. 1997: 60 % at 9 years, 22 % at 15).
const YOUNG: u8 = 15;

fn read(case: &Case<'_>) -> Option<Pattern> {
    if !case.seen(What::AntisaccadeErrors, Place::Both) {
        return None;
    }
    let headline = "Compatible with a glance that is poorly held back; alone it names no place";
    let claim = "the dorsolateral frontal cortex holds back the glance";
    let pattern = Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::B, claim)
        .rests_on(case, case.all(&[What::AntisaccadeErrors]))
        .also(
            case,
            &[
                Influence::Younger(YOUNG),
                Influence::Attention,
                Influence::Tired,
                Influence::Alcohol,
                Influence::Medicines,
            ],
            &["a task not understood", "attention deficit", "diseases of the basal ganglia"],
        )
        .says(
            "Lesions of the frontal eye field gave more errors with the target on the other side in one series, and \
             ordinary errors in another.",
            &[&ANTI, &RIVAUD],
        )
        .says(
            "Healthy young men err in 23 of 100 with a spread of 17; children in 60 of 100 at 9 years in the hard version.",
            &[&EVDOKIMIDIS, &FISCHER],
        )
        .would_need(case, &[What::SaccadesLate, What::SaccadesWorse], "jumps to a target");
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;

    #[test]
    fn a_childs_age_stands_first_among_the_other_causes() {
        let child = told(Signs::new().both(What::AntisaccadeErrors).aged(9), read).expect("read");
        assert_eq!(child.also[0].words, "an age under 15");
        assert!(child.also[0].named_by.is_some());
        let adult = told(Signs::new().both(What::AntisaccadeErrors).aged(30), read).expect("read");
        assert!(adult.also.iter().all(|cause| !cause.words.contains("age under")));
        assert!(adult.headline.ends_with("alone it names no place"));
    }

    #[test]
    fn errors_within_the_range_are_no_pattern() {
        assert_eq!(told(Signs::new(), read), None);
    }
}
