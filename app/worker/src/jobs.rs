//! The jobs, one a file. Each takes what the page gave and says in one sentence why it cannot be done.

mod clinic_key;
mod derive;
mod device_secret;
mod qr_make;
mod qr_read;
mod seal;
mod strength;

use sidelight_core::seal::Kdf;
use sidelight_worker::{Answer, Ask};

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
        Ask::SecretRead { slot } => device_secret::read(slot).await,
        Ask::SecretWrite { slot } => device_secret::write(slot, bytes).await,
    }
}

/// Exactly so many byte arrays as a job expects.
fn parts<const N: usize>(bytes: Vec<Vec<u8>>) -> Result<[Vec<u8>; N], String> {
    bytes.try_into().map_err(|_| "This work was asked for with something missing: load the page again.".to_owned())
}
