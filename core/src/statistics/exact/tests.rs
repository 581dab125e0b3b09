//! The exact tests against worked examples and against themselves.

use super::super::assert_close;
use super::*;

fn of(events: u32, n: u32) -> Proportion {
    Proportion::new(events, n).expect("no more events than repetitions")
}

#[test]
fn the_lady_tasting_tea() {
    // Fisher 1935, The Design of Experiments: 1, 16, 36, 16 and 1 of 70 ways.
    let (milk, tea) = (of(3, 4), of(1, 4));
    assert_close(hypergeometric(3, 8, 4, 4).expect("possible"), 16.0 / 70.0, 1e-16);
    assert_close(fisher_one_sided(milk, tea, Alternative::Greater).expect("counted"), 17.0 / 70.0, 1e-15);
    assert_close(fisher_one_sided(milk, tea, Alternative::Less).expect("counted"), 69.0 / 70.0, 1e-15);
    assert_close(fisher_two_sided(milk, tea).expect("counted"), 34.0 / 70.0, 1e-15);
    // Only the observed table is halved: 34 - 8, not 34 - 16.
    assert_close(fisher_mid_p(milk, tea).expect("counted"), 26.0 / 70.0, 1e-15);
}

#[test]
fn convictions_of_twins() {
    // Fisher 1935, Journal of the Royal Statistical Society 98:39: 10 of 13 against 2 of 17 convicted;
    // the one-sided probability is printed as 619 / 1330665.
    let p = fisher_one_sided(of(2, 17), of(10, 13), Alternative::Less).expect("counted");
    assert_close(p, 619.0 / 1_330_665.0, 1e-17);
}

#[test]
fn margins_with_one_table_say_nothing() {
    assert_eq!(fisher_two_sided(of(0, 10), of(0, 7)), Some(1.0));
    assert_eq!(fisher_mid_p(of(0, 10), of(0, 7)), Some(0.5));
}

#[test]
fn an_empty_group_has_no_test() {
    let (none, some) = (of(0, 0), of(1, 3));
    assert_eq!(fisher_two_sided(none, some), None);
    assert_eq!(fisher_mid_p(some, none), None);
    assert_eq!(fisher_one_sided(none, none, Alternative::Less), None);
}

#[test]
fn mid_p_finds_a_difference_by_chance_as_rarely_as_documented() {
    let worst = |sizes: &[(u32, u32)]| sizes.iter().copied().map(worst_error).fold(0.0, f64::max);
    let same: Vec<(u32, u32)> = (3..=20).map(|n| (n, n)).collect();
    let of_same = worst(&same);
    assert!(of_same > 0.03 && of_same <= 0.039, "equal groups: {of_same}");
    // The worst pairs of sizes up to 20 and two usual ones.
    let of_others = worst(&[(4, 8), (7, 15), (5, 6), (12, 19), (10, 12), (10, 20)]);
    assert!(of_others > 0.05 && of_others <= 0.066, "unequal groups: {of_others}");
}

/// The greatest chance, over true rates up to one half, that equal rates come out at p <= 0.05; summed over all outcomes.
fn worst_error((n, m): (u32, u32)) -> f64 {
    let outcomes = (0..=n).flat_map(|a| (0..=m).map(move |b| (a, b)));
    let rejected: Vec<(u32, u32)> =
        outcomes.filter(|&(a, b)| fisher_mid_p(of(a, n), of(b, m)).expect("counted") <= 0.05).collect();
    let error = |percent: u32| {
        let rate = f64::from(percent) / 100.0;
        let (first, second) = (Discrete::binomial(n.into(), rate), Discrete::binomial(m.into(), rate));
        rejected.iter().map(|&(a, b)| first.at(a.into()) * second.at(b.into())).sum::<f64>()
    };
    (1..=50).map(error).fold(0.0, f64::max)
}

#[test]
fn binomial_by_counting() {
    assert_close(binomial_two_sided(9, 10, 0.5).expect("counted"), 22.0 / 1024.0, 1e-15);
    // P(0) and P(3) of three trials at 1/4: 27/64 + 1/64 + 9/64 are no more probable than P(0) = P(1) = 27/64.
    assert_close(binomial_two_sided(0, 3, 0.25).expect("counted"), 1.0, 1e-15);
    assert_close(binomial_two_sided(2, 3, 0.25).expect("counted"), 10.0 / 64.0, 1e-15);
}

#[test]
fn binomial_at_the_ends_and_out_of_range() {
    assert_eq!(binomial_two_sided(0, 5, 0.0), Some(1.0));
    assert_eq!(binomial_two_sided(1, 5, 0.0), Some(0.0));
    assert_eq!(binomial_two_sided(5, 5, 1.0), Some(1.0));
    assert_eq!(binomial_two_sided(0, 0, 0.5), None);
    assert_eq!(binomial_two_sided(2, 1, 0.5), None);
    assert_eq!(binomial_two_sided(1, 2, 1.5), None);
    assert_eq!(binomial_two_sided(1, 2, f64::NAN), None);
}

#[test]
fn rates_over_equal_spans_are_a_fair_coin() {
    assert_eq!(rates_two_sided(9, 30.0, 1, 30.0), binomial_two_sided(9, 10, 0.5));
    assert_eq!(rates_two_sided(0, 30.0, 0, 30.0), None);
    assert_eq!(rates_two_sided(3, 0.0, 1, 30.0), None);
    assert_eq!(rates_two_sided(u32::MAX, 1.0, 1, 1.0), None);
}

#[test]
fn signs_leave_ties_out() {
    let test = sign_test(&[1.0, -2.0, -1.0, -3.0, -1.0, -2.0, -4.0, 0.0]).expect("signs");
    assert_eq!((test.positive, test.negative, test.ties), (1, 6, 1));
    assert_close(test.p, 16.0 / 128.0, 1e-15);
    assert_eq!(sign_test(&[0.0, -0.0]), None);
    assert_eq!(sign_test(&[]), None);
    assert_eq!(sign_test(&[1.0, f64::NAN]), None);
}
