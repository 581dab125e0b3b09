//! When symptoms say "go on", "stop and rest" or "call now". Published rules disagree; [`RULES`] shows them, and
//! [`Limits::CONSENSUS`] is the one in use.

use crate::capture::symptoms;
use crate::evidence::{Citation, Status};
use crate::exercise::evidence::{
    BEADS, CDC, CONSENSUS, DAY_RULE, ENT_UK, FIVE_MINUTES, HEART_RATE, LADDER, NHS_CHILD, PHYSIO, SCHOOL_2013, SET_RULE,
};

/// A rating from 0, none, to 10, the worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Rating(u8);

impl Rating {
    /// A rating; `None` above 10.
    #[must_use]
    pub fn new(value: u8) -> Option<Rating> {
        (value <= 10).then_some(Rating(value))
    }

    /// The number.
    #[must_use]
    pub fn value(self) -> u8 {
        self.0
    }
}

/// What one practice lets symptoms do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Largest rise that is still borne.
    pub rise: u8,
    /// Most minutes until it is back where it began.
    pub minutes: u16,
}

impl Limits {
    /// The rule in use: no more than 2 points of 10, for less than an hour, against the value just before (2022 consensus,
    /// Patricios et al. 2023, Br J Sports Med 57:695, table on learning).
    pub const CONSENSUS: Limits = Limits { rise: 2, minutes: 60 };

    /// Most that can be set: a rise of 2 on a scale of 0 to 6, which another rule allows, is 3 of 10.
    pub const MOST: Limits = Limits { rise: 3, minutes: 60 };

    /// Whether these are possible limits.
    #[must_use]
    pub fn possible(self) -> bool {
        self.rise <= Limits::MOST.rise
            && (5..=Limits::MOST.minutes).contains(&self.minutes)
            && self.minutes.is_multiple_of(5)
    }
}

/// Minutes after which "it should have settled" is a matter for a clinician: 24 hours (Australian and New Zealand guideline).
const A_DAY: u16 = 24 * 60;

/// What to do now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Go on as planned.
    GoOn,
    /// Stop for now and rest.
    StopAndRest,
    /// Call for help now.
    CallNow,
}

/// Why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// No rise, or one within the limits.
    Within,
    /// As much rise as is allowed: the easier step next time (our own caution).
    AtLimit,
    /// It rose beyond the limit.
    Rose,
    /// It took longer than the limit to settle.
    Lasted,
    /// It was that strong before beginning (convention, from memory: 7 of 10).
    StrongBefore,
    /// It had not settled after a day: call the practice.
    ADay,
    /// A danger sign: call the emergency number.
    Danger,
}

/// What is known of one round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Round {
    /// The worst symptom before.
    pub before: Rating,
    /// The worst symptom after; `None` before it was done.
    pub after: Option<Rating>,
    /// Minutes until it was back where it began; `None` when it is not known yet.
    pub settled: Option<u16>,
    /// Whether a danger sign was ticked.
    pub danger: bool,
}

/// Reads one round against the limits. The gravest reason decides.
#[must_use]
pub fn judge(round: &Round, limits: Limits) -> (Verdict, Reason) {
    let rise = round.after.map_or(0, |after| after.0.saturating_sub(round.before.0));
    let settled = round.settled.filter(|_| rise > 0).unwrap_or(0);
    if round.danger {
        return (Verdict::CallNow, Reason::Danger);
    }
    if settled >= A_DAY {
        return (Verdict::CallNow, Reason::ADay);
    }
    if rise > limits.rise {
        return (Verdict::StopAndRest, Reason::Rose);
    }
    // "Less than an hour": the full hour is beyond it.
    if settled >= limits.minutes {
        return (Verdict::StopAndRest, Reason::Lasted);
    }
    if round.before.0 >= symptoms::TOO_DIZZY {
        return (Verdict::StopAndRest, Reason::StrongBefore);
    }
    if rise > 0 && rise == limits.rise {
        return (Verdict::GoOn, Reason::AtLimit);
    }
    (Verdict::GoOn, Reason::Within)
}

impl Reason {
    /// The key of what a family reads.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Reason::Within => "felt.within",
            Reason::AtLimit => "felt.at_limit",
            Reason::Rose => "felt.rose",
            Reason::Lasted => "felt.lasted",
            Reason::StrongBefore => "felt.strong_before",
            Reason::ADay => "felt.a_day",
            Reason::Danger => "felt.danger",
        }
    }
}

/// A published rule.
#[derive(Debug)]
pub struct Rule {
    /// What it says, with its scale and time.
    pub says: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
    /// How sure it is.
    pub status: Status,
    /// Whether it is the one in use.
    pub used: bool,
}

/// The published rules side by side, the one in use first.
pub static RULES: &[Rule] = &[
    Rule {
        says: "a rise of 2 of 10 at most, for less than an hour, against the value just before (school; the same \
               words for sport are from memory)",
        source: &CONSENSUS,
        status: Status::Found,
        used: true,
    },
    other("a rise of 2 on 0 to 6, never up to 4; back within 15 to 20 minutes, or easier next time", &SET_RULE),
    other("back to the start within 15 to 20 minutes", &PHYSIO),
    other("longer than 5 minutes: leave the next exercise out and tell the therapist", &FIVE_MINUTES),
    other("no rise of headache; dizziness or nausea 5 of 10 at most", &BEADS),
    other("0 to 5: begin where it is 2 to 3, never 4 to 5; the next step after 3 days at 0", &LADDER),
    other("0 to 3, graded before and during; move on when clear", &ENT_UK),
    other("settled within 24 hours; longer was too much", &DAY_RULE),
    other("stay home if symptoms block 30 minutes of light work (older)", &SCHOOL_2013),
    other("exercise that speeds the heart: at 80 in 100 of the heart rate that raised symptoms", &HEART_RATE),
];

/// A danger sign a family is asked for after a head injury, and elsewhere.
#[derive(Debug)]
pub struct Danger {
    /// Key of what the family reads.
    pub key: &'static str,
    /// Where it is listed.
    pub sources: &'static [&'static Citation],
}

/// The danger signs of the sheet. Where lists disagree, the more careful one is taken: vomiting counts when it is repeated
/// (CDC), new trouble seeing counts (NHS). The face stands beside arm and leg for strokes (Aroor et al. 2017, Stroke 48:479).
pub static DANGERS: &[Danger] = &[
    Danger { key: "danger.wake", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.fit", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.headache", sources: &[&CDC] },
    Danger { key: "danger.vomiting", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.pupil", sources: &[&CDC] },
    Danger { key: "danger.sight", sources: &[&NHS_CHILD] },
    Danger { key: "danger.weak", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.speech", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.behaviour", sources: &[&CDC, &NHS_CHILD] },
    Danger { key: "danger.fluid", sources: &[&NHS_CHILD] },
    Danger { key: "danger.baby", sources: &[&CDC] },
];

const fn other(says: &'static str, source: &'static Citation) -> Rule {
    Rule { says, source, status: Status::Found, used: false }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn round(before: u8, after: u8, settled: Option<u16>) -> Round {
        let rating = |value| Rating::new(value).expect("0 to 10");
        Round { before: rating(before), after: Some(rating(after)), settled, danger: false }
    }

    fn of(before: u8, after: u8, settled: Option<u16>) -> (Verdict, Reason) {
        judge(&round(before, after, settled), Limits::CONSENSUS)
    }

    /// "No more than 2 points, for less than 1 hour, against the value just before" (2022 consensus).
    #[test]
    fn the_consensus_rule_is_kept_at_its_limits() {
        assert_eq!(of(1, 1, None), (Verdict::GoOn, Reason::Within));
        assert_eq!(of(1, 2, None), (Verdict::GoOn, Reason::Within));
        assert_eq!(of(1, 3, None), (Verdict::GoOn, Reason::AtLimit));
        assert_eq!(of(1, 3, Some(59)), (Verdict::GoOn, Reason::AtLimit));
        assert_eq!(of(1, 3, Some(60)), (Verdict::StopAndRest, Reason::Lasted));
        assert_eq!(of(1, 4, Some(5)), (Verdict::StopAndRest, Reason::Rose));
    }

    #[test]
    fn a_fall_or_a_steady_rating_has_nothing_to_settle() {
        assert_eq!(of(5, 3, Some(90)), (Verdict::GoOn, Reason::Within));
        assert_eq!(of(3, 3, Some(2000)), (Verdict::GoOn, Reason::Within));
    }

    #[test]
    fn a_day_without_settling_calls_and_danger_calls_whatever_the_numbers() {
        assert_eq!(of(1, 2, Some(1439)), (Verdict::StopAndRest, Reason::Lasted));
        assert_eq!(of(1, 2, Some(1440)), (Verdict::CallNow, Reason::ADay));
        let calm = Round { danger: true, ..round(0, 0, None) };
        assert_eq!(judge(&calm, Limits::CONSENSUS), (Verdict::CallNow, Reason::Danger));
    }

    #[test]
    fn who_starts_with_seven_rests() {
        let start = |before| Round { after: None, ..round(before, 0, None) };
        assert_eq!(judge(&start(6), Limits::CONSENSUS).0, Verdict::GoOn);
        assert_eq!(judge(&start(7), Limits::CONSENSUS), (Verdict::StopAndRest, Reason::StrongBefore));
    }

    /// Over all ratings: a higher rating after never brings a milder verdict.
    #[test]
    fn worse_is_never_judged_milder() {
        for before in 0..=10 {
            for after in 0..10 {
                assert!(of(before, after, None).0 <= of(before, after + 1, None).0, "{before} {after}");
                for minutes in (0..1500).step_by(15) {
                    let (less, more) = (of(before, after, Some(minutes)).0, of(before, after, Some(minutes + 15)).0);
                    assert!(less <= more, "{before} {after} {minutes}");
                }
            }
        }
    }

    #[test]
    fn ratings_end_at_ten_and_one_rule_is_in_use() {
        assert_eq!(Rating::new(11), None);
        assert_eq!(Rating::new(10).map(Rating::value), Some(10));
        assert_eq!(RULES.iter().filter(|rule| rule.used).count(), 1);
        assert!(RULES[0].used);
        assert!(Limits::CONSENSUS.possible());
        assert!(!Limits { rise: 4, minutes: 60 }.possible() && !Limits { rise: 2, minutes: 90 }.possible());
    }
}
