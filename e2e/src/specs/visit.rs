//! A whole sideline visit, from the home screen to the finished summary, with what it costs in taps and requests.

use std::time::Duration;

use anyhow::{Result, ensure};

use crate::examine::{begin, choose, decide_and_close, frame, near_point, no_danger, slot, start_empty, usual};
use crate::page::{Page, css};
use crate::spec::Stage;

/// Most taps that a normal sideline visit may take.
const MOST_TAPS: u32 = 45;

/// A normal visit, with the server stopped: few taps, no request, and a summary that says what was done.
pub async fn normal(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    stage.site.stop()?;
    let asked = stage.site.requests().len();
    let before = page.taps();
    begin(&page, None, "2012").await?;
    frame(&page).await?;
    no_danger(&page).await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [3.5, 4.0, 4.0]).await?;
    usual(&page, "pursuit").await?;
    no_change(&page, "symptoms.pursuit").await?;
    paced_jumps(&page).await?;
    paced_stripes(&page).await?;
    decide_and_close(&page).await?;
    let taps = page.taps() - before;
    stage.note(format!("{taps} taps, {} keys", page.keys()));
    ensure!(taps <= MOST_TAPS, "a normal visit took {taps} taps, more than {MOST_TAPS}");
    let summary = page.text(css("[data-test=summary]")).await?;
    for part in ["5 of 5 tasks done", "dvice only", "not a diagnosis and not a clearance", "2012"] {
        ensure!(summary.contains(part), "the summary lacks {part:?}: {summary}");
    }
    ensure!(!summary.contains("outside the range"), "a normal visit has something outside the range: {summary}");
    let later = stage.site.requests().len() - asked;
    ensure!(later == 0, "{later} requests reached the server after installation");
    nothing_else_was_asked_for(&page).await
}

/// The same with the server in reach: still not one request after installation.
pub async fn asks_for_nothing(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    // The worker's own file may be looked at again by the browser; the app's files and anything else may not.
    let counted = |paths: Vec<String>| paths.into_iter().filter(|path| !path.contains("sw.js")).count();
    let asked = counted(stage.site.requests());
    begin(&page, None, "1990-05-31").await?;
    frame(&page).await?;
    no_danger(&page).await?;
    usual(&page, "resting_gaze").await?;
    for task in ["near_point", "pursuit", "saccade", "optokinetic"] {
        crate::examine::skip(&page, task).await?;
    }
    decide_and_close(&page).await?;
    crate::examine::reload(&page).await?;
    let later = counted(stage.site.requests()) - asked;
    ensure!(later == 0, "{later} requests reached the server after installation");
    nothing_else_was_asked_for(&page).await
}

/// An unhurried visit with free taps: the findings and the summary name what was out of range, and that it is seen in
/// healthy people too.
pub async fn abnormal(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    crate::examine::to_first_task(&page, Some("R-21"), "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [8.0, 9.5, 12.0]).await?;
    usual(&page, "pursuit").await?;
    no_change(&page, "symptoms.pursuit").await?;
    let to_right = ["right-on"; 8];
    let to_left =
        ["left-short", "left-short", "left-past", "left-past", "left-past", "left-on", "left-past", "left-past"];
    let marks: Vec<&str> = to_right.into_iter().zip(to_left).flat_map(|(right, left)| [right, left]).collect();
    crate::examine::jumps(&page, &marks).await?;
    page.wait_state("strip-left", "count", "8").await?;
    page.tap("undo").await?;
    page.wait_state("strip-left", "count", "7").await?;
    page.tap("left-past").await?;
    page.tap("next").await?;
    no_change(&page, "symptoms.saccade").await?;
    crate::examine::skip(&page, "optokinetic").await?;
    crate::examine::screen(&page, "findings").await?;
    let findings = page.text(css("[data-screen=findings]")).await?;
    for part in ["outside the range", "Not done", "no time"] {
        ensure!(findings.contains(part), "the findings lack {part:?}: {findings}");
    }
    page.tap(css("[data-test=why] summary")).await?;
    page.wait_text(css("[data-screen=findings]"), "healthy").await?;
    ensure!(page.count("figure").await? >= 2, "drawings are missing from the findings");
    decide_and_close(&page).await?;
    page.tap("home").await?;
    let row = page.text("visit-row").await?;
    ensure!(row.contains("R-21") && row.contains("outside"), "the list says {row:?}");
    page.tap("visit-row").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await
}

async fn no_change(page: &Page, of: &str) -> Result<()> {
    slot(page, of).await?;
    page.tap("no-change").await
}

async fn paced_jumps(page: &Page) -> Result<()> {
    slot(page, "saccade").await?;
    page.tap("how-tapped").await?;
    page.tap("beat-start").await?;
    finished(page, 20).await?;
    page.tap("next").await?;
    no_change(page, "symptoms.saccade").await
}

async fn paced_stripes(page: &Page) -> Result<()> {
    slot(page, "optokinetic").await?;
    choose(page, "stimulus", "tape").await?;
    page.tap("beat-right").await?;
    finished(page, 10).await?;
    page.tap("beat-left").await?;
    finished(page, 20).await?;
    page.tap("next").await?;
    no_change(page, "symptoms.optokinetic").await
}

/// Waits until the beat has ended by itself and this many movements are recorded.
async fn finished(page: &Page, movements: u32) -> Result<()> {
    let over = format!(
        "document.querySelector('[data-test=paced]').dataset.on === 'false' \
         && document.querySelector('section.series').dataset.count === '{movements}'"
    );
    page.wait_until_within("the beat to end", &over, Duration::from_secs(60)).await
}

/// The page itself asked for nothing but its own files.
async fn nothing_else_was_asked_for(page: &Page) -> Result<()> {
    let foreign = page
        .value("performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.startsWith(location.origin))")
        .await?;
    ensure!(foreign.as_array().is_some_and(Vec::is_empty), "the page asked elsewhere: {foreign}");
    Ok(())
}

/// One symptom is rated, and one tap says what the others are: 0 before the tasks, as before after one.
pub async fn one_symptom(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin(&page, None, "2012").await?;
    frame(&page).await?;
    page.tap("usual").await?;
    page.tap("next").await?;
    slot(&page, "symptoms.before").await?;
    rate(&page, "headache", 2).await?;
    page.tap("the-rest").await?;
    usual(&page, "resting_gaze").await?;
    slot(&page, "near_point").await?;
    crate::examine::slide(&page, 4.0).await?;
    page.tap("next").await?;
    slot(&page, "symptoms.near_point").await?;
    rate(&page, "nausea", 4).await?;
    page.tap("the-rest").await?;
    for task in ["pursuit", "saccade", "optokinetic"] {
        crate::examine::skip(&page, task).await?;
    }
    decide_and_close(&page).await?;
    let rows = "[...document.querySelectorAll('[data-test=summary] tr')]
        .map((row) => [...row.cells].map((cell) => cell.textContent.trim()).join(' '))";
    let rows = page.value(rows).await?;
    for row in ["Before the tasks 2 0 0 0 2", "Near point 2 0 4 0 6 +4"] {
        let stands =
            rows.as_array().is_some_and(|rows| rows.iter().any(|it| it.as_str().is_some_and(|it| it.trim() == row)));
        ensure!(stands, "no row reads {row:?}: {rows}");
    }
    Ok(())
}

/// A table in which every cell has its grade takes no further tap, until a cell is chosen to be changed.
pub async fn full_table(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    crate::examine::to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    crate::examine::skip(&page, "near_point").await?;
    slot(&page, "pursuit").await?;
    for _ in 0..8 {
        page.tap("grade-smooth").await?;
    }
    page.wait_text("cell-in-hand", "All graded").await?;
    page.tap("grade-many").await?;
    ensure!(page.text("cell-right-slow").await?.contains("smooth"), "a tap too many graded a cell");
    page.tap("cell-left-fast").await?;
    page.tap("grade-many").await?;
    page.wait_text("cell-left-fast", "many").await?;
    ensure!(page.text("cell-right-slow").await?.contains("smooth"), "another cell was changed");
    page.wait_text("cell-in-hand", "All graded").await
}

/// Moves the slider of a symptom, as a thumb would leave it.
async fn rate(page: &Page, symptom: &str, to: u8) -> Result<()> {
    let slider = "const slider = document.querySelector(`[data-test=${arguments[0]}] input`);
        slider.value = arguments[1];
        slider.dispatchEvent(new Event('input', { bubbles: true }));";
    page.run_with(slider, vec![symptom.into(), to.into()]).await.map(|_| ())
}
