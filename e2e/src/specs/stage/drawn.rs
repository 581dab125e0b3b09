//! What the frames of the stage really were: where the target stood at each frame's own time, and flashes counted from the
//! pixels of the page.

use anyhow::{Context, Result, ensure};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use sidelight_tests::flash_counter::{Colour, Film};

use super::demo;
use crate::examine::{choose, screen};
use crate::page::{Page, css};
use crate::spec::Stage;

/// The phone of the specs: 6 pixels to the millimetre, 390 wide, at 40 cm.
const PX_PER_MM: f64 = 6.0;
const WIDE: f64 = 390.0;
const AWAY_MM: f64 = 400.0;
/// Slow following, in degrees a second.
const SPEED: f64 = 15.0;

/// Each frame of ten seconds of following stands where its own time puts it. How many were missed is told beside a bare
/// canvas that draws a disc in the same run.
pub async fn frames(stage: &mut Stage) -> Result<()> {
    let page = demo(stage).await?;
    page.open("#/show/pursuit").await?;
    page.tap(css("[data-test=stage-more] summary")).await?;
    choose(&page, "dial-seconds", "10").await?;
    page.tap("stage-next").await?;
    screen(&page, "stage-ready").await?;
    page.run("document.documentElement.dataset.logFrames = 'yes';").await?;
    page.tap("stage-start").await?;
    page.wait_until("the run to end", "!!document.documentElement.dataset.frames").await?;
    page.wait_text("stage-outcome", "Shown to its end.").await?;
    let drawn = drawn(&page).await?;
    let bare = page.run(BARE).await?;
    let bare: Vec<f64> = serde_json::from_value(bare).context("the bare canvas gave no times")?;

    // By arithmetic: as far as half the screen shows, less half a degree of target, cut to a tenth.
    let half = degrees(WIDE / 2.0) - 0.5;
    let half = (10.0 * half).floor() / 10.0;
    let zero = drawn.first().context("no frame was drawn")?.time;
    let (mut off, mut way, mut lasted) = (0.0_f64, 0.0, 0.0);
    for frame in &drawn {
        let seconds = (frame.time - zero) / 1000.0;
        let there = if seconds >= 10.0 { 0.0 } else { pixels(place(seconds, half)) };
        off = off.max((frame.right - there).abs()).max(frame.down.abs());
    }
    for pair in drawn.windows(2) {
        let [before, after] = pair else { continue };
        let legs = |frame: &Frame| ((frame.time - zero) / 1000.0 * SPEED / half + 1.0).floor() as i64 / 2;
        // Between two frames on either side of a turn the way is not the difference.
        if legs(before) == legs(after) && after.time - zero < 10_000.0 {
            way += (degrees(after.right) - degrees(before.right)).abs();
            lasted += (after.time - before.time) / 1000.0;
        }
    }
    let error = 100.0 * (way / lasted / SPEED - 1.0);
    let (missed, of) = missed(&drawn.iter().map(|frame| frame.time).collect::<Vec<_>>());
    let (bare_missed, bare_of) = self::missed(&bare);
    stage.note(format!("stage: {missed} of {of} frames missed; bare canvas: {bare_missed} of {bare_of}"));
    stage.note(format!("farthest from its place: {off:.1e} px; speed {error:+.4} %, over {lasted:.1} s"));
    ensure!(drawn.len() > 60, "only {} frames in ten seconds", drawn.len());
    ensure!(off < 0.01, "a frame was drawn {off} px from where its time puts it");
    ensure!(error.abs() < 0.5, "the speed is {error} % off");
    Ok(())
}

/// Bright stripes as the page really draws them: taken from its canvas frame by frame, and counted.
pub async fn flashes(stage: &mut Stage) -> Result<()> {
    let page = demo(stage).await?;
    page.open("#/show/optokinetic").await?;
    choose(&page, "dial-toward", "right").await?;
    page.tap(css("[data-test=stage-more] summary")).await?;
    choose(&page, "dial-light", "bright").await?;
    page.tap("stage-next").await?;
    for question in ["seizures", "migraine", "motion_sickness"] {
        choose(&page, question, "no").await?;
    }
    page.tap("stage-next").await?;
    page.tap("stage-lit").await?;
    page.run(FILM).await?;
    page.tap("stage-start").await?;
    page.wait_until("six seconds of stripes", "window.film.times.at(-1) - window.film.times[0] > 6000").await?;
    stage.shoot("stage stripes").await?;
    page.tap("stage-view").await?;
    page.wait_text("stage-outcome", "Stopped.").await?;
    let taken = page.run("return window.film.taken();").await?;
    let text = |name: &str| taken[name].as_str().with_context(|| format!("no {name}"));
    let times: Vec<f64> = serde_json::from_value(taken["times"].clone())?;
    let pixels = BASE64_STANDARD.decode(text("pixels")?)?;
    let number = |name: &str| taken[name].as_u64().with_context(|| format!("no {name}"));
    let (wide, high) = (number("wide")? as usize, number("high")? as usize);
    let pictures: Vec<Vec<Colour>> = pixels
        .chunks_exact(wide * high * 4)
        .map(|picture| picture.chunks_exact(4).map(|p| [p[0], p[1], p[2]]).collect())
        .collect();
    ensure!(pictures.len() == times.len() && times.len() > 60, "{} pictures at {} times", pictures.len(), times.len());
    // What was on the screen at each sixtieth of a second.
    let mut film = Film::new(60.0, wide, high);
    let steps = ((times[times.len() - 1] - times[0]) * 0.06) as usize;
    for step in 0..steps {
        let now = times[0] + step as f64 / 0.06;
        let at = times.partition_point(|time| *time <= now) - 1;
        film.push(pictures[at].clone());
    }
    // With the eyes a fifth nearer than said.
    let cell = 2.0 * degrees(WIDE / 2.0 / 0.8) / wide as f64;
    let count = film.count(cell, cell);
    stage.note(format!(
        "{} pictures in {:.1} s: at most {} flashes in a second at one place, {} stripes in view",
        times.len(),
        (times[times.len() - 1] - times[0]) / 1000.0,
        count.flashes,
        count.stripes
    ));
    ensure!(count.passes(), "{count:?}");
    ensure!(count.flashes >= 1 && count.stripes >= 2, "the pictures show no stripes: {count:?}");
    Ok(())
}

struct Frame {
    time: f64,
    right: f64,
    down: f64,
}

async fn drawn(page: &Page) -> Result<Vec<Frame>> {
    let log = page.value("document.documentElement.dataset.frames").await?;
    let log = log.as_str().context("no log of frames")?;
    let frame = |line: &str| {
        let numbers: Vec<f64> = line.split(' ').map(str::parse).collect::<Result<_, _>>()?;
        let [time, _, right, down] = numbers[..] else { anyhow::bail!("{line} is no frame") };
        Ok(Frame { time, right, down })
    };
    log.lines().map(frame).collect()
}

/// Where the target is, in degrees to the right: from the middle to the right, to the left, and so on, at one speed.
fn place(seconds: f64, half: f64) -> f64 {
    let turned = (SPEED * seconds / half + 1.0).rem_euclid(4.0);
    half * if turned < 2.0 { turned - 1.0 } else { 3.0 - turned }
}

fn pixels(degrees: f64) -> f64 {
    PX_PER_MM * AWAY_MM * degrees.to_radians().tan()
}

fn degrees(pixels: f64) -> f64 {
    (pixels / PX_PER_MM / AWAY_MM).atan().to_degrees()
}

/// Frames that were missed, of those that should have been drawn, by the median interval.
fn missed(times: &[f64]) -> (u32, u32) {
    let mut intervals: Vec<f64> = times.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let inside = intervals.clone();
    intervals.sort_by(f64::total_cmp);
    let usual = intervals.get(intervals.len() / 2).copied().unwrap_or(f64::NAN);
    let missed: u32 = inside.iter().map(|interval| (interval / usual).round().max(1.0) as u32 - 1).sum();
    (missed, missed + times.len() as u32)
}

/// Ten seconds of a disc on a bare canvas of the whole view.
const BARE: &str = "return new Promise((done) => {
    const canvas = document.createElement('canvas');
    canvas.width = innerWidth * devicePixelRatio;
    canvas.height = innerHeight * devicePixelRatio;
    canvas.style.cssText = 'position:fixed;inset:0;width:100%;height:100%;z-index:99';
    document.body.append(canvas);
    const pen = canvas.getContext('2d');
    const times = [];
    const draw = (time) => {
        times.push(time);
        pen.fillStyle = '#fff';
        pen.fillRect(0, 0, canvas.width, canvas.height);
        pen.fillStyle = '#1a1a1a';
        pen.beginPath();
        pen.arc(canvas.width / 2 + Math.sin(time / 400) * canvas.width / 3, canvas.height / 2, 60, 0, 7);
        pen.fill();
        if (time - times[0] < 10000) requestAnimationFrame(draw);
        else { canvas.remove(); done(times); }
    };
    requestAnimationFrame(draw);
});";

/// Takes the pixels of the stage's canvas at every frame, one for each cell.
const FILM: &str = "const [wide, high] = [39, 60];
    const small = new OffscreenCanvas(wide, high);
    const pen = small.getContext('2d', { willReadFrequently: true });
    pen.imageSmoothingEnabled = false;
    const pictures = [];
    const film = { times: [] };
    window.film = film;
    film.taken = () => {
        film.over = true;
        const all = new Uint8Array(pictures.length * wide * high * 4);
        pictures.forEach((picture, at) => all.set(picture, at * wide * high * 4));
        let text = '';
        for (let at = 0; at < all.length; at += 32768) text += String.fromCharCode(...all.subarray(at, at + 32768));
        return { times: film.times, pixels: btoa(text), wide, high };
    };
    const take = (time) => {
        const canvas = document.querySelector('.stage-view canvas');
        if (canvas && canvas.width) {
            pen.drawImage(canvas, 0, 0, wide, high);
            pictures.push(pen.getImageData(0, 0, wide, high).data);
            film.times.push(time);
        }
        if (!film.over) requestAnimationFrame(take);
    };
    requestAnimationFrame(take);";
