//! Sealing and opening the file of a hand over, beside the age library alone and the bare reading of the same bytes.

use std::error::Error;
use std::fs;
use std::hint::black_box;
use std::io::{Read, Write};
use std::time::Instant;

use age::{Decryptor, Encryptor, x25519};
use sidelight_core::archive::{self, Archive, MAX_BYTES};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::Visit;
use sidelight_core::demo;
use sidelight_core::hand_over::{self, Identity, To, With};
use sidelight_core::merge::{Here, plan};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Runs of each, in turn; the fastest counts, since whatever else the machine does only adds.
const ROUNDS: usize = 5;

/// Seconds of one way and of its reference.
struct Beside {
    ours: f64,
    reference: f64,
}

/// Prints one line for each figure of `count` closed visits; the file of as many as one file can hold.
///
/// # Errors
/// When a file does not open, which would be a fault.
pub fn print(count: usize) -> Result<(), Box<dyn Error>> {
    memory(count)?;
    let tenth = measure(count / 10)?;
    let [sealing, opening] = measure(count)?;
    for (what, Beside { ours, reference }, few) in [("sealing", &sealing, &tenth[0]), ("opening", &opening, &tenth[1])]
    {
        let (ratio, growth) = (ours / reference, (ours / few.ours).log10());
        println!(
            "{what} {count} visits, native: {:.0} ms / {:.0} ms = {ratio:.2} (aim 1.5: {}), growth exponent {growth:.2}",
            1000.0 * ours,
            1000.0 * reference,
            if ratio <= 1.5 { "met" } else { "missed" },
        );
    }
    let (few, all) = (planning(count / 10), planning(count));
    println!(
        "planning what to take in, {count} visits twice, half of them here: {:.0} ms, growth exponent {:.2}",
        1000.0 * all,
        (all / few).log10()
    );
    println!("  reference of sealing: bare JSON writing and age; of opening: age and bare JSON reading; same bytes");
    Ok(())
}

/// Comes first: what a process once held counts for ever, and the references hold more.
fn memory(count: usize) -> Result<(), Box<dyn Error>> {
    let visits = many(count);
    let held = most_memory();
    let key = Identity::generate();
    let file = hand_over::seal(&archive::write_compact(&visits), &To::Keys(&[key.recipient()]))?;
    let sealed = most_memory();
    drop(visits);
    black_box(archive::read(&hand_over::open(&file, &With::Keys(&[key]))?)?);
    let opened = most_memory();
    let known = |memory: Option<String>| memory.unwrap_or_else(|| "unknown".to_owned());
    println!(
        "memory at most: {count} visits {}, after sealing them {}, after opening them {}",
        known(held),
        known(sealed),
        known(opened)
    );
    Ok(())
}

fn measure(count: usize) -> Result<[Beside; 2], Box<dyn Error>> {
    let visits = many(count);
    let plain = archive::write_compact(&visits);
    if plain.len() > MAX_BYTES {
        return Err(format!("{count} visits are {} B, more than one file holds", plain.len()).into());
    }
    let bare: serde_json::Value = serde_json::from_slice(&plain)?;
    let (ours, alone) = (Identity::generate(), x25519::Identity::generate());
    let recipients = [ours.recipient()];
    let mut best = [f64::INFINITY; 4];
    for _ in 0..ROUNDS {
        let mut files = (Vec::new(), Vec::new());
        let steps: [&mut dyn FnMut() -> Result<(), Box<dyn Error>>; 2] = [
            &mut || {
                files.0 = hand_over::seal(&archive::write_compact(&visits), &To::Keys(&recipients))?;
                Ok(())
            },
            &mut || {
                files.1 = seal_alone(&serde_json::to_vec(&bare)?, &alone)?;
                Ok(())
            },
        ];
        for (best, step) in best.iter_mut().zip(steps) {
            *best = best.min(seconds(step)?);
        }
        best[2] = best[2].min(seconds(&mut || {
            let opened = hand_over::open(&files.0, &With::Keys(std::slice::from_ref(&ours)))?;
            black_box(archive::read(&opened)?);
            Ok(())
        })?);
        best[3] = best[3].min(seconds(&mut || {
            black_box(serde_json::from_slice::<serde_json::Value>(&open_alone(&files.1, &alone)?)?);
            Ok(())
        })?);
    }
    let [seal, seal_reference, open, open_reference] = best;
    println!("{count} visits: {} B as JSON", plain.len());
    Ok([Beside { ours: seal, reference: seal_reference }, Beside { ours: open, reference: open_reference }])
}

/// Seconds to compare two files of the same visits with a device that has half of them.
fn planning(count: usize) -> f64 {
    let whole = many(count);
    let half = Archive { visits: whole.visits.iter().step_by(2).cloned().collect(), ..whole.clone() };
    let here = Here::of(half, Vec::new());
    let once = |_| {
        let files = vec![whole.clone(), whole.clone()];
        let start = Instant::now();
        black_box(plan(&here, files));
        start.elapsed().as_secs_f64()
    };
    (0..ROUNDS).map(once).fold(f64::INFINITY, f64::min)
}

fn seconds(step: &mut dyn FnMut() -> Result<(), Box<dyn Error>>) -> Result<f64, Box<dyn Error>> {
    let start = Instant::now();
    step()?;
    Ok(start.elapsed().as_secs_f64())
}

fn seal_alone(plain: &[u8], to: &x25519::Identity) -> Result<Vec<u8>, Box<dyn Error>> {
    let recipient = to.to_public();
    let encryptor = Encryptor::with_recipients(std::iter::once(&recipient as &dyn age::Recipient))?;
    let mut sealed = Vec::new();
    let mut writer = encryptor.wrap_output(&mut sealed)?;
    writer.write_all(plain)?;
    writer.finish()?;
    Ok(sealed)
}

fn open_alone(sealed: &[u8], identity: &x25519::Identity) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut reader = Decryptor::new(sealed)?.decrypt(std::iter::once(identity as &dyn age::Identity))?;
    let mut plain = Vec::new();
    reader.read_to_end(&mut plain)?;
    Ok(plain)
}

/// The demo's visits over and over, each closed under an id of its own.
fn many(count: usize) -> Archive {
    let (people, pattern) = demo::people(NOW);
    let visits = pattern.into_iter().cycle().take(count).enumerate();
    let closed = visits.map(|(at, visit)| archive::closed(Visit { id: format!("many-{at}"), ..visit }, NOW));
    Archive::of(people, closed.collect())
}

/// The most memory this process ever held, as Linux counts it.
fn most_memory() -> Option<String> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().to_owned())
}
