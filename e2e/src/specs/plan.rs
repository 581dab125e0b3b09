//! The plan for home: from a finding over a choice to a signed sheet that another phone can open.

use anyhow::{Context, Result, ensure};
use sidelight_core::catalogue::Language;
use sidelight_core::sheet::Sheet;

use super::looks::{audit, focus_and_press, no_overflow};
use crate::engine::PRINTING;
use crate::examine::{begin, choose, near_point, no_danger, reload, screen, skip, start_empty, usual};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE};

/// A choice outlives a reload, is refused until it is signed, and becomes a code and a link that open as the same sheet.
pub async fn given(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_decision(&page).await?;
    page.tap("to-plan").await?;
    screen(&page, "plan").await?;
    page.tap("add-near_point_practice").await?;
    page.tap(css("[data-test=change-dose-near_point_practice] summary")).await?;
    page.fill(css("#dose-near_point_practice-weeks"), "2").await?;
    page.fill("emergency-number", "112").await?;
    page.tap("es").await?;
    audit(&page, "plan").await?;
    no_overflow(&page, "plan").await?;
    stage.shoot("plan").await?;
    reload(&page).await?;
    screen(&page, "plan").await?;
    page.wait_text("dose-near_point_practice", "2 weeks").await?;
    page.tap("sign-off").await?;
    page.wait_text("not-yet-nobody", "who signs").await?;
    page.tap("preview-sheet").await?;
    page.wait_text("family-page", "nariz").await?;
    page.fill("signed-by", "A. B.").await?;
    page.tap("sign-off").await?;
    screen(&page, "sheet").await?;
    page.find("qr").await?;
    audit(&page, "sheet").await?;
    no_overflow(&page, "sheet").await?;
    stage.shoot("sheet").await?;
    if PRINTING.contains(&stage.engine) {
        let print = page.print().await?;
        stage.note(format!("{} pages", print.pages));
        ensure!(print.pages <= 2, "the sheet prints on {} pages", print.pages);
        page.tap("a5").await?;
        page.wait_text("letters", "points").await?;
        let small = page.print().await?;
        stage.note(format!("A5 {} pages, {:.1} points", small.pages, small.least_points()?));
        ensure!(small.pages <= 2, "on A5 the sheet prints on {} pages", small.pages);
    }
    page.tap("save-sheet").await?;
    page.wait_text("said", "ejercicios.html").await?;
    let link = page.text("link").await?;
    ensure!(!link.contains("A.") && !link.contains("R-21"), "a name stands in {link}");
    let sheet = Sheet::decode(&link).context("the link opens as a sheet")?;
    let entry = sheet.entries.first().context("an exercise")?;
    ensure!(entry.exercise.id == "near_point_practice" && entry.dose.weeks == 2, "{entry:?}");
    ensure!((sheet.emergency.as_str(), sheet.language) == ("112", Language::Spanish), "{sheet:?}");
    reload(&page).await?;
    screen(&page, "sheet").await?;
    page.wait_text("link", &sheet.encode()).await
}

/// The whole way by keyboard; what speaks against an exercise asks for a reason beside it.
pub async fn with_the_keyboard(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_decision(&page).await?;
    focus_and_press(&page, "[data-test=to-plan]").await?;
    screen(&page, "plan").await?;
    for viewport in [DESKTOP, PHONE] {
        stage.browser.resize(viewport).await?;
        no_overflow(&page, &format!("plan at {viewport}")).await?;
    }
    focus_and_press(&page, "[data-test=add-proposed]").await?;
    focus_and_press(&page, "[data-test=sign-off]").await?;
    page.wait_until("the keyboard where the name is asked for", "document.activeElement?.id === 'signed-by'").await
}

/// A child who came because reading tires, with a far near point and nothing else examined.
async fn to_decision(page: &Page) -> Result<()> {
    begin(page, Some("R-21"), "2012").await?;
    for (field, choice) in [("reason", "reading"), ("consent", "guardian"), ("glasses", "none"), ("cautions", "none")] {
        choose(page, field, choice).await?;
    }
    page.tap("next").await?;
    no_danger(page).await?;
    usual(page, "resting_gaze").await?;
    near_point(page, [8.0, 9.5, 12.0]).await?;
    for task in ["pursuit", "saccade", "optokinetic"] {
        skip(page, task).await?;
    }
    screen(page, "findings").await?;
    page.tap("next").await?;
    screen(page, "decision").await
}
