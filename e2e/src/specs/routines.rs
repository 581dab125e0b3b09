//! A routine of the practice's own: made, kept over a restart, examined in its order; what an answer leaves out is said.

use anyhow::{Result, ensure};

use super::looks::audit;
use crate::examine::{choose, jumps, no_danger, reload, screen, slot, start_empty};
use crate::page::{Page, css};
use crate::spec::Stage;

pub async fn own(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    make(&page).await?;
    reload(&page).await?;
    page.wait_text("own", "Jumps, Following, Head turns").await?;
    page.tap("back").await?;
    page.tap("start").await?;
    page.fill("born", "2012").await?;
    page.tap(css("[data-test=routine] label:first-child")).await?;
    page.tap("begin").await?;
    screen(&page, "frame").await?;
    for (field, choice) in [("reason", "knock"), ("since", "minutes"), ("consent", "guardian")] {
        choose(&page, field, choice).await?;
    }
    for (field, choice) in [("glasses", "none"), ("influences", "none"), ("cautions", "neck")] {
        choose(&page, field, choice).await?;
    }
    page.wait_text("left-out-today", "Head turns").await?;
    audit(&page, "frame with a task left out").await?;
    page.tap("next").await?;
    no_danger(&page).await?;
    jumps(&page, &["right-on", "left-on"]).await?;
    page.wait_text("place", "1 / 2").await?;
    page.tap("next").await?;
    slot(&page, "symptoms.saccade").await?;
    page.tap("no-change").await?;
    slot(&page, "pursuit").await?;
    // The step that an answer left out, by its address: the reason, and the way on.
    page.open("#/step/head_turn_gaze").await?;
    page.wait_text("left-out", "neck").await?;
    page.open("#/step/findings").await?;
    screen(&page, "findings").await?;
    page.wait_text(css(".document"), "Left out: head turns").await?;
    page.tap(css("[data-test=add-task] summary")).await?;
    audit(&page, "findings with tasks to add").await?;
    ensure!(page.count("add-head_turn_gaze").await? == 0, "a task that is left out can be added");
    page.tap("add-near_point").await?;
    slot(&page, "near_point").await
}

/// Three tasks by the keyboard's own buttons, in an order of one's own; what cannot be kept says why.
async fn make(page: &Page) -> Result<()> {
    page.tap("routines").await?;
    screen(page, "routines").await?;
    audit(page, "routines").await?;
    page.tap("make").await?;
    screen(page, "routine").await?;
    page.tap("keep").await?;
    page.wait_text("refused", "name").await?;
    page.fill("routine-name", "Monday").await?;
    page.tap("keep").await?;
    page.wait_text("refused", "at least one task").await?;
    for task in ["add-head_turn_gaze", "add-pursuit", "add-saccade"] {
        page.tap(task).await?;
    }
    page.tap("up-saccade").await?;
    page.tap("up-saccade").await?;
    page.tap("down-head_turn_gaze").await?;
    audit(page, "routine").await?;
    page.tap("keep").await?;
    page.wait_text("own", "Jumps, Following, Head turns").await
}
