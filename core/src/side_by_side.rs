//! Right set against left, and early against late: counts with their intervals, exact tests, and the words for both.

pub mod drawing;
pub mod handed_on;

use crate::anatomy::Direction;
use crate::evidence::{Citation, Limit, Norm, Status, capital};
use crate::finding::{Comparison, Grade, Value};
use crate::score;
use crate::statistics::Interval;
use crate::statistics::exact::fisher_mid_p;
use crate::statistics::order::{EarlyLate, quantile};
use crate::statistics::proportion::{Proportion, newcombe, wilson};

/// Fewest repetitions a group needs before it is tested or graded.
///
/// With three against three even all against none gives p = 0.075. With four against four only all against none stays
/// below 0.05. From five on one exception is forgiven: four of five against none of five gives p = 0.036.
pub const COMPARABLE: u32 = 5;

/// Two-sided p up to which a difference is called more than chance (convention).
pub const LEVEL: f64 = 0.05;

/// Confidence of every interval (convention).
pub const CONFIDENCE: f64 = 0.95;

/// Source of the interval of one share.
pub static WILSON: Citation = Citation { short: "Wilson 1927", place: "J Am Stat Assoc 22:209", link: "" };

/// Source of the test of two shares.
pub static MID_P: Citation =
    Citation { short: "Lancaster 1961", place: "mid-p of Fisher's exact test, J Am Stat Assoc 56:223", link: "" };

/// Source of the interval of a difference between two shares.
pub static NEWCOMBE: Citation = Citation { short: "Newcombe 1998", place: "Stat Med 17:873, method 10", link: "" };

/// Sets a count to the right against the same count to the left.
///
/// When both shares are the same, every difference is at least as large as the one seen: p is 1. Half of the seen outcome,
/// which the mid-p takes off, would make it less likely than a small difference.
#[must_use]
pub fn compare(task: &'static str, key: &str, what: &'static str, right: Proportion, left: Proportion) -> Comparison {
    let p = if same(right, left) { Some(1.0) } else { fisher_mid_p(right, left) };
    let p = p.filter(|_| enough(right, left));
    let difference = newcombe(right, left, CONFIDENCE);
    let seen = format!("{}: {} to the right, {} to the left", capital(what), of(right), of(left));
    let says = match (p, difference) {
        (Some(_), Some(interval)) if same(right, left) && !uniform(right, left) => {
            format!("{seen}; {}.", difference_words(right, left, interval))
        }
        (Some(p), Some(interval)) if !uniform(right, left) => {
            format!("{seen}; {}. {}", difference_words(right, left, interval), chance(p, "both directions were alike"))
        }
        (Some(_), _) => format!("{seen}: the same in both directions."),
        (None, _) => format!("{seen}. Too few to compare: {COMPARABLE} to each side are needed."),
    };
    Comparison { key: format!("{task}.{key}"), task, what, right, left, p, difference, says }
}

/// The median seconds between taps, when it is shorter than `fastest`: nobody watched them one by one. `None` also for
/// fewer taps than are compared.
#[must_use]
pub fn faster_than(fastest: f64, taps_ms: &[u32]) -> Option<f64> {
    if taps_ms.len() < COMPARABLE as usize {
        return None;
    }
    // A clock set back in between makes one long gap, which the median leaves out.
    let apart: Vec<f64> = taps_ms.windows(2).map(|pair| f64::from(pair[1].abs_diff(pair[0])) / 1000.0).collect();
    quantile(&apart, 0.5).filter(|median| *median < fastest)
}

/// The direction in which the counted thing is more frequent by more than chance.
#[must_use]
pub fn worse(comparison: &Comparison) -> Option<Direction> {
    if comparison.p? > LEVEL {
        return None;
    }
    let to_the_right = comparison.right.rate()? > comparison.left.rate()?;
    Some(if to_the_right { Direction::Right } else { Direction::Left })
}

/// Sets the first halves of several series together against their second halves.
///
/// Each series is one direction. Halving each by itself keeps the directions in balance, however they were mixed, so a
/// worse direction cannot look like tiring. Pooling makes the test a little cautious when the directions differ.
/// `None` when the halves are too short to test, or when nothing or everything in them is an event.
#[must_use]
pub fn early_against_late(series: &[&[bool]]) -> Option<EarlyLate> {
    let half = |events: &[bool]| events.len() / 2;
    let early = Proportion::counting(series.iter().flat_map(|s| s[..half(s)].iter().copied()));
    let late = Proportion::counting(series.iter().flat_map(|s| s[s.len() - half(s)..].iter().copied()));
    if !enough(early, late) || uniform(early, late) {
        return None;
    }
    let p = fisher_mid_p(early, late)?;
    Some(EarlyLate { early, late, p })
}

/// One sentence or two on early against late: how much, and how sure.
#[must_use]
pub fn order_words(halves: &EarlyLate, what: &str) -> String {
    let seen = format!("{}: {} in the first half, {} in the second.", capital(what), of(halves.early), of(halves.late));
    format!("{seen} {}", chance(halves.p, "nothing changed on the way"))
}

/// Whether the second half is worse by more than chance.
#[must_use]
pub fn tires(halves: &EarlyLate) -> bool {
    halves.p <= LEVEL && halves.late.rate() > halves.early.rate()
}

/// A range that allows something in up to half the repetitions of one direction.
///
/// "In most trials of one direction" is common practice; no published count was found. `source` is where the sign itself
/// is described.
#[must_use]
pub const fn not_in_most(id: &'static str, what: &'static str, source: &'static Citation) -> Norm {
    Norm {
        id,
        what,
        unit: "%",
        limit: Limit::AtMost(50.0),
        error: None,
        ages: None,
        population: "repetitions of one direction",
        source,
        status: Status::CommonPractice,
        healthy: &[],
    }
}

/// Grades a share against a range in per cent.
///
/// Near the limit means that its 95 % interval reaches the limit: a few more repetitions could carry it across. A single
/// event is never near the limit.
#[must_use]
pub fn grade_share(share: Proportion, norm: &Norm) -> Grade {
    let (Some(rate), Some(interval)) = (share.rate(), interval_of(share)) else { return Grade::NoRange };
    if share.n() < COMPARABLE {
        return Grade::NoRange;
    }
    let inside = score::grade(100.0 * rate, norm);
    let reaches = score::grade(100.0 * interval.high, norm) == Grade::OutsideRange;
    if inside == Grade::WithinRange && reaches && share.events() > 1 { Grade::NearLimit } else { inside }
}

/// The share in per cent with its 95 % interval.
#[must_use]
pub fn value_of(share: Proportion) -> Option<Value> {
    let interval = interval_of(share).map(|i| Interval { low: 100.0 * i.low, high: 100.0 * i.high });
    Some(Value { number: 100.0 * share.rate()?, unit: "%", interval })
}

/// The difference right minus left in per cent with its 95 % interval.
#[must_use]
pub fn difference_of(comparison: &Comparison) -> Option<Value> {
    let number = 100.0 * (comparison.right.rate()? - comparison.left.rate()?);
    let interval = comparison.difference.map(|i| Interval { low: 100.0 * i.low, high: 100.0 * i.high });
    Some(Value { number, unit: "%", interval })
}

/// "6 of 10".
#[must_use]
pub fn of(share: Proportion) -> String {
    format!("{} of {}", share.events(), share.n())
}

/// "95 % interval 31 to 83 in 100"; nothing when nothing was counted.
#[must_use]
pub fn interval_words(share: Proportion) -> String {
    interval_of(share)
        .map_or_else(String::new, |i| format!("95 % interval {:.0} to {:.0} in 100", 100.0 * i.low, 100.0 * i.high))
}

/// What a p of Fisher's test means, in one sentence.
#[must_use]
pub fn chance(p: f64, if_so: &str) -> String {
    format!("If {if_so}, so large a difference would still come up in {} (Fisher's exact test, mid-p).", frequency(p))
}

/// A probability as a frequency: "3.6 of 100".
#[must_use]
pub fn frequency(p: f64) -> String {
    match p {
        p if p < 0.001 => "fewer than 1 of 1000".to_string(),
        p if p < 0.01 => format!("{:.0} of 1000", 1000.0 * p),
        // One decimal more near the level, so that 4.9 and 5.1 do not read alike.
        p if p < 0.1 => format!("{:.1} of 100", 100.0 * p),
        p => format!("{:.0} of 100", 100.0 * p),
    }
}

fn interval_of(share: Proportion) -> Option<Interval> {
    wilson(share.events(), share.n(), CONFIDENCE)
}

fn enough(a: Proportion, b: Proportion) -> bool {
    a.n().min(b.n()) >= COMPARABLE
}

/// Whether nothing, or everything, in both groups is an event.
fn uniform(a: Proportion, b: Proportion) -> bool {
    a.events() + b.events() == 0 || a.others() + b.others() == 0
}

/// Whether both shares are the same.
fn same(a: Proportion, b: Proportion) -> bool {
    u64::from(a.events()) * u64::from(b.n()) == u64::from(b.events()) * u64::from(a.n())
}

/// "50 in 100 more to the left, 95 % interval 8 to 76".
fn difference_words(right: Proportion, left: Proportion, interval: Interval) -> String {
    let difference = right.rate().unwrap_or_default() - left.rate().unwrap_or_default();
    let to_the_right = difference >= 0.0;
    let (low, high) = if to_the_right { (interval.low, interval.high) } else { (-interval.high, -interval.low) };
    if difference == 0.0 {
        return format!("no difference, 95 % interval {:.0} either way", 100.0 * high.max(-low));
    }
    let side = if to_the_right { Direction::Right } else { Direction::Left };
    let (size, low, high) = (100.0 * difference.abs(), 100.0 * low, 100.0 * high);
    format!("{size:.0} in 100 more {}, 95 % interval {low:.0} to {high:.0}", side.phrase())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(events: u32, n: u32) -> Proportion {
        Proportion::new(events, n).expect("fits")
    }

    static SIGN: Citation = Citation { short: "a source", place: "", link: "" };
    static MOST: Norm = not_in_most("test.most", "misses", &SIGN);

    /// By counting tables: 3/3 against 0/3 is 1.5 of 20, 4/4 against 0/4 is 1.5 of 70, 3/4 against 0/4 is 1.5 x 4 of 56,
    /// 4/5 against 0/5 is 1.5 x 5 of 210.
    #[test]
    fn five_of_each_is_what_the_exact_test_needs_to_forgive_one_exception() {
        for (a, b, p) in [
            (share(3, 3), share(0, 3), 1.5 / 20.0),
            (share(4, 4), share(0, 4), 1.5 / 70.0),
            (share(3, 4), share(0, 4), 6.0 / 56.0),
            (share(4, 5), share(0, 5), 7.5 / 210.0),
        ] {
            assert!((fisher_mid_p(a, b).expect("counted") - p).abs() < 1e-12, "{} {}", of(a), of(b));
        }
        assert_eq!(compare("t", "k", "misses", share(4, 4), share(0, 9)).p, None);
        assert!(compare("t", "k", "misses", share(4, 5), share(0, 5)).p.expect("tested") <= LEVEL);
    }

    #[test]
    fn a_mirrored_comparison_says_the_mirrored_thing() {
        let one = compare("t", "k", "misses", share(1, 10), share(7, 10));
        let other = compare("t", "k", "misses", share(7, 10), share(1, 10));
        assert_eq!((worse(&one), worse(&other)), (Some(Direction::Left), Some(Direction::Right)));
        assert!((one.p.expect("tested") - other.p.expect("tested")).abs() < 1e-12);
        assert!(one.says.starts_with("Misses: 1 of 10 to the right, 7 of 10 to the left; 60 in 100 more to the left"));
        assert!(other.says.contains("60 in 100 more to the right"), "{}", other.says);
        let limits = |c: &Comparison| c.difference.map(|i| (i.low, i.high)).expect("counted");
        assert!((limits(&one).0 + limits(&other).1).abs() < 1e-12);
    }

    #[test]
    fn too_few_is_not_the_same_as_alike() {
        let few = compare("t", "k", "misses", share(1, 4), share(3, 10));
        assert!(few.p.is_none() && few.says.contains("Too few to compare: 5 to each side"), "{}", few.says);
        let alike = compare("t", "k", "misses", share(0, 10), share(0, 10));
        assert!(
            alike.p == Some(1.0) && alike.says.ends_with("10 to the left: the same in both directions."),
            "{}",
            alike.says
        );
        let nothing = compare("t", "k", "misses", share(0, 0), share(0, 0));
        assert!(nothing.difference.is_none() && worse(&nothing).is_none());
    }

    #[test]
    fn a_worse_direction_is_not_taken_for_tiring() {
        // All to the right first and on target, then all to the left and off: by direction nothing changes.
        let (right, left) = ([false; 10], [true; 10]);
        let halves = early_against_late(&[&right, &left]).expect("tested");
        assert!(!tires(&halves) && halves.early == halves.late);
        let fading = [false, false, false, false, false, true, true, true, true, true];
        let halves = early_against_late(&[&fading, &fading]).expect("tested");
        assert!(tires(&halves), "{halves:?}");
        assert!(
            order_words(&halves, "misses").starts_with("Misses: 0 of 10 in the first half, 10 of 10 in the second.")
        );
        assert_eq!(early_against_late(&[&fading[..4]]), None);
        assert_eq!(early_against_late(&[]), None);
    }

    #[test]
    fn shares_are_graded_with_their_uncertainty() {
        assert_eq!(grade_share(share(6, 10), &MOST), Grade::OutsideRange);
        assert_eq!(grade_share(share(5, 10), &MOST), Grade::NearLimit);
        // Wilson 95 % of 2/10 reaches 51 %, of 2/12 only 45 %.
        assert_eq!(grade_share(share(2, 10), &MOST), Grade::NearLimit);
        assert_eq!(grade_share(share(2, 12), &MOST), Grade::WithinRange);
        assert_eq!(grade_share(share(1, 5), &MOST), Grade::WithinRange);
        assert_eq!(grade_share(share(4, 4), &MOST), Grade::NoRange);
        assert_eq!(grade_share(share(0, 0), &MOST), Grade::NoRange);
    }

    #[test]
    fn frequencies_keep_the_level_apart() {
        assert_eq!(frequency(0.0004), "fewer than 1 of 1000");
        assert_eq!(frequency(0.0085), "8 of 1000");
        assert_eq!(frequency(0.0494), "4.9 of 100");
        assert_eq!(frequency(0.0506), "5.1 of 100");
        assert_eq!(frequency(0.42), "42 of 100");
    }

    #[test]
    fn the_same_share_both_ways_has_p_1_and_no_word_of_chance() {
        for (right, left) in [(share(3, 10), share(3, 10)), (share(3, 6), share(5, 10)), (share(0, 8), share(0, 8))] {
            let comparison = compare("t", "k", "misses", right, left);
            assert_eq!(comparison.p, Some(1.0), "{}", comparison.says);
            assert!(!comparison.says.contains("would still come up"), "{}", comparison.says);
        }
        // By hand: C(5,2) C(11,6) / C(16,8) = 4620 / 12870 for the seen table, none is likelier: 1 - 0.359 / 2.
        let near = compare("t", "k", "misses", share(2, 8), share(3, 8)).p.expect("enough");
        assert!((near - 0.8205).abs() < 0.0005, "{near}");
    }

    /// Every outcome of two alike directions, weighed by its binomial probability: how often chance names a direction.
    #[test]
    fn chance_names_a_direction_in_at_most_five_of_a_hundred() {
        let weigh = |events: u32, n: u32, rate: f64| {
            let ways = (0..events).fold(1.0, |so_far, k| so_far * f64::from(n - k) / f64::from(k + 1));
            ways * rate.powi(events as i32) * (1.0 - rate).powi((n - events) as i32)
        };
        for n in [5, 10, 20] {
            for rate in [0.05, 0.1, 0.2, 0.3, 0.4, 0.5] {
                let pairs = (0..=n).flat_map(|right| (0..=n).map(move |left| (right, left)));
                let named =
                    pairs.filter(|(r, l)| worse(&compare("t", "k", "misses", share(*r, n), share(*l, n))).is_some());
                let by_chance: f64 = named.map(|(r, l)| weigh(r, n, rate) * weigh(l, n, rate)).sum();
                assert!(by_chance <= 0.05, "{by_chance} at {rate} with {n} to each side");
            }
        }
    }
}
