//! Signs: what a task saw, as facts a rule can combine. Patterns, the working model and contradictions are read from
//! these, never from the words of a finding.

mod words;

use crate::anatomy::{Direction, Place};

/// One sign at one place, with the finding it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Sign {
    /// What was seen.
    pub what: What,
    /// Where: toward a direction, in an eye, on a side of the body.
    pub place: Place,
    /// Whether it was looked for and found.
    pub seen: Seen,
    /// Key of the finding that tells it.
    pub finding: String,
}

/// Whether a sign was seen. A sign that nobody looked for has no [`Sign`] at all: absent is never "not seen".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seen {
    /// It was seen.
    Yes,
    /// It was looked for and not seen.
    No,
}

/// What can be seen. The place of each is said in brackets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum What {
    /// Horizontal nystagmus with gaze straight ahead (toward its fast phase).
    RestingNystagmus,
    /// Vertical nystagmus with gaze straight ahead (toward its fast phase, up or down).
    VerticalNystagmus,
    /// Torsional nystagmus with gaze straight ahead (both).
    TorsionalNystagmus,
    /// Nystagmus that changes direction with gaze or by itself (both).
    ChangingNystagmus,
    /// One eye stands higher on covering (in the higher eye, or both when it is not known).
    Skew,
    /// A lid hangs lower (in the eye).
    Ptosis,
    /// Gaze of one eye does not reach the end of its range in this direction (in the eye).
    LimitedGaze(Direction),
    /// Sustained beats at the end of gaze (toward the gaze): gaze-evoked nystagmus.
    GazeEvokedNystagmus,
    /// Few beats at the end of gaze that stop (toward the gaze): end-point nystagmus, ordinary.
    EndPointNystagmus,
    /// The eye turns in slowly or not fully on a quick look across (in the adducting eye).
    SlowAdduction,
    /// The other eye beats outward meanwhile (in the abducting eye).
    AbductingNystagmus,
    /// Double vision in some direction of gaze (toward it, or both).
    DoubleVision,
    /// Slow convergence is broken or not possible (both, or in the eye that lets go).
    BrokenConvergence,
    /// Slow divergence is broken or not possible (both).
    BrokenDivergence,
    /// Near point of convergence beyond its range (both).
    FarNearPoint,
    /// Pursuit less smooth than ordinary in this direction (toward it).
    PursuitReduced,
    /// Pursuit worse in this direction than in the opposite one, by the task's own rule (toward it).
    PursuitWorse,
    /// Most saccades in this direction fall short (toward it).
    Hypometric,
    /// Most saccades in this direction go past (toward it).
    Hypermetric,
    /// More saccades miss in this direction than in the other by more than chance (toward it).
    SaccadesWorse,
    /// More saccades start late in this direction than in the other by more than chance (toward it).
    SaccadesLate,
    /// Antisaccade errors beyond the range for the age (both).
    AntisaccadeErrors,
    /// More antisaccade errors with the target on this side than on the other by more than chance (toward the target).
    AntisaccadeWorse,
    /// Optokinetic slow phase less than ordinary when stripes move this way (toward the stripes' motion).
    OptokineticReduced,
    /// Optokinetic slow phase worse when stripes move this way than the other (toward the stripes' motion).
    OptokineticWorse,
    /// Optokinetic quick phase less than ordinary (toward the quick phase, against the stripes' motion).
    QuickPhaseReduced,
    /// Head impulse toward this side without a catch-up saccade (toward it).
    SteadyImpulse,
    /// Head impulse toward this side with a catch-up saccade (toward it).
    CatchUpImpulse,
    /// Light touch felt less (on the side of the body).
    TouchLess,
    /// The raised arm drifts (on its side).
    ArmDrift,
    /// Finger to nose or rapid alternation worse (on its side).
    ClumsyLimb,
}

/// Whether the list holds this sign, seen, at this place.
#[must_use]
pub fn seen(signs: &[Sign], what: What, place: Place) -> bool {
    signs.iter().any(|sign| sign.what == what && sign.place == place && sign.seen == Seen::Yes)
}

/// Every seen sign of this kind.
pub fn all<'a>(signs: &'a [Sign], what: What) -> impl Iterator<Item = &'a Sign> + 'a {
    signs.iter().filter(move |sign| sign.what == what && sign.seen == Seen::Yes)
}

/// Whether the sign was looked for there, seen or not.
#[must_use]
pub fn looked_for(signs: &[Sign], what: What, place: Place) -> bool {
    signs.iter().any(|sign| sign.what == what && sign.place == place)
}

impl Sign {
    /// A sign and the key of the finding that tells it.
    #[must_use]
    pub fn new(what: What, place: Place, seen: bool, finding: &str) -> Sign {
        let seen = if seen { Seen::Yes } else { Seen::No };
        Sign { what, place, seen, finding: finding.to_string() }
    }
}
