//! Signs in words, for sentences that set several of them side by side.

use super::{Seen, Sign, What};
use crate::anatomy::{Eye, Place};

impl Sign {
    /// The sign as a phrase: "stripes worse moving to the left"; of one that was looked for and not seen, "no ...".
    #[must_use]
    pub fn words(&self) -> String {
        let words = self.what.words(self.place);
        match self.seen {
            Seen::Yes => words,
            Seen::No => format!("not seen: {words}"),
        }
    }
}

impl What {
    /// What is seen when the sign is there, as a phrase in small letters.
    #[must_use]
    pub fn words(self, place: Place) -> String {
        let at = at(place);
        match self {
            What::RestingNystagmus | What::VerticalNystagmus => format!("nystagmus at rest that beats{at}"),
            What::TorsionalNystagmus => "nystagmus that twists".to_string(),
            What::ChangingNystagmus => "nystagmus that changes direction".to_string(),
            What::Skew => format!("one eye standing higher{at}"),
            What::Ptosis => format!("a low lid{at}"),
            What::LimitedGaze(direction) => format!("gaze {} limited{at}", direction.phrase()),
            What::GazeEvokedNystagmus => format!("sustained beats looking{at}"),
            What::EndPointNystagmus => format!("a few beats looking{at}"),
            What::SlowAdduction => format!("{} slow to turn in", eye(place)),
            What::AbductingNystagmus => format!("{} beating as it turns out", eye(place)),
            What::DoubleVision => format!("double vision{at}"),
            What::BrokenConvergence => format!("slow convergence broken{at}"),
            What::BrokenDivergence => "slow divergence broken".to_string(),
            What::FarNearPoint => "a far near point".to_string(),
            What::PursuitReduced => format!("following{at} not smooth"),
            What::PursuitWorse => format!("following worse{at}"),
            What::Hypometric => format!("jumps{at} short"),
            What::Hypermetric => format!("jumps{at} past the target"),
            What::SaccadesWorse => format!("more jumps off target{at}"),
            What::SaccadesLate => format!("more late jumps{at}"),
            What::AntisaccadeErrors => "many errors in looking away".to_string(),
            What::AntisaccadeWorse => format!("more errors in looking away with the target{at}"),
            What::OptokineticReduced => format!("stripes moving{at} poorly followed"),
            What::OptokineticWorse => format!("stripes worse moving{at}"),
            What::QuickPhaseReduced => format!("jumps back from stripes weak or missing{at}"),
            What::SteadyImpulse => format!("no catch-up on a head impulse{at}"),
            What::CatchUpImpulse => format!("a catch-up on a head impulse{at}"),
            What::TouchLess => format!("touch felt less{at}"),
            What::ArmDrift => format!("arm drift{at}"),
            What::ClumsyLimb => format!("clumsy movements{at}"),
        }
    }
}

/// " to the right", " in the right eye", " on the right"; nothing when it is tied to no place.
fn at(place: Place) -> String {
    match place {
        Place::Both => String::new(),
        Place::Toward(direction) => format!(" {}", direction.phrase()),
        Place::In(Eye::Right) => " in the right eye".to_string(),
        Place::In(Eye::Left) => " in the left eye".to_string(),
        Place::On(side) => format!(" on the {}", side.word()),
    }
}

fn eye(place: Place) -> &'static str {
    match place {
        Place::In(Eye::Right) => "the right eye",
        Place::In(Eye::Left) => "the left eye",
        Place::Both | Place::Toward(_) | Place::On(_) => "an eye",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anatomy::{Direction, Side};

    #[test]
    fn a_sign_tells_what_and_where() {
        let at = |what: What, place, seen| Sign::new(what, place, seen, "t.x").words();
        let left = Place::Toward(Direction::Left);
        assert_eq!(at(What::OptokineticWorse, left, true), "stripes worse moving to the left");
        assert_eq!(at(What::SlowAdduction, Place::In(Eye::Right), true), "the right eye slow to turn in");
        assert_eq!(at(What::TouchLess, Place::On(Side::Left), true), "touch felt less on the left");
        assert_eq!(at(What::Skew, Place::Both, false), "not seen: one eye standing higher");
        let limited = What::LimitedGaze(Direction::Up);
        assert_eq!(at(limited, Place::In(Eye::Left), true), "gaze upward limited in the left eye");
    }
}
