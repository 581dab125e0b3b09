//! Taking in: what files hold is told before it is written, the receipt is for what is here, and corrections stand beside
//! closed visits.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use serde_json::Value;
use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::Visit;
use sidelight_core::demo;
use sidelight_core::hand_over::{self, To};
use sidelight_core::receipt::{self, Receipt};

use super::looks::audit;
use super::people::fits;
use crate::examine::{reload, screen, start_empty};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const PASSPHRASE: &str = "velvet anchor museum";

/// A file is told before it is written, then written with a receipt; again, sealed, it gives the same receipt at once.
pub async fn with_receipt(stage: &mut Stage) -> Result<()> {
    let folder = tempfile::tempdir()?;
    let file = demo_file();
    let (plain, sealed) = (folder.path().join("a.json"), folder.path().join("b.age"));
    fs::write(&plain, archive::write(&file))?;
    let by_words = To::Passphrase { passphrase: PASSPHRASE, work_factor: 10 };
    fs::write(&sealed, hand_over::seal(&archive::write_compact(&file), &by_words)?)?;
    let words = Receipt::of("", NOW, receipt::refs(&file.visits), Vec::new()).words();

    let page = to_take_in(stage).await?;
    seen(&page, "take in, empty").await?;
    ensure!(page.attribute("go", "disabled").await?.is_some(), "there is nothing to take in yet");
    page.choose_file("take-files", &plain).await?;
    page.wait_text("plan", &format!("{} new people", file.people.len())).await?;
    page.wait_text("plan", &format!("{} new visits", file.visits.len())).await?;
    page.wait_text("file", "It came unsealed").await?;
    seen(&page, "take in, planned").await?;
    page.tap("back").await?;
    page.tap("back").await?;
    page.wait_text(css("main"), "No visit yet").await?;
    page.tap("take-in").await?;
    page.choose_file("take-files", &plain).await?;
    page.find("plan").await?;
    page.tap("go").await?;
    page.wait_text("receipt-words", &words).await?;
    page.find("qr").await?;
    seen(&page, "taken in").await?;
    page.tap("go").await?;
    page.find("visit-row").await?;
    reload(&page).await?;
    page.find("visit-row").await?;

    page.tap("take-in").await?;
    page.choose_file("take-files", &sealed).await?;
    page.wait_state("file", "state", "locked").await?;
    page.fill("passphrase", "velvet").await?;
    page.tap("unlock").await?;
    page.wait_text("locked-why", "does not open").await?;
    seen(&page, "take in, locked").await?;
    page.fill("passphrase", PASSPHRASE).await?;
    page.tap("unlock").await?;
    page.wait_text("taken", "here already").await?;
    page.wait_text("receipt-words", &words).await?;
    page.tap("more").await?;
    page.wait_gone("taken").await?;

    page.open("#/erase-device").await?;
    page.wait_text("never-handed-over", "were taken in here").await?;
    seen(&page, "erase the device").await?;
    page.tap("hand-over-first").await?;
    page.wait_text("selected", &format!("{} visits of", file.visits.len())).await
}

/// A visit changed after it was closed is never taken in and not on the receipt; what is damaged is told of each file, and
/// several files come in together.
pub async fn held_back(stage: &mut Stage) -> Result<()> {
    let folder = tempfile::tempdir()?;
    let good = demo_file();
    let mut changed = good.clone();
    changed.visits[0].program = "changed".to_owned();
    let rest = Receipt::of("", NOW, receipt::refs(&good.visits[1..]), Vec::new()).words();
    let write = |name: &str, bytes: &[u8]| -> Result<PathBuf> {
        let path = folder.path().join(name);
        fs::write(&path, bytes)?;
        Ok(path)
    };
    let whole = archive::write(&changed);
    let files = [write("whole.json", &whole)?, write("cut.json", &whole[..whole.len() / 2])?];
    let page = to_take_in(stage).await?;
    choose_all(&page, &files).await?;
    page.wait_text("held-back", "changed after it was closed").await?;
    page.wait_text("plan", &format!("{} new visits", good.visits.len() - 1)).await?;
    page.wait_text("files", "breaks off").await?;
    seen(&page, "take in, held back").await?;
    page.tap("go").await?;
    page.wait_text("receipt-words", &rest).await?;
    page.wait_text("taken", "never taken in").await
}

/// Thousands of visits are told and written while the page answers.
pub async fn many(stage: &mut Stage) -> Result<()> {
    const COUNT: usize = 2_000;
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("many.json");
    fs::write(&path, archive::write_compact(&many_visits(COUNT)))?;
    let page = to_take_in(stage).await?;
    page.run(WATCH).await?;
    page.choose_file("take-files", &path).await?;
    let patience = std::time::Duration::from_secs(120);
    let planned = format!("document.querySelector('[data-test=plan]')?.textContent.includes('{COUNT} new visits')");
    page.wait_until_within("the plan", &planned, patience).await?;
    let (plan_ms, plan_gap) = watched(&page).await?;
    page.run(WATCH).await?;
    page.tap("go").await?;
    page.wait_until_within("the receipt", "!!document.querySelector('[data-test=receipt-words]')", patience).await?;
    let (write_ms, write_gap) = watched(&page).await?;
    stage.note(format!(
        "{COUNT} visits: told after {plan_ms} ms (page still for {plan_gap} ms at most), written after {write_ms} ms \
         (still for {write_gap} ms at most)"
    ));
    ensure!(plan_gap < 2_000, "the page did not answer for {plan_gap} ms while files were read");
    page.tap("go").await?;
    page.tap("seen").await?;
    page.wait_text(css("main"), &format!("{COUNT} visits")).await
}

/// A correction stands under its date in the summary of a closed visit, and outlives a reload.
pub async fn correction(stage: &mut Stage) -> Result<()> {
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("a.json");
    fs::write(&path, archive::write(&demo_file()))?;
    let page = to_take_in(stage).await?;
    page.choose_file("take-files", &path).await?;
    page.find("plan").await?;
    page.tap("go").await?;
    page.find("receipt").await?;
    page.tap("go").await?;
    page.tap("visit-row").await?;
    screen(&page, "summary").await?;
    page.tap(css("[data-test=correct] summary")).await?;
    page.tap("keep-correction").await?;
    page.wait_text("correction-refused", "Write what").await?;
    seen(&page, "correction").await?;
    let text = "The near point was 8 cm, not 18 cm.";
    page.fill("correction", text).await?;
    page.tap("keep-correction").await?;
    page.wait_text("summary", text).await?;
    page.tap("home").await?;
    reload(&page).await?;
    page.tap("visit-row").await?;
    page.wait_text("summary", text).await
}

pub(super) async fn to_take_in(stage: &mut Stage) -> Result<Page> {
    let page = start_empty(stage).await?;
    page.tap("take-in").await?;
    screen(&page, "take-in").await?;
    Ok(page)
}

/// Several files at once, as the picker of the system hands them over.
async fn choose_all(page: &Page, files: &[PathBuf]) -> Result<()> {
    let all: Vec<String> = files.iter().map(|file| file.to_string_lossy().into_owned()).collect();
    page.choose_file("take-files", Path::new(&all.join("\n"))).await
}

/// Looks at the screen as axe does and on three sizes.
async fn seen(page: &Page, place: &str) -> Result<()> {
    audit(page, place).await?;
    for view in [SMALL_PHONE, DESKTOP, PHONE] {
        page.resize(view).await?;
        fits(page, place).await?;
    }
    Ok(())
}

/// The invented people with their closed visits, as a file that was handed over.
pub(super) fn demo_file() -> Archive {
    let (people, visits) = demo::people(NOW);
    Archive::of(people, visits.into_iter().map(|visit| archive::closed(visit, NOW)).collect())
}

/// So many visits of the same people.
pub(super) fn many_visits(count: usize) -> Archive {
    let Archive { people, visits, .. } = demo_file();
    let one = |at: usize| {
        let pattern = &visits[at % visits.len()];
        archive::closed(Visit { id: format!("many-{at}"), sha256: None, ..pattern.clone() }, NOW)
    };
    Archive::of(people, (0..count).map(one).collect())
}

/// Notes how long the page draws nothing.
pub(super) const WATCH: &str = "
    const watched = window.watched = { began: performance.now(), last: performance.now(), gap: 0 };
    const tick = () => {
        if (window.watched !== watched) return;
        const now = performance.now();
        watched.gap = Math.max(watched.gap, now - watched.last);
        watched.last = now;
        setTimeout(tick, 20);
    };
    tick();
";

pub(super) async fn watched(page: &Page) -> Result<(u64, u64)> {
    let told = page.value("[performance.now() - window.watched.began, window.watched.gap].map(Math.round)").await?;
    let at = |place: usize| told.get(place).and_then(Value::as_u64).context("no times");
    Ok((at(0)?, at(1)?))
}
