//! The jobs, one a file. Each takes what the page gave and says in one sentence why it cannot be done.

mod clinic_key;
mod derive;
mod device_secret;
mod fhir;
mod open;
mod qr_make;
mod qr_read;
mod seal;
mod strength;
mod tables;
mod take_in;

use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::seal::Kdf;
use sidelight_worker::{Answer, Ask, Made};
use zeroize::Zeroizing;

/// An answer and the bytes that go with it, or one sentence.
pub type Done = Result<(Answer, Vec<Vec<u8>>), String>;

/// Does one job.
pub async fn run(ask: Ask, bytes: Vec<Vec<u8>>) -> Done {
    match ask {
        Ask::Derive { memory_kib, passes, lanes } => derive::run(Kdf { memory_kib, passes, lanes }, bytes),
        Ask::Strength => strength::run(bytes),
        Ask::QrMake { text } => qr_make::run(&text),
        Ask::QrRead { width, height } => qr_read::run(width, height, bytes),
        Ask::KeyMake => clinic_key::make(),
        Ask::KeyOwn => clinic_key::own(bytes),
        Ask::KeyRead { text } => clinic_key::read(&text),
        Ask::Seal { to, text } => seal::run(to, text, bytes),
        Ask::Fhir { transaction, made } => fhir::run(transaction, &made, bytes),
        Ask::Tables { named, bom, made } => tables::run(named, bom, &made, bytes),
        Ask::Open => open::run(bytes),
        Ask::TakeIn { bring_back, give } => take_in::run(bring_back, give, bytes),
        Ask::SecretRead { slot } => device_secret::read(slot).await,
        Ask::SecretWrite { slot } => device_secret::write(slot, bytes).await,
    }
}

/// Exactly so many byte arrays as a job expects.
fn parts<const N: usize>(bytes: Vec<Vec<u8>>) -> Result<[Vec<u8>; N], String> {
    bytes.try_into().map_err(|_| "This work was asked for with something missing: load the page again.".to_owned())
}

/// The archive that a job is about.
fn archive(bytes: Vec<Vec<u8>>) -> Result<Archive, String> {
    let [bytes] = parts(bytes)?;
    archive::read(&Zeroizing::new(bytes)).map_err(|why| why.to_string())
}

fn when(made: &Made) -> Moment {
    Moment { unix_ms: made.unix_ms, offset_minutes: made.offset_minutes }
}

/// Records for the tests of the jobs.
#[cfg(test)]
mod sample {
    use super::{Archive, Made, Moment};
    use sidelight_core::demo;

    /// The invented people, with their visits closed.
    pub fn archive() -> Archive {
        let now = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
        let (people, visits) = demo::people(now);
        Archive::of(people, visits.into_iter().map(|visit| super::archive::closed(visit, now)).collect())
    }

    pub fn made() -> Made {
        Made { program: "Sidelight 0".to_owned(), unix_ms: 1_772_463_128_000, offset_minutes: 60 }
    }
}
