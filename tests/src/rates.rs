//! No flag stands without its base rate when one is published.

use std::collections::BTreeSet;

use sidelight_core::assess::assess;
use sidelight_core::finding::Grade;

use crate::odd_visit::{Oddness, odd};

const VISITS: u64 = 600;

/// Findings whose published rates are not of every age, so that a person may have none.
const BY_AGE: [&str; 1] = ["near_point.break"];

/// A range that names how often healthy people fall outside it is never printed without that, when they do.
#[test]
fn a_finding_outside_a_range_with_a_published_rate_carries_the_rate() {
    let (mut carried, mut bare) = (BTreeSet::new(), BTreeSet::new());
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Valid);
        let assessment = assess(&person, &visit);
        for finding in assessment.findings().filter(|finding| finding.grade >= Grade::NearLimit) {
            if finding.norm.is_none_or(|norm| norm.healthy.is_empty()) {
                continue;
            }
            let into = if finding.healthy.is_empty() { &mut bare } else { &mut carried };
            into.insert(finding.key.clone());
        }
    }
    bare.retain(|key| !BY_AGE.contains(&key.as_str()));
    assert!(bare.is_empty(), "outside without their published rate: {bare:?}");
    assert!(carried.contains("symptoms.provoked") && carried.contains("near_point.break"), "{carried:?}");
}

/// Where something lies outside its range and nothing is an emergency, the count of it stands beside a published share.
#[test]
fn what_is_outside_is_counted_beside_a_published_share() {
    let mut counted = 0;
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Valid);
        let assessment = assess(&person, &visit);
        let mut outside: Vec<&str> = assessment
            .findings()
            .filter(|finding| finding.grade == Grade::OutsideRange && finding.task != "symptoms")
            .map(|finding| finding.task)
            .collect();
        outside.sort_unstable();
        outside.dedup();
        let count = assessment.how_common.tasks.as_ref();
        assert_eq!(count.map_or(0, |count| count.outside), outside.len(), "seed {seed}");
        let shares = count.map_or(0, |count| count.rates.len());
        assert_eq!(shares > 0, !outside.is_empty(), "seed {seed}");
        counted += shares;
    }
    assert!(counted > 80, "only {counted} shares stood beside a count");
}
