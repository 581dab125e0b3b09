//! Targets on the screen: measured with a card, shown, stopped by a touch, kept; what the frames really were.

mod drawn;
mod logged;

use anyhow::{Result, ensure};
use fantoccini::key::Key;
use serde_json::json;

pub use drawn::flashes;
pub use logged::frames;

use super::lock::seen;
use super::looks::{audit, no_overflow};
use crate::examine::{choose, reload, screen, slot, start_empty, to_first_task, usual};
use crate::frames::MEASURED;
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::SMALL_PHONE;

/// A card's short edge on a phone of 6 pixels to the millimetre: 53.98 mm are 324 pixels.
const SHORT_EDGE: &str = "324";

/// From a task over the card to a run that a touch ends; it and what was tapped meanwhile are there after a reload. A run
/// ends with a sentence when the view changes.
pub async fn kept(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    crate::examine::skip(&page, "near_point").await?;
    slot(&page, "pursuit").await?;
    page.tap("to-stage").await?;
    screen(&page, "stage").await?;
    page.tap(css("[data-test=unmeasured] [data-test=calibrate]")).await?;
    screen(&page, "calibrate").await?;
    page.tap("edge-short").await?;
    page.tap(css(".fold summary")).await?;
    measure(&page, "3").await?;
    page.wait_text(css("#card-px-note"), "not possible").await?;
    measure(&page, SHORT_EDGE).await?;
    page.wait_text("found-size", "65 mm wide").await?;
    looks_good(stage, &page, "calibrate").await?;
    page.tap("keep").await?;
    screen(&page, "stage").await?;
    page.wait_text("stage-fits", "A face of 1°, ").await?;
    looks_good(stage, &page, "stage").await?;
    // The browser's own way back passes over the measuring.
    page.run("history.back();").await?;
    slot(&page, "pursuit").await?;
    page.tap("to-stage").await?;
    screen(&page, "stage").await?;
    page.tap("stage-next").await?;
    screen(&page, "stage-ready").await?;
    looks_good(stage, &page, "stage ready").await?;
    page.tap("stage-start").await?;
    page.tap("tap-right-few").await?;
    page.wait_text("stage-last", "few catch-ups").await?;
    looks_good(stage, &page, "stage shown").await?;
    page.tap("stage-view").await?;
    page.wait_text("stage-outcome", "Stopped.").await?;
    looks_good(stage, &page, "stage stopped").await?;
    page.tap("stage-done").await?;
    slot(&page, "pursuit").await?;

    reload(&page).await?;
    slot(&page, "pursuit").await?;
    page.wait_text("cell-right-slow", "few catch-ups").await?;
    page.tap(css("[data-test=shown-so-far] summary")).await?;
    page.wait_text("shown-so-far", "Following on a screen: side to side, 15°/s").await?;
    page.tap("to-stage").await?;
    page.tap("stage-next").await?;
    page.tap("stage-start").await?;
    page.find("stage-taps").await?;
    stage.browser.resize(SMALL_PHONE).await?;
    page.wait_text("stage-outcome", "turned, resized or zoomed").await
}

/// Stripes are refused to those with epilepsy, ask for a reason with migraine, and start only after the questions.
pub async fn asked(stage: &mut Stage) -> Result<()> {
    let page = demo(stage).await?;
    page.open("#/show/optokinetic").await?;
    page.wait_text("stage-limits", "not a full-field response").await?;
    page.tap("stage-next").await?;
    screen(&page, "stage-before").await?;
    let next = css("[data-test=stage-next]:disabled");
    page.find(next).await?;
    choose(&page, "seizures", "yes").await?;
    page.wait_text("stripes-refused", "No stripes on a screen").await?;
    page.find(next).await?;
    choose(&page, "seizures", "no").await?;
    choose(&page, "migraine", "yes").await?;
    choose(&page, "motion_sickness", "no").await?;
    page.wait_text("stripes-why", "migraine").await?;
    page.find(next).await?;
    looks_good(stage, &page, "stage before").await?;
    page.fill(css("#despite"), "mild, and they ask for it").await?;
    page.tap("stage-next").await?;
    page.wait_text("stage-tells", "Look at each stripe").await?;
    page.tap("stage-start").await?;
    page.find("stage-view").await?;
    page.press(Key::Escape).await?;
    page.wait_text("stage-outcome", "Stopped.").await?;
    page.find(css("[data-test=stage-start]:disabled")).await.map(|_| ())
}

/// On a device that asks for less motion, stripes start only once that was overruled, and the record says so. Beside dim
/// stripes the pads are dark, in contrast enough, though all other screens are light.
pub async fn less_motion(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    let wish = json!({ "features": [{ "name": "prefers-reduced-motion", "value": "reduce" }] });
    page.devtools("Emulation.setEmulatedMedia", wish).await?;
    page.run(MEASURED).await?;
    reload(&page).await?;
    to_first_task(&page, None, "2012").await?;
    page.open("#/stage/optokinetic").await?;
    page.tap("stage-next").await?;
    for question in ["seizures", "migraine", "motion_sickness"] {
        choose(&page, question, "no").await?;
    }
    page.tap("stage-next").await?;
    page.find(css("[data-test=stage-start]:disabled")).await?;
    page.tap("stage-moving").await?;
    page.tap("stage-start").await?;
    page.tap("tap-right-beat").await?;
    let paper = "getComputedStyle(document.querySelector('.stage-taps')).backgroundColor";
    ensure!(page.value(paper).await? == "rgb(14, 19, 24)", "the pads are not dark beside dim stripes");
    looks_good(stage, &page, "stage dim").await?;
    page.tap("stage-view").await?;
    page.tap("stage-done").await?;
    slot(&page, "optokinetic").await?;
    page.tap(css("[data-test=shown-so-far] summary")).await?;
    page.wait_text("shown-so-far", "set to less motion").await
}

/// A display that draws thirty times a second is named before the start; a run ends with a sentence when the phone is
/// locked.
pub async fn slow_display(stage: &mut Stage) -> Result<()> {
    let page = demo(stage).await?;
    page.run("const draw = window.requestAnimationFrame.bind(window); window.requestAnimationFrame = one => draw(() => draw(one));")
        .await?;
    page.open("#/show/pursuit").await?;
    page.tap("stage-next").await?;
    page.wait_text("stage-slow", "times a second, as phones do that save power").await?;
    page.tap("stage-start").await?;
    page.find("stage-view").await?;
    page.run(&seen("hidden")).await?;
    page.run(&seen("visible")).await?;
    page.wait_text("stage-outcome", "went out of sight").await
}

/// The demo, on a screen that was measured before.
async fn demo(stage: &Stage) -> Result<Page> {
    let page = stage.install().await?;
    page.run(MEASURED).await?;
    page.tap("demo").await?;
    screen(&page, "home").await?;
    Ok(page)
}

async fn measure(page: &Page, pixels: &str) -> Result<()> {
    page.fill(css("#card-px"), pixels).await?;
    page.press(Key::Tab).await
}

async fn looks_good(stage: &Stage, page: &Page, place: &str) -> Result<()> {
    audit(page, place).await?;
    no_overflow(page, place).await?;
    stage.shoot(place).await.map(|_| ())
}
