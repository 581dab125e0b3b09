//! A simulated person with eleven full visits, all that is worked out from them, and the plain numbers behind it.

use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::{Changes, Occasion, between};
use sidelight_core::measure::{Amount, Values};
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

/// The numbers that the tests are made on, as JSON for a program of another language.
#[must_use]
pub fn numbers(read: &[Assessment], changes: &[Changes]) -> String {
    let tables = read.iter().flat_map(Assessment::comparisons).map(|comparison| {
        let (right, left) = (comparison.right, comparison.left);
        list([right.events(), right.n(), left.events(), left.n()])
    });
    let sided = read.iter().flat_map(|visit| &visit.tasks).flat_map(|task| &task.reading.sided);
    let turns = sided.filter(|sided| sided.in_turn).map(|sided| list(sided.repetitions.iter().map(|each| each.score)));
    let courses = read.iter().flat_map(|visit| &visit.tasks).flat_map(|task| &task.reading.courses);
    let courses = courses.filter_map(|course| match &course.values {
        Values::Numbers(values, _) => Some(list(values.iter().copied())),
        Values::Events(_) | Values::BrokeAt(..) => None,
    });
    let shares =
        changes.iter().flat_map(|changes| &changes.all).filter_map(|change| match (&change.then, &change.now) {
            (Amount::Share(then), Amount::Share(now)) => Some(list([then.events(), then.n(), now.events(), now.n()])),
            _ => None,
        });
    format!(
        "{{\"tables\":{},\"turns\":{},\"courses\":{},\"changes\":{}}}",
        list(tables),
        list(turns),
        list(courses),
        list(shares)
    )
}

fn list<T: std::fmt::Display>(items: impl IntoIterator<Item = T>) -> String {
    let items: Vec<String> = items.into_iter().map(|item| item.to_string()).collect();
    format!("[{}]", items.join(","))
}
