//! A store that is full or newer than the program: a clear sentence, and nothing on the screen is lost.

use anyhow::{Result, ensure};

use crate::examine::{near_point, reload, slot, start_empty, to_first_task, usual};
use crate::page::css;
use crate::spec::Stage;

/// A full store is said at once; the taps stay on the screen, and are written as soon as there is room.
pub async fn full(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [5.0, 5.0, 5.5]).await?;
    usual(&page, "pursuit").await?;
    page.tap("no-change").await?;
    slot(&page, "saccade").await?;
    page.run(
        "window.realPut = IDBObjectStore.prototype.put;
         IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError'); };",
    )
    .await?;
    for mark in ["right-on", "left-on", "right-short"] {
        page.tap(mark).await?;
    }
    let said = page.text("save-failed").await?;
    stage.note(said.lines().next().unwrap_or_default().to_owned());
    ensure!(said.contains("no room"), "it says {said:?}");
    page.wait_state("jumps", "count", "3").await?;
    page.run("IDBObjectStore.prototype.put = window.realPut;").await?;
    page.tap(css("[data-test=save-failed] button")).await?;
    page.wait_gone("save-failed").await?;
    tokio::time::sleep(std::time::Duration::from_secs(1)).await;
    reload(&page).await?;
    slot(&page, "saccade").await?;
    page.wait_state("jumps", "count", "3").await
}

/// A database of a newer program is left alone, and the app says so.
pub async fn newer(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open("icon.svg").await?;
    page.run(
        "return new Promise((done, failed) => {
            const open = indexedDB.open('sidelight', 999);
            open.onsuccess = () => { open.result.close(); done(true); };
            open.onerror = () => failed(open.error);
         });",
    )
    .await?;
    page.open("").await?;
    let said = page.text("unreadable").await?;
    stage.note(said.clone());
    ensure!(said.contains("newer"), "it says {said:?}");
    let version =
        page.value("indexedDB.databases().then(all => all.find(d => d.name === 'sidelight').version)").await?;
    ensure!(version == 999, "the newer database was changed: {version}");
    Ok(())
}
