//! What was done at home comes back: where an earlier visit gave a sheet, as numbers read aloud and as a file.

use std::fs;

use anyhow::{Context, Result, ensure};
use sidelight_core::archive::{self, Archive};
use sidelight_core::home_practice::sheets_before;
use sidelight_core::sheet::{Log, Sheet, Spoken};

use super::looks::{audit, no_overflow};
use crate::examine::{screen, start_empty};
use crate::page::css;
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

/// A visit that gave a sheet, and the one at which its log came back.
const VISITS: &str = include_str!("../../../tests/visits/practised-at-home/visit.json");

/// Someone who was given a sheet comes again: one number is misheard, then all are taken in, and a file beside them.
pub async fn taken_in(stage: &mut Stage) -> Result<()> {
    let mut whole = archive::read(VISITS.as_bytes())?;
    let (text, spoken) = {
        let [_, then] = &whole.visits[..] else { anyhow::bail!("two visits were expected") };
        let given = *sheets_before(then, &whole.visits).first().context("a sheet")?;
        let text = then.logs.first().context("a log")?.text.clone();
        (text.clone(), Spoken::of(&Log::decode(&text)?, &Sheet::decode(&given.text)?).numbers())
    };
    whole.visits.truncate(1);
    let folder = tempfile::tempdir()?;
    let (visit, log, other) =
        (folder.path().join("visit.json"), folder.path().join("log.txt"), folder.path().join("other.txt"));
    fs::write(&visit, archive::write(&Archive { visits: whole.visits, ..whole }))?;
    fs::write(&log, format!("{text}\n"))?;
    fs::write(&other, "a shopping list")?;

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

/// The same number with another check digit.
fn next_digit(number: &str) -> String {
    let (start, last) = number.split_at(2);
    format!("{start}{}", (last.parse::<u32>().unwrap_or(0) + 1) % 10)
}
