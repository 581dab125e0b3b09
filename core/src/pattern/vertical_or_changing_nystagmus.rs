//! Nystagmus that beats up or down, twists, or changes direction with gaze straight ahead.

use super::evidence::{BEH, FLOCCULUS, SIGNS, STRUPP_2014, YOUNG};
use super::{Case, Pattern, Rule, rests_on_beats};
use crate::evidence::Level;
use crate::other_cause::Influence;
use crate::sign::{Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "vertical_or_changing_nystagmus", read };

const KINDS: [What; 3] = [What::VerticalNystagmus, What::TorsionalNystagmus, What::ChangingNystagmus];

fn read(case: &Case<'_>) -> Option<Pattern> {
    let seen: Vec<&Sign> = case.all(&KINDS).filter(|sign| !rests_on_beats(case, sign)).collect();
    let first = seen.first()?;
    let headline = "Compatible with a cause in the cerebellum or brainstem; no side";
    let claim = "nystagmus that beats down goes with lesions of the flocculus, one that turns round with the nodulus";
    let mut pattern = Pattern::new(RULE.id, headline.to_string(), first.place, Level::B, claim)
        .rests_on(case, seen.iter().copied())
        .also(
            case,
            &[Influence::Medicines, Influence::Alcohol],
            &["nystagmus from birth", "positional vertigo while it lasts", "lack of magnesium, thiamine or B12"],
        )
        .says(
            "In continuous vertigo any of these counts as central, not as the inner ear. Of acute onset, beats up or down \
             call for admission.",
            &[&FLOCCULUS, &BEH, &SIGNS, &STRUPP_2014],
        )
        .would_need(case, &[What::GazeEvokedNystagmus], "range of gaze")
        .would_need(case, &[What::PursuitReduced], "following");
    if case.answer("resting_gaze", "seen_by") == Some("video") {
        pattern =
            pattern.says("Seen on a video only, where 5.9 of 100 healthy people beat down and 7.9 beat up.", &[&YOUNG]);
        pattern.level = Level::C;
    }
    Some(pattern)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::anatomy::Direction;
    use crate::capture::answer::Answer;

    #[test]
    fn beats_down_name_a_region_without_a_side() {
        let pattern = told(Signs::new().toward(What::VerticalNystagmus, Direction::Down), read).expect("read");
        assert!(pattern.headline.ends_with("no side"));
        assert_eq!((pattern.level, pattern.urgent), (Level::B, false));
        assert_eq!(pattern.seen, ["nystagmus at rest that beats downward"]);
    }

    #[test]
    fn it_is_urgent_when_its_finding_is() {
        let signs = Signs::new().both(What::ChangingNystagmus).urgent(What::ChangingNystagmus);
        assert!(told(signs, read).expect("read").urgent);
    }

    #[test]
    fn on_a_video_alone_it_weighs_less() {
        let mut signs = Signs::new().toward(What::VerticalNystagmus, Direction::Up);
        signs.answer("resting_gaze", "seen_by", Answer::One("video".into()));
        let pattern = told(signs, read).expect("read");
        assert_eq!(pattern.level, Level::C);
        assert!(pattern.says.iter().any(|text| text.contains("5.9 of 100")));
    }

    #[test]
    fn sideways_nystagmus_is_not_this_pattern() {
        assert_eq!(told(Signs::new().toward(What::RestingNystagmus, Direction::Left), read), None);
    }
}
