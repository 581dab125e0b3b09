//! What the tasks did to the four symptoms, by both published scorings: the sum after each task (total) and its rise from
//! before the tasks (change).
//!
//! A "test" of the published screen is one task here, and its score is the sum of the four ratings after it (0 to 40).

pub mod limits;
mod measures;

pub use measures::LIMITS;

use crate::capture::symptoms::{self, ITEMS};
use crate::capture::visit::Visit;
use crate::evidence::Norm;
use crate::finding::{Finding, Gap, Grade, Place, Value, Why};
use crate::measure::Measure;
use crate::score;
use crate::task::Task;

/// The highest rating a scale has; anything above is not one this program asked for and counts as not rated.
const HIGHEST: u8 = 10;

/// Symptoms before the tasks and after each, and what they say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Provocation {
    /// Ratings before the first task, if any symptom was rated.
    pub before: Option<Ratings>,
    /// Ratings after tasks, in exam order.
    pub after: Vec<After>,
    /// Findings: what was there before, and what the tasks did by both scorings.
    pub findings: Vec<Finding>,
    /// What was not rated.
    pub gaps: Vec<Gap>,
    /// Sums and rises to compare with another visit.
    pub measures: Vec<Measure>,
}

/// Ratings of the four symptoms on one occasion, in the order of [`ITEMS`]; `None` is not rated.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ratings(pub Vec<Option<u8>>);

/// Ratings after one task.
#[derive(Debug, Clone, PartialEq)]
pub struct After {
    /// The task.
    pub task: &'static Task,
    /// The ratings.
    pub ratings: Ratings,
    /// Sum after minus sum before; `None` unless all four were rated both times.
    pub change: Option<i32>,
}

/// Reads the symptoms around these tasks.
#[must_use]
pub fn read(visit: &Visit, age: Option<u8>, tasks: &[&'static Task]) -> Provocation {
    let before = Ratings::of(visit, symptoms::BEFORE);
    let sum_before = before.as_ref().and_then(Ratings::sum);
    let after: Vec<After> = tasks
        .iter()
        .filter_map(|task| {
            let ratings = Ratings::of(visit, &symptoms::after(task.id))?;
            let change = sum_before.zip(ratings.sum()).map(|(before, after)| i32::from(after) - i32::from(before));
            Some(After { task, ratings, change })
        })
        .collect();
    let gaps = gaps(visit, before.as_ref(), tasks);
    let mut provoked = provoked(before.as_ref(), &after, age);
    // With a task unrated nobody knows whether it brought symptoms on: that is recorded, not in range.
    if let Some(finding) = provoked.as_mut().filter(|finding| finding.grade == Grade::WithinRange)
        && gaps.iter().any(|gap| gap.slot != symptoms::BEFORE)
    {
        finding.grade = Grade::NoRange;
    }
    let findings = [before.as_ref().map(found_before), provoked];
    let measures = measures::of(before.as_ref(), &after);
    Provocation { findings: findings.into_iter().flatten().collect(), before, after, gaps, measures }
}

impl Ratings {
    fn of(visit: &Visit, slot: &str) -> Option<Ratings> {
        let rated = symptoms::rated(visit, slot)?;
        let item = |id| symptoms::rating(rated, id).filter(|value| *value <= HIGHEST);
        let ratings = Ratings(ITEMS.iter().map(|choice| item(choice.id)).collect());
        ratings.0.iter().any(Option::is_some).then_some(ratings)
    }

    /// The sum; `None` unless all four were rated.
    #[must_use]
    pub fn sum(&self) -> Option<u16> {
        self.0.iter().map(|rating| rating.map(u16::from)).sum()
    }

    /// The sum of what was rated: the true sum is at least this.
    #[must_use]
    pub fn at_least(&self) -> u16 {
        self.0.iter().flatten().copied().map(u16::from).sum()
    }

    /// Labels of the symptoms that were not rated, in small letters.
    fn missing(&self) -> Vec<String> {
        let unrated = ITEMS.iter().zip(&self.0).filter(|(_, rating)| rating.is_none());
        unrated.map(|(item, _)| item.label.to_lowercase()).collect()
    }

    /// "headache 2, dizziness 1"; symptoms of 0 are left out.
    fn listed(&self) -> String {
        let present = ITEMS.iter().zip(&self.0).filter_map(|(item, rating)| {
            rating.filter(|value| *value > 0).map(|value| format!("{} {value}", item.label.to_lowercase()))
        });
        present.collect::<Vec<_>>().join(", ")
    }
}

impl Provocation {
    /// The rises over the tasks that are tests of the published screen added up; `None` when none of them has one.
    #[must_use]
    pub fn overall(&self) -> Option<i32> {
        overall(&self.after)
    }

    /// Whether any symptom was rated above 0 at any time.
    #[must_use]
    pub fn any_symptom(&self) -> bool {
        let all = self.before.iter().chain(self.after.iter().map(|after| &after.ratings));
        all.map(Ratings::at_least).any(|sum| sum > 0)
    }
}

fn found_before(before: &Ratings) -> Finding {
    let headline = match (before.at_least(), before.sum()) {
        (0, Some(_)) => "No symptoms before the tasks".to_string(),
        (0, None) => "No symptoms among those rated before the tasks".to_string(),
        (_, Some(sum)) => format!("Already there before the tasks: {} (sum {sum})", before.listed()),
        (_, None) => format!("Already there before the tasks: {}", before.listed()),
    };
    let value = before.sum().map(|sum| Value { number: f64::from(sum), unit: "", interval: None });
    Finding { value, ..Finding::new("symptoms", "before", Place::Both, headline) }
}

/// Both scorings in one finding, because they read the same rise: its grade is the graver of the two.
///
/// A sum that was there before the task and did not rise is said as such and is not a provocation.
fn provoked(before: Option<&Ratings>, after: &[After], age: Option<u8>) -> Option<Finding> {
    let highest = after.iter().map(|a| a.ratings.at_least()).max()?;
    let largest = after.iter().filter_map(|a| a.change).max();
    let reached: Vec<&After> = after.iter().filter(|a| limit_reached(a)).collect();
    let brought_on: Vec<&After> = reached.iter().copied().filter(|a| a.change.is_none_or(|c| c > 0)).collect();
    let risen: Vec<&After> = after.iter().filter(|a| a.change.is_some_and(|c| c > 0)).collect();
    let headline = match largest {
        Some(most @ 1..) => {
            let alike = risen.iter().all(|a| a.change == Some(most));
            format!("Symptoms rose by {}", up_to(most, alike, &risen))
        }
        _ if !brought_on.is_empty() => {
            let alike = brought_on.iter().all(|a| a.ratings.at_least() == highest);
            format!("Symptoms add up to {}", up_to(highest, alike, &brought_on))
        }
        Some(_) if !reached.is_empty() => format!("Symptoms add up to {highest} after the tasks, no more than before"),
        Some(_) if highest == 0 => "No symptoms after any rated task".to_string(),
        Some(_) => "Symptoms did not rise with any rated task".to_string(),
        None if highest == 0 => "No symptoms among those rated after the tasks".to_string(),
        None => format!("Symptoms add up to {highest} at most after the tasks"),
    };
    let mut finding = Finding::new("symptoms", "provoked", Place::Both, headline);
    finding.grade = grade_of_total(after, &reached, &brought_on).max(grade_of_change(after));
    let counted: Vec<&After> = after.iter().filter(|a| limit_reached(a) || a.change.is_some_and(|c| c > 0)).collect();
    let scorings = both_scorings(before, after, &reached, &brought_on);
    let beyond = beyond_the_screen(&counted).map(|said| format!(" {said}")).unwrap_or_default();
    finding.details.push(format!("{scorings}{beyond}"));
    finding.sources.push(limits::TOTAL.source);
    if largest.is_some() {
        finding.details.push(format!(
            "Error alone makes 1 with one test and 8 over all ({}); the limit over all was set for seven tests.",
            limits::CONSORTIUM.short
        ));
        finding.sources.extend([limits::CHANGE.source, &limits::CONSORTIUM]);
    }
    if age.is_some_and(limits::no_sample_near) && finding.grade >= Grade::NearLimit {
        finding.details.push("No healthy sample near this age was found; the nearest is shown.".to_string());
    }
    finding.norm = Some(if largest.is_some() { &limits::CHANGE } else { &limits::TOTAL });
    let by_total = if brought_on.is_empty() { Vec::new() } else { limits::total_rates(age) };
    let by_change = if risen.is_empty() { Vec::new() } else { limits::change_rates(age) };
    // The nearest sample of each scoring stands first: a reader in a hurry sees one of both.
    let first = by_total.first().into_iter().chain(by_change.first());
    let rest = by_total.iter().skip(1).chain(by_change.iter().skip(1));
    finding.healthy.extend(first.chain(rest).copied());
    let number = largest.map_or(f64::from(highest), f64::from);
    finding.value = Some(Value { number, unit: "", interval: None });
    Some(finding)
}

fn limit_reached(after: &After) -> bool {
    score::grade(f64::from(after.ratings.at_least()), &limits::TOTAL) != Grade::WithinRange
}

fn grade_of_total(after: &[After], reached: &[&After], brought_on: &[&After]) -> Grade {
    let each = brought_on.iter().map(|a| a.graded(f64::from(a.ratings.at_least()), &limits::TOTAL));
    if let Some(worst) = each.max() {
        return worst;
    }
    let all_rated = after.iter().all(|a| a.ratings.sum().is_some());
    if reached.is_empty() && all_rated { Grade::WithinRange } else { Grade::NoRange }
}

fn grade_of_change(after: &[After]) -> Grade {
    let each = after.iter().filter_map(|a| Some(a.graded(f64::from(a.change?), &limits::CHANGE)));
    let Some(worst) = each.max() else { return Grade::NoRange };
    let risen = after.iter().any(|a| a.screened() && a.change.is_some_and(|c| c > 0));
    match overall(after) {
        Some(overall) if risen => worst.max(score::grade(f64::from(overall), &limits::OVERALL)),
        Some(_) | None => worst,
    }
}

impl After {
    /// Whether the task is a test of the published screen.
    fn screened(&self) -> bool {
        limits::SCREENED.contains(&self.task.id)
    }

    /// The grade against a cut-off of the screen. After a task the cut-off was not set for, nothing is outside it.
    fn graded(&self, value: f64, norm: &Norm) -> Grade {
        let grade = score::grade(value, norm);
        if self.screened() { grade } else { grade.min(Grade::NearLimit) }
    }
}

/// One sentence for each scoring, with its cut-offs.
fn both_scorings(before: Option<&Ratings>, after: &[After], reached: &[&After], brought_on: &[&After]) -> String {
    let highest = after.iter().map(|a| a.ratings.at_least()).max().unwrap_or_default();
    let start = match before.and_then(Ratings::sum) {
        Some(sum) if !reached.is_empty() && brought_on.is_empty() => {
            format!("{sum} before the first task, so the tasks did not bring it on")
        }
        Some(sum) => format!("{sum} before the tasks"),
        None => "not all rated before the tasks, so they may have been there already".to_string(),
    };
    let total = format!("Sum: {highest} at most, {start} (2 or more counts; {}).", limits::TOTAL.source.short);
    let Some(largest) = after.iter().filter_map(|a| a.change).max() else {
        return total;
    };
    let tests = after.iter().filter(|a| a.screened() && a.change.is_some()).count();
    let over_all = match (overall(after), tests) {
        (Some(overall), 2..) => format!(", {} over the {tests} tasks of the symptom screen", signed(overall)),
        (Some(_) | None, _) => String::new(),
    };
    format!(
        "{total} Change: {} at most{over_all} (1 with a task, or 3 over all, counts; {}).",
        signed(largest),
        limits::CHANGE.source.short
    )
}

/// "+3", "-1", and "0" without a sign.
#[must_use]
pub fn signed(change: i32) -> String {
    if change == 0 { "0".to_string() } else { format!("{change:+}") }
}

fn overall(after: &[After]) -> Option<i32> {
    let changes: Vec<i32> = after.iter().filter(|a| a.screened()).filter_map(|a| a.change).collect();
    (!changes.is_empty()).then(|| changes.iter().sum())
}

/// "4 after jumps", "4 after jumps and stripes" when alike, else "up to 4 after jumps and stripes".
fn up_to(most: impl std::fmt::Display, alike: bool, after: &[&After]) -> String {
    let titles: Vec<String> = after.iter().map(|a| a.task.title.to_lowercase()).collect();
    let up_to = if alike { "" } else { "up to " };
    match titles.as_slice() {
        [start @ .., last] if !start.is_empty() => format!("{up_to}{most} after {} and {last}", start.join(", ")),
        one => format!("{most} after {}", one.concat()),
    }
}

fn beyond_the_screen(after: &[&After]) -> Option<String> {
    let other = after.iter().filter(|a| !a.screened());
    let titles: Vec<String> = other.map(|a| a.task.title.to_lowercase()).collect();
    (!titles.is_empty()).then(|| format!("The cut-offs were not set for {}.", titles.join(" or ")))
}

fn gaps(visit: &Visit, before: Option<&Ratings>, tasks: &[&'static Task]) -> Vec<Gap> {
    let mut gaps = Vec::new();
    match before {
        None => gaps.push(Gap {
            slot: symptoms::BEFORE.to_string(),
            what: "symptoms before the tasks (so no change can be said)".to_string(),
            why: Why::missing(visit, symptoms::BEFORE),
        }),
        Some(ratings) => gaps.extend(unrated(ratings, symptoms::BEFORE, "before the tasks")),
    }
    // Asked for when the task was begun, or when the questions after it were opened.
    let due = |task: &&&Task| visit.filled(task.id).is_some() || visit.filled(&symptoms::after(task.id)).is_some();
    for task in tasks.iter().filter(|task| task.provokes).filter(due) {
        let slot = symptoms::after(task.id);
        let when = format!("after {}", task.title.to_lowercase());
        match Ratings::of(visit, &slot) {
            None => {
                gaps.push(Gap { what: format!("symptoms {when}"), why: Why::missing(visit, &slot), slot });
            }
            Some(ratings) => gaps.extend(unrated(&ratings, &slot, &when)),
        }
    }
    gaps
}

fn unrated(ratings: &Ratings, slot: &str, when: &str) -> Option<Gap> {
    let missing = ratings.missing();
    (!missing.is_empty()).then(|| Gap {
        slot: slot.to_string(),
        what: format!("{} {when}", missing.join(", ")),
        why: Why::NotRecorded,
    })
}

#[cfg(test)]
mod tests;
