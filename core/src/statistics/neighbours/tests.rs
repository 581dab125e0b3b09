//! Hand counts, laws, and invented examinations of people in whom nothing differs between the sides.

use super::super::assert_close;
use super::super::random::SplitMix;
use super::super::stratified::{Stratum, stratified};
use super::*;

fn in_turn(scores: &[i32]) -> Ordered {
    let repetitions = scores.iter().enumerate().map(|(at, &score)| Timed { right: at % 2 == 0, score });
    Ordered { repetitions: repetitions.collect(), exchange: Exchange::Neighbours }
}

fn one_after_the_other(right: &[i32], left: &[i32], exchange: Exchange) -> Ordered {
    let side = |right: bool, scores: &[i32]| scores.iter().map(|&score| Timed { right, score }).collect::<Vec<_>>();
    Ordered { repetitions: [side(true, right), side(false, left)].concat(), exchange }
}

fn mirrored(task: &Ordered) -> Ordered {
    let repetitions = task.repetitions.iter().map(|r| Timed { right: !r.right, ..*r }).collect();
    Ordered { repetitions, exchange: task.exchange }
}

/// Pairs (0,1) (0,1) (1,1) (0,1) (1,0): three to the left, one to the right, one alike. Of 16 arrangements of the four that
/// differ, sums of ±2 and ±4 are as far out: 4 + 4 + 1 + 1 = 10.
#[test]
fn five_pairs_by_counting() {
    let test = neighbours(&[in_turn(&[0, 1, 0, 1, 1, 1, 0, 1, 1, 0])], 0).expect("both sides");
    assert_eq!((test.pairs, test.telling), (5, 4));
    assert_close(test.p, 10.0 / 16.0, 1e-15);
    assert!(test.parts[0] < 0.0);
    assert!(matches!(test.method, Method::Exact { .. }));
}

/// Five tasks that point the same way once each: 2 of 32.
#[test]
fn a_sign_test_over_five_tasks_never_reaches_the_level() {
    let task = one_after_the_other(&[1, 1], &[0, 0], Exchange::Whole);
    let p = |tasks: usize| neighbours(&vec![task.clone(); tasks], 0).expect("both sides").p;
    assert_close(p(5), 0.0625, 1e-15);
    assert_close(p(6), 0.03125, 1e-15);
}

/// Three pairs to the left, and a task done one side after the other. The one held scores 10 of 10 against 0 of 10: its
/// part is 100 / 20 = 5 standard deviations of √(5/19); each pair counts 1/2 of √(3/10).
#[test]
fn what_is_held_tips_but_never_fills_the_scales() {
    let pairs = in_turn(&[0, 1, 0, 1, 0, 1]);
    let along = one_after_the_other(&[0; 10], &[1; 10], Exchange::Held);
    let test = neighbours(&[pairs.clone(), along.clone()], 0).expect("both sides");
    assert_close(test.p, 1.0 / 8.0, 1e-15);
    assert_close(test.parts[1], -5.0 / (5.0_f64 / 19.0).sqrt(), 1e-12);
    assert_close(test.parts[0], -1.5 / 0.3_f64.sqrt(), 1e-12);
    assert_eq!(neighbours(std::slice::from_ref(&along), 0).expect("both sides").p, 1.0);
    assert_eq!(neighbours(&[pairs, mirrored(&along)], 0).expect("both sides").p, 1.0);
}

#[test]
fn stretches_and_not_positions_make_pairs() {
    // R L L R: the right one first, then two to the left; the last right one has no neighbour left.
    let order = [(true, 0), (false, 1), (false, 1), (true, 0)];
    let repetitions: Vec<Timed> = order.iter().map(|&(right, score)| Timed { right, score }).collect();
    let once = Ordered { repetitions: repetitions.clone(), exchange: Exchange::Neighbours };
    assert_eq!(neighbours(&[once], 0).expect("both sides").pairs, 1);
    // Three on one side in a row are no longer "in turn": held, so nothing can be told.
    let three = [(true, 0), (true, 0), (true, 0), (false, 1), (false, 1), (false, 1)];
    let repetitions: Vec<Timed> = three.iter().map(|&(right, score)| Timed { right, score }).collect();
    let test = neighbours(&[Ordered { repetitions, exchange: Exchange::Neighbours }], 0).expect("both sides");
    assert_eq!((test.pairs, test.p), (0, 1.0));
    assert!(test.parts[0] < 0.0);
}

#[test]
fn one_side_alone_is_no_comparison_and_equal_scores_no_difference() {
    assert_eq!(neighbours(&[one_after_the_other(&[1, 1], &[], Exchange::Held)], 0), None);
    assert_eq!(neighbours(&[], 0), None);
    let test = neighbours(&[in_turn(&[1; 12])], 0).expect("both sides");
    assert_eq!((test.pairs, test.telling, test.p, test.parts[0]), (6, 0, 1.0, 0.0));
}

#[test]
fn mirrored_tasks_give_a_mirrored_answer() {
    let mut draw = SplitMix::new(11);
    for seed in 0..200 {
        let mut scores = |n: usize| (0..n).map(|_| draw.below(4) as i32).collect::<Vec<i32>>();
        let tasks = [
            in_turn(&scores(14)),
            one_after_the_other(&scores(2), &scores(2), Exchange::Whole),
            one_after_the_other(&scores(5), &scores(7), Exchange::Held),
        ];
        let (one, other) = (
            neighbours(&tasks, seed).expect("sides"),
            neighbours(&tasks.each_ref().map(mirrored), seed).expect("sides"),
        );
        assert_eq!((one.p, one.pairs, one.telling), (other.p, other.pairs, other.telling));
        assert!(one.parts.iter().zip(&other.parts).all(|(a, b)| *a == -*b));
    }
}

/// How repetitions of one person hang together when nothing differs between the sides.
#[derive(Clone, Copy, Debug)]
struct Healthy {
    /// Chance of an event at the first and at the last repetition of a task.
    rate: (f64, f64),
    /// Chance that a repetition only repeats what the one before it did.
    sticks: f64,
}

const PATTERNS: [Healthy; 7] = [
    Healthy { rate: (0.2, 0.2), sticks: 0.0 },
    Healthy { rate: (0.5, 0.5), sticks: 0.0 },
    Healthy { rate: (0.2, 0.2), sticks: 0.4 },
    Healthy { rate: (0.4, 0.4), sticks: 0.7 },
    Healthy { rate: (0.05, 0.6), sticks: 0.0 },
    Healthy { rate: (0.0, 1.0), sticks: 0.3 },
    Healthy { rate: (0.1, 0.5), sticks: 0.6 },
];

impl Healthy {
    fn series(self, n: usize, random: &mut SplitMix) -> Vec<i32> {
        let mut before = None;
        let chance = |p: f64, random: &mut SplitMix| (random.below(1_000_000) as f64) < p * 1e6;
        let mut one = |at: usize| {
            let rate = self.rate.0 + (self.rate.1 - self.rate.0) * at as f64 / (n - 1) as f64;
            let event = match before {
                Some(last) if chance(self.sticks, random) => last,
                _ => chance(rate, random),
            };
            before = Some(event);
            i32::from(event)
        };
        (0..n).map(&mut one).collect()
    }

    /// Ten jumps to each side in turn, two grades to each side, ten stripes to the right and then ten to the left.
    fn visit(self, random: &mut SplitMix) -> [Ordered; 3] {
        let stripes = self.series(20, random);
        let grades = self.series(4, random);
        [
            in_turn(&self.series(20, random)),
            Ordered { exchange: Exchange::Whole, ..in_turn(&grades) },
            one_after_the_other(&stripes[..10], &stripes[10..], Exchange::Held),
        ]
    }
}

fn free(tasks: &[Ordered]) -> f64 {
    let side =
        |task: &Ordered, right: bool| task.repetitions.iter().filter(|r| r.right == right).map(|r| r.score).collect();
    let strata: Vec<Stratum> =
        tasks.iter().map(|task| Stratum { right: side(task, true), left: side(task, false) }).collect();
    stratified(&strata, 0).map_or(1.0, |test| test.p)
}

/// Three standard errors of 2000 visits at 5 % are 1.5 %.
#[test]
fn healthy_people_who_tire_or_drift_are_called_uneven_in_at_most_one_of_twenty() {
    let (visits, mut freely) = (2_000, Vec::new());
    for healthy in PATTERNS {
        let mut random = SplitMix::new(41);
        let (mut here, mut there) = (0, 0);
        for _ in 0..visits {
            let tasks = healthy.visit(&mut random);
            here += u32::from(neighbours(&tasks, 0).expect("both sides").p <= 0.05);
            there += u32::from(free(&tasks) <= 0.05);
        }
        let share = |named: u32| f64::from(named) / f64::from(visits);
        assert!(share(here) <= 0.065, "{healthy:?}: {}", share(here));
        freely.push(share(there));
    }
    // The free test keeps its level only while nothing hangs together in time.
    assert!(freely[0] <= 0.065 && freely[1] <= 0.065, "{freely:?}");
    assert!(freely[4..].iter().all(|share| *share > 0.1), "{freely:?}");
}

/// With 60 against 10 in 100 over jumps, grades and stripes two visits of three are called, and none to the wrong side.
#[test]
fn a_plain_difference_is_found() {
    let mut random = SplitMix::new(5);
    let worse = Healthy { rate: (0.6, 0.6), sticks: 0.0 };
    let well = Healthy { rate: (0.1, 0.1), sticks: 0.0 };
    let (visits, mut called, mut wrong) = (1_000, 0, 0);
    for _ in 0..visits {
        let (left, right) = (worse.visit(&mut random), well.visit(&mut random));
        let mut tasks = right.clone();
        for (task, other) in tasks.iter_mut().zip(&left) {
            let both = task.repetitions.iter_mut().zip(&other.repetitions);
            both.filter(|(mine, _)| !mine.right).for_each(|(mine, theirs)| mine.score = theirs.score);
        }
        let test = neighbours(&tasks, 0).expect("both sides");
        let to_the_right = test.parts.iter().sum::<f64>() > 0.0;
        called += u32::from(test.p <= 0.05 && !to_the_right);
        wrong += u32::from(test.p <= 0.05 && to_the_right);
    }
    assert!(called > 640 && wrong == 0, "{called} called, {wrong} wrongly");
}
