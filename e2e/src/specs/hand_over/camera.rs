//! What the camera is to see: a QR code as raw video.

use std::path::Path;

use anyhow::{Context, Result};
use fast_qr::{Module, QRBuilder};

/// A clinic key, in the capital letters of a code.
pub const KEY: &str = "AGE1T7RXYEV2Z3RW82STDLRREPYC39NVN86L5078ZQKF5UASDY86JP6SVPY7PA";

const WIDTH: usize = 640;
const HEIGHT: usize = 480;
/// Most pixels of a module.
const SCALE: usize = 9;
/// Modules of light around a code, at least.
const AROUND: usize = 2;

/// Writes the video: two frames, which the browser repeats.
pub fn show(file: &Path, text: &str) -> Result<()> {
    let code = QRBuilder::new(text).build().ok().context("the text does not fit")?;
    let scale = SCALE.min(HEIGHT / (code.size + 2 * AROUND));
    let side = code.size * scale;
    let (left, top) = ((WIDTH - side) / 2, (HEIGHT - side) / 2);
    let mut luma = vec![220_u8; WIDTH * HEIGHT];
    for y in 0..side {
        for x in 0..side {
            if code[y / scale][x / scale].value() == Module::DARK {
                luma[(top + y) * WIDTH + left + x] = 30;
            }
        }
    }
    let mut video = format!("YUV4MPEG2 W{WIDTH} H{HEIGHT} F10:1 Ip A1:1 C420jpeg\n").into_bytes();
    for _ in 0..2 {
        video.extend(b"FRAME\n");
        video.extend(&luma);
        video.extend(vec![128_u8; WIDTH * HEIGHT / 2]);
    }
    std::fs::write(file, video)?;
    Ok(())
}
