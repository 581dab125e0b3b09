//! What must hold for every input, tried on inputs nobody chose.

use proptest::prelude::*;

use super::exact::{Alternative, binomial_two_sided, fisher_mid_p, fisher_one_sided, fisher_two_sided, sign_test};
use super::order::{early_late, quantile};
use super::proportion::{Proportion, newcombe, wilson};
use super::stratified::{Stratum, stratified};
use super::trend::least_squares::least_squares;
use super::trend::mann_kendall::mann_kendall;
use super::trend::theil_sen::theil_sen;
use super::two_sample::{mann_whitney, mean_difference};
use super::{normal, student};

/// A proportion of up to `most` repetitions, at least one.
fn proportion(most: u32) -> impl Strategy<Value = Proportion> {
    (1..=most).prop_flat_map(|n| (0..=n).prop_filter_map("fits", move |events| Proportion::new(events, n)))
}

fn confidence() -> impl Strategy<Value = f64> {
    0.5..0.999
}

fn other_events(of: Proportion) -> Proportion {
    Proportion::new(of.others(), of.n()).expect("fits")
}

/// Whether a p is a probability of something that has happened.
fn is_p(p: f64) -> bool {
    p > 0.0 && p <= 1.0
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()) + 1e-12
}

fn scores() -> impl Strategy<Value = Vec<i32>> {
    prop::collection::vec(0..4_i32, 0..9)
}

fn series() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec((-40..40_i32).prop_map(|x| f64::from(x) / 4.0), 3..14)
}

proptest! {
    #[test]
    fn wilson_surrounds_the_rate_within_the_scale(a in proportion(400), confidence in confidence()) {
        let interval = wilson(a.events(), a.n(), confidence).expect("counted");
        prop_assert!(0.0 <= interval.low && interval.high <= 1.0);
        prop_assert!(interval.contains(a.rate().expect("counted")));
        let mirror = wilson(a.others(), a.n(), confidence).expect("counted");
        prop_assert!(near(interval.low, 1.0 - mirror.high) && near(interval.high, 1.0 - mirror.low));
        let wider = wilson(a.events(), a.n(), confidence + 0.000_5).expect("counted");
        prop_assert!(wider.low <= interval.low && wider.high >= interval.high);
    }

    #[test]
    fn newcombe_surrounds_the_difference(a in proportion(200), b in proportion(200), confidence in confidence()) {
        let interval = newcombe(a, b, confidence).expect("counted");
        prop_assert!(-1.0 <= interval.low && interval.high <= 1.0);
        prop_assert!(interval.contains(a.rate().expect("counted") - b.rate().expect("counted")));
        let swapped = newcombe(b, a, confidence).expect("counted");
        prop_assert!(near(interval.low, -swapped.high) && near(interval.high, -swapped.low));
    }

    #[test]
    fn fisher_does_not_care_how_the_table_is_turned(a in proportion(150), b in proportion(150)) {
        let turned = [(a, b), (b, a), (other_events(a), other_events(b)), (other_events(b), other_events(a))];
        let exact = fisher_two_sided(a, b).expect("counted");
        let mid = fisher_mid_p(a, b).expect("counted");
        prop_assert!(is_p(exact) && is_p(mid) && mid <= exact && mid >= exact / 2.0);
        for (a, b) in turned {
            prop_assert!(near(fisher_two_sided(a, b).expect("counted"), exact));
            prop_assert!(near(fisher_mid_p(a, b).expect("counted"), mid));
        }
        let less = fisher_one_sided(a, b, Alternative::Less).expect("counted");
        let greater = fisher_one_sided(a, b, Alternative::Greater).expect("counted");
        prop_assert!(is_p(less) && is_p(greater) && less + greater >= 1.0 - 1e-12);
        prop_assert!(near(less, fisher_one_sided(b, a, Alternative::Greater).expect("counted")));
        prop_assert!(less.min(greater) <= exact * (1.0 + 1e-9));
    }

    #[test]
    fn binomial_is_a_p_and_mirrors(a in proportion(300), chance in 0.01..0.99_f64) {
        let p = binomial_two_sided(a.events(), a.n(), chance).expect("counted");
        prop_assert!(is_p(p));
        prop_assert!(near(p, binomial_two_sided(a.others(), a.n(), 1.0 - chance).expect("counted")));
    }

    #[test]
    fn signs_ignore_size_and_mirror(differences in prop::collection::vec(-3..4_i32, 1..30)) {
        let signed = |factor: i32| differences.iter().map(|d| f64::from(d * factor)).collect::<Vec<_>>();
        let (test, mirror, scaled) = (sign_test(&signed(1)), sign_test(&signed(-1)), sign_test(&signed(5)));
        prop_assert_eq!(test, scaled);
        prop_assert_eq!(test.is_none(), differences.iter().all(|d| *d == 0));
        if let (Some(test), Some(mirror)) = (test, mirror) {
            prop_assert!(is_p(test.p) && near(test.p, mirror.p));
            prop_assert_eq!((test.positive, test.negative), (mirror.negative, mirror.positive));
        }
    }

    #[test]
    fn halves_mirror_in_time(events in prop::collection::vec(any::<bool>(), 0..60)) {
        let backwards: Vec<bool> = events.iter().rev().copied().collect();
        match (early_late(&events), early_late(&backwards)) {
            (Some(halves), Some(mirror)) => {
                prop_assert!(is_p(halves.p) && near(halves.p, mirror.p));
                prop_assert_eq!((halves.early, halves.late), (mirror.late, mirror.early));
            }
            (halves, mirror) => prop_assert!(events.len() < 2 && halves.is_none() && mirror.is_none()),
        }
    }

    #[test]
    fn strata_mirror_and_ignore_scale_and_order(tasks in prop::collection::vec((scores(), scores()), 1..4)) {
        let build = |turn: bool, factor: i32, back: bool| {
            let scale = |scores: &Vec<i32>| {
                let mut scaled: Vec<i32> = scores.iter().map(|score| score * factor + 7).collect();
                if back { scaled.reverse(); }
                scaled
            };
            let one = |(right, left): &(Vec<i32>, Vec<i32>)| {
                if turn { (scale(left), scale(right)) } else { (scale(right), scale(left)) }
            };
            tasks.iter().map(one).map(|(right, left)| Stratum { right, left }).collect::<Vec<_>>()
        };
        if let Some(test) = stratified(&build(false, 1, false), 0) {
            prop_assert!(is_p(test.p));
            for (other, sign) in [(build(true, 1, false), -1.0), (build(false, 3, true), 1.0)] {
                let other = stratified(&other, 0).expect("as informative");
                prop_assert!(near(test.p, other.p) && (test.z - sign * other.z).abs() < 1e-9);
                prop_assert_eq!(test.strata, other.strata);
            }
        }
    }

    #[test]
    fn two_samples_mirror(a in scores(), b in scores()) {
        if let (Some(test), Some(mirror)) = (mean_difference(&a, &b, 0), mean_difference(&b, &a, 0)) {
            prop_assert!(is_p(test.p) && near(test.p, mirror.p) && near(test.difference, -mirror.difference));
        }
        if let (Some(test), Some(mirror)) = (mann_whitney(&a, &b, 0), mann_whitney(&b, &a, 0)) {
            prop_assert!(is_p(test.p) && near(test.p, mirror.p));
            prop_assert!(near(test.superiority + mirror.superiority, 1.0));
        }
    }

    #[test]
    fn slopes_turn_with_the_series(y in series(), confidence in confidence()) {
        let x: Vec<f64> = (0..y.len()).map(|day| day as f64).collect();
        let down: Vec<f64> = y.iter().map(|value| -value).collect();
        let line = least_squares(&x, &y, confidence).expect("three points");
        let mirror = least_squares(&x, &down, confidence).expect("three points");
        prop_assert!(line.interval.contains(line.slope) && near(line.slope, -mirror.slope));
        prop_assert!((0.0..=1.0).contains(&line.p));
        let (sen, trend) = (theil_sen(&x, &y, confidence).expect("points"), mann_kendall(&y).expect("points"));
        prop_assert!(sen.interval.is_none_or(|interval| interval.contains(sen.slope)));
        prop_assert!(near(sen.slope, -theil_sen(&x, &down, confidence).expect("points").slope));
        prop_assert!(is_p(trend.p()) && is_p(trend.p_normal));
        prop_assert_eq!(trend.s, -mann_kendall(&down).expect("points").s);
    }

    #[test]
    fn quantiles_rise_from_least_to_greatest(values in series(), p in 0.0..1.0_f64, q in 0.0..1.0_f64) {
        let at = |level| quantile(&values, level).expect("values");
        prop_assert!(at(0.0) <= at(p.min(q)) && at(p.min(q)) <= at(p.max(q)) && at(p.max(q)) <= at(1.0));
    }

    #[test]
    fn critical_values_answer_the_tail(confidence in 0.001..0.999_999_f64, degrees in 1..200_u32) {
        let z = normal::critical(confidence).expect("inside");
        let t = student::critical(confidence, degrees).expect("inside");
        prop_assert!(near(normal::two_sided_p(z), 1.0 - confidence));
        prop_assert!(near(student::two_sided_p(t, degrees).expect("defined"), 1.0 - confidence));
        prop_assert!(t > z, "Student's tails are heavier");
    }
}
