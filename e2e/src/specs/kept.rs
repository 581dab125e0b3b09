//! Nothing is lost: a reload, a killed browser, a second tab.

use std::time::Duration;

use anyhow::{Result, ensure};

use crate::examine::{jumps, near_point, skip, slot, start_empty, to_first_task, usual};
use crate::page::{Page, css};
use crate::spec::Stage;

/// After a reload the open visit stands at the same task with every tap.
pub async fn reload(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    jumps(&page, &["right-on", "left-short", "right-past"]).await?;
    page.tap("late").await?;
    page.wait_state("jumps", "count", "3").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    page.reload().await?;
    slot(&page, "saccade").await?;
    page.wait_state("strip-right", "count", "2").await?;
    page.wait_state("strip-left", "count", "1").await?;
    ensure!(page.attribute("late", "aria-pressed").await?.as_deref() == Some("true"), "the remark is gone");
    Ok(())
}

/// The browser is ended without warning a second after the last tap; the visit is there, at the same task.
pub async fn killed(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    let mut taps = 0_u32;
    for round in 0..3 {
        let marks = ["right-on", "left-on", "right-short", "left-past", "right-on"];
        let page = stage.page()?;
        jumps(&page, &marks[..=round + 2]).await?;
        taps += u32::try_from(round + 3)?;
        tokio::time::sleep(Duration::from_secs(1)).await;
        stage.browser.kill();
        let page = stage.browser.reopen().await?;
        page.open("").await?;
        page.tap("go-on").await?;
        slot(&page, "saccade").await?;
        page.wait_state("jumps", "count", &taps.to_string()).await?;
    }
    drop(page);
    stage.note(format!("3 kills, {taps} taps, none lost"));
    Ok(())
}

/// A second tab says that the first one records, and changes nothing; when the first closes, the second takes over.
pub async fn second_tab(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    jumps(&page, &["right-on", "left-on"]).await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    let first = page.new_tab().await?;
    page.open("#/step/saccade").await?;
    page.find("elsewhere").await?;
    slot(&page, "saccade").await?;
    let second = page.current_tab().await?;
    // A tap in the second tab must not reach the store.
    let _ = page.tap("right-past").await;
    page.wait_state("jumps", "count", "2").await?;
    page.switch_to(&first).await?;
    page.tap("left-short").await?;
    page.wait_state("jumps", "count", "3").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    page.close_tab(&second).await?;
    page.wait_gone("elsewhere").await?;
    slot(&page, "saccade").await?;
    page.wait_state("jumps", "count", "3").await
}

/// The way home leaves the visit open, and "go on" comes back to the task.
pub async fn left_open(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    jumps(&page, &["right-on"]).await?;
    page.tap("leave").await?;
    page.wait_text("open-visit", "Jumps").await?;
    page.tap("go-on").await?;
    slot(&page, "saccade").await?;
    page.wait_state("jumps", "count", "1").await?;
    page.tap("skip").await?;
    page.find(css("[data-test=skip-panel]")).await.map(|_| ())
}

async fn at_jumps(stage: &mut Stage) -> Result<Page> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [5.0, 5.0, 5.5]).await?;
    skip(&page, "pursuit").await?;
    slot(&page, "saccade").await?;
    Ok(page)
}
