//! Changed files and texts at random, from a seed, against everything that reads what others wrote: `cargo run --profile
//! bench -p sidelight-tests --bin mutate -- 1000000`, with the number of inputs and, if wanted, a seed behind `--`.
//!
//! No input may stop the program, be taken for something it is not, or need more memory than its kind is allowed.

mod change;
mod hostile;
mod target;

use std::panic;
use std::process::ExitCode;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use peak_alloc::PeakAlloc;
use sidelight_tests::dice::Dice;

use change::changed;
use target::{Target, targets};

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// The input at work, for a program that stops.
static AT_WORK: AtomicU64 = AtomicU64::new(0);

/// Inputs when none are asked for.
const INPUTS: u64 = 20_000;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1).map(|given| given.parse::<u64>());
    let (inputs, seed) = match (arguments.next().unwrap_or(Ok(INPUTS)), arguments.next().unwrap_or(Ok(1))) {
        (Ok(inputs), Ok(seed)) => (inputs, seed),
        _ => {
            eprintln!("Say how many inputs, and from which seed, as whole numbers.");
            return ExitCode::from(2);
        }
    };
    panic::set_hook(Box::new(|what| eprintln!("Input {} stops the program: {what}", AT_WORK.load(Ordering::Relaxed))));
    let faults = [hostile::run(), run(inputs, seed)].concat();
    for fault in &faults {
        println!("{fault}");
    }
    if faults.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// What became of the inputs of one kind.
#[derive(Default)]
struct Tally {
    run: u64,
    accepted: u64,
    peak: usize,
}

/// Runs so many inputs and says what went wrong.
fn run(inputs: u64, seed: u64) -> Vec<String> {
    let begun = Instant::now();
    let targets = targets();
    let mut tallies: Vec<Tally> = targets.iter().map(|_| Tally::default()).collect();
    let mut faults = Vec::new();
    let weights: u64 = targets.iter().map(|target| target.weight).sum();
    for number in 0..inputs {
        AT_WORK.store(number, Ordering::Relaxed);
        let mut dice = Dice::new(seed << 40 ^ number);
        let kind = which(&targets, dice.below(weights));
        let (target, tally) = (&targets[kind], &mut tallies[kind]);
        let example = dice.below(target.examples.len() as u64) as usize;
        let input = changed(&target.examples, example, &mut dice);
        let (judged, peak) = measured(|| target.judge.says(&input, example));
        tally.run += 1;
        tally.peak = tally.peak.max(peak);
        match judged {
            Ok(accepted) => tally.accepted += u64::from(accepted),
            Err(why) => faults.push(format!("Input {number} of seed {seed}, {}: {why}", target.name)),
        }
        if peak > target.ceiling {
            faults.push(format!("Input {number} of seed {seed}, {}: {peak} bytes of memory", target.name));
        }
    }
    println!("{inputs} inputs from seed {seed} in {:.0} s, {} faults", begun.elapsed().as_secs_f64(), faults.len());
    for (target, tally) in targets.iter().zip(&tallies) {
        println!(
            "  {:16} {:7} run, {:6} taken as what they are, at most {:5} KiB of {} KiB",
            target.name,
            tally.run,
            tally.accepted,
            tally.peak / 1024,
            target.ceiling / 1024
        );
    }
    faults
}

fn which(targets: &[Target], mut at: u64) -> usize {
    for (number, target) in targets.iter().enumerate() {
        if at < target.weight {
            return number;
        }
        at -= target.weight;
    }
    targets.len() - 1
}

/// What work gives, and the memory it took beyond what was in use before.
fn measured<T>(work: impl FnOnce() -> T) -> (T, usize) {
    let before = MEMORY.current_usage();
    MEMORY.reset_peak_usage();
    let given = work();
    (given, MEMORY.peak_usage().saturating_sub(before))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::target::Judge;

    /// One test, for the memory of all threads is counted together.
    #[test]
    fn inputs_and_hostile_files_do_no_harm_and_planted_faults_are_found() {
        let (_, peak) = measured(|| vec![1_u8; 40 << 20].len());
        assert!((40 << 20..41 << 20).contains(&peak), "a planted large one takes {peak} bytes");
        let (_, peak) = measured(|| vec![1_u8; 1_000].len());
        assert!(peak < 100_000, "a planted small one takes {peak} bytes");
        let faults = hostile::run();
        assert!(faults.is_empty(), "{faults:#?}");
        // The known answer must be missed when another one is given out for it.
        for mut target in targets() {
            let honest = target.judge.says(&target.examples[0], 0);
            assert_eq!(honest, Ok(true), "{} refuses its own example", target.name);
            if let Judge::Same { holds, .. } = &mut target.judge {
                holds.rotate_left(1);
                let planted = target.judge.says(&target.examples[0], 0);
                assert!(planted.is_err(), "{} takes one example for another", target.name);
            }
        }
        let faults = run(INPUTS, 1);
        assert!(faults.is_empty(), "{faults:#?}");
    }
}
