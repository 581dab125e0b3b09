//! Times the assessment of a full visit beside the reading of its file: printed natively, left on the page in a browser.

use std::hint::black_box;

use sidelight_core::archive;
use sidelight_core::assess::assess;

/// A full visit with every task done.
const VISIT: &[u8] = include_bytes!("../../../tests/visits/own-baseline/visit.json");

/// Runs of each, in turn, so that both meet the same machine.
const ROUNDS: usize = 200;

/// Median microseconds of an assessment and of reading the file it was made from.
fn measure(now_ms: impl Fn() -> f64) -> Option<(f64, f64)> {
    let read = archive::read(VISIT).ok()?;
    let (person, visit) = (read.people.first()?, read.visits.first()?);
    // A clock may tick in steps of a tenth of a millisecond, so each timing covers several runs.
    let timed = |run: &dyn Fn()| {
        let start = now_ms();
        for _ in 0..10 {
            run();
        }
        (now_ms() - start) * 100.0
    };
    let (mut assessing, mut reading) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        assessing.push(timed(&|| {
            black_box(assess(black_box(person), black_box(visit)));
        }));
        reading.push(timed(&|| {
            let _ = black_box(archive::read(black_box(VISIT)));
        }));
    }
    Some((median(assessing), median(reading)))
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    let start = std::time::Instant::now();
    if let Some((assessing, reading)) = measure(|| start.elapsed().as_secs_f64() * 1000.0) {
        println!("{assessing} {reading}");
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {
    let Some(window) = web_sys::window() else { return };
    let (Some(clock), Some(root)) = (window.performance(), window.document().and_then(|d| d.document_element())) else {
        return;
    };
    if let Some((assessing, reading)) = measure(|| clock.now()) {
        let _ = root.set_attribute("data-timing", &format!("{assessing} {reading}"));
    }
}
