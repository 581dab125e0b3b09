//! Nothing is lost: a reload, a killed browser, a second tab.

use std::time::Duration;

use anyhow::{Context as _, Result, ensure};

use crate::engine::Engine;
use crate::examine::{
    jumps, near_point, reload, skip, slot, start_empty, to_first_task, unlock, unlock_if_locked, usual,
};
use crate::kills::kill_and_look;
use crate::page::{Page, css};
use crate::spec::Stage;

/// After a reload the open visit stands at the same task with every tap.
pub async fn reloaded(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    jumps(&page, &["right-on", "left-short", "right-past"]).await?;
    page.tap("late").await?;
    page.wait_state("jumps", "count", "3").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    reload(&page).await?;
    slot(&page, "saccade").await?;
    page.wait_state("strip-right", "count", "2").await?;
    page.wait_state("strip-left", "count", "1").await?;
    ensure!(page.attribute("late", "aria-pressed").await?.as_deref() == Some("true"), "the remark is gone");
    Ok(())
}

/// A number is kept while its box is still typed in, and the box stays as it was typed; what cannot be true is not kept, nor
/// a part of it.
pub async fn still_typed(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    slot(&page, "near_point").await?;
    let number = || css("[data-test=break] [data-test=number]");
    for (typed, kept) in [("7.", Ok(7.0)), ("400", "".parse::<f64>()), ("8,5", Ok(8.5))] {
        page.fill(number(), typed).await?;
        tokio::time::sleep(Duration::from_secs(1)).await;
        ensure!(page.field(number()).await? == typed, "{typed} was changed while it was typed");
        reload(&page).await?;
        slot(&page, "near_point").await?;
        let found = page.field(number()).await?;
        ensure!(found.parse() == kept, "{typed} was typed, and {found:?} is kept in place of {kept:?}");
    }
    Ok(())
}

/// The browser is ended without warning, again and again; what was on the screen for a second is there afterwards.
pub async fn killed(stage: &mut Stage) -> Result<()> {
    start_empty(stage).await?;
    // Firefox takes thrice as long to start.
    let kills = if stage.engine == Engine::Chromium { 20 } else { 5 };
    let tally = kill_and_look(&mut stage.browser, kills, fastrand::u64(..), |_| {}).await?;
    stage.note(tally.to_string());
    tally.check()
}

/// A kill in the middle of a write leaves half a record in the log of Chromium's database, over which it would stumble at the
/// start after the next and erase everything. The visit is there at both.
pub async fn torn_log(stage: &mut Stage) -> Result<()> {
    let mut page = at_jumps(stage).await?;
    for round in 1..=3 {
        page.tap("right-on").await?;
        page.wait_state("jumps", "count", &round.to_string()).await?;
        tokio::time::sleep(Duration::from_secs(1)).await;
        stage.browser.kill();
        if round == 1 {
            stage.browser.tear_database_log()?;
        }
        page = stage.browser.reopen().await?;
        page.open("#/step/saccade").await?;
        unlock(&page).await.with_context(|| format!("after kill {round}; {}", stage.browser.database_log()))?;
        slot(&page, "saccade").await?;
        page.wait_state("jumps", "count", &round.to_string()).await?;
    }
    Ok(())
}

/// The page is left for another one in the same tab, and opened again, by its address and by the way back: it records at
/// once, and does not take the page that was left for another tab.
pub async fn left_for_another_page(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    for round in 1..=3 {
        page.tap("right-on").await?;
        page.wait_state("jumps", "count", &round.to_string()).await?;
        tokio::time::sleep(Duration::from_secs(1)).await;
        page.client().goto("about:blank").await?;
        if round % 2 == 0 {
            page.client().back().await?;
            // A page that was kept for the way back is shown for a moment before it starts again.
            tokio::time::sleep(Duration::from_secs(1)).await;
            unlock_if_locked(&page).await?;
            slot(&page, "saccade").await?;
        } else {
            page.open("#/step/saccade").await?;
            tokio::time::sleep(Duration::from_secs(1)).await;
            unlock_if_locked(&page).await?;
            slot(&page, "saccade").await?;
            // A page that finds its place taken waits and then starts again.
            let how = page.value("performance.getEntriesByType('navigation')[0].type").await?;
            ensure!(how == "navigate", "the page that was left counted as another tab: {how}");
        }
        page.wait_state("jumps", "count", &round.to_string()).await?;
    }
    Ok(())
}

/// A second tab says that the first one records, and changes nothing; when the first closes, the second takes over.
pub async fn second_tab(stage: &mut Stage) -> Result<()> {
    let page = at_jumps(stage).await?;
    jumps(&page, &["right-on", "left-on"]).await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    let first = page.new_tab().await?;
    page.open("#/step/saccade").await?;
    unlock(&page).await?;
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
    // The second tab begins anew to read what the first one wrote.
    unlock(&page).await?;
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
