//! The order law: the order in which tasks were examined changes nothing that is said about them.

use sidelight_core::archive;
use sidelight_core::assess::{Assessment, assess};
use sidelight_core::capture::symptoms;
use sidelight_core::capture::visit::Visit;

use crate::dice::Dice;
use crate::odd_visit::{Oddness, odd};

const VISITS: u64 = 200;

#[test]
fn the_order_of_the_tasks_changes_nothing() {
    let mut shuffled = 0;
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Valid);
        let other = reordered(&visit, seed);
        shuffled += usize::from(other != visit);
        assert_eq!(said(&assess(&person, &visit)), said(&assess(&person, &other)), "seed {seed}");
        assert_eq!(archive::read_visit(&archive::write_visit(&other)).as_ref(), Ok(&other), "seed {seed}");
    }
    assert!(shuffled > 150, "only {shuffled} visits were in another order");
}

/// The assessment with its gaps in a fixed order: parts of a newer program are listed as they come.
fn said(assessment: &Assessment) -> Assessment {
    let mut said = assessment.clone();
    said.gaps.sort_by(|a, b| (&a.slot, &a.what).cmp(&(&b.slot, &b.what)));
    said
}

/// The same records in another order. Ratings keep theirs among each other: the last one decides whether somebody is too
/// dizzy for the next task.
fn reordered(visit: &Visit, seed: u64) -> Visit {
    let mut dice = Dice::new(seed ^ 0x5EED);
    let mut visit = visit.clone();
    let is_rating = |at: &usize| visit.records[*at].form() == symptoms::FORM.id;
    let others: Vec<usize> = (0..visit.records.len()).filter(|at| !is_rating(at)).collect();
    for place in (1..others.len()).rev() {
        let other = dice.below(place as u64 + 1) as usize;
        visit.records.swap(others[place], others[other]);
    }
    visit
}
