//! How often the program is wrong about healthy people, and how often it misses a true one-sided deficit, by simulation.

pub mod healthy;

use std::collections::BTreeMap;

use sidelight_core::anatomy::{Direction, Side};
use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::Visit;
use sidelight_core::change::{Occasion, between};
use sidelight_core::side::Outcome;
use sidelight_core::statistics::Interval;
use sidelight_core::statistics::proportion::wilson;

use crate::dice::Dice;
use healthy::{Deficit, Healthy};

/// So many of so many.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Count {
    /// How often it happened.
    pub hits: u32,
    /// Out of how many.
    pub of: u32,
}

impl Count {
    fn add(&mut self, hit: bool) {
        self.hits += u32::from(hit);
        self.of += 1;
    }

    /// The share, 0 to 1; 0 when nothing was counted.
    #[must_use]
    pub fn share(self) -> f64 {
        f64::from(self.hits) / f64::from(self.of.max(1))
    }

    /// Its 95 % interval (Wilson).
    #[must_use]
    pub fn interval(self) -> Interval {
        wilson(self.hits, self.of, 0.95).unwrap_or(Interval { low: 0.0, high: 1.0 })
    }

    /// "2.34 % (95 % interval 2.1 to 2.6), 468 of 20000".
    #[must_use]
    pub fn words(self) -> String {
        let Interval { low, high } = self.interval();
        let (share, low, high) = (100.0 * self.share(), 100.0 * low, 100.0 * high);
        format!("{share:.2} % (95 % interval {low:.2} to {high:.2}), {} of {}", self.hits, self.of)
    }
}

/// How many healthy visits name a side.
#[must_use]
pub fn sides_named(visits: u32, seed: u64) -> Count {
    let mut dice = Dice::new(seed);
    let mut count = Count::default();
    for _ in 0..visits {
        let person = Healthy::draw(&mut dice);
        let visit = person.visit(&mut dice, None);
        count.add(named(&person, &visit).is_some());
    }
    count
}

/// How many visits of people with this deficit name its side, and how many the other one.
#[must_use]
pub fn power(deficit: f64, visits: u32, seed: u64) -> (Count, Count) {
    let mut dice = Dice::new(seed);
    let (mut right, mut wrong) = (Count::default(), Count::default());
    for _ in 0..visits {
        let person = Healthy::draw(&mut dice);
        let side = dice.pick(&[Side::Right, Side::Left]);
        let visit = person.visit(&mut dice, Some(Deficit { side, added: deficit }));
        let found = named(&person, &visit);
        right.add(found == Some(side.direction()));
        wrong.add(found.is_some_and(|direction| direction != side.direction()));
    }
    (right, wrong)
}

/// How often a change is called certain between two visits of someone unchanged, for each measure.
#[must_use]
pub fn changes_called(pairs: u32, seed: u64) -> BTreeMap<String, Count> {
    let mut dice = Dice::new(seed);
    let mut counts: BTreeMap<String, Count> = BTreeMap::new();
    for _ in 0..pairs {
        let healthy = Healthy::draw(&mut dice);
        let person = healthy.person();
        let (first, second) = (healthy.visit(&mut dice, None), later(healthy.visit(&mut dice, None)));
        let (then, now) = (assess(&person, &first), assess(&person, &second));
        let changes =
            between(Occasion { visit: &first, assessment: &then }, Occasion { visit: &second, assessment: &now });
        for change in changes.all.iter().filter(|change| change.verdict.tested()) {
            let certain = change.verdict == sidelight_core::change::Verdict::Certain;
            counts.entry(change.key.clone()).or_default().add(certain);
        }
    }
    counts
}

fn named(person: &Healthy, visit: &Visit) -> Option<Direction> {
    match assess(&person.person(), visit).side.outcome {
        Outcome::Worse(direction, _) => Some(direction),
        Outcome::TooFew { .. } | Outcome::NoSide(_) | Outcome::NotNamed(_) => None,
    }
}

/// The same visit a week later.
fn later(visit: Visit) -> Visit {
    let started = Moment { unix_ms: visit.started.unix_ms + 7 * 86_400_000, ..visit.started };
    Visit { id: "w".to_string(), started, ..visit }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The figures of large samples, and the command that makes them, stand in DEVELOPERS.md. What runs here is small
    // enough for every check; an upper limit of the interval below 5 % would need more visits, so the share is tested.
    const VISITS: u32 = 1500;

    #[test]
    fn healthy_visits_rarely_name_a_side() {
        let named = sides_named(VISITS, 1);
        println!("a side is named in {}", named.words());
        assert!(named.share() <= 0.05, "a side is named in {}", named.words());
    }

    #[test]
    fn a_large_deficit_is_found_and_on_its_own_side() {
        let (right, wrong) = power(0.6, 300, 2);
        println!("found: {}; on the wrong side: {}", right.words(), wrong.words());
        assert!(right.share() > 0.5, "only found in {}", right.words());
        assert!(wrong.share() < 0.01, "on the wrong side in {}", wrong.words());
    }

    #[test]
    fn unchanged_people_rarely_change() {
        let counts = changes_called(VISITS, 3);
        assert!(counts.len() >= 4, "only {} measures were compared", counts.len());
        for (key, count) in counts {
            println!("{key}: {}", count.words());
            assert!(count.share() <= 0.05, "{key} is called changed in {}", count.words());
        }
    }
}
