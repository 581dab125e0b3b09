//! Contradictions: two tasks, or a task and a pattern, that do not go together. They are said, not hidden: one of the two
//! should be looked at again before anything is read from either.

use crate::anatomy::{Direction, Eye, Place, Side};
use crate::pattern::{Case, Pattern};
use crate::sign::{self, Sign, What};

/// Two things that do not go together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contradiction {
    /// In one or two sentences.
    pub says: String,
    /// Keys of the findings on both sides.
    pub from: Vec<String>,
}

/// Every contradiction of the case, in the order of the list.
#[must_use]
pub fn found(case: &Case<'_>, patterns: &[Pattern]) -> Vec<Contradiction> {
    let sideways = [Direction::Right, Direction::Left];
    let mut found: Vec<Contradiction> = following_against_stripes(case).into_iter().collect();
    found.extend(late_against_errors(case));
    found.extend(Direction::ALL.into_iter().filter_map(|direction| limited_against_following(case, direction)));
    found.extend(sideways.into_iter().filter_map(|direction| limited_against_jumps(case, direction)));
    found.extend([Eye::Right, Eye::Left].into_iter().filter_map(|eye| slow_against_full(case, eye)));
    found.extend(near_point_against_convergence(case));
    found
        .extend([Side::Right, Side::Left].into_iter().filter_map(|side| body_against_hemisphere(case, patterns, side)));
    found.extend([Side::Right, Side::Left].into_iter().filter_map(|side| limbs_against_cerebellum(case, side)));
    found
}

/// A hand-held pattern tests following, so the two usually agree.
fn following_against_stripes(case: &Case<'_>) -> Option<Contradiction> {
    let (following, stripes) = (case.one_way(What::PursuitWorse)?, case.one_way(What::OptokineticWorse)?);
    (following != stripes).then(|| {
        let says = format!(
            "Following is worse {}, stripes are worse moving {}. A tape tests following too, so the two usually agree; \
             look at both again.",
            following.phrase(),
            stripes.phrase()
        );
        say(case, says, &[(What::PursuitWorse, toward(following)), (What::OptokineticWorse, toward(stripes))])
    })
}

fn late_against_errors(case: &Case<'_>) -> Option<Contradiction> {
    let (late, errors) = (case.one_way(What::SaccadesLate)?, case.one_way(What::AntisaccadeWorse)?);
    (late != errors).then(|| {
        let says = format!(
            "Jumps are later {}, but looking away errs more with the target {}. With one frontal lobe both would go the \
             same way.",
            late.phrase(),
            errors.phrase()
        );
        say(case, says, &[(What::SaccadesLate, toward(late)), (What::AntisaccadeWorse, toward(errors))])
    })
}

/// Both eyes limited in a direction into which following was smooth.
fn limited_against_following(case: &Case<'_>, direction: Direction) -> Option<Contradiction> {
    let smooth = case.absent(What::PursuitReduced, toward(direction));
    (limited(case, direction) && smooth).then(|| {
        let says = format!(
            "Gaze {to} is limited in both eyes, but following {to} was smooth. Following does not reach the end of the \
             range; try the range again.",
            to = direction.phrase()
        );
        let limit = What::LimitedGaze(direction);
        let places = [(limit, Place::In(Eye::Right)), (limit, Place::In(Eye::Left))];
        say(case, says, &[places[0], places[1], (What::PursuitReduced, toward(direction))])
    })
}

fn limited_against_jumps(case: &Case<'_>, direction: Direction) -> Option<Contradiction> {
    let past = case.seen(What::Hypermetric, toward(direction));
    (limited(case, direction) && past).then(|| {
        let to = direction.phrase();
        let says = format!("Gaze {to} is limited in both eyes, but jumps {to} go past the target; look at both again.");
        let limit = What::LimitedGaze(direction);
        say(case, says, &[(limit, Place::In(Eye::Right)), (What::Hypermetric, toward(direction))])
    })
}

/// An eye slow to turn in on a quick look, and full in its range, is ordinary for a slight internuclear palsy; it
/// contradicts only a palsy of its nerve or muscle. What does contradict it: turning in is quick although it is limited.
fn slow_against_full(case: &Case<'_>, eye: Eye) -> Option<Contradiction> {
    let inward = eye.side().direction().mirrored();
    let limit = What::LimitedGaze(inward);
    let one_eye = case.seen(limit, Place::In(eye)) && !case.seen(limit, Place::In(eye.other()));
    (one_eye && case.absent(What::SlowAdduction, Place::In(eye))).then(|| {
        let says = format!(
            "The {} eye is limited inward, but was as quick as the other to turn in. Held by a tight muscle, or one of the \
             two was misjudged.",
            eye.word()
        );
        say(case, says, &[(limit, Place::In(eye)), (What::SlowAdduction, Place::In(eye))])
    })
}

fn near_point_against_convergence(case: &Case<'_>) -> Option<Contradiction> {
    let far = case.seen(What::FarNearPoint, Place::Both);
    let near = case.absent(What::FarNearPoint, Place::Both);
    let broken = case.all(&[What::BrokenConvergence]).next();
    let says = match (far, near, broken) {
        (true, _, None) if case.absent(What::BrokenConvergence, Place::Both) => {
            "The near point lies far out, but slow convergence was smooth. Check the end point (double or blurred) and the \
             distance that convergence was followed to."
        }
        (_, true, Some(_)) => {
            "Slow convergence broke, but the near point lies within its range. Attention or the target may have \
             differed."
        }
        _ => return None,
    };
    let mut from = vec![(What::FarNearPoint, Place::Both)];
    from.push((What::BrokenConvergence, broken.map_or(Place::Both, |sign| sign.place)));
    Some(say(case, says.to_string(), &from))
}

/// A hemisphere shows on the other side of the body.
fn body_against_hemisphere(case: &Case<'_>, patterns: &[Pattern], side: Side) -> Option<Contradiction> {
    let read = patterns.iter().find(|pattern| pattern.id == "pursuit_and_optokinetic_same_side")?;
    if read.place != toward(side.direction()) {
        return None;
    }
    let body: Vec<(What, Place)> = [What::TouchLess, What::ArmDrift]
        .into_iter()
        .map(|what| (what, Place::On(side)))
        .filter(|(what, place)| case.seen(*what, *place))
        .collect();
    (!body.is_empty()).then(|| {
        let says = format!(
            "Following and stripes are worse to the {}, and touch or strength is less on the {} too. After a lesion of one \
             hemisphere the two lie on opposite sides, so one place does not explain both.",
            side.word(),
            side.word()
        );
        let mut contradiction = say(case, says, &body);
        contradiction.from.extend(read.from.iter().cloned());
        contradiction
    })
}

/// Clumsy limbs go with the cerebellum of their own side, and so does following.
fn limbs_against_cerebellum(case: &Case<'_>, side: Side) -> Option<Contradiction> {
    let worse = case.one_way(What::PursuitWorse)?;
    let clumsy = |side| case.seen(What::ClumsyLimb, Place::On(side));
    (worse == side.other().direction() && clumsy(side) && !clumsy(side.other())).then(|| {
        let says = format!(
            "Following is worse {}, but limb movements are clumsy on the {}. With one half of the cerebellum both would be on \
             the same side (from memory).",
            worse.phrase(),
            side.word()
        );
        say(case, says, &[(What::PursuitWorse, toward(worse)), (What::ClumsyLimb, Place::On(side))])
    })
}

fn limited(case: &Case<'_>, direction: Direction) -> bool {
    [Eye::Right, Eye::Left].into_iter().all(|eye| case.seen(What::LimitedGaze(direction), Place::In(eye)))
}

fn toward(direction: Direction) -> Place {
    Place::Toward(direction)
}

/// The sentence with the findings behind the signs, looked for or seen.
fn say(case: &Case<'_>, says: String, signs: &[(What, Place)]) -> Contradiction {
    let mut from: Vec<String> = Vec::new();
    for (what, place) in signs {
        let behind = |sign: &&Sign| sign.what == *what && sign.place == *place;
        for sign in case.signs.iter().filter(behind) {
            if !from.contains(&sign.finding) {
                from.push(sign.finding.clone());
            }
        }
    }
    debug_assert!(signs.iter().all(|(what, place)| sign::looked_for(case.signs, *what, *place)));
    Contradiction { says, from }
}

#[cfg(test)]
mod tests;
