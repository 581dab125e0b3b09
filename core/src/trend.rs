//! Values of one person over the visits: a series for each measure, with the error of each point and the published range.

mod drawing;

use crate::assess::assess;
use crate::calendar::Moment;
use crate::capture::frame;
use crate::capture::visit::{Person, Visit};
use crate::change::named;
use crate::evidence::{ChangeLimit, Norm};
use crate::finding::Grade;
use crate::measure::{Amount, Better, Measure};
use crate::score;
use crate::side_by_side::CONFIDENCE;
use crate::sorted;
use crate::statistics::change::error_behind_limit;
use crate::statistics::normal;
use crate::statistics::proportion::wilson;

pub use drawing::{drawing, errors};

/// One measure over the visits of a person.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Key of the measure.
    pub key: String,
    /// The task, or "symptoms".
    pub task: &'static str,
    /// What is measured, with its place.
    pub what: String,
    /// Its unit; "in 100" for a share, empty for a sum and for a grade.
    pub unit: &'static str,
    /// The words of all steps, best first, when it is a grade.
    pub words: &'static [&'static str],
    /// Which way is better.
    pub better: Better,
    /// The range the latest value is read against.
    pub norm: Option<&'static Norm>,
    /// The widest published limit of error, behind the bars.
    pub limit: Option<&'static ChangeLimit>,
    /// Points in time order.
    pub points: Vec<Point>,
}

/// One visit's value.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// The visit's id.
    pub visit: String,
    /// When it was begun.
    pub at: Moment,
    /// The number that is drawn: in the series' unit, or the step of a grade.
    pub value: f64,
    /// As it is printed.
    pub words: String,
    /// 95 % limits of the value: the error of one measurement, or the Wilson interval of a share; `None` when unknown.
    pub limits: Option<(f64, f64)>,
    /// How it stood to the range of its own visit.
    pub grade: Grade,
    /// Whether the visit is the person's own baseline.
    pub baseline: bool,
    /// Whether it was measured in another way than the value before it.
    pub other_method: bool,
}

/// Every series with at least two visits, in exam order. Open visits are left out: they are not finished.
#[must_use]
pub fn of(person: &Person, visits: &[Visit]) -> Vec<Series> {
    let mut own: Vec<&Visit> =
        visits.iter().filter(|visit| visit.person == person.id && visit.closed.is_some()).collect();
    sorted::by_key(&mut own, |visit| visit.started);
    let mut found: Vec<(Series, Measure)> = Vec::new();
    for visit in own {
        let assessment = assess(person, visit);
        for measure in assessment.measures() {
            let told = assessment.findings().find(|finding| finding.key == measure.key);
            add(&mut found, visit, measure, told.map(|finding| finding.grade));
        }
    }
    let series = found.into_iter().map(|(series, _)| series);
    series.filter(|series| series.points.len() > 1).collect()
}

/// Adds a value to its series; one of another kind or unit begins no second line and is left out.
fn add(found: &mut Vec<(Series, Measure)>, visit: &Visit, measure: &Measure, grade: Option<Grade>) {
    let Some(value) = drawn(&measure.amount) else { return };
    let at = found.iter().position(|(series, _)| series.key == measure.key);
    let Some(at) = at else {
        let mut series = empty(measure);
        series.points.push(point(visit, measure, value, grade));
        found.push((series, measure.clone()));
        return;
    };
    let (series, before) = &mut found[at];
    if series.unit != unit(&measure.amount) || series.words != words(&measure.amount) {
        return;
    }
    let differs = |(part, now): &(&str, String)| before.method.iter().any(|(name, then)| name == part && then != now);
    let other_method = measure.method.iter().any(differs);
    series.points.push(Point { other_method, ..point(visit, measure, value, grade) });
    series.norm = norm(measure);
    *before = measure.clone();
}

fn empty(measure: &Measure) -> Series {
    let of_unit = |limit: &&ChangeLimit| limit.unit == unit(&measure.amount);
    Series {
        key: measure.key.clone(),
        task: measure.task,
        what: named(measure),
        unit: unit(&measure.amount),
        words: words(&measure.amount),
        better: measure.better,
        norm: norm(measure),
        limit: measure.limits.iter().filter(of_unit).max_by(|a, b| a.value.total_cmp(&b.value)),
        points: Vec::new(),
    }
}

fn point(visit: &Visit, measure: &Measure, value: f64, grade: Option<Grade>) -> Point {
    Point {
        visit: visit.id.clone(),
        at: visit.started,
        value,
        words: measure.amount.words(),
        limits: limits(measure, value),
        // The task's own finding knows more than the range: age, end point, how many repetitions.
        grade: grade.unwrap_or_else(|| norm(measure).map_or(Grade::NoRange, |norm| score::grade(value, norm))),
        baseline: frame::is_baseline(visit),
        other_method: false,
    }
}

/// The range, when it is in the unit that is drawn.
fn norm(measure: &Measure) -> Option<&'static Norm> {
    let drawn = if matches!(measure.amount, Amount::Share(_)) { "%" } else { unit(&measure.amount) };
    measure.norm.filter(|norm| norm.unit == drawn)
}

impl Series {
    /// Whether any two visits differ, as printed.
    #[must_use]
    pub fn moved(&self) -> bool {
        self.points.iter().any(|point| self.points.first().is_some_and(|first| first.words != point.words))
    }

    /// Whether it is a grade, which has words and no scale.
    #[must_use]
    pub fn is_grade(&self) -> bool {
        !self.words.is_empty()
    }
}

/// The number that is drawn; `None` where there is none.
fn drawn(amount: &Amount) -> Option<f64> {
    match amount {
        Amount::Number { value, .. } => Some(*value).filter(|value| value.is_finite()),
        Amount::Share(share) => share.rate().map(|rate| 100.0 * rate),
        Amount::Step { step, words } => (usize::from(*step) < words.len()).then(|| f64::from(*step)),
    }
}

fn unit(amount: &Amount) -> &'static str {
    match amount {
        Amount::Number { unit, .. } => unit,
        Amount::Share(_) => "in 100",
        Amount::Step { .. } => "",
    }
}

fn words(amount: &Amount) -> &'static [&'static str] {
    match amount {
        Amount::Step { words, .. } => words,
        Amount::Number { .. } | Amount::Share(_) => &[],
    }
}

/// The error of one value: 1.96 times the standard error behind the widest published limit of change, or the interval of
/// the share. Limits of change hold the error of two measurements; one has its share of it.
fn limits(measure: &Measure, value: f64) -> Option<(f64, f64)> {
    match &measure.amount {
        Amount::Number { unit, .. } => {
            let fit = measure.limits.iter().filter(|limit| limit.unit == *unit).map(|limit| limit.value);
            let half = normal::critical(CONFIDENCE)? * error_behind_limit(fit.max_by(f64::total_cmp)?, CONFIDENCE)?;
            Some((value - half, value + half))
        }
        Amount::Share(share) => {
            let interval = wilson(share.events(), share.n(), CONFIDENCE)?;
            Some((100.0 * interval.low, 100.0 * interval.high))
        }
        Amount::Step { .. } => None,
    }
}

#[cfg(test)]
mod tests;
