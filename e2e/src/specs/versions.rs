//! A new version installs in the background and is offered on the home screen only.

use std::fs;

use anyhow::{Context, Result, ensure};

use crate::examine::{reload, slot, start_empty, to_first_task, unlock};
use crate::files::copy;
use crate::spec::Stage;

/// During a visit nothing changes; at home the new version is offered, and one tap takes it.
pub async fn offered_at_home(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    let folder = tempfile::tempdir()?;
    copy(stage.site.dist(), folder.path())?;
    let file = folder.path().join("sw.js");
    let worker = fs::read_to_string(&file)?;
    let start = worker.find("const VERSION = \"").context("the worker states no version")? + "const VERSION = \"".len();
    fs::write(&file, format!("{}next-{}", &worker[..start], &worker[start..]))?;
    stage.site.serve(folder.path())?;
    reload(&page).await?;
    slot(&page, "resting_gaze").await?;
    page.run("return navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true);").await?;
    page.wait_until("the new version to wait", "navigator.serviceWorker.getRegistration().then(r => !!r.waiting)")
        .await?;
    ensure!(page.count("update").await? == 0, "the new version is offered during a visit");
    slot(&page, "resting_gaze").await?;
    page.tap("leave").await?;
    page.find("update").await?;
    page.tap(crate::page::css("[data-test=update] button")).await?;
    page.wait_until(
        "the new version to serve the page",
        "navigator.serviceWorker.getRegistration().then(r => !r.waiting && !!r.active)",
    )
    .await?;
    unlock(&page).await?;
    page.find("open-visit").await.map(|_| ())
}
