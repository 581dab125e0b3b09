//! One round of an exercise as phases, for a guided timer: work, rest, work. A phase that is counted and not timed waits for
//! a tap.

use crate::exercise::{Amount, Dose};

/// What a phase is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// A set for so many seconds.
    Timed {
        /// Which set, counted from 1.
        set: u8,
        /// How long.
        seconds: u16,
    },
    /// A set that is done so many times, until it is tapped as done.
    Counted {
        /// Which set, counted from 1.
        set: u8,
        /// How often.
        times: u16,
    },
    /// Rest for so many seconds.
    Rest {
        /// How long.
        seconds: u16,
    },
}

/// The phases of one round, in order; there is no rest behind the last set.
#[must_use]
pub fn phases(dose: &Dose) -> Vec<Phase> {
    let mut phases = Vec::with_capacity(usize::from(dose.sets) * 2);
    for set in 1..=dose.sets {
        if set > 1 && dose.rest > 0 {
            phases.push(Phase::Rest { seconds: dose.rest });
        }
        phases.push(match dose.amount {
            Amount::Seconds(seconds) => Phase::Timed { set, seconds },
            Amount::Times(times) => Phase::Counted { set, times },
        });
    }
    phases
}

/// The shortest time one round takes, in seconds: rests and timed sets, without what is counted.
#[must_use]
pub fn least_seconds(dose: &Dose) -> u32 {
    let seconds = |phase: &Phase| match phase {
        Phase::Timed { seconds, .. } | Phase::Rest { seconds } => u32::from(*seconds),
        Phase::Counted { .. } => 0,
    };
    phases(dose).iter().map(seconds).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOSE: Dose = Dose { sets: 3, amount: Amount::Seconds(60), rest: 30, a_day: 1, a_week: 7, weeks: 4, beat: 0 };

    #[test]
    fn rest_stands_between_sets_only() {
        let work = |set| Phase::Timed { set, seconds: 60 };
        let rest = Phase::Rest { seconds: 30 };
        assert_eq!(phases(&DOSE), [work(1), rest, work(2), rest, work(3)]);
        assert_eq!(least_seconds(&DOSE), 240);
        assert_eq!(phases(&Dose { sets: 1, ..DOSE }), [work(1)]);
        assert_eq!(phases(&Dose { sets: 2, rest: 0, ..DOSE }), [work(1), work(2)]);
    }

    #[test]
    fn what_is_counted_waits_for_a_tap() {
        let counted = Dose { sets: 2, amount: Amount::Times(5), ..DOSE };
        let set = |set| Phase::Counted { set, times: 5 };
        assert_eq!(phases(&counted), [set(1), Phase::Rest { seconds: 30 }, set(2)]);
        assert_eq!(least_seconds(&counted), 30);
    }
}
