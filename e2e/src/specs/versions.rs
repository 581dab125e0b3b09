//! A new version: the app installs it in the background and offers it on the home screen only; the family's page takes it
//! at its next load.

use std::fs;

use anyhow::{Context, Result, ensure};
use sidelight_site::build::integrity;

use super::family::{act, at, short};
use crate::examine::{reload, slot, start_empty, to_first_task, unlock};
use crate::files::{copy, edit};
use crate::page::css;
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
    page.tap(css("[data-test=update] button")).await?;
    page.wait_until(
        "the new version to serve the page",
        "navigator.serviceWorker.getRegistration().then(r => !r.waiting && !!r.active)",
    )
    .await?;
    unlock(&page).await?;
    page.find("open-visit").await.map(|_| ())
}

/// The page that is open goes on with its exercise; loaded anew it is the new one, where it stood and with its ticks, and
/// needs no server.
pub async fn family_page(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open(&format!("sheet/#{}", short().encode())).await?;
    at(&page, "first").await?;
    act(&page, "read").await?;
    at(&page, "today").await?;
    for (name, place) in
        [("start 0", "before"), ("rate 1", "ready"), ("alone", "after"), ("rate 1", "told"), ("back", "today")]
    {
        act(&page, name).await?;
        at(&page, place).await?;
    }
    page.wait_until("the family's worker to control the page", "!!navigator.serviceWorker.controller").await?;
    let folder = tempfile::tempdir()?;
    copy(stage.site.dist(), folder.path())?;
    let old = fs::read(folder.path().join("sheet/index.html"))?;
    edit(folder.path(), "sheet/index.html", "<html ", "<html data-build=\"next\" ")?;
    let new = fs::read(folder.path().join("sheet/index.html"))?;
    edit(folder.path(), "sheet/sw.js", &integrity(&old), &integrity(&new))?;
    edit(folder.path(), "sheet/sw.js", "const VERSION = \"", "const VERSION = \"next-")?;
    act(&page, "start 0").await?;
    at(&page, "before").await?;
    stage.site.serve(folder.path())?;
    page.run("return navigator.serviceWorker.getRegistration().then(r => r.update()).then(() => true);").await?;
    page.wait_until(
        "the new build to take the place of the old one",
        "caches.keys().then(names => names.filter(name => name.startsWith('sidelight sheet ')))
            .then(own => own.length === 1 && own[0].includes(' next-'))",
    )
    .await?;
    act(&page, "rate 1").await?;
    at(&page, "ready").await?;
    let built = "document.documentElement.dataset.build ?? 'first'";
    ensure!(page.value(built).await? == "first", "the page was loaded anew by itself");
    for served in [true, false] {
        if !served {
            stage.site.stop()?;
        }
        page.reload().await?;
        at(&page, "ready").await?;
        ensure!(page.value(built).await? == "next", "the old build is shown still");
    }
    for (name, place) in [("alone", "after"), ("rate 1", "told"), ("back", "today")] {
        act(&page, name).await?;
        at(&page, place).await?;
    }
    ensure!(page.text(css(".done")).await?.contains("2 of 1"), "a tick is lost");
    Ok(())
}
