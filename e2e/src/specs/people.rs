//! People: found by a few letters, opened with what changed and the values over time; re-tests that are due.

use anyhow::{Result, bail, ensure};
use serde_json::Value;

use crate::examine::screen;
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

/// From the home screen to a person with four visits: search, drawings, a refused and a kept change, no fault.
pub async fn page(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.tap("people").await?;
    screen(&page, "people").await?;
    faultless(&page, "the list").await?;
    page.fill("find", "n-1").await?;
    page.wait_text("found", "1 person.").await?;
    page.tap("person-row").await?;
    page.wait_text("person", "N-14").await?;
    let said = page.text("person").await?;
    for part in ["Compared with", "10.2 cm then, 6 cm now, better", "Over time", "Visits"] {
        ensure!(said.contains(part), "the page of a person lacks {part:?}: {said}");
    }
    ensure!(page.count(css("[data-test=person] figure")).await? >= 2, "values are not drawn over time");
    ensure!(page.count(css("[data-test=person] [data-test=visit-row]")).await? == 4, "four visits are kept");
    for viewport in [PHONE, SMALL_PHONE, DESKTOP] {
        stage.browser.resize(viewport).await?;
        fits(&page, &format!("a person at {viewport}")).await?;
        faultless(&page, &format!("a person at {viewport}")).await?;
        stage.shoot(&format!("person {viewport}")).await?;
    }
    page.tap(css("[data-test=edit] summary")).await?;
    page.fill("edit-label", "N-15").await?;
    page.fill("edit-born", "2999").await?;
    page.tap("keep").await?;
    page.wait_text("refused", "future").await?;
    page.fill("edit-born", "2011-04-30").await?;
    page.tap("keep").await?;
    page.wait_text("person", "born 2011-04-30").await?;
    page.reload().await?;
    page.wait_text("person", "N-15").await?;
    page.tap("start-for").await?;
    screen(&page, "who").await?;
    page.tap("begin").await?;
    screen(&page, "frame").await
}

/// A re-test whose day has come stands on the home screen and leads to the person.
pub async fn due(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.wait_text("due", "B-33").await?;
    page.tap("due-row").await?;
    page.wait_text("person", "Compared with the own baseline").await?;
    page.tap("start-for").await?;
    page.tap("begin").await?;
    screen(&page, "frame").await?;
    page.tap("leave").await?;
    screen(&page, "home").await?;
    ensure!(page.count("due-row").await? == 0, "a visit was begun, and the re-test still stands there as due");
    Ok(())
}

async fn faultless(page: &Page, place: &str) -> Result<()> {
    let faults = page.audit().await?;
    if faults.is_empty() {
        return Ok(());
    }
    bail!("{place}: {}", faults.iter().map(ToString::to_string).collect::<Vec<_>>().join(" | "))
}

/// Nothing but drawings and tables is wider than the view.
pub async fn fits(page: &Page, place: &str) -> Result<()> {
    let wide = page
        .value(
            "[...document.querySelectorAll('body *')].filter(e => { const r = e.getBoundingClientRect(); \
             return r.width > 0 && r.right > innerWidth + 1 && !e.closest('details:not([open])') && !e.closest('.table') && !e.closest('.figure'); }) \
             .map(e => e.tagName + '.' + e.className).slice(0, 4)",
        )
        .await?;
    ensure!(wide == Value::Array(Vec::new()), "{place}: wider than the view: {wide}");
    Ok(())
}
