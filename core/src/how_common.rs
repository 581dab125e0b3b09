//! How common it is in health to have as much outside the range as this visit has.
//!
//! Each finding carries the rate of its own rule. This counts them together, because whoever looks for many things finds
//! something: the count is set beside the published share of healthy people with as many. The published counts are of
//! other rules and other tests, which is said with them.

use crate::evidence::{BaseRate, Citation};
use crate::finding::{Finding, Grade};
use crate::provocation::limits::{HIGH_SCHOOL, SCREENED};
use crate::provocation::{After, Provocation};
use crate::sorted;

/// A rise of one test that counts here: the rule of the published share (high-school sideline study).
pub const RISE: i32 = 2;

/// The sample of the visio-vestibular examination, in completed years (Corwin et al. 2018).
pub const EXAMINED: (u8, u8) = (6, 18);

/// Healthy people in a physician's examination of eye movements, near point and balance.
pub static CORWIN: Citation = Citation {
    short: "Corwin et al. 2018",
    place: "physician's visio-vestibular examination of 295 healthy people of 6 to 18 years",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC6094364",
};

/// In percent: could not complete it (Corwin et al. 2018).
pub const COULD_NOT_COMPLETE: u8 = 10;

const ALL_AGES: &str = "295 healthy people of 6 to 18 years";

/// Shares of healthy people who failed one, two, three or more elements (Corwin et al. 2018).
pub static ELEMENTS: [BaseRate; 3] = [
    rate("fail one or more elements", 24.0, ALL_AGES, &CORWIN),
    rate("fail two or more elements", 13.0, ALL_AGES, &CORWIN),
    rate("fail three or more elements", 5.0, ALL_AGES, &CORWIN),
];

/// The same by age, for one or more elements (Corwin et al. 2018): from and to this age, and the share.
pub static BY_AGE: [(u8, u8, BaseRate); 4] = [
    (6, 8, rate("fail one or more elements", 15.0, "healthy people of 6 to 8 years", &CORWIN)),
    (9, 11, rate("fail one or more elements", 32.0, "healthy people of 9 to 11 years", &CORWIN)),
    (12, 14, rate("fail one or more elements", 32.0, "healthy people of 12 to 14 years", &CORWIN)),
    (15, 18, rate("fail one or more elements", 26.0, "healthy people of 15 to 18 years", &CORWIN)),
];

const IN_SEASON: &str = "78 high-school athletes in season";

/// Shares of healthy athletes with a rise of 2 or more in one, two, three or more of the screen's seven tests
/// (high-school sideline study).
pub static RISES: [BaseRate; 3] = [
    rate("have a rise of 2 or more with one test or more", 21.0, IN_SEASON, &HIGH_SCHOOL),
    rate("have a rise of 2 or more with two tests or more", 14.0, IN_SEASON, &HIGH_SCHOOL),
    rate("have a rise of 2 or more with three tests or more", 10.0, IN_SEASON, &HIGH_SCHOOL),
];

/// What is outside, counted, with the share of healthy people who have as much.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HowCommon {
    /// Tasks with a finding outside its range; `None` when no task had a finding with a range.
    pub tasks: Option<Count>,
    /// Tasks of the published screen with which the symptoms rose by [`RISE`] or more; `None` when none was rated.
    pub rises: Option<Count>,
    /// Age in completed years.
    pub years: Option<u8>,
}

/// So many of so many.
#[derive(Debug, Clone, PartialEq)]
pub struct Count {
    /// Those that are outside.
    pub outside: usize,
    /// Those that were looked at.
    pub of: usize,
    /// Keys of the findings outside.
    pub from: Vec<String>,
    /// The published share with one or more and, when more are outside, with as many; empty when none is outside.
    pub rates: Vec<&'static BaseRate>,
}

/// Counts what is outside its range. Urgent findings are not counted: that something is common never softens them.
#[must_use]
pub fn read<'a>(findings: impl Iterator<Item = &'a Finding>, symptoms: &Provocation, years: Option<u8>) -> HowCommon {
    let graded: Vec<&Finding> =
        findings.filter(|finding| finding.task != "symptoms").filter(|f| has_range(f.grade)).collect();
    HowCommon { tasks: tasks(&graded, years), rises: rises(&symptoms.after), years }
}

fn tasks(graded: &[&Finding], years: Option<u8>) -> Option<Count> {
    let of = distinct(graded.iter().copied());
    let beyond = || graded.iter().copied().filter(|finding| finding.grade == Grade::OutsideRange);
    let outside = distinct(beyond());
    let from = beyond().map(|finding| finding.key.clone()).collect();
    let at_this_age = BY_AGE.iter().find(|(low, high, _)| years.is_some_and(|years| (*low..=*high).contains(&years)));
    let rates = at_least(&ELEMENTS, at_this_age.map(|(_, _, rate)| rate), outside);
    (of > 0).then_some(Count { outside, of, from, rates })
}

fn rises(after: &[After]) -> Option<Count> {
    let rated: Vec<i32> = after.iter().filter(|a| SCREENED.contains(&a.task.id)).filter_map(|a| a.change).collect();
    let outside = rated.iter().filter(|change| **change >= RISE).count();
    let from = if outside > 0 { vec!["symptoms.provoked".to_string()] } else { Vec::new() };
    (!rated.is_empty()).then(|| Count { outside, of: rated.len(), from, rates: at_least(&RISES, None, outside) })
}

/// The share with one or more, nearest in age where it is known by age, and the share with as many.
fn at_least(
    rates: &'static [BaseRate; 3],
    nearest: Option<&'static BaseRate>,
    outside: usize,
) -> Vec<&'static BaseRate> {
    let one = nearest.unwrap_or(&rates[0]);
    match outside {
        0 => Vec::new(),
        1 => vec![one],
        2 => vec![one, &rates[1]],
        _ => vec![one, &rates[2]],
    }
}

fn distinct<'a>(findings: impl Iterator<Item = &'a Finding>) -> usize {
    let mut tasks: Vec<&str> = findings.map(|finding| finding.task).collect();
    sorted::by(&mut tasks, Ord::cmp);
    tasks.dedup();
    tasks.len()
}

fn has_range(grade: Grade) -> bool {
    match grade {
        Grade::NoRange => false,
        Grade::WithinRange | Grade::NearLimit | Grade::OutsideRange | Grade::Urgent => true,
    }
}

const fn rate(rule: &'static str, percent: f64, population: &'static str, source: &'static Citation) -> BaseRate {
    BaseRate { rule, low_percent: percent, high_percent: percent, population, source }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anatomy::Place;
    use crate::provocation::Ratings;
    use crate::task;

    fn finding(task: &'static str, what: &str, grade: Grade) -> Finding {
        Finding { grade, ..Finding::new(task, what, Place::Both, String::new()) }
    }

    fn shares(count: &Count) -> Vec<f64> {
        count.rates.iter().map(|rate| rate.low_percent).collect()
    }

    fn counted(findings: &[Finding], years: Option<u8>) -> Count {
        read(findings.iter(), &Provocation::default(), years).tasks.expect("something has a range")
    }

    #[test]
    fn two_findings_of_one_task_count_once() {
        let findings = [
            finding("saccade", "landing_left", Grade::OutsideRange),
            finding("saccade", "landing_right", Grade::OutsideRange),
            finding("pursuit", "left", Grade::NearLimit),
            finding("near_point", "drawing_back", Grade::NoRange),
        ];
        let count = counted(&findings, Some(40));
        assert_eq!((count.outside, count.of, count.from.len()), (1, 2, 2));
        assert_eq!(shares(&count), [24.0]);
    }

    #[test]
    fn the_share_for_the_age_and_for_as_many_are_told() {
        let ids = ["pursuit", "saccade", "near_point", "optokinetic"];
        let findings = |n: usize| ids[..n].iter().map(|id| finding(id, "x", Grade::OutsideRange)).collect::<Vec<_>>();
        assert_eq!(shares(&counted(&findings(1), Some(14))), [32.0]);
        assert_eq!(shares(&counted(&findings(2), Some(14))), [32.0, 13.0]);
        assert_eq!(shares(&counted(&findings(3), Some(7))), [15.0, 5.0]);
        assert_eq!(shares(&counted(&findings(4), Some(19))), [24.0, 5.0]);
        assert_eq!(shares(&counted(&[finding("pursuit", "x", Grade::WithinRange)], Some(14))), [0.0; 0]);
    }

    #[test]
    fn what_is_urgent_is_never_called_common() {
        let count = counted(&[finding("resting_gaze", "pupils", Grade::Urgent)], Some(14));
        assert_eq!((count.outside, count.of), (0, 1));
        assert_eq!(read([].iter(), &Provocation::default(), None), HowCommon::default());
    }

    #[test]
    fn rises_count_only_with_the_tasks_of_the_screen() {
        let after = |id: &str, change| After {
            task: task::by_id(id).expect("known"),
            ratings: Ratings(vec![Some(1); 4]),
            change,
        };
        let rated = vec![
            after("pursuit", Some(2)),
            after("saccade", Some(1)),
            after("optokinetic", Some(9)),
            after("near_point", None),
        ];
        let symptoms = Provocation { after: rated, ..Provocation::default() };
        let rises = read([].iter(), &symptoms, Some(16)).rises.expect("two were rated");
        assert_eq!((rises.outside, rises.of, shares(&rises)), (1, 2, vec![21.0]));
    }
}
