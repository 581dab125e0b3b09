//! Prints how often healthy people are called one-sided or changed, and how often a true deficit is found:
//! `cargo run --profile bench -p sidelight-tests --bin calibrate`, with the number of visits behind `--`.

use sidelight_tests::calibration::{changes_called, power, sides_named};

/// Visits when none are asked for.
const VISITS: u32 = 20_000;

fn main() {
    let visits = std::env::args().nth(1).map_or(Ok(VISITS), |given| given.parse());
    let Ok(visits) = visits else {
        eprintln!("Say how many visits as a whole number, such as 20000.");
        std::process::exit(2);
    };
    println!("Healthy visits that name a side: {}", sides_named(visits, 1).words());
    println!("\nUnchanged people called changed (certain), by measure:");
    for (key, count) in changes_called(visits, 3) {
        println!("  {key:38} {}", count.words());
    }
    println!("\nA true deficit to one side, added to the share of what is missed in every task:");
    for step in 0..=8 {
        let deficit = f64::from(step) / 10.0;
        let (right, wrong) = power(deficit, visits / 10, 2);
        println!(
            "  {:3.0} %  found {:5.1} %, wrong side {:4.2} %",
            100.0 * deficit,
            100.0 * right.share(),
            100.0 * wrong.share()
        );
    }
}
