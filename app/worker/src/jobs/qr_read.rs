//! The text of the first QR code in a grey picture.

use sidelight_worker::{Answer, qr};

use super::{Done, parts};

pub fn run(width: u32, height: u32, bytes: Vec<Vec<u8>>) -> Done {
    let [grey] = parts(bytes)?;
    let text = qr::read(width as usize, height as usize, &grey)?;
    Ok((Answer::QrText(text), Vec::new()))
}
