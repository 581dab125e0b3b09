//! How it looks and whether everyone can use it: sizes, audits, print, keyboard.

use anyhow::{Context, Result, bail, ensure};
use fantoccini::key::Key;
use serde_json::Value;

use crate::examine::{begin, frame, near_point, no_danger, screen, skip, slot, start_empty, to_first_task, usual};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE, TABLET};

/// Every screen passes the audit, in both themes.
pub async fn audited(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    audit(&page, "first run").await?;
    page.tap("demo").await?;
    screen(&page, "home").await?;
    page.find("visit-row").await?;
    for theme in ["light", "dark"] {
        page.run_with("document.documentElement.dataset.theme = arguments[0];", vec![Value::from(theme)]).await?;
        for address in [
            "#/",
            "#/who",
            "#/seen",
            "#/take-in",
            "#/settings",
            "#/about",
            "#/norms",
            "#/routines",
            "#/routine/sideline",
        ] {
            page.run_with("location.hash = arguments[0];", vec![Value::from(address)]).await?;
            page.wait_until("the screen to change", "!!document.querySelector('h1')").await?;
            audit(&page, &format!("{address} {theme}")).await?;
        }
    }
    page.run("location.hash = '#/';").await?;
    page.tap("visit-row").await?;
    screen(&page, "summary").await?;
    audit(&page, "summary dark").await?;
    page.tap("home").await?;
    begin(&page, None, "2012").await?;
    audit(&page, "frame").await?;
    frame(&page).await?;
    screen(&page, "safety").await?;
    audit(&page, "safety").await?;
    no_danger(&page).await?;
    for task in ["resting_gaze", "near_point", "pursuit", "saccade", "optokinetic"] {
        slot(&page, task).await?;
        audit(&page, task).await?;
        if task == "pursuit" {
            usual(&page, task).await?;
            slot(&page, "symptoms.pursuit").await?;
            audit(&page, "symptoms").await?;
            page.tap("no-change").await?;
        } else {
            skip(&page, task).await?;
        }
    }
    screen(&page, "findings").await?;
    audit(&page, "findings").await?;
    page.tap("next").await?;
    screen(&page, "decision").await?;
    audit(&page, "decision").await?;
    page.open("#/step/safety").await?;
    crate::examine::choose(&page, "neck", "yes").await?;
    screen(&page, "stop").await?;
    audit(&page, "stop").await
}

/// At every size nothing is wider than the view; pads are large and stand in the lower half; twice as large text fits.
pub async fn fits(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [8.0, 9.0, 11.5]).await?;
    usual(&page, "pursuit").await?;
    page.tap("no-change").await?;
    slot(&page, "saccade").await?;
    for mark in ["right-on", "left-on", "right-on", "left-short", "right-on", "left-short", "right-on", "left-past"] {
        page.tap(mark).await?;
    }
    for viewport in [PHONE, SMALL_PHONE, TABLET, DESKTOP] {
        stage.browser.resize(viewport).await?;
        for address in
            ["resting_gaze", "near_point", "pursuit", "saccade", "optokinetic", "safety", "frame", "findings"]
        {
            page.run_with("location.hash = '#/step/' + arguments[0];", vec![Value::from(address)]).await?;
            page.wait_until(
                "the step",
                &format!("location.hash === '#/step/{address}' && !!document.querySelector('h1')"),
            )
            .await?;
            no_overflow(&page, &format!("{address} at {viewport}")).await?;
            stage.shoot(&format!("{address} {viewport}")).await?;
        }
        page.run("location.hash = '#/step/saccade';").await?;
        slot(&page, "saccade").await?;
        pads_in_reach(&page, &viewport.to_string()).await?;
        large_enough(&page, ".remarks button", 2, &viewport.to_string()).await?;
        taps_in_sight(&page, &viewport.to_string()).await?;
        page.run("location.hash = '#/step/pursuit';").await?;
        slot(&page, "pursuit").await?;
        large_enough(&page, ".cell, .grades button", 12, &viewport.to_string()).await?;
    }
    stage.browser.resize(SMALL_PHONE).await?;
    page.run("document.documentElement.style.setProperty('font-size', '212.5%');").await?;
    for address in ["near_point", "saccade", "safety", "findings"] {
        page.run_with("location.hash = '#/step/' + arguments[0];", vec![Value::from(address)]).await?;
        page.wait_until("the step", "!!document.querySelector('h1')").await?;
        no_overflow(&page, &format!("{address} at 200 % text")).await?;
        stage.shoot(&format!("{address} large text")).await?;
    }
    Ok(())
}

/// The summary of a full demo visit prints on two A4 pages at most.
pub async fn prints(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.find("visit-row").await?;
    let visits = page.count("visit-row").await?;
    for index in 0..visits {
        page.run_with(
            "document.querySelectorAll('[data-test=visit-row]')[arguments[0]].click();",
            vec![Value::from(index)],
        )
        .await?;
        screen(&page, "summary").await?;
        let print = page.print().await?;
        stage.note(format!("{} pages", print.pages));
        ensure!(print.pages <= 2, "the summary of demo visit {index} prints on {} pages", print.pages);
        page.tap("home").await?;
        page.find("visit-row").await?;
    }
    Ok(())
}

/// From the home screen to the first task with the keyboard alone.
pub async fn keyboard(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    let taps = page.taps();
    focus_and_press(&page, "[data-test=start]").await?;
    focus_and_press(&page, "[data-test=begin]").await?;
    screen(&page, "frame").await?;
    focus_and_press(&page, "[data-test=next]").await?;
    screen(&page, "safety").await?;
    focus_and_press(&page, "[data-test=usual]").await?;
    focus_and_press(&page, "[data-test=next]").await?;
    focus_and_press(&page, "[data-test=no-change]").await?;
    slot(&page, "resting_gaze").await?;
    ensure!(page.taps() == taps, "the pointer was used");
    Ok(())
}

/// Three pictures of the demo for the README.
pub async fn pictures(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.find("visit-row").await?;
    stage.shoot("readme home").await?;
    to_first_task(&page, Some("T-19"), "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [8.0, 9.5, 12.0]).await?;
    usual(&page, "pursuit").await?;
    page.tap("no-change").await?;
    slot(&page, "saccade").await?;
    for mark in [
        "right-on",
        "left-on",
        "right-on",
        "left-short",
        "right-on",
        "left-short",
        "right-on",
        "left-past",
        "right-on",
        "left-past",
        "right-on",
        "left-short",
    ] {
        page.tap(mark).await?;
    }
    stage.shoot("readme jumps").await?;
    page.tap("next").await?;
    page.tap("no-change").await?;
    skip(&page, "optokinetic").await?;
    screen(&page, "findings").await?;
    stage.shoot("readme findings").await.map(|_| ())
}

pub(super) async fn audit(page: &Page, place: &str) -> Result<()> {
    let faults = page.audit().await?;
    if faults.is_empty() {
        return Ok(());
    }
    bail!("{place}: {}", faults.iter().map(ToString::to_string).collect::<Vec<_>>().join(" | "))
}

pub(super) async fn no_overflow(page: &Page, place: &str) -> Result<()> {
    let wide = page
        .value(
            "[...document.querySelectorAll('body *')].filter(e => { const r = e.getBoundingClientRect(); \
             return r.width > 0 && r.right > document.documentElement.getBoundingClientRect().right + 1 && !e.closest('.table') && !e.closest('.figure'); }) \
             .map(e => e.tagName + '.' + e.className).slice(0, 4)",
        )
        .await?;
    ensure!(wide.as_array().is_some_and(Vec::is_empty), "{place}: wider than the view: {wide}");
    let spilt = page
        .value(
            "[...document.querySelectorAll('.btn, .cell, .chip span, .chip-button, h1')].filter(e => e.scrollWidth > \
             e.clientWidth + 1).map(e => e.textContent.trim()).slice(0, 4)",
        )
        .await?;
    ensure!(spilt.as_array().is_some_and(Vec::is_empty), "{place}: text spills out of {spilt}");
    Ok(())
}

async fn pads_in_reach(page: &Page, place: &str) -> Result<()> {
    let pads = page
        .value(
            "[...document.querySelectorAll('.pad .btn, footer .btn')].map(e => { const r = e.getBoundingClientRect(); \
             return [r.height, r.top, r.bottom]; })",
        )
        .await?;
    let pads = pads.as_array().context("no pads")?;
    ensure!(pads.len() >= 9, "{place}: only {} pads", pads.len());
    let (_, height) = page.size().await?;
    for pad in pads {
        let side = |at: usize| pad.get(at).and_then(Value::as_f64).context("a pad without a size");
        ensure!(side(0)? >= 55.5, "{place}: a pad is {} px high", side(0)?);
        let middle = f64::midpoint(side(1)?, side(2)?);
        ensure!(side(2)? <= height as f64 + 1.0, "{place}: a pad reaches below the view");
        ensure!(middle >= height as f64 * 0.4, "{place}: a pad stands at {middle} of {height}");
    }
    Ok(())
}

/// What was tapped on either side is seen above the pads, without scrolling.
async fn taps_in_sight(page: &Page, place: &str) -> Result<()> {
    let hidden = page
        .value(
            "[...document.querySelectorAll('.dots')].filter(e => { const r = e.getBoundingClientRect(); const top = \
             document.elementFromPoint(r.left + 8, r.top + 12); return !e.contains(top) && top !== e; }).length",
        )
        .await?;
    ensure!(hidden == 0, "{place}: {hidden} rows of taps are covered");
    Ok(())
}

/// Every button tapped while examining is at least 56 px high and wide.
async fn large_enough(page: &Page, selector: &str, least: usize, place: &str) -> Result<()> {
    let sizes = page
        .run_with(
            "return [...document.querySelectorAll(arguments[0])].map(e => { const r = e.getBoundingClientRect(); \
             return Math.min(r.width, r.height); });",
            vec![Value::from(selector)],
        )
        .await?;
    let sizes: Vec<f64> = sizes.as_array().into_iter().flatten().filter_map(Value::as_f64).collect();
    ensure!(sizes.len() >= least, "{place}: only {} of {selector}", sizes.len());
    let smallest = sizes.iter().copied().fold(f64::INFINITY, f64::min);
    ensure!(smallest >= 55.5, "{place}: {selector} is {smallest} px");
    Ok(())
}

pub(super) async fn focus_and_press(page: &Page, selector: &str) -> Result<()> {
    page.find(css(selector)).await?;
    for _ in 0..120 {
        let here = page.value(&format!("document.activeElement?.matches('{selector}') ?? false")).await?;
        if here == Value::Bool(true) {
            return page.press(Key::Enter).await;
        }
        page.press(Key::Tab).await?;
    }
    bail!("the keyboard does not reach {selector}")
}
