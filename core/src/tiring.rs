//! Tiring: what grows worse over the trials and taps of one visit.
//!
//! A task's findings keep the grade and the words of its own rule. Here the courses of all tasks are set side by side, and
//! from five numbers on a trend is added: the median slope and an exact test of rank order. A series too short to tell is
//! said to be too short, never to be steady.

use crate::anatomy::{Direction, Place};
use crate::evidence::Citation;
use crate::measure::{Better, Course, Values};
use crate::side_by_side::{self, COMPARABLE, CONFIDENCE, LEVEL};
use crate::statistics::order::EarlyLate;
use crate::statistics::trend::mann_kendall::mann_kendall;
use crate::statistics::trend::theil_sen::{MedianLine, theil_sen};

/// Fewest numbers from which a trend is worked out. Five that all rise have p = 2/120, four have 2/24: with fewer than five
/// no order could ever be called more than chance.
pub const TREND: usize = 5;

/// Source of the slope.
pub static SLOPE: Citation =
    Citation { short: "Sen 1968", place: "median of pairwise slopes, J Am Stat Assoc 63:1379", link: "" };

/// Source of the test for a trend.
pub static RANKS: Citation =
    Citation { short: "Mann 1945", place: "rank test against trend, Econometrica 13:245", link: "" };

/// What one task shows over its trials or taps.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiring {
    /// The task.
    pub task: &'static str,
    /// How many trials, repetitions or sweeps it rests on.
    pub n: usize,
    /// What they show.
    pub over: Over,
}

/// What a course shows.
#[derive(Debug, Clone, PartialEq)]
pub enum Over {
    /// Numbers in order.
    Trials(Trials),
    /// Events of the first halves of all directions against those of the second halves; `None` when nothing, or everything,
    /// was an event.
    Halves(Option<EarlyLate>),
    /// The earliest sweep from which on it was worse, and where; `None` when it never was.
    Broke(Option<(u8, Place)>),
    /// Too few to say.
    TooFew,
}

/// Numbers from trial to trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Trials {
    /// What was measured.
    pub what: String,
    /// The unit.
    pub unit: &'static str,
    /// The last less the first.
    pub change: f64,
    /// The trend, from [`TREND`] trials on.
    pub trend: Option<Trend>,
}

/// A trend over trials.
#[derive(Debug, Clone, PartialEq)]
pub struct Trend {
    /// Median slope, in the unit of the values a trial, and its 95 % interval.
    pub line: MedianLine,
    /// Exact two-sided p of the rank order.
    pub p: f64,
    /// Whether the slope points to worse.
    pub worse: bool,
}

/// Reads all courses of a visit, one line a task and kind, in exam order.
#[must_use]
pub fn read<'a>(courses: impl Iterator<Item = &'a Course>) -> Vec<Tiring> {
    let courses: Vec<&Course> = courses.filter(|course| course.better != Better::Neither).collect();
    let mut read: Vec<Tiring> = Vec::new();
    for course in &courses {
        let task = course.task;
        let together = || courses.iter().filter(|other| other.task == task && kind(other) == kind(course));
        let line = match &course.values {
            Values::Numbers(values, unit) => Some(trials(course, values, unit)),
            // Directions are read together, once.
            Values::Events(_) | Values::BrokeAt(..)
                if together().next().is_some_and(|first| first.key != course.key) =>
            {
                None
            }
            Values::Events(_) => Some(halves(task, together().copied())),
            Values::BrokeAt(..) => Some(broke(task, together().copied())),
        };
        read.extend(line);
    }
    read
}

/// Whether one direction of a task grows worse toward its end: "tires first" in the working model.
#[must_use]
pub fn tires_toward<'a>(courses: impl Iterator<Item = &'a Course>, task: &str, toward: Direction) -> Option<bool> {
    let here = courses.filter(|course| course.task == task && course.place == Place::Toward(toward));
    let told: Vec<bool> = here.filter_map(|course| tires_alone(&course.values)).collect();
    (!told.is_empty()).then(|| told.contains(&true))
}

impl Tiring {
    /// Whether it grew worse on the way; `None` when that cannot be said. Numbers need a trend for it: no number of
    /// centimetres is published that means tiring, so the first and the last alone are for the task's own finding.
    #[must_use]
    pub fn tires(&self) -> Option<bool> {
        match &self.over {
            Over::Trials(trials) => trials.trend.as_ref().map(|trend| trend.worse && trend.p <= LEVEL),
            Over::Halves(halves) => Some(halves.as_ref().is_some_and(side_by_side::tires)),
            Over::Broke(broke) => Some(broke.is_some()),
            Over::TooFew => None,
        }
    }
}

fn trials(course: &Course, values: &[f64], unit: &'static str) -> Tiring {
    let n = values.len();
    let (Some(first), Some(last)) = (values.first(), values.last().filter(|_| n > 1)) else {
        return Tiring { task: course.task, n, over: Over::TooFew };
    };
    let sign = sign(course.better);
    let over = Trials { what: course.what.clone(), unit, change: last - first, trend: trend(values, sign) };
    Tiring { task: course.task, n, over: Over::Trials(over) }
}

fn trend(values: &[f64], sign: f64) -> Option<Trend> {
    if values.len() < TREND {
        return None;
    }
    let at: Vec<f64> = (0..values.len()).map(|trial| trial as f64).collect();
    let (line, test) = (theil_sen(&at, values, CONFIDENCE)?, mann_kendall(values)?);
    Some(Trend { line, p: test.p(), worse: sign * line.slope > 0.0 })
}

fn halves<'a>(task: &'static str, courses: impl Iterator<Item = &'a Course>) -> Tiring {
    let series: Vec<&[bool]> = courses.filter_map(events).collect();
    let n = series.iter().map(|events| events.len()).sum();
    let enough = series.iter().map(|events| events.len() / 2).sum::<usize>() >= COMPARABLE as usize;
    let over = if enough { Over::Halves(side_by_side::early_against_late(&series)) } else { Over::TooFew };
    Tiring { task, n, over }
}

fn broke<'a>(task: &'static str, courses: impl Iterator<Item = &'a Course>) -> Tiring {
    let (mut first, mut n) = (None, 0);
    for course in courses {
        if let Values::BrokeAt(from, cycles) = course.values {
            n += usize::from(cycles);
            // The earliest wins; of two alike, the one examined first.
            first = match (first, from) {
                (Some((known, place)), Some(from)) if known <= from => Some((known, place)),
                (known, None) => known,
                (_, Some(from)) => Some((from, course.place)),
            };
        }
    }
    Tiring { task, n, over: Over::Broke(first) }
}

fn tires_alone(values: &Values) -> Option<bool> {
    match values {
        Values::Numbers(..) => None,
        Values::Events(events) => {
            let enough = events.len() / 2 >= COMPARABLE as usize;
            enough
                .then(|| side_by_side::early_against_late(&[events]).is_some_and(|halves| side_by_side::tires(&halves)))
        }
        Values::BrokeAt(from, _) => Some(from.is_some()),
    }
}

fn events(course: &Course) -> Option<&[bool]> {
    match &course.values {
        Values::Events(events) => Some(events),
        Values::Numbers(..) | Values::BrokeAt(..) => None,
    }
}

/// 1 when higher is worse.
fn sign(better: Better) -> f64 {
    match better {
        Better::Lower | Better::Neither => 1.0,
        Better::Higher => -1.0,
    }
}

#[derive(PartialEq)]
enum KindOf {
    Numbers,
    Events,
    Broke,
}

fn kind(course: &Course) -> KindOf {
    match course.values {
        Values::Numbers(..) => KindOf::Numbers,
        Values::Events(_) => KindOf::Events,
        Values::BrokeAt(..) => KindOf::Broke,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn course(task: &'static str, key: &str, place: Place, values: Values, better: Better) -> Course {
        Course { key: format!("{task}.{key}"), task, what: key.to_string(), place, values, better }
    }

    fn numbers(values: &[f64]) -> Course {
        course("near_point", "break", Place::Both, Values::Numbers(values.to_vec(), "cm"), Better::Lower)
    }

    fn taps(toward: Direction, events: &[bool]) -> Course {
        course("saccade", toward.word(), Place::Toward(toward), Values::Events(events.to_vec()), Better::Lower)
    }

    /// Five rising values: every pair rises, p = 2/120.
    #[test]
    fn five_trials_make_a_trend_and_four_do_not() {
        let read = read([numbers(&[6.0, 7.0, 8.0, 10.0, 11.0])].iter());
        let Over::Trials(trials) = &read[0].over else { panic!("{read:?}") };
        let trend = trials.trend.as_ref().expect("five trials");
        // Slopes in order: 1 1 1 1 5/4 4/3 4/3 3/2 3/2 2, so the median is (5/4 + 4/3) / 2 = 31/24.
        assert!((trend.line.slope - 31.0 / 24.0).abs() < 1e-12, "{trend:?}");
        assert!((trend.p - 2.0 / 120.0).abs() < 1e-12);
        assert_eq!((trials.change, read[0].tires()), (5.0, Some(true)));
        let four = super::read([numbers(&[6.0, 7.0, 8.0, 10.0])].iter());
        let Over::Trials(trials) = &four[0].over else { panic!("{four:?}") };
        assert_eq!((trials.trend.is_none(), trials.change, four[0].tires()), (true, 4.0, None));
    }

    #[test]
    fn what_gets_better_does_not_tire() {
        assert_eq!(read([numbers(&[11.0, 10.0, 8.0, 7.0, 6.0])].iter())[0].tires(), Some(false));
        let rising = |better| {
            let values = Values::Numbers(vec![6.0, 7.0, 8.0, 10.0, 11.0], "");
            read([course("vergence", "jumps", Place::Both, values, better)].iter())
        };
        assert_eq!(rising(Better::Higher)[0].tires(), Some(false), "more jumps are better");
        assert!(rising(Better::Neither).is_empty(), "neither way is worse");
    }

    #[test]
    fn taps_of_both_directions_are_read_together() {
        let fading = [false, false, false, false, false, true, true, true, true, true];
        let read = read([taps(Direction::Right, &fading), taps(Direction::Left, &fading)].iter());
        assert_eq!((read.len(), read[0].n, read[0].tires()), (1, 20, Some(true)));
        let steady = super::read([taps(Direction::Right, &[false; 10])].iter());
        assert_eq!((&steady[0].over, steady[0].tires()), (&Over::Halves(None), Some(false)));
        let short = super::read([taps(Direction::Right, &fading[..8])].iter());
        assert_eq!((&short[0].over, short[0].tires()), (&Over::TooFew, None), "four against four");
    }

    #[test]
    fn the_earliest_break_is_told_with_its_direction() {
        let sweep = |toward: Direction, from| {
            course("pursuit", toward.word(), Place::Toward(toward), Values::BrokeAt(from, 4), Better::Lower)
        };
        let courses = [
            sweep(Direction::Right, None),
            sweep(Direction::Left, Some(3)),
            sweep(Direction::Up, Some(2)),
            sweep(Direction::Down, Some(2)),
        ];
        let read = read(courses.iter());
        assert_eq!(read[0].over, Over::Broke(Some((2, Place::Toward(Direction::Up)))));
        assert_eq!((read.len(), read[0].n), (1, 16));
        assert_eq!(tires_toward(courses.iter(), "pursuit", Direction::Left), Some(true));
        assert_eq!(tires_toward(courses.iter(), "pursuit", Direction::Right), Some(false));
        assert_eq!(tires_toward(courses.iter(), "saccade", Direction::Right), None, "nobody looked");
    }

    #[test]
    fn one_trial_says_nothing() {
        assert_eq!(read([numbers(&[6.0])].iter())[0].over, Over::TooFew);
        assert!(read([].iter()).is_empty());
    }
}
