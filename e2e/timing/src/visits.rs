//! A simulated person with eleven full visits, and all that is worked out from them.

use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::{Changes, Occasion, between};
use sidelight_tests::calibration::healthy::Healthy;
use sidelight_tests::dice::Dice;

/// Visits before the one that is assessed.
pub const EARLIER: i64 = 10;

/// The person and the visits, oldest first.
pub fn person() -> (Person, Vec<Visit>) {
    let mut dice = Dice::new(7);
    let healthy = Healthy::draw(&mut dice);
    let visit = |dice: &mut Dice, week: i64| {
        let visit = healthy.visit(dice, None);
        let started = Moment { unix_ms: visit.started.unix_ms + week * 7 * 86_400_000, ..visit.started };
        Visit { id: format!("v{week}"), started, closed: Some(started), ..visit }
    };
    (healthy.person(), (0..=EARLIER).map(|week| visit(&mut dice, week)).collect())
}

/// Every visit read, and the last one set beside each earlier one.
pub fn whole(person: &Person, visits: &[Visit]) -> (Vec<Assessment>, Vec<Changes>) {
    let read: Vec<Assessment> = visits.iter().map(|visit| assess(person, visit)).collect();
    let occasions: Vec<Occasion<'_>> =
        visits.iter().zip(&read).map(|(visit, assessment)| Occasion { visit, assessment }).collect();
    let changes = match occasions.split_last() {
        Some((now, earlier)) => earlier.iter().map(|then| between(*then, *now)).collect(),
        None => Vec::new(),
    };
    (read, changes)
}
