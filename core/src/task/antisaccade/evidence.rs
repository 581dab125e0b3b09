//! Sources and the one limit of looking away.

use crate::evidence::{BaseRate, Citation, Limit, Norm, Status};
use crate::finding::Grade;
use crate::score;

pub(super) static EVDOKIMIDIS: Citation = Citation {
    short: "Evdokimidis et al. 2002",
    place: "2,006 young men of 18 to 25 years, Exp Brain Res 147 (volume from memory)",
    link: "pure.johnshopkins.edu/en/publications/the-antisaccade-task-in-a-sample-of-2006-young-men-i-normal-popul-3",
};
/// The same sample's second part: corrections, target distance, and the order of trials.
pub(super) static SMYRNIS: Citation = Citation {
    short: "Smyrnis et al. 2002",
    place: "effects of task parameters in the same young men, Exp Brain Res 147:53",
    link: "doi.org/10.1007/s00221-002-1207-5",
};
pub(super) static CONSTANTINIDIS: Citation = Citation {
    short: "Constantinidis et al. 1999",
    place: "200 healthy recruits, conference abstract",
    link: "eyemovement.org/ecem1999/Abstracts/Constantinidis_T.S.html",
};
pub(super) static MUNOZ: Citation = Citation {
    short: "Munoz et al. 1998",
    place: "168 people aged 5 to 79, Exp Brain Res (journal from memory)",
    link: "pubmed.ncbi.nlm.nih.gov/9746145",
};
pub(super) static FISCHER: Citation = Citation {
    short: "Fischer et al. 1997",
    place: "281 people aged 8 to 70, with a gap before the target",
    link: "optomotorik.de/pubs/brain754.htm",
};
pub(super) static OLINCY: Citation = Citation {
    short: "Olincy et al. 1997",
    place: "42 people aged 19 to 79, Neurobiol Aging 18:483",
    link: "doi.org/10.1016/s0197-4580(97)00109-7",
};

/// Errors in per cent up to which nothing is said: the mean of young men, 23, and one spread of 17 more (Evdokimidis et
/// al. 2002, worked out).
pub(super) const ORDINARY: f64 = 40.0;

pub(super) const ORDINARY_WORDS: &str =
    "Healthy young men average 23 % errors with a spread of 17 (Evdokimidis et al. 2002).";

/// Half of the 25° at which a published bedside protocol has its targets (pmc.ncbi.nlm.nih.gov/articles/PMC3441141, table
/// 2, three trials to each side). Nearer targets bring more errors (Smyrnis et al. 2002); half is common practice.
pub(super) const NEARER: f64 = 12.5;

static POOREST: [BaseRate; 1] = [BaseRate {
    rule: "more than 58 % errors",
    low_percent: 5.0,
    high_percent: 5.0,
    population: "200 healthy recruits, recorded",
    source: &CONSTANTINIDIS,
}];

/// The poorest 5 in 100 were correct in fewer than 0.42 of the trials, which leaves 58 % errors. The ages are those of
/// the whole sample (Evdokimidis et al. 2002).
pub(super) static LIMIT: Norm = Norm {
    id: "antisaccade.errors.young",
    what: "antisaccade errors, corrected or not",
    unit: "%",
    limit: Limit::AtMost(58.0),
    error: None,
    ages: Some((18, 25)),
    population: "200 healthy recruits",
    source: &CONSTANTINIDIS,
    status: Status::Derived,
    healthy: &POOREST,
};

/// The share of healthy young men whom so many trials would put beyond the limit, in per cent: with few trials chance
/// carries more across it than the published 5.
///
/// Their own shares of errors are taken to follow a beta distribution with the published mean m = 0.23 and spread s =
/// 0.17, so that errors in n trials are beta-binomial; its two parameters are m k and (1 - m) k with k = m (1 - m) / s² - 1.
pub(super) fn beyond_by_chance(n: u32) -> f64 {
    let (mean, spread) = (0.23_f64, 0.17_f64);
    let weight = mean * (1.0 - mean) / (spread * spread) - 1.0;
    let (a, b) = (mean * weight, (1.0 - mean) * weight);
    let none: f64 = (0..n).map(|at| (b + f64::from(at)) / (a + b + f64::from(at))).product();
    let (mut probability, mut beyond) = (none, 0.0);
    for errors in 0..=n {
        let (k, n) = (f64::from(errors), f64::from(n));
        if score::grade(100.0 * k / n, &LIMIT) == Grade::OutsideRange {
            beyond += probability;
        }
        probability *= (n - k) / (k + 1.0) * (a + k) / (b + n - k - 1.0);
    }
    100.0 * beyond
}
