//! A danger sign stops the examination, whatever the way around it.

use anyhow::{Result, ensure};

use crate::examine::{begin, choose, frame, reload, screen, slot, start_empty};
use crate::page::css;
use crate::spec::Stage;

/// One yes shows the stop at once; it can be taken back, ended, or gone past with a written reason only.
pub async fn stops(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin(&page, None, "2010").await?;
    frame(&page).await?;
    screen(&page, "safety").await?;
    choose(&page, "neck", "yes").await?;
    screen(&page, "stop").await?;
    page.wait_text("seen", "neck pain").await?;
    stage.shoot("stop").await?;

    // A slip of the thumb is taken back in place.
    page.tap("slip").await?;
    screen(&page, "safety").await?;
    choose(&page, "neck", "yes").await?;
    screen(&page, "stop").await?;

    // No address leads around it, and a reload does not either.
    page.open("#/step/saccade").await?;
    screen(&page, "stop").await?;
    reload(&page).await?;
    screen(&page, "stop").await?;

    // Going on needs words.
    page.tap(css("[data-test=go-on-fold] summary")).await?;
    ensure!(!page.find("go-on").await?.is_enabled().await?, "one can go on without a reason");
    page.fill(css("[data-test=go_on] textarea"), "   ").await?;
    ensure!(!page.find("go-on").await?.is_enabled().await?, "blanks pass for a reason");

    choose(&page, "done", "called").await?;
    page.tap("end-examination").await?;
    screen(&page, "decision").await?;
    choose(&page, "action", "emergency").await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    let summary = page.text(css("[data-test=summary]")).await?;
    for part in ["neck pain or tenderness", "mergency number called", "Stopped"] {
        ensure!(summary.contains(part), "the summary lacks {part:?}: {summary}");
    }
    page.tap("home").await?;
    page.wait_text("visit-row", "stopped").await
}

/// With a reason the examination goes on, and the reason is printed.
pub async fn goes_on_with_reason(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin(&page, None, "2010").await?;
    frame(&page).await?;
    screen(&page, "safety").await?;
    choose(&page, "vomiting", "yes").await?;
    screen(&page, "stop").await?;
    page.tap(css("[data-test=go-on-fold] summary")).await?;
    page.fill(css("[data-test=go_on] textarea"), "Car sick an hour ago, seen by the team doctor").await?;
    page.tap("go-on").await?;
    screen(&page, "safety").await?;
    page.tap("next").await?;
    slot(&page, "symptoms.before").await?;
    page.open("#/step/summary").await?;
    page.wait_text(css("[data-test=summary]"), "Car sick an hour ago").await
}
