//! Times what is worked out from visits beside the reading of their file: printed natively, left on the page in a browser.
//!
//! Natively, `--numbers` prints the numbers the tests are made on instead, for a program of another language, and
//! `--hand-over COUNT` times the file of a hand over.

#[cfg(not(target_arch = "wasm32"))]
mod numbers;
#[cfg(not(target_arch = "wasm32"))]
mod sealing;
mod visits;

use std::hint::black_box;

use sidelight_core::archive::{self, Archive};
use sidelight_core::assess::assess;

/// Runs of each, in turn, so that all meet the same machine.
const ROUNDS: usize = 60;

/// Median microseconds of reading a visit from its file, of assessing it, and of assessing it with ten earlier ones.
fn measure(now_ms: impl Fn() -> f64) -> Option<[f64; 3]> {
    let (person, visits) = visits::person();
    let newest = visits.last()?;
    let file = archive::write(&Archive::of(vec![person.clone()], vec![newest.clone()]));
    // A clock may tick in steps of a tenth of a millisecond, so each timing covers several runs.
    let timed = |run: &dyn Fn()| {
        let start = now_ms();
        for _ in 0..10 {
            run();
        }
        (now_ms() - start) * 100.0
    };
    let mut times = [Vec::new(), Vec::new(), Vec::new()];
    for _ in 0..ROUNDS {
        times[0].push(timed(&|| {
            let _ = black_box(archive::read(black_box(&file)));
        }));
        times[1].push(timed(&|| {
            black_box(assess(black_box(&person), black_box(newest)));
        }));
        times[2].push(timed(&|| {
            black_box(visits::whole(black_box(&person), black_box(&visits)));
        }));
    }
    Some(times.map(median))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["--numbers"] => {
            let (person, all) = visits::person();
            let (read, changes) = visits::whole(&person, &all);
            println!("{}", numbers::of(&read, &changes));
        }
        ["--hand-over", count] => hand_over(count),
        _ => assessing(),
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn hand_over(count: &str) {
    let told = count.parse().map_err(Into::into).and_then(sealing::print);
    if let Err(why) = told {
        eprintln!("{why}");
        std::process::exit(1);
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn assessing() {
    let start = std::time::Instant::now();
    if let Some([reading, assessing, whole]) = measure(|| start.elapsed().as_secs_f64() * 1000.0) {
        println!("{reading} {assessing} {whole}");
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {
    let Some(window) = web_sys::window() else { return };
    let (Some(clock), Some(root)) = (window.performance(), window.document().and_then(|d| d.document_element())) else {
        return;
    };
    if let Some([reading, assessing, whole]) = measure(|| clock.now()) {
        let _ = root.set_attribute("data-timing", &format!("{reading} {assessing} {whole}"));
    }
}
