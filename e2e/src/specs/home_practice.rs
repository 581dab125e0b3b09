//! What was done at home comes back: where an earlier visit gave a sheet, as numbers read aloud, as a file and as a code.

use std::fs;

use anyhow::{Context, Result, ensure};
use sidelight_core::archive::{self, Archive};
use sidelight_core::home_practice::sheets_before;
use sidelight_core::sheet::{Log, Sheet, Spoken};

use super::hand_over::camera;
use super::looks::{audit, no_overflow};
use crate::examine::{screen, start_empty};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

/// A visit that gave a sheet, and the one at which its log came back.
const VISITS: &str = include_str!("../../../tests/visits/practised-at-home/visit.json");

/// Someone who was given a sheet comes again: one number is misheard, then all are taken in, and a file beside them.
pub async fn taken_in(stage: &mut Stage) -> Result<()> {
    let (text, spoken) = came_back()?;
    let folder = tempfile::tempdir()?;
    let (log, other) = (folder.path().join("log.txt"), folder.path().join("other.txt"));
    fs::write(&log, format!("{text}\n"))?;
    fs::write(&other, "a shopping list")?;

    let page = next_visit(stage).await?;
    page.wait_text("home-practice-link", "A sheet for home was given on 2 March 2026.").await?;
    stage.shoot("frame with a sheet before").await?;
    page.tap("home-practice").await?;
    screen(&page, "home-practice").await?;
    page.wait_text("sheet", "Near-far jumps").await?;
    audit(&page, "home practice").await?;

    for (at, number) in (1..).zip(&spoken) {
        let wrong = at == 3;
        let typed = if wrong { next_digit(number) } else { number.clone() };
        page.fill(css(&format!("#number-{at}")), &typed).await?;
    }
    page.wait_text(css("#misheard-3"), "ask again").await?;
    page.tap("numbers").await?;
    page.wait_text("refused", "Number 3 cannot be right. Ask for it again.").await?;
    stage.shoot("home practice misheard").await?;
    page.fill(css("#number-3"), &spoken[2]).await?;
    page.tap("numbers").await?;
    page.wait_text("came-back", "Six numbers read aloud").await?;
    page.choose_file("log-file", &other).await?;
    page.wait_text("refused", ".").await?;
    page.choose_file("log-file", &log).await?;
    page.wait_text("came-back", "Sheet of 2 March 2026, from a file").await?;
    page.wait_text("came-back", "The practice was called on day 6.").await?;
    for viewport in [PHONE, SMALL_PHONE, DESKTOP] {
        stage.browser.resize(viewport).await?;
        no_overflow(&page, &format!("home practice at {viewport}")).await?;
        audit(&page, &format!("home practice at {viewport}")).await?;
        stage.shoot(&format!("home practice {viewport}")).await?;
    }
    page.tap("take-out").await?;
    page.wait_text("took", "Taken out again.").await?;
    ensure!(!page.text("came-back").await?.contains("from a file"), "it is still told");
    page.fill("log-text", &text).await?;
    page.tap("message").await?;
    page.wait_text("took", "Taken in.").await?;
    page.wait_text("came-back", "from a message").await?;
    page.tap("done").await?;
    screen(&page, "frame").await?;
    page.wait_text("home-practice-link", "2 logs are taken in.").await?;
    page.open("#/step/findings").await?;
    page.wait_text(css("main"), "Practised at home since").await?;
    stage.shoot("findings with home practice").await.map(|_| ())
}

/// The code on the family's phone, held before the camera: first a code of something else, which is refused in a sentence.
pub async fn scanned(stage: &mut Stage) -> Result<()> {
    let (text, _) = came_back()?;
    let page = next_visit(stage).await?;
    page.tap("home-practice").await?;
    screen(&page, "home-practice").await?;
    camera::show(&stage.browser.camera(), "https://clinic.example/")?;
    page.tap("scan").await?;
    page.wait_text("refused", "This code is not a list of what was done.").await?;
    page.wait_gone("camera").await?;
    page.wait_until(
        "the refusal to be in view",
        "(box => box.top >= 0 && box.bottom <= innerHeight)(document.querySelector('[data-test=refused]').getBoundingClientRect())",
    )
    .await?;
    ensure!(page.count("came-back").await? == 0, "something was taken in");
    stage.shoot("home practice foreign code").await?;
    camera::show(&stage.browser.camera(), &text)?;
    page.tap("scan").await?;
    page.wait_text("came-back", "Sheet of 2 March 2026, by code").await?;
    page.wait_text("took", "Taken in.").await?;
    page.wait_gone("camera").await?;
    let refused = page.value("document.querySelector('[data-test=refused]').textContent").await?;
    ensure!(refused == "", "it is still said: {refused}");
    Ok(())
}

/// The log that came back, and its six numbers.
fn came_back() -> Result<(String, [String; 6])> {
    let whole = archive::read(VISITS.as_bytes())?;
    let [_, then] = &whole.visits[..] else { anyhow::bail!("two visits were expected") };
    let given = *sheets_before(then, &whole.visits).first().context("a sheet")?;
    let text = then.logs.first().context("a log")?.text.clone();
    let spoken = Spoken::of(&Log::decode(&text)?, &Sheet::decode(&given.text)?).numbers();
    Ok((text, spoken))
}

/// The visit that gave the sheet is taken in, and the next one is begun.
async fn next_visit(stage: &mut Stage) -> Result<Page> {
    let mut whole = archive::read(VISITS.as_bytes())?;
    whole.visits.truncate(1);
    let folder = tempfile::tempdir()?;
    let visit = folder.path().join("visit.json");
    fs::write(&visit, archive::write(&Archive { visits: whole.visits, ..whole }))?;
    let page = start_empty(stage).await?;
    page.open("#/take-in").await?;
    page.choose_file("take-files", &visit).await?;
    page.find("plan").await?;
    page.tap("go").await?;
    page.find("receipt-words").await?;
    page.open("#/people").await?;
    page.tap("person-row").await?;
    page.tap("start-for").await?;
    page.tap("begin").await?;
    screen(&page, "frame").await?;
    Ok(page)
}

/// The same number with another check digit.
fn next_digit(number: &str) -> String {
    let (start, last) = number.split_at(2);
    format!("{start}{}", (last.parse::<u32>().unwrap_or(0) + 1) % 10)
}
