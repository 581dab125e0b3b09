//! Convergence insufficiency by each published set of criteria, part by part: met, not met, or not measured.

use super::evidence::{HORWOOD, SCHEIMAN_WICK, STRICT, TRIAL, TRIAL_RESERVE};
use super::{Case, Pattern, Rule};
use crate::anatomy::Place;
use crate::evidence::{Citation, Level, number};
use crate::other_cause::Influence;
use crate::sign::What;

/// The rule.
pub static RULE: Rule = Rule { id: "convergence_insufficiency", read };

/// Told when in one set the near point and one more part are met: a far near point alone is one sign, and frequent in
/// health.
fn read(case: &Case<'_>) -> Option<Pattern> {
    let sets = sets(case);
    let suggestive = |set: &Set| set.parts[0].state == State::Met && set.count(State::Met) > 1;
    if !sets.iter().any(suggestive) {
        return None;
    }
    let whole = sets.iter().filter(|set| set.count(State::Met) == set.parts.len()).count();
    let headline = match whole {
        0 => "Compatible with convergence insufficiency, by part of the criteria".to_string(),
        n => format!("Compatible with convergence insufficiency, by {n} of {} sets of criteria", sets.len()),
    };
    let claim = "the published sets of criteria differ, and none tells a place in the brain";
    let mut pattern = Pattern::new(RULE.id, headline, Place::Both, Level::C, claim)
        .rests_on(case, case.all(&[What::FarNearPoint, What::BrokenConvergence]))
        .also(
            case,
            &[Influence::Glasses, Influence::Tired, Influence::Medicines, Influence::Unwell, Influence::Older(60)],
            &["a knock to the head", "weak focusing", "blur taken for double"],
        );
    for key in KEYS.iter().filter(|key| case.number(key).is_some()) {
        if !pattern.from.iter().any(|known| known == key) {
            pattern.from.push((*key).to_string());
        }
    }
    if pattern.seen.is_empty() {
        pattern.seen.extend(case.number(NEAR_POINT).map(|cm| format!("near point {} cm", number(cm))));
    }
    for set in &sets {
        pattern = pattern.says(set.words(), &set.sources);
    }
    let blurred = case.measures.iter().filter(|measure| measure.key == NEAR_POINT).flat_map(|measure| &measure.method);
    if blurred.into_iter().any(|(name, words)| *name == "end point" && words.contains("blur")) {
        pattern = pattern.says("The near point was taken at blur, which lies farther out than double.", &[]);
    }
    // 17/167.
    pattern = pattern.says(
        "Deviations and reserves in prism dioptres. Of 167 students not seeking care 10 in 100 had such signs, most \
         without symptoms.",
        &[&HORWOOD],
    );
    let fused = case.absent(What::BrokenConvergence, Place::Both);
    Some(pattern.argues_against(fused, "slow convergence was smooth"))
}

const NEAR_POINT: &str = "near_point.break";
const NEAR: &str = "further_measures.phoria_near";
const FAR: &str = "further_measures.phoria_far";
const BLUR: &str = "further_measures.base_out_near_blur";
const BREAK: &str = "further_measures.base_out_near_break";
const RECOVERY: &str = "further_measures.base_out_near_recovery";
const SURVEY: &str = "further_measures.survey";
const RATIOS: [&str; 2] = ["further_measures.ac_a_gradient", "further_measures.ac_a_calculated"];
const KEYS: [&str; 7] = [NEAR_POINT, NEAR, FAR, BLUR, BREAK, RECOVERY, SURVEY];

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Met,
    NotMet,
    NotMeasured,
}

#[derive(Debug)]
struct Part {
    what: &'static str,
    state: State,
}

/// One published set; the near point is its first part.
#[derive(Debug)]
struct Set {
    name: &'static str,
    parts: Vec<Part>,
    sources: Vec<&'static Citation>,
}

/// The sets, as published.
fn sets(case: &Case<'_>) -> [Set; 4] {
    let value = |key| case.number(key);
    let near_point = |from: f64| value(NEAR_POINT).map(|cm| cm >= from);
    // Deviations are eso positive, so an exophoria is a negative number.
    let exo = value(NEAR).map(|near| -near);
    let more_near = exo.zip(value(FAR)).map(|(near, far)| near + far);
    // To blur, else to break: Sheard's rule.
    let reserve = value(BLUR).or(value(BREAK));
    let sheard = reserve.zip(exo).map(|(reserve, exo)| reserve < 2.0 * exo);
    let low = |most: f64| reserve.map(|reserve| reserve <= most);
    let ratio = RATIOS.into_iter().find_map(value);
    [
        Set {
            name: "Treatment trials, 9 to 17 years",
            parts: vec![
                part("near point 6 cm or more", near_point(6.0)),
                part("exophoria at least 4 more at near", more_near.map(|more| more >= 4.0)),
                part("base-out reserve below twice the near phoria or at most 15", either(sheard, low(15.0))),
                part("symptom sum 16 or more", value(SURVEY).map(|sum| sum >= 16.0)),
            ],
            sources: vec![&TRIAL, &TRIAL_RESERVE],
        },
        Set {
            name: "A textbook",
            parts: vec![
                part("near point beyond 6 cm", value(NEAR_POINT).map(|cm| cm > 6.0)),
                part("exophoria more than 4 more at near", more_near.map(|more| more > 4.0)),
                part("base-out reserve below 15", reserve.map(|reserve| reserve < 15.0)),
            ],
            sources: vec![&SCHEIMAN_WICK],
        },
        Set {
            name: "A stricter set",
            parts: vec![
                part("near point 10 cm or more", near_point(10.0)),
                part("exophoria over 6 at near", exo.map(|exo| exo > 6.0)),
                part("base-out reserve at most 12, 15 and 4 to blur, break and recovery", strict_reserve(case)),
                part("AC/A below 3", ratio.map(|ratio| ratio < 3.0)),
            ],
            sources: vec![&STRICT],
        },
        Set {
            name: "A study of adults",
            parts: vec![
                part("near point 8 cm or more", near_point(8.0)),
                part("base-out range below 15", value(BREAK).map(|range| range < 15.0)),
            ],
            sources: vec![&HORWOOD],
        },
    ]
}

/// Every measured one of the three must be low; the source lists them as one triple.
fn strict_reserve(case: &Case<'_>) -> Option<bool> {
    let limits = [(BLUR, 12.0), (BREAK, 15.0), (RECOVERY, 4.0)];
    let measured: Vec<bool> = limits.into_iter().filter_map(|(key, most)| Some(case.number(key)? <= most)).collect();
    (!measured.is_empty()).then(|| measured.iter().all(|low| *low))
}

/// Either rule suffices; not met only when both were measured.
fn either(a: Option<bool>, b: Option<bool>) -> Option<bool> {
    match (a, b) {
        (Some(true), _) | (_, Some(true)) => Some(true),
        (Some(false), Some(false)) => Some(false),
        (None, _) | (_, None) => None,
    }
}

fn part(what: &'static str, met: Option<bool>) -> Part {
    let state = match met {
        Some(true) => State::Met,
        Some(false) => State::NotMet,
        None => State::NotMeasured,
    };
    Part { what, state }
}

impl Set {
    fn count(&self, state: State) -> usize {
        self.parts.iter().filter(|part| part.state == state).count()
    }

    /// "A textbook (1 of 3): met: ...; not met: ...; not measured: ...".
    fn words(&self) -> String {
        let told = |state, word: &str| {
            let parts: Vec<&str> = self.parts.iter().filter(|part| part.state == state).map(|part| part.what).collect();
            (!parts.is_empty()).then(|| format!("{word}: {}", parts.join(", ")))
        };
        let states =
            [told(State::Met, "met"), told(State::NotMet, "not met"), told(State::NotMeasured, "not measured")];
        let states: Vec<String> = states.into_iter().flatten().collect();
        let count = format!("{} of {}", self.count(State::Met), self.parts.len());
        format!("{} ({count}): {}.", self.name, states.join("; "))
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::{Signs, told};
    use super::*;

    fn near_point(cm: f64) -> Signs {
        Signs::new().number(NEAR_POINT, cm)
    }

    #[test]
    fn a_far_near_point_alone_is_one_sign() {
        assert_eq!(told(near_point(14.0).both(What::FarNearPoint), read), None);
    }

    /// 8 exo at near and 2 at far are 6 more; 20 is at least twice 8, so Sheard's rule is kept, and 20 is over 15.
    #[test]
    fn parts_are_told_as_met_not_met_and_not_measured() {
        let signs = near_point(8.0).number(NEAR, -8.0).number(FAR, -2.0).number(BREAK, 20.0);
        let pattern = told(signs, read).expect("read");
        assert_eq!(pattern.headline, "Compatible with convergence insufficiency, by part of the criteria");
        assert_eq!(
            pattern.says[0],
            "Treatment trials, 9 to 17 years (2 of 4): met: near point 6 cm or more, exophoria at least 4 more at near; \
             not met: base-out reserve below twice the near phoria or at most 15; not measured: symptom sum 16 or more."
        );
        assert!(pattern.says[3].starts_with("A study of adults (1 of 2)"));
    }

    /// 10 exo at near with 12 to blur: 12 is below twice 10 (Sheard), at most 12, and near point 10 meets all four sets.
    #[test]
    fn everything_met_counts_the_sets() {
        let signs = near_point(10.0)
            .number(NEAR, -10.0)
            .number(FAR, -2.0)
            .number(BLUR, 12.0)
            .number(BREAK, 14.0)
            .number(SURVEY, 20.0)
            .number(RATIOS[0], 2.0);
        let pattern = told(signs, read).expect("read");
        assert!(pattern.headline.ends_with("by 4 of 4 sets of criteria"), "{}", pattern.headline);
        assert_eq!(pattern.seen, ["near point 10 cm"]);
        assert_eq!(pattern.from.len(), 6);
    }

    /// Exactly at the limits: 6 cm is met by "6 or more" and not by "beyond 6"; 4 more is met by "at least 4" only.
    #[test]
    fn limits_are_read_as_published() {
        let signs = near_point(6.0).number(NEAR, -6.0).number(FAR, -2.0);
        let sets = sets(&signs.case()).map(|set| set.count(State::Met));
        assert_eq!(sets, [2, 0, 0, 0]);
    }

    #[test]
    fn an_esophoria_at_near_is_never_an_exophoria() {
        let signs = near_point(12.0).number(NEAR, 8.0).number(FAR, -2.0).number(BREAK, 30.0);
        assert_eq!(told(signs, read), None);
    }
}
