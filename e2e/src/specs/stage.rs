//! Targets on the screen: measured with a card, shown, stopped by a touch, kept.

use anyhow::Result;
use fantoccini::key::Key;

use super::looks::{audit, no_overflow};
use crate::examine::{screen, slot, start_empty, to_first_task, usual};
use crate::page::css;
use crate::spec::Stage;

/// A card's short edge on a phone of 6 pixels to the millimetre: 53.98 mm are 324 pixels.
const SHORT_EDGE: &str = "324";

/// From a task to the stage and over the card to a run that a touch ends; what was tapped meanwhile is in the record.
pub async fn shown(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    crate::examine::skip(&page, "near_point").await?;
    slot(&page, "pursuit").await?;
    stage.shoot("stage task").await?;
    page.tap("to-stage").await?;
    screen(&page, "stage").await?;
    page.tap(css("[data-test=unmeasured] [data-test=calibrate]")).await?;
    screen(&page, "calibrate").await?;
    page.tap(css(".fold summary")).await?;
    page.fill(css("#card-px"), "3").await?;
    page.press(Key::Tab).await?;
    page.wait_text(css("#card-px-note"), "not possible").await?;
    page.fill(css("#card-px"), SHORT_EDGE).await?;
    page.press(Key::Tab).await?;
    page.wait_text("found-size", "65 mm wide").await?;
    audit(&page, "calibrate").await?;
    no_overflow(&page, "calibrate").await?;
    stage.shoot("stage calibrate").await?;
    page.tap("keep").await?;
    screen(&page, "stage").await?;
    page.find("stage-fits").await?;
    audit(&page, "stage").await?;
    no_overflow(&page, "stage").await?;
    stage.shoot("stage choose").await?;
    page.tap("stage-next").await?;
    screen(&page, "stage-ready").await?;
    audit(&page, "stage ready").await?;
    stage.shoot("stage ready").await?;
    page.tap("stage-start").await?;
    page.find("stage-taps").await?;
    page.tap("tap-right-few").await?;
    page.wait_text("stage-last", "few catch-ups").await?;
    audit(&page, "stage shown").await?;
    no_overflow(&page, "stage shown").await?;
    stage.shoot("stage shown").await?;
    page.tap("stage-view").await?;
    page.wait_text("stage-outcome", "Stopped.").await?;
    stage.shoot("stage stopped").await?;
    Ok(())
}
