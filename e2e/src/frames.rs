//! The log of frames that the stage leaves on the page when it is asked for one, and what can be told from it without any
//! function of the app: the geometry of a flat screen, frames that were missed, and the speed.

use anyhow::{Context, Result, bail};

use crate::page::Page;

/// The screen of the specs, in pixels to the millimetre, and how far the eyes are.
pub const PX_PER_MM: f64 = 6.0;
pub const AWAY_MM: f64 = 400.0;

/// Frames a second of a display that is never late, in a browser without a window.
pub const A_SECOND: f64 = 60.0;

/// One frame, as it was drawn.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// The browser's time of the frame, in milliseconds.
    pub time: f64,
    /// Seconds of the program it was drawn for.
    pub seconds: f64,
    /// Where, in CSS pixels from the middle; for stripes the part of a period they had moved on.
    pub right: f64,
    /// The same downward; for stripes their strength.
    pub down: f64,
}

/// The demo's screen counts as measured with a card.
pub const MEASURED: &str = "localStorage.setItem('sidelight-preferences', JSON.stringify({ card: { px_per_mm: 6, \
                            pixel_ratio: devicePixelRatio, zoom: 1 } }));";

/// Asks for a log of the next run, and forgets that of the last.
pub async fn ask(page: &Page) -> Result<()> {
    page.run("const root = document.documentElement.dataset; root.logFrames = 'yes'; delete root.frames;").await?;
    Ok(())
}

/// The log of the run that just ended.
pub async fn told(page: &Page) -> Result<Vec<Frame>> {
    page.wait_until("the run to end", "!!document.documentElement.dataset.frames").await?;
    let log = page.value("document.documentElement.dataset.frames").await?;
    let log = log.as_str().context("no log of frames")?;
    let frame = |line: &str| {
        let numbers: Vec<f64> = line.split(' ').map(str::parse).collect::<Result<_, _>>()?;
        let [time, seconds, right, down] = numbers[..] else { bail!("{line} is no frame") };
        Ok(Frame { time, seconds, right, down })
    };
    log.lines().map(frame).collect()
}

/// Where something so many degrees from the middle stands.
pub fn pixels(degrees: f64) -> f64 {
    PX_PER_MM * AWAY_MM * degrees.to_radians().tan()
}

/// How many degrees from the middle something stands.
pub fn degrees(pixels: f64) -> f64 {
    (pixels / PX_PER_MM / AWAY_MM).atan().to_degrees()
}

/// Frames that were missed, of those that should have been drawn between the first and the last.
pub fn missed(times: &[f64]) -> (u32, u32) {
    let late = |pair: &[f64]| ((pair[1] - pair[0]) * A_SECOND / 1000.0).round().max(1.0) as u32 - 1;
    let missed: u32 = times.windows(2).map(late).sum();
    (missed, missed + times.len() as u32)
}

/// The mean speed of what goes from side to side at one speed, in degrees a second, over the seconds in which it did not
/// turn round; and these seconds.
pub fn speed(frames: &[Frame], until: f64) -> (f64, f64) {
    let (mut way, mut lasted) = (0.0, 0.0);
    for four in frames.windows(4).filter(|four| four[3].seconds < until) {
        let places = [0, 1, 2, 3].map(|at: usize| degrees(four[at].right));
        let ways = [places[1] - places[0], places[2] - places[1], places[3] - places[2]];
        // Between two frames on either side of a turn the way is not the difference.
        if ways.iter().all(|way| way.signum() == ways[1].signum()) {
            way += ways[1].abs();
            lasted += (four[2].time - four[1].time) / 1000.0;
        }
    }
    (way / lasted, lasted)
}
