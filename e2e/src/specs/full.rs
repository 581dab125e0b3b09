//! The whole examination: every task of the full routine on a small phone, and a page of findings with all its parts.

use anyhow::{Result, ensure};

use super::looks::{audit, no_overflow};
use crate::examine::{all_as_expected, begin_routine, choose, no_danger, screen, slot, start_empty};
use crate::page::css;
use crate::spec::Stage;
use crate::viewport::{DESKTOP, SMALL_PHONE};

/// Tasks of the full routine for someone with vertigo, who is the only one to be offered a head impulse.
const TASKS: [&str; 13] = [
    "resting_gaze",
    "gaze_range",
    "near_point",
    "vergence",
    "pursuit",
    "saccade",
    "antisaccade",
    "optokinetic",
    "head_turn_gaze",
    "whole_body_turn",
    "head_impulse",
    "balance",
    "body_sides",
];

/// Every task fits and passes the audit before and after its "all as expected" tap; those without one are left out.
pub async fn every_task(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin_routine(&page, "full", "1980").await?;
    for (field, choice) in [
        ("reason", "dizzy"),
        ("since", "week"),
        ("consent", "self"),
        ("glasses", "none"),
        ("influences", "none"),
        ("cautions", "vertigo"),
    ] {
        choose(&page, field, choice).await?;
    }
    page.tap("next").await?;
    no_danger(&page).await?;
    let mut usual = 0;
    for task in TASKS {
        slot(&page, task).await?;
        for viewport in [DESKTOP, SMALL_PHONE] {
            stage.browser.resize(viewport).await?;
            no_overflow(&page, &format!("{task} at {viewport}")).await?;
        }
        audit(&page, task).await?;
        if page.value("!!document.querySelector('[data-test=usual]')").await? == true {
            usual += 1;
            all_as_expected(&page).await?;
            no_overflow(&page, &format!("{task}, filled in")).await?;
            audit(&page, &format!("{task}, filled in")).await?;
            page.tap("next").await?;
        } else {
            page.tap("skip").await?;
            page.tap(css("[data-test=skip-panel] [data-test=reason]")).await?;
        }
        // After a provoking task the symptoms are asked; "no change" is one tap.
        let asked = "document.querySelector('main')?.dataset.slot !== arguments[0]";
        page.wait_until("the next step", &asked.replace("arguments[0]", &format!("{task:?}"))).await?;
        if page.value("!!document.querySelector('[data-test=no-change]')").await? == true {
            page.tap("no-change").await?;
        }
    }
    screen(&page, "findings").await?;
    ensure!(usual >= 5, "only {usual} tasks have a tap for all as expected");
    no_overflow(&page, "findings").await?;
    audit(&page, "findings").await?;
    let parts = page.value("[...document.querySelectorAll('h2')].map(e => e.textContent).join('|')").await?;
    for part in ["What stands out", "Side and region", "As expected", "Not done"] {
        ensure!(parts.to_string().contains(part), "the findings have no part {part:?}: {parts}");
    }
    page.tap(css("[data-test=add-task] summary")).await?;
    page.tap("add-further_measures").await?;
    slot(&page, "further_measures").await?;
    no_overflow(&page, "further measures").await?;
    audit(&page, "further measures").await
}
