//! Sustained beats at the end of gaze to the right and to the left: gaze-holding, most often by drugs.

use super::evidence::{BEH, FLOCCULUS};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "gaze_evoked_both_ways", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    if !case.both_ways(What::GazeEvokedNystagmus) {
        return None;
    }
    let headline = "Compatible with gaze that is not held: drugs, cerebellum or brainstem; no side";
    let claim = "holding gaze rests on the flocculus and its neighbour";
    let pattern = Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::B, claim)
        .rests_on(case, case.all(&[What::GazeEvokedNystagmus]))
        .also(
            case,
            &[Influence::Alcohol, Influence::Medicines, Influence::Tired],
            &["medicines for epilepsy", "holding gaze too far out", "weak eye muscles"],
        )
        .says("Alcohol, sedatives and medicines for epilepsy are the first thing to ask for (from memory).", &[])
        .says(
            "Loss of holding on both sides, without a side, is what reviews of the flocculus describe; a few beats that \
             stop are ordinary.",
            &[&BEH, &FLOCCULUS],
        )
        .argues_against(
            case.absent_both_ways(What::PursuitReduced),
            "following was smooth both ways, which the flocculus would disturb too",
        )
        .would_need(case, &[What::PursuitReduced], "following")
        .would_need(case, &[What::Hypometric, What::Hypermetric], "jumps")
        .would_need(case, &[What::ClumsyLimb], "finger to nose and rapid movements");
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;

    #[test]
    fn beats_both_ways_put_drugs_of_this_visit_first() {
        let signs = Signs::new().sideways(What::GazeEvokedNystagmus).influence("medicines");
        let pattern = told(signs, read).expect("read");
        assert_eq!(pattern.also[0].words, "medicines that slow or sedate");
        assert_eq!(pattern.also[0].named_by.as_deref(), Some("frame.influences.medicines"));
        assert_eq!(pattern.place, Place::Both);
        assert!(!pattern.urgent);
    }

    #[test]
    fn beats_one_way_or_beats_that_stop_are_not_this_pattern() {
        assert_eq!(told(Signs::new().toward(What::GazeEvokedNystagmus, Direction::Right), read), None);
        assert_eq!(told(Signs::new().sideways(What::EndPointNystagmus), read), None);
    }
}
