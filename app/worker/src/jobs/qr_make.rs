//! A text as a QR code, drawn as SVG.

use sidelight_worker::{Answer, Qr, qr};

use super::Done;

pub fn run(text: &str) -> Done {
    let code = qr::make(text)?;
    let modules = u32::try_from(code.size).unwrap_or(u32::MAX);
    Ok((Answer::Qr(Qr { svg: code.svg(), version: code.version, modules }), Vec::new()))
}
