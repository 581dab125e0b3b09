//! Jumps to one side start late: read with the frontal lobe of the other side, and contradicted.
//!
//! Short landings are seen with it, but landings never give a side, so they carry nothing here.

use super::evidence::{ANTI, HEMISPHERES, HENIK, MAGNETIC, RIVAUD, XU_BARTON};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "saccades_away_from_frontal", read };

fn read(case: &Case<'_>) -> Option<Pattern> {
    let late = case.one_way(What::SaccadesLate)?;
    let errors = case.one_way(What::AntisaccadeWorse) == Some(late);
    let short = case.seen(What::Hypometric, Place::Toward(late));
    let headline = if errors {
        "Compatible with trouble in the frontal lobe's share of jumps; the side is disputed".to_string()
    } else {
        format!("Compatible with jumps {} that start late; alone it names no place", late.phrase())
    };
    let claim = "the frontal eye field drives jumps to the other side";
    let mut pattern = Pattern::new(RULE.id, headline, Place::Toward(late), Level::C, claim)
        .rests_on(case, case.sideways(What::SaccadesLate))
        .also(
            case,
            &[Influence::Attention, Influence::Tired, Influence::Medicines, Influence::Nystagmus],
            &["a half field of sight that is lost", "neglect of one side"],
        )
        .says(
            "Lone lesions of the frontal eye field left jumps unchanged or earlier; reflexive jumps away from the lesion \
             came earlier, voluntary ones later (9 people).",
            &[&XU_BARTON, &HENIK],
        )
        .says(
            "In 74 cases of gaze turned by a hemisphere that field was mostly spared, and disturbing it by magnetic \
             stimulation made jumps toward its own side short.",
            &[&HEMISPHERES, &MAGNETIC],
        )
        .would_need(case, &[What::AntisaccadeErrors], "looking away")
        .would_need(case, &[What::TouchLess, What::ArmDrift], "touch and strength of both sides");
    if errors {
        let signs: Vec<_> = case.sideways(What::AntisaccadeWorse);
        pattern = pattern
            .rests_on(case, signs)
            .says("More errors with the target on that side were found with the same lesions.", &[&ANTI]);
    }
    if short {
        let signs: Vec<_> = case.sideways(What::Hypometric);
        pattern = pattern.rests_on(case, signs).says(
            "Short jumps that way were seen in three people with such lesions; landings give no side by themselves.",
            &[&RIVAUD],
        );
    }
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, names_a_side, told};
    use super::*;
    use crate::anatomy::Direction;

    #[test]
    fn late_jumps_alone_name_no_place() {
        let pattern = told(Signs::new().toward(What::SaccadesLate, Direction::Left), read).expect("read");
        assert!(pattern.headline.ends_with("alone it names no place"));
        assert_eq!((pattern.level, pattern.place), (Level::C, Place::Toward(Direction::Left)));
    }

    #[test]
    fn errors_that_agree_name_the_lobe_and_no_side() {
        let signs =
            Signs::new().toward(What::SaccadesLate, Direction::Left).toward(What::AntisaccadeWorse, Direction::Left);
        let pattern = told(signs, read).expect("read");
        assert!(pattern.headline.contains("frontal lobe") && !names_a_side(&pattern.headline));
        let apart =
            Signs::new().toward(What::SaccadesLate, Direction::Left).toward(What::AntisaccadeWorse, Direction::Right);
        assert!(!told(apart, read).expect("read").headline.contains("frontal"));
    }

    #[test]
    fn short_jumps_add_a_sentence_and_no_side() {
        let signs =
            Signs::new().toward(What::SaccadesLate, Direction::Right).toward(What::Hypometric, Direction::Right);
        let pattern = told(signs, read).expect("read");
        assert!(!pattern.headline.contains("frontal"));
        assert!(pattern.says.iter().any(|text| text.contains("landings give no side")));
        assert_eq!(told(Signs::new().toward(What::Hypometric, Direction::Right), read), None);
    }
}
