//! Laws of change and trend: any two odd visits of a person can be compared, in either order, with the same result.

use sidelight_core::assess::assess;
use sidelight_core::change::{self, Occasion};
use sidelight_core::export::{svg, text};
use sidelight_core::summary::{self, Options};
use sidelight_core::trend;

use crate::odd_visit::{Oddness, odd};

const PAIRS: u64 = 300;

#[test]
fn any_two_visits_can_be_compared_whichever_comes_first() {
    let mut values = 0;
    for seed in 0..PAIRS {
        let (person, mut one) = odd(seed, Oddness::Anything);
        let (_, mut other) = odd(seed + PAIRS, Oddness::Anything);
        (one.person, other.person) = (person.id.clone(), person.id.clone());
        (one.id, other.id) = ("one".to_string(), "other".to_string());
        other.started.unix_ms = one.started.unix_ms + 86_400_000;
        let (read, other_read) = (assess(&person, &one), assess(&person, &other));
        let first = Occasion { visit: &one, assessment: &read };
        let second = Occasion { visit: &other, assessment: &other_read };
        let changes = change::between(first, second);
        assert_eq!(format!("{changes:?}"), format!("{:?}", change::between(second, first)), "seed {seed}");
        values += changes.all.len();
        let options = Options::new("test").with_changes(&changes);
        let page = summary::compose(&person, &other, &other_read, &options);
        assert!(text::render(&page).contains("COMPARED WITH"), "seed {seed}");
        let visits = [one.clone(), other.clone()];
        assert!(!text::render(&summary::person::compose(&person, &visits, &options)).is_empty(), "seed {seed}");
        for figure in trend::of(&person, &visits).iter().filter_map(trend::drawing) {
            let drawn = svg::render(&figure);
            roxmltree::Document::parse(&drawn).unwrap_or_else(|error| panic!("seed {seed}, {}: {error}", figure.id));
            assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "seed {seed}: {drawn}");
        }
    }
    assert!(values > 300, "only {values} values were compared");
}

/// A visit set against itself has changed in nothing.
#[test]
fn a_visit_against_itself_shows_no_change() {
    for seed in 0..PAIRS {
        let (person, visit) = odd(seed, Oddness::Valid);
        let read = assess(&person, &visit);
        let same = Occasion { visit: &visit, assessment: &read };
        let changes = change::between(same, same);
        assert!(changes.all.iter().all(|change| change.way == change::Way::Same), "seed {seed}: {changes:?}");
        assert!(changes.all.iter().all(|change| !change.verdict.beyond_error()), "seed {seed}: {changes:?}");
        assert!(changes.only_then.is_empty() && changes.only_now.is_empty(), "seed {seed}: {changes:?}");
    }
}
