//! Bad input: one clear sentence, nothing stored, nothing run.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, ensure};

use crate::examine::{decide_and_close, screen, skip, slot, start_empty, to_first_task, usual};
use crate::page::{Page, css};
use crate::spec::Stage;

const HOSTILE: &str = "<img src=x onerror=\"document.documentElement.dataset.ran='name'\"> שלום \"Zoë\" 👁";

/// Impossible births and distances are refused with what to do, and leave nothing behind.
pub async fn numbers(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    page.tap("start").await?;
    for (typed, part) in [("2999", "future"), ("31/5/12", "not a birth year"), ("1850", "120 years")] {
        page.fill("born", typed).await?;
        page.tap("begin").await?;
        page.wait_text("refused", part).await?;
    }
    page.fill("born", "2012").await?;
    page.tap("begin").await?;
    crate::examine::frame(&page).await?;
    crate::examine::no_danger(&page).await?;
    usual(&page, "resting_gaze").await?;
    slot(&page, "near_point").await?;
    for (typed, part) in [("0", "not possible"), ("400", "not possible"), ("abc", "not a number")] {
        type_break(&page, typed).await?;
        page.wait_text(css("[data-test=break] [data-test=refused]"), part).await?;
        ensure!(page.count(css("[data-test=trials-so-far] li")).await? == 0, "{typed} was stored");
    }
    type_break(&page, "8,5").await?;
    page.wait_text("trials-so-far", "8.5").await
}

/// A name with markup, quotes, right-to-left text and an emoji is shown as typed, everywhere, and runs nowhere.
pub async fn hostile_name(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, Some(HOSTILE), "2012").await?;
    usual(&page, "resting_gaze").await?;
    for task in ["near_point", "pursuit", "saccade", "optokinetic"] {
        skip(&page, task).await?;
    }
    crate::examine::screen(&page, "findings").await?;
    page.tap("next").await?;
    crate::examine::screen(&page, "decision").await?;
    page.fill(css("[data-test=note] textarea"), HOSTILE).await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    let shown = page.value("document.querySelector('[data-test=summary]').textContent").await?;
    let shown = shown.as_str().context("the summary has no text")?;
    ensure!(shown.matches("<img src=x").count() >= 2, "the name or the note is not shown as typed: {shown}");
    page.tap("home").await?;
    page.wait_text("visit-row", "<img src=x").await?;
    page.tap("seen").await?;
    page.wait_text("visits", "<img src=x").await?;
    let ran = page.value("document.documentElement.dataset.ran ?? null").await?;
    ensure!(ran.is_null(), "markup in a name ran: {ran}");
    let title = page.value("document.title + location.href").await?;
    ensure!(!title.to_string().contains("img"), "the name is in the title or the address: {title}");
    Ok(())
}

/// A visit file goes out and comes in again; damaged, foreign, newer and huge ones are refused in a sentence.
pub async fn files(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, Some("F-07"), "2012").await?;
    usual(&page, "resting_gaze").await?;
    for task in ["near_point", "pursuit", "saccade", "optokinetic"] {
        skip(&page, task).await?;
    }
    decide_and_close(&page).await?;
    page.tap("hand-over-visit").await?;
    page.tap("way-plain").await?;
    page.tap("understood").await?;
    page.tap("make").await?;
    page.tap("save-file").await?;
    let saved = stage.browser.wait_for_download(".json").await?;
    let name = saved.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    ensure!(!name.contains("F-07"), "the file name carries the person: {name}");
    let good = fs::read_to_string(&saved)?;
    page.open("#/").await?;

    let folder = tempfile::tempdir()?;
    let write = |name: &str, text: &str| -> Result<PathBuf> {
        let path = folder.path().join(name);
        fs::write(&path, text)?;
        Ok(path)
    };
    let newer = good.replacen("\"version\": 1", "\"version\": 99", 1).replacen("\"version\":1", "\"version\":99", 1);
    ensure!(newer != good, "the file states no version 1");
    let huge = " ".repeat(90 * 1_048_576);
    page.tap("take-in").await?;
    for (what, text, part) in [
        ("empty", "", "empty"),
        ("truncated", &good[..good.len() / 2], "breaks off"),
        ("foreign", "{\"hello\": 1}", "not written by"),
        ("newer", &newer, "newer"),
        ("huge", &huge, "larger"),
        ("same", &good, "already"),
    ] {
        let rows = page.count("file").await?;
        page.choose_file("take-files", &write(&format!("{what}.json"), text)?).await?;
        page.wait_until(
            "an answer about the file",
            &format!(
                "!!document.querySelector('[data-busy=false]') && \
                 (document.querySelectorAll('[data-test=file]').length > {rows} || !!document.querySelector('[data-test=taken]'))"
            ),
        )
        .await?;
        let said =
            page.value("(document.querySelector('[data-test=taken]') ?? document.querySelector('[data-test=file]:last-child')).textContent").await?;
        let said = said.as_str().unwrap_or_default().to_owned();
        ensure!(said.to_lowercase().contains(part), "of a {what} file it says {said:?}, without {part:?}");
        stage.note(format!("{what}: {said}"));
    }
    page.tap("back").await?;
    page.tap("back").await?;
    screen(&page, "home").await?;
    ensure!(page.count("visit-row").await? == 1, "the files changed the list");
    Ok(())
}

/// The summary leaves as a page and as text; neither carries a person in its name, and the page opens by itself.
pub async fn taken_along(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, Some("T-88"), "2012").await?;
    page.open("#/step/summary").await?;
    page.tap("html").await?;
    let saved = stage.browser.wait_for_download(".html").await?;
    let name = saved.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    ensure!(!name.contains("T-88"), "the file name carries the person: {name}");
    let html = fs::read_to_string(&saved)?;
    for part in ["T-88", "not a diagnosis", "default-src 'none'", "</html>"] {
        ensure!(html.contains(part), "the saved page lacks {part:?}");
    }
    page.tap("copy").await?;
    page.wait_until(
        "a word about the copy",
        "[...document.querySelectorAll('[data-test=said]')].some(e => /Copied|did not allow copying/.test(e.textContent))",
    )
    .await
}

async fn type_break(page: &Page, typed: &str) -> Result<()> {
    page.fill(css("[data-test=break] input"), typed).await?;
    page.press(fantoccini::key::Key::Tab).await
}
