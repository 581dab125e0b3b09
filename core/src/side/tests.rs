//! Hand-made visits: who is named, who is not, and how often chance names a side.

use super::*;
use crate::measure::Repetition;
use crate::task;

fn sided(task: &'static str, in_turn: bool, repetitions: impl IntoIterator<Item = (Direction, i32)>) -> Sided {
    let repetitions = repetitions.into_iter().map(|(toward, score)| Repetition { toward, score }).collect();
    Sided { task, what: "misses", repetitions, in_turn }
}

/// Right and left in turn: the scores of both, pair by pair.
fn in_turn(task: &'static str, right: &[i32], left: &[i32]) -> Sided {
    let pairs = right.iter().zip(left);
    sided(task, true, pairs.flat_map(|(r, l)| [(Direction::Right, *r), (Direction::Left, *l)]))
}

fn stripes(right: &[i32], left: &[i32]) -> Sided {
    let one = |toward, scores: &[i32]| scores.iter().map(|score| (toward, *score)).collect::<Vec<_>>();
    sided("optokinetic", false, [one(Direction::Right, right), one(Direction::Left, left)].concat())
}

fn mirrored(sided: &Sided) -> Sided {
    let repetitions = sided.repetitions.iter().map(|r| Repetition { toward: r.toward.mirrored(), ..*r }).collect();
    Sided { repetitions, ..sided.clone() }
}

fn p(reading: &SideReading) -> f64 {
    match &reading.outcome {
        Outcome::TooFew { .. } => panic!("too few: {reading:?}"),
        Outcome::NoSide(compared) | Outcome::NotNamed(compared) | Outcome::Worse(_, compared) => compared.p,
    }
}

const WELL: [i32; 10] = [0; 10];
const FIVE_MISSES: [i32; 10] = [0, 1, 0, 1, 1, 0, 0, 1, 0, 1];

/// Five pairs and the grades all point to the left: 2 of 2⁶ arrangements.
#[test]
fn following_and_jumps_worse_the_same_way_name_it() {
    let tasks = [in_turn("pursuit", &[0, 0], &[1, 2]), in_turn("saccade", &WELL, &FIVE_MISSES)];
    let reading = read(tasks.iter());
    assert!(matches!(reading.outcome, Outcome::Worse(Direction::Left, _)), "{reading:?}");
    assert!((p(&reading) - 2.0 / 64.0).abs() < 1e-12);
    let mirrored = tasks.each_ref().map(mirrored);
    assert!(matches!(read(mirrored.iter()).outcome, Outcome::Worse(Direction::Right, _)));
    let Outcome::Worse(_, compared) = reading.outcome else { return };
    // Weights 2·2/4 = 1 and 10·10/20 = 5: (1 · -1 + 5 · -0.5) / 6.
    assert!((compared.difference + 3.5 / 6.0).abs() < 1e-12, "{compared:?}");
    assert!(compared.interval.high < 0.0 && compared.interval.contains(compared.difference));
    assert_eq!((compared.pairs, compared.telling), (11, 6));
}

#[test]
fn landings_alone_never_name_a_side() {
    let all = [1; 10];
    let jumps = in_turn("saccade", &WELL, &all);
    // All ten to the left off target has p = 2/1024, but what else was done is alike or points the other way.
    let alike = read([jumps.clone(), in_turn("pursuit", &[0, 0], &[0, 0])].iter());
    assert!(matches!(alike.outcome, Outcome::NotNamed(_)) && p(&alike) < 0.01, "{alike:?}");
    let against = read([jumps.clone(), in_turn("pursuit", &[1, 0], &[0, 0])].iter());
    assert!(matches!(against.outcome, Outcome::NotNamed(_)), "{against:?}");
    // Following goes along, but stripes go the other way by more.
    let split = read([in_turn("pursuit", &[0, 0], &[0, 1]), jumps.clone(), stripes(&[1, 1, 0, 1, 1], &[0; 5])].iter());
    assert!(matches!(split.outcome, Outcome::NotNamed(_) | Outcome::NoSide(_)), "{split:?}");
    let alone = read([jumps].iter());
    assert!(
        matches!(alone.outcome, Outcome::TooFew { pairs: 10 }),
        "one task is that task's own comparison: {alone:?}"
    );
}

#[test]
fn what_was_done_one_way_after_the_other_cannot_decide() {
    let plain = stripes(&WELL, &[1; 10]);
    let reading = read([in_turn("pursuit", &[0, 0], &[2, 2]), plain.clone()].iter());
    assert_eq!(reading.outcome, Outcome::TooFew { pairs: 1 });
    assert!(reading.tasks[1].held && !reading.tasks[0].held);
    // With jumps that are alike it weighs on every arrangement in the same way.
    let reading = read([in_turn("saccade", &FIVE_MISSES, &FIVE_MISSES), plain].iter());
    assert!(matches!(reading.outcome, Outcome::NoSide(_)) && p(&reading) == 1.0, "{reading:?}");
}

#[test]
fn too_few_is_not_alike_and_nothing_is_nothing() {
    let few = read([in_turn("pursuit", &[0, 0], &[0, 0]), in_turn("saccade", &[0; 4], &[1; 4])].iter());
    assert_eq!(few.outcome, Outcome::TooFew { pairs: 2 }, "four jumps a side count once, as a whole");
    assert_eq!(read([].iter()), SideReading::default());
    let one_way = sided("saccade", true, [(Direction::Right, 1); 10]);
    assert_eq!(read([one_way].iter()), SideReading::default());
}

#[test]
fn glances_and_head_turns_have_no_direction_of_eye_movement() {
    let reading = read([in_turn("antisaccade", &WELL, &[1; 10]), in_turn("head_impulse", &WELL, &[1; 10])].iter());
    assert_eq!(reading, SideReading::default());
    assert!(COMPARED.iter().all(|(id, ..)| task::by_id(id).is_some()));
    assert!(words(ACCURACY).is_some());
}

/// A small generator: numbers of Knuth's multiplicative congruence, the upper bits (TAOCP 2, 3.3.4, line 26).
struct Draw(u64);

impl Draw {
    fn below(&mut self, chance: f64) -> bool {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as f64) < chance * 2_147_483_648.0
    }

    /// Events that stick to the one before and grow more frequent from `first` to `last`.
    fn series(&mut self, n: usize, (first, last): (f64, f64), sticks: f64) -> Vec<i32> {
        let mut series: Vec<i32> = Vec::new();
        for at in 0..n {
            let rate = first + (last - first) * at as f64 / n as f64;
            let event = match series.last() {
                Some(&before) if self.below(sticks) => before,
                Some(_) | None => i32::from(self.below(rate)),
            };
            series.push(event);
        }
        series
    }
}

/// Jumps in turn, two grades to each side that share one glance, stripes to the right first. Nothing differs by side.
#[test]
fn healthy_visits_name_a_side_in_at_most_five_of_a_hundred() {
    let visits = 1_500;
    for (rates, sticks) in [((0.3, 0.3), 0.0), ((0.3, 0.3), 0.5), ((0.05, 0.6), 0.0), ((0.1, 0.8), 0.6)] {
        let mut draw = Draw(7);
        let mut named = 0;
        for _ in 0..visits {
            let split = |all: Vec<i32>| -> (Vec<i32>, Vec<i32>) {
                (all.iter().step_by(2).copied().collect(), all.iter().skip(1).step_by(2).copied().collect())
            };
            let (right, left) = split(draw.series(20, rates, sticks));
            let glance = [draw.series(1, rates, 0.0)[0], draw.series(1, rates, 0.0)[0]];
            let order = draw.series(20, rates, sticks);
            let tasks = [
                in_turn("pursuit", &[glance[0]; 2], &[glance[1]; 2]),
                in_turn("saccade", &right, &left),
                stripes(&order[..10], &order[10..]),
            ];
            named += u32::from(matches!(read(tasks.iter()).outcome, Outcome::Worse(..)));
        }
        let share = f64::from(named) / f64::from(visits);
        assert!(share <= 0.05, "{rates:?} sticking {sticks}: {share}");
    }
}
