//! The plain numbers behind what is worked out from visits, for a program of another language.

use sidelight_core::assess::Assessment;
use sidelight_core::change::Changes;
use sidelight_core::measure::{Amount, Values};

/// The numbers that the tests are made on, as JSON for a program of another language.
#[must_use]
pub fn of(read: &[Assessment], changes: &[Changes]) -> String {
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
