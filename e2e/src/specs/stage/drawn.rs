//! Flashes counted from the pixels that the stage really drew.

use anyhow::{Context, Result, ensure};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use sidelight_tests::flash_counter::{Colour, Film};

use super::demo;
use crate::examine::choose;
use crate::frames::degrees;
use crate::page::css;
use crate::spec::Stage;

/// The phone of the specs is so wide.
const WIDE: f64 = 390.0;

/// Bright stripes as the page really draws them: taken from its canvas frame by frame, without the grey that lies over their
/// ends, and counted.
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
