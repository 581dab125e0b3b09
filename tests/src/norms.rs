//! The page of all figures holds every one that a task or a visit can show.

use std::collections::BTreeSet;

use sidelight_core::assess::assess;
use sidelight_core::document::Block;
use sidelight_core::measure::with_unit;
use sidelight_core::{norms, task};

use crate::odd_visit::{Oddness, odd};

/// Everything the page says, as one text.
fn words() -> String {
    let page = norms::page();
    let said = page.blocks.iter().flat_map(|block| match block {
        Block::Folded { headline, details } => {
            let said = std::iter::once(headline).chain(details);
            said.map(|said| said.text.clone()).collect()
        }
        _ => Vec::new(),
    });
    said.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_range_of_every_task_is_on_the_page_with_its_source() {
    let words = words();
    for norm in task::ALL.iter().flat_map(|task| task.norms) {
        let headline = format!("{}: {}", norm.what, norm.range());
        assert!(words.contains(&headline), "{headline} is missing");
        assert!(words.contains(norm.population) && words.contains(norm.source.place), "{} is not whole", norm.id);
        for rate in norm.healthy {
            assert!(
                words.contains(rate.rule) && words.contains(&rate.share()),
                "{}: {} is missing",
                norm.id,
                rate.rule
            );
        }
    }
}

#[test]
fn every_rate_and_limit_that_a_visit_shows_is_on_the_page() {
    let words = words();
    let mut missing = BTreeSet::new();
    let mut seen = 0;
    for seed in 0..600 {
        let (person, visit) = odd(seed, Oddness::Valid);
        let assessment = assess(&person, &visit);
        for finding in assessment.findings() {
            for rate in &finding.healthy {
                seen += 1;
                if !words.contains(rate.rule) || !words.contains(rate.source.short) {
                    missing.insert(format!("{}: {} ({})", finding.task, rate.rule, rate.source.short));
                }
            }
        }
        let measures = assessment.tasks.iter().flat_map(|task| &task.reading.measures);
        for measure in measures {
            for limit in measure.limits {
                seen += 1;
                if !words.contains(&format!("{}: {}", with_unit(limit.value, limit.unit), limit.population)) {
                    missing.insert(format!("{}: change of {} {}", measure.key, limit.value, limit.population));
                }
            }
        }
    }
    assert!(seen > 1000, "only {seen} rates and limits were shown");
    assert!(
        missing.is_empty(),
        "add these to core/src/norms.rs:\n{}",
        missing.into_iter().collect::<Vec<_>>().join("\n")
    );
}
