//! The statistics of the core against values computed by general-purpose libraries (`tests/peers/statistics/run.py`).

use std::collections::BTreeMap;

use serde_json::{Value, json};
use sidelight_core::statistics::exact::{self, Alternative};
use sidelight_core::statistics::neighbours::{Exchange, Ordered, Timed, neighbours};
use sidelight_core::statistics::proportion::{self, Proportion};
use sidelight_core::statistics::stratified::{Stratum, stratified};
use sidelight_core::statistics::trend::{
    least_squares::least_squares, mann_kendall::mann_kendall, theil_sen::theil_sen,
};
use sidelight_core::statistics::{change, normal, order, student, two_sample};

const GOLDEN: &str = include_str!("../data/golden/statistics.json");

/// How far a value may lie from the library's, as a share of it.
const TOLERANCE: f64 = 1e-9;

#[test]
fn statistics_agree_with_the_libraries() {
    let file: Value = serde_json::from_str(GOLDEN).expect("the golden file is JSON");
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    let mut wrong = Vec::new();
    for case in list(&file["cases"]) {
        let function = case["function"].as_str().expect("a case names its function");
        *counts.entry(function).or_default() += 1;
        let found = answer(function, &case["input"]);
        if !agrees(&found, &case["output"], "") {
            wrong.push(format!("{function} of {}\n  expected {}\n  found    {found}", case["input"], case["output"]));
        }
    }
    assert!(wrong.is_empty(), "{} of {counts:?} differ:\n{}", wrong.len(), wrong.join("\n"));
    let (functions, cases) = (counts.len(), counts.values().sum::<usize>());
    assert!(functions >= 20 && cases >= 300, "only {cases} cases of {functions} functions were read");
}

#[test]
fn the_comparison_notices_a_difference() {
    assert!(agrees(&json!({"p": 1e-40}), &json!({"p": 1.000_000_000_5e-40}), ""));
    assert!(!agrees(&json!({"p": 1e-40}), &json!({"p": 1.000_000_01e-40}), ""));
    assert!(!agrees(&json!({"p": 1e-40}), &json!({"p": 0.0}), ""));
    assert!(!agrees(&json!({"low": 0.25}), &json!({"low": 0.250_000_001}), ""));
    assert!(!agrees(&json!({"low": null}), &json!({"low": 0.25}), ""));
    assert!(!agrees(&json!({"low": 0.25}), &json!({"low": 0.25, "high": 0.5}), ""));
    assert!(!agrees(&json!([1, 2]), &json!([1]), ""));
    assert!(!agrees(&json!(true), &json!(false), ""));
}

/// What the core finds for one question, in the form of the file.
fn answer(function: &str, given: &Value) -> Value {
    match function {
        "normal_quantile" => json!({"z": normal::quantile(number(&given["p"]))}),
        "normal_two_sided_p" => json!({"p": normal::two_sided_p(number(&given["z"]))}),
        "student_two_sided_p" => {
            json!({"p": student::two_sided_p(number(&given["t"]), count(&given["degrees"]))})
        }
        "student_critical" => json!({"t": student::critical(confidence(given), count(&given["degrees"]))}),
        "wilson" => {
            let found = proportion::wilson(count(&given["events"]), count(&given["n"]), confidence(given));
            interval(found.expect("counted"))
        }
        "newcombe" => {
            let found = proportion::newcombe(events(&given["a"]), events(&given["b"]), confidence(given));
            interval(found.expect("counted"))
        }
        "fisher" => fisher(events(&given["a"]), events(&given["b"])),
        "binomial_two_sided" => {
            json!({"p": exact::binomial_two_sided(count(&given["k"]), count(&given["n"]), number(&given["p"]))})
        }
        "rates_two_sided" => {
            let (a, b) = (&given["a"], &given["b"]);
            json!({"p": exact::rates_two_sided(count(&a[0]), number(&a[1]), count(&b[0]), number(&b[1]))})
        }
        "sign_test" => {
            let test = exact::sign_test(&numbers(&given["differences"])).expect("signs");
            json!({"positive": test.positive, "negative": test.negative, "ties": test.ties, "p": test.p})
        }
        "mean_difference" => {
            let test = two_sample::mean_difference(&scores(&given["a"]), &scores(&given["b"]), 0).expect("scores");
            json!({"difference": test.difference, "p": test.p})
        }
        "mann_whitney" => {
            let test = two_sample::mann_whitney(&scores(&given["a"]), &scores(&given["b"]), 0).expect("scores");
            json!({"u": test.u, "superiority": test.superiority, "p": test.p})
        }
        "stratified" => {
            let side = |stratum: &Value, name: &str| scores(&stratum[name]);
            let stratum = |s| Stratum { right: side(s, "right"), left: side(s, "left") };
            let strata: Vec<Stratum> = list(&given["strata"]).iter().map(stratum).collect();
            let test = stratified(&strata, 0).expect("informative");
            json!({"strata": test.strata, "z": test.z, "p": test.p})
        }
        "neighbours" => {
            let tasks: Vec<Ordered> = list(&given["tasks"]).iter().map(ordered).collect();
            let test = neighbours(&tasks, 0).expect("both sides");
            json!({"parts": test.parts, "pairs": test.pairs, "telling": test.telling, "p": test.p})
        }
        "common_difference" => {
            let tasks: Vec<_> = list(&given["tasks"]).iter().map(|task| (events(&task[0]), events(&task[1]))).collect();
            let (difference, found) = proportion::common_difference(&tasks, confidence(given)).expect("counted");
            json!({"difference": difference, "low": found.low, "high": found.high})
        }
        "early_late" => {
            let repetitions: Vec<bool> =
                list(&given["events"]).iter().map(|event| event.as_bool().expect("true or false")).collect();
            let halves = order::early_late(&repetitions).expect("two repetitions");
            let counts = |half: Proportion| [half.events(), half.n()];
            json!({"early": counts(halves.early), "late": counts(halves.late), "p": halves.p})
        }
        "tap_rate" => {
            let rate = order::tap_rate(&numbers(&given["times"])).expect("two taps");
            json!({"per_second": rate.per_second, "median_interval": rate.median_interval})
        }
        "quantile" => {
            let values = numbers(&given["values"]);
            let found: Vec<_> = numbers(&given["levels"]).iter().map(|&p| order::quantile(&values, p)).collect();
            json!({"q": found})
        }
        "mean_and_deviation" => {
            let values = numbers(&given["values"]);
            json!({"mean": order::mean(&values), "sd": order::standard_deviation(&values)})
        }
        "least_squares" => {
            let line = least_squares(&numbers(&given["x"]), &numbers(&given["y"]), confidence(given)).expect("points");
            json!({
                "slope": line.slope, "intercept": line.intercept, "slope_error": line.slope_error,
                "low": line.interval.low, "high": line.interval.high, "degrees": line.degrees, "p": line.p,
                "r_squared": line.r_squared,
            })
        }
        "theil_sen" => {
            let line = theil_sen(&numbers(&given["x"]), &numbers(&given["y"]), confidence(given)).expect("points");
            let interval = line.interval.expect("a variance");
            json!({
                "slope": line.slope, "intercept": line.intercept, "low": interval.low, "high": interval.high,
                "pairs": line.pairs,
            })
        }
        "mann_kendall" => {
            let test = mann_kendall(&numbers(&given["values"])).expect("values");
            json!({
                "s": test.s, "variance": test.variance, "z": test.z, "p_normal": test.p_normal,
                "p_exact": test.p_exact, "tau": test.tau,
            })
        }
        "change" => changed(given),
        unknown => panic!("the golden file asks for {unknown}, which this test does not know"),
    }
}

fn fisher(a: Proportion, b: Proportion) -> Value {
    json!({
        "p_table": exact::hypergeometric(a.events(), a.n() + b.n(), a.events() + b.events(), a.n()),
        "p_two_sided": exact::fisher_two_sided(a, b),
        "p_less": exact::fisher_one_sided(a, b, Alternative::Less),
        "p_greater": exact::fisher_one_sided(a, b, Alternative::Greater),
        "p_mid": exact::fisher_mid_p(a, b),
    })
}

/// A task in the file: 1 for the right and 0 for the left of each repetition, its score, and what may change places.
fn ordered(task: &Value) -> Ordered {
    let sides = scores(&task["right"]).into_iter().zip(scores(&task["scores"]));
    let exchange = match task["exchange"].as_str() {
        Some("neighbours") => Exchange::Neighbours,
        Some("whole") => Exchange::Whole,
        Some("held") => Exchange::Held,
        other => panic!("the golden file asks for {other:?}"),
    };
    Ordered { repetitions: sides.map(|(right, score)| Timed { right: right == 1, score }).collect(), exchange }
}

fn changed(given: &Value) -> Value {
    let deviation = number(&given["standard_deviation"]);
    let sem = change::error_of_measurement(deviation, number(&given["reliability"])).expect("usable");
    let error = change::error_of_difference(sem, sem).expect("usable");
    let (before, after) = (number(&given["before"]), number(&given["after"]));
    let found = change::reliable_change(before, after, error, confidence(given)).expect("usable");
    json!({
        "sem": sem, "error_of_difference": error, "index": found.index, "threshold": found.threshold,
        "reliable": found.reliable, "minimal_detectable_change": change::minimal_detectable_change(sem, confidence(given)),
    })
}

fn interval(found: sidelight_core::statistics::Interval) -> Value {
    json!({"low": found.low, "high": found.high})
}

/// Equal within the tolerance. Probabilities (keys that start with p) must agree in their digits however small they are.
fn agrees(found: &Value, expected: &Value, key: &str) -> bool {
    match (found, expected) {
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && b.iter().all(|(key, value)| a.get(key).is_some_and(|own| agrees(own, value, key)))
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| agrees(a, b, key)),
        (Value::Number(a), Value::Number(b)) => match (a.as_f64(), b.as_f64()) {
            (Some(a), Some(b)) => {
                let floor = if key.starts_with('p') { 0.0 } else { 1e-12 };
                (a - b).abs() <= (TOLERANCE * a.abs().max(b.abs())).max(floor)
            }
            _ => false,
        },
        _ => found == expected,
    }
}

fn confidence(given: &Value) -> f64 {
    number(&given["confidence"])
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn numbers(value: &Value) -> Vec<f64> {
    list(value).iter().map(number).collect()
}

fn count(value: &Value) -> u32 {
    value.as_u64().and_then(|count| u32::try_from(count).ok()).expect("a count")
}

fn scores(value: &Value) -> Vec<i32> {
    let score = |value: &Value| value.as_i64().and_then(|score| i32::try_from(score).ok()).expect("a whole number");
    list(value).iter().map(score).collect()
}

fn events(pair: &Value) -> Proportion {
    Proportion::new(count(&pair[0]), count(&pair[1])).expect("no more events than repetitions")
}
