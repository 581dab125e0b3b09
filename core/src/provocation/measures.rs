//! Symptom sums and rises as values to compare with another visit, with their published limits of error.

use super::limits::{CHANGE, CONSORTIUM, OVERALL, TOTAL};
use super::{After, Ratings};
use crate::anatomy::Place;
use crate::evidence::{ChangeLimit, Norm};
use crate::measure::{Amount, Better, Measure};
use crate::sorted;

/// The tests of the published screen that move the head or the whole body; its authors call them vestibular.
static VESTIBULAR: &[&str] = &["head_turn_gaze", "whole_body_turn"];

/// Smallest detectable changes at 95 %: CARE consortium 2021, Brain Inj 35:1563.
static SUM_AFTER_EYE_TEST: &[ChangeLimit] = &[limit(1.0)];
static SUM_AFTER_VESTIBULAR_TEST: &[ChangeLimit] = &[limit(2.0)];
static SUM_OVER_ALL: &[ChangeLimit] = &[limit(10.0)];
static RISE_WITH_ONE: &[ChangeLimit] = &[limit(1.0)];
static RISE_OVER_ALL: &[ChangeLimit] = &[limit(8.0)];

/// Every limit of error, with what it is a limit of.
pub static LIMITS: &[(&str, &[ChangeLimit])] = &[
    ("sum of the symptoms after an eye test", SUM_AFTER_EYE_TEST),
    ("sum of the symptoms after head or body turns", SUM_AFTER_VESTIBULAR_TEST),
    ("sums of the symptoms over all tasks", SUM_OVER_ALL),
    ("rise of the symptoms with one task", RISE_WITH_ONE),
    ("rises of the symptoms over all tasks", RISE_OVER_ALL),
];

/// The sum before the tasks, the sum and the rise of each task, and both over the tasks of the published screen.
///
/// A sum or a rise that is not whole, because a symptom was not rated, is left out. Only the tests of the screen have
/// limits; after other tasks a difference is told as seen.
pub(super) fn of(before: Option<&Ratings>, after: &[After]) -> Vec<Measure> {
    let mut measures = Vec::new();
    let at_first = before.and_then(Ratings::sum);
    measures.extend(at_first.map(|sum| measure("before", "symptoms before the tasks", f64::from(sum), &[], None)));
    for after in after {
        let (id, title) = (after.task.id, after.task.title.to_lowercase());
        let rise_limits: &[ChangeLimit] = if after.screened() { RISE_WITH_ONE } else { &[] };
        let sum = after.ratings.sum().map(|sum| {
            let what = format!("symptoms after {title}");
            measure(
                &format!("sum.{id}"),
                &what,
                f64::from(sum),
                limits_of_sum(after),
                after.screened().then_some(&TOTAL),
            )
        });
        let rise = after.change.map(|rise| {
            let what = format!("rise of symptoms with {title}");
            measure(&format!("rise.{id}"), &what, f64::from(rise), rise_limits, after.screened().then_some(&CHANGE))
        });
        measures.extend(sum.into_iter().chain(rise));
    }
    measures.extend(over_all(after));
    measures
}

/// Both scorings over the tasks of the screen; two visits with other tasks are not measured alike.
fn over_all(after: &[After]) -> Vec<Measure> {
    let screened: Vec<&After> = after.iter().filter(|after| after.screened()).collect();
    if screened.len() < 2 {
        return Vec::new();
    }
    // The same tasks in another order are the same tasks.
    let mut titles: Vec<String> = screened.iter().map(|after| after.task.title.to_lowercase()).collect();
    sorted::by(&mut titles, Ord::cmp);
    let tasks = titles.join(", ");
    let sum: Option<u16> = screened.iter().map(|after| after.ratings.sum()).sum();
    let rise: Option<i32> = screened.iter().map(|after| after.change).sum();
    let sum = sum.map(|sum| measure("sum.all", "symptoms over all tests", f64::from(sum), SUM_OVER_ALL, None));
    let rise = rise.map(|rise| {
        measure("rise.all", "rise of symptoms over all tests", f64::from(rise), RISE_OVER_ALL, Some(&OVERALL))
    });
    let with_tasks = |measure: Measure| Measure { method: vec![("tasks", tasks.clone())], ..measure };
    sum.into_iter().chain(rise).map(with_tasks).collect()
}

fn limits_of_sum(after: &After) -> &'static [ChangeLimit] {
    match (after.screened(), VESTIBULAR.contains(&after.task.id)) {
        (false, _) => &[],
        (true, true) => SUM_AFTER_VESTIBULAR_TEST,
        (true, false) => SUM_AFTER_EYE_TEST,
    }
}

fn measure(key: &str, what: &str, value: f64, limits: &'static [ChangeLimit], norm: Option<&'static Norm>) -> Measure {
    Measure {
        key: format!("symptoms.{key}"),
        task: "symptoms",
        what: what.to_string(),
        place: Place::Both,
        amount: Amount::Number { value, unit: "" },
        better: Better::Lower,
        method: Vec::new(),
        limits,
        norm,
    }
}

const fn limit(value: f64) -> ChangeLimit {
    ChangeLimit { value, unit: "", population: "378 at college, 17 to 25 years, a year apart", source: &CONSORTIUM }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::task::by_id;

    fn rated(values: [u8; 4]) -> Ratings {
        Ratings(values.into_iter().map(Some).collect())
    }

    fn after(task: &str, values: [u8; 4], before: i32) -> After {
        let ratings = rated(values);
        let change = ratings.sum().map(|sum| i32::from(sum) - before);
        After { task: by_id(task).expect("a task"), ratings, change }
    }

    fn value(measures: &[Measure], key: &str) -> Option<f64> {
        match measures.iter().find(|measure| measure.key == key)?.amount {
            Amount::Number { value, .. } => Some(value),
            Amount::Share(_) | Amount::Step { .. } => None,
        }
    }

    /// 2 before; 5 after near point, 3 after following, 6 after stripes, which is no test of the screen: sums over the
    /// screen 5 + 3 = 8, rises 3 + 1 = 4.
    #[test]
    fn sums_and_rises_by_task_and_over_the_tests_of_the_screen() {
        let before = rated([1, 0, 0, 1]);
        let all = [
            after("near_point", [3, 1, 0, 1], 2),
            after("pursuit", [1, 1, 0, 1], 2),
            after("optokinetic", [4, 1, 0, 1], 2),
        ];
        let measures = of(Some(&before), &all);
        for (key, expected) in [
            ("symptoms.before", 2.0),
            ("symptoms.sum.near_point", 5.0),
            ("symptoms.rise.near_point", 3.0),
            ("symptoms.rise.pursuit", 1.0),
            ("symptoms.rise.optokinetic", 4.0),
            ("symptoms.sum.all", 8.0),
            ("symptoms.rise.all", 4.0),
        ] {
            assert_eq!(value(&measures, key), Some(expected), "{key}");
        }
        let of_stripes = measures.iter().find(|measure| measure.key == "symptoms.rise.optokinetic").expect("is there");
        assert!(of_stripes.limits.is_empty(), "no limit is published for stripes");
        let all = measures.iter().find(|measure| measure.key == "symptoms.rise.all").expect("is there");
        assert_eq!(all.method, [("tasks", "following, near point".to_string())]);
    }

    #[test]
    fn a_symptom_that_was_not_rated_leaves_no_sum() {
        let mut one = after("near_point", [3, 1, 0, 1], 2);
        (one.ratings.0[2], one.change) = (None, None);
        let other = after("pursuit", [0, 0, 0, 0], 0);
        let measures = of(None, &[one, other]);
        assert_eq!(value(&measures, "symptoms.before"), None);
        assert_eq!(value(&measures, "symptoms.sum.near_point"), None);
        assert_eq!(value(&measures, "symptoms.sum.pursuit"), Some(0.0));
        assert_eq!(value(&measures, "symptoms.sum.all"), None, "a missing sum is not zero");
    }
}
