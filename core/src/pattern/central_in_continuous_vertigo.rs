//! Vertigo without a break, with nystagmus, and a sign that counts as central: an emergency. Its absence means nothing.

use super::evidence::{GOTTLIEB, GUIDELINE, KATTAH, OHLE, SCANS, SIGNS, TARNUTZER};
use super::{Case, Pattern, Rule, rests_on_beats};
use crate::anatomy::{Direction, Place};
use crate::capture::{frame, safety};
use crate::evidence::Level;
use crate::finding::Flag;
use crate::sign::{Sign, What};

/// The rule.
pub static RULE: Rule = Rule { id: "central_in_continuous_vertigo", read };

/// Signs that count as central by themselves; a steady impulse both ways and beats both ways do so together.
const CENTRAL: [What; 4] = [What::VerticalNystagmus, What::TorsionalNystagmus, What::ChangingNystagmus, What::Skew];

fn read(case: &Case<'_>) -> Option<Pattern> {
    if !vertigo(case) || not_continuous(case) || !nystagmus(case) {
        return None;
    }
    let mut central: Vec<&Sign> = case.all(&CENTRAL).filter(|sign| !case.only_recorded(sign)).collect();
    if case.both_ways(What::SteadyImpulse) {
        central.extend(case.sideways(What::SteadyImpulse));
    }
    if case.both_ways(What::GazeEvokedNystagmus) {
        central.retain(|sign| !rests_on_beats(case, sign));
        // Drugs of this day beat both ways too, but vertigo going on is often treated with them: they excuse nothing here.
        let beats = case.sideways(What::GazeEvokedNystagmus);
        central.extend(beats.into_iter().filter(|sign| !case.only_recorded(sign)));
    }
    let deaf = hearing(case) == Some("yes");
    if central.is_empty() && !deaf {
        return None;
    }
    let headline = "Compatible with a stroke or another central cause of vertigo that is going on";
    let claim = "in vertigo without a break, with nystagmus, any of these signs counts as central";
    let mut pattern = Pattern::new(RULE.id, headline.to_string(), Place::Both, Level::A, claim)
        .rests_on(case, central)
        .says(
            "An emergency: have it seen now. Were these signs absent, that would not mean safe.",
            &[&KATTAH, &SIGNS],
        )
        .says(
            "It holds for dizziness of more than a day with nystagmus, by a trained examiner. Neurologists found 97 of 100 \
             strokes and were right in 95 of 100 people without one. Examiners of all kinds: 94 (82 to 98) and 87 (75 to \
             94; low certainty). In the one study with emergency physicians: 83 and 44.",
            &[&GUIDELINE, &OHLE, &GOTTLIEB],
        )
        .says(
            "Strokes of the anterior inferior cerebellar artery are missed more often unless hearing is tested. A first \
             scan was falsely clear in 12 of 100, in another account in 20 to 50 of 100 within two days.",
            &[&TARNUTZER, &KATTAH, &SCANS],
        );
    if deaf {
        pattern.seen.push("new loss of hearing on one side".to_string());
        pattern.from.push("hearing".to_string());
    }
    pattern =
        pattern.also(case, &[], &["an inner ear cause all the same", "nystagmus or a squint from earlier", "drugs"]);
    for side in [Direction::Right, Direction::Left] {
        let text =
            format!("a catch-up on a head impulse {}, as from the inner ear; it excludes nothing", side.phrase());
        pattern = pattern.argues_against(case.seen(What::CatchUpImpulse, Place::Toward(side)), text);
    }
    pattern = pattern
        .would_need(case, &[What::SteadyImpulse, What::CatchUpImpulse], "head impulse")
        .would_need(case, &[What::Skew], "height of the eyes on covering")
        .would_need(case, &[What::GazeEvokedNystagmus], "beats at the end of gaze");
    if hearing(case).is_none() {
        pattern.not_looked_at.push("new loss of hearing".to_string());
    }
    pattern.urgent = true;
    pattern.flag = Some(Flag {
        id: format!("pattern.{}", RULE.id),
        seen: format!("vertigo going on with {}", pattern.seen.join(", ")),
        neck: false,
        source: &KATTAH,
    });
    pattern.covers = &["vertical_or_changing_nystagmus"];
    Some(pattern)
}

/// Vertigo going on now, by the frame, by the head impulse that is tried only then, or by the safety check.
fn vertigo(case: &Case<'_>) -> bool {
    let tried = |sign: &Sign| matches!(sign.what, What::SteadyImpulse | What::CatchUpImpulse);
    frame::has_caution(case.visit, &["vertigo"]) || case.signs.iter().any(tried) || hearing(case) == Some("yes")
}

/// What the form of the head impulse says of the vertigo goes before the frame's "going on now".
fn not_continuous(case: &Case<'_>) -> bool {
    matches!(case.answer("head_impulse", "vertigo"), Some("spells" | "position" | "none"))
}

fn nystagmus(case: &Case<'_>) -> bool {
    if case.answer("head_impulse", "nystagmus") == Some("seen") {
        return true;
    }
    let kinds = [What::RestingNystagmus, What::VerticalNystagmus, What::TorsionalNystagmus, What::ChangingNystagmus];
    case.all(&kinds).next().is_some() || !case.sideways(What::GazeEvokedNystagmus).is_empty()
}

/// A "yes" counts even when the safety check was then skipped.
fn hearing<'a>(case: &'a Case<'_>) -> Option<&'a str> {
    case.visit.record(safety::SLOT)?.answers.one("hearing")
}

#[cfg(test)]
mod tests {
    use super::super::flags;
    use super::super::tests::{Signs, told};
    use super::*;
    use crate::capture::answer::Answer;

    /// Vertigo going on, and nystagmus to the right: what an inner ear does too.
    fn vertigo() -> Signs {
        Signs::new().toward(What::RestingNystagmus, Direction::Right).caution("vertigo")
    }

    #[test]
    fn each_central_sign_is_an_emergency() {
        let each = [
            vertigo().sideways(What::SteadyImpulse),
            vertigo().both(What::Skew),
            vertigo().both(What::ChangingNystagmus),
            vertigo().both(What::TorsionalNystagmus),
            vertigo().toward(What::VerticalNystagmus, Direction::Down),
            vertigo().sideways(What::GazeEvokedNystagmus),
        ];
        for signs in each {
            let pattern = read(&signs.case()).expect("read");
            assert!(pattern.urgent && pattern.flag.is_some(), "{:?}", pattern.seen);
        }
        let mut deaf = vertigo();
        deaf.answer(safety::SLOT, "hearing", Answer::One("yes".into()));
        assert!(told(deaf, read).expect("read").seen.contains(&"new loss of hearing on one side".to_string()));
    }

    #[test]
    fn a_catch_up_to_one_side_or_a_steady_impulse_to_one_side_is_not_central() {
        assert_eq!(told(vertigo(), read), None);
        let peripheral =
            vertigo().toward(What::CatchUpImpulse, Direction::Left).toward(What::SteadyImpulse, Direction::Right);
        assert_eq!(told(peripheral, read), None);
    }

    #[test]
    fn a_catch_up_beside_a_central_sign_excludes_nothing() {
        let signs = vertigo().both(What::Skew).toward(What::CatchUpImpulse, Direction::Left);
        let pattern = told(signs, read).expect("read");
        assert!(pattern.urgent);
        assert!(pattern.against[0].ends_with("it excludes nothing"));
    }

    #[test]
    fn without_vertigo_or_without_nystagmus_it_is_not_read() {
        assert_eq!(told(Signs::new().both(What::ChangingNystagmus), read), None);
        assert_eq!(told(Signs::new().caution("vertigo").both(What::Skew), read), None);
    }

    #[test]
    fn vertigo_in_spells_is_not_read_and_nystagmus_may_be_noted_with_the_impulse() {
        let mut spells = vertigo().both(What::Skew);
        spells.answer("head_impulse", "vertigo", Answer::One("spells".into()));
        assert_eq!(told(spells, read), None);
        let mut noted = Signs::new().caution("vertigo").both(What::Skew);
        noted.answer("head_impulse", "nystagmus", Answer::One("seen".into()));
        assert!(told(noted, read).is_some());
    }

    #[test]
    fn drugs_of_the_day_do_not_excuse_beats_both_ways() {
        let beats = || vertigo().sideways(What::GazeEvokedNystagmus);
        for drugs in ["alcohol", "medicines"] {
            assert!(told(beats().influence(drugs), read).expect("read").flag.is_some());
        }
        assert_eq!(told(beats().recorded(What::GazeEvokedNystagmus), read), None);
    }

    #[test]
    fn what_is_long_known_is_not_taken_as_new() {
        let signs = vertigo().both(What::Skew).recorded(What::Skew);
        assert_eq!(told(signs, read), None);
    }

    #[test]
    fn one_stop_is_enough_when_a_sign_of_it_is_raised_already() {
        let signs = vertigo().both(What::Skew);
        let case = signs.case();
        let patterns: Vec<_> = read(&case).into_iter().collect();
        assert_eq!(flags(&patterns, &case.findings, &[]).len(), 1);
        let signs = vertigo().both(What::Skew).urgent(What::Skew);
        assert_eq!(flags(&patterns, &signs.case().findings, &[]).len(), 0);
    }
}
