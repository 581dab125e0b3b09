//! The family's page: from a link and without a network, from a file, on paper, for everyone, and what is refused.

use std::time::Duration;

use anyhow::{Context, Result, ensure};
use sidelight_core::catalogue::Language;
use sidelight_core::exercise::{self, Amount, Dose};
use sidelight_core::family::Paper;
use sidelight_core::sheet::{Entry, Log, Sheet};
use sidelight_core::tolerance::Limits;
use sidelight_core::{advice, family};

use super::lock;
use super::looks::{audit, focus_and_press, no_overflow};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::Viewport;

const A4: (f64, f64) = (21.0, 29.7);
const A5: (f64, f64) = (14.8, 21.0);
const DOUBLE_TAP: Duration = Duration::from_millis(500);
/// The seconds the clock shows.
const LEFT: &str = "Number(document.querySelector('[data-slot=left]').textContent)";
/// The narrowest screen a page has to fit (WCAG 2.2, reflow).
const NARROW: Viewport = Viewport { width: 320, height: 640, ratio: 2.0, handheld: true };

/// From a link: the address is clean at once, the server may go, a whole exercise is done by the clock, and the log comes out
/// as a code, as numbers and as a file.
pub async fn day(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    let sheet = short();
    page.open(&format!("sheet/#{}", sheet.encode())).await?;
    at(&page, "first").await?;
    let clean = page.value("location.href.endsWith('/sheet/') && !document.documentElement.dataset.sheet").await?;
    ensure!(clean == true, "the plan stands in the address still");
    act(&page, "read").await?;
    at(&page, "today").await?;
    page.wait_until(
        "the family's worker to control the page",
        "(navigator.serviceWorker.controller?.scriptURL ?? '').endsWith('/sheet/sw.js')",
    )
    .await?;
    stage.site.stop()?;
    page.reload().await?;
    at(&page, "today").await?;
    exercise_once(&page, 1).await?;
    ensure!(page.text(css(".done")).await?.contains("1 of 1"), "the round is not ticked off");
    act(&page, "language es").await?;
    page.wait_until("Spanish", "document.documentElement.lang === 'es' && document.title === 'Sus ejercicios'").await?;
    act(&page, "log").await?;
    at(&page, "log").await?;
    ensure!(page.count(css(".code svg path")).await? == 2, "there is no code");
    ensure!(page.count(css(".numbers li")).await? == 6, "there are not six numbers");
    act(&page, "save").await?;
    let saved = std::fs::read_to_string(stage.browser.wait_for_download("exercise-log.txt").await?)?;
    let log = Log::decode(&saved).map_err(|why| anyhow::anyhow!("{why}: {saved}"))?;
    ensure!(log.belongs_to(&sheet) && log.rounds(1, 0) == 1, "{log:?}");
    Ok(())
}

/// A phone that is locked in the middle of a set, and a page that ends there, as when the phone needs the room: the set
/// stands where it stood, until somebody goes on.
pub async fn loaded_anew(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open(&format!("sheet/#{}", short().encode())).await?;
    at(&page, "first").await?;
    act(&page, "read").await?;
    act(&page, "start 0").await?;
    at(&page, "before").await?;
    act(&page, "rate 2").await?;
    at(&page, "ready").await?;
    act(&page, "begin").await?;
    page.wait_until("four seconds of the set", &format!("!!document.querySelector('.face') && {LEFT} <= 4")).await?;
    // The phone is locked for a while: the set does not end unseen.
    page.run(&lock::seen("hidden")).await?;
    let locked = page.value(LEFT).await?;
    tokio::time::sleep(2 * DOUBLE_TAP).await;
    page.run(&lock::seen("visible")).await?;
    ensure!(page.text(css(".note")).await?.contains("You were away"), "nothing says that the clock stood still");
    ensure!(page.value(LEFT).await? == locked, "the clock ran while the phone was locked");
    act(&page, "go-on").await?;
    page.wait_until("three seconds of the set", &format!("{LEFT} <= 3")).await?;
    page.client().goto("about:blank").await?;
    page.open("sheet/").await?;
    at(&page, "work").await?;
    ensure!(page.text(css(".note")).await?.contains("You were away"), "nothing says why the clock stands still");
    let left = page.value(LEFT).await?;
    ensure!(left.as_f64().is_some_and(|left| (1.0..=3.0).contains(&left)), "{left} seconds are left of three");
    tokio::time::sleep(2 * DOUBLE_TAP).await;
    ensure!(page.value(LEFT).await? == left, "the clock runs unseen");
    stage.shoot("family loaded anew").await?;
    act(&page, "go-on").await?;
    at(&page, "after").await?;
    act(&page, "rate 2").await?;
    at(&page, "told").await?;
    act(&page, "back").await?;
    at(&page, "today").await?;
    ensure!(page.text(css(".done")).await?.contains("1 of 1"), "the round is not ticked off");
    page.reload().await?;
    at(&page, "today").await
}

/// Where the app is installed, its worker gives out the family's page too, without a server.
pub async fn beside_the_app(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    stage.site.stop()?;
    page.open(&format!("sheet/#{}", short().encode())).await?;
    at(&page, "first").await?;
    act(&page, "read").await?;
    at(&page, "today").await
}

/// From a file on the disk, with no server at all: readable before anything runs, then the same page.
pub async fn file(stage: &mut Stage) -> Result<()> {
    let template = std::fs::read_to_string(stage.site.dist().join("sheet/file.html"))?;
    let sheet = ordinary(Language::Spanish);
    let text = family::file(&template, &sheet).context("the template lacks a mark")?;
    stage.site.stop()?;
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("exercises.html");
    std::fs::write(&path, &text)?;
    let address = url::Url::from_file_path(&path).map_err(|()| anyhow::anyhow!("no address for {}", path.display()))?;
    let page = stage.page()?;
    page.client().goto(address.as_str()).await?;
    at(&page, "first").await?;
    ensure!(page.value("document.documentElement.lang").await? == "es", "it opens in another language");
    act(&page, "language en").await?;
    act(&page, "read").await?;
    at(&page, "today").await?;
    act(&page, "start 0").await?;
    at(&page, "before").await?;
    act(&page, "rate 7").await?;
    at(&page, "told").await?;
    let told = page.value("document.querySelector('h1').textContent").await?;
    ensure!(told == "You feel too bad to start. Rest, and try later.", "{told}");
    stage.note(format!("{} kB", text.len() / 1000));
    Ok(())
}

/// Four exercises with all advice on two pages, A4 and A5, in both languages, and in the letters that core says.
pub async fn prints(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    for language in Language::ALL {
        let sheet = ordinary(language);
        page.open(&format!("sheet/#{}", sheet.encode())).await?;
        at(&page, "first").await?;
        // What is folded on the screen is on paper.
        for (paper, (width, height)) in [(Paper::A4, A4), (Paper::A5, A5)] {
            let fit = family::on_paper(&sheet, language, paper);
            let print = page.print_on(width, height).await?;
            let (pages, points) = (print.pages, print.least_points()?);
            let told = format!("{} {paper:?}: {pages} pages, {points:.1} points", language.name());
            ensure!(pages <= 2 && fit.two_pages, "{told}");
            ensure!((points - f64::from(fit.points)).abs() < 0.1, "{told}, and {fit:?}");
            stage.note(told);
        }
        page.client().goto("about:blank").await?;
    }
    Ok(())
}

/// Every screen passes the audit and fits the narrowest view with letters twice as large; a keyboard alone goes all the way.
pub async fn looks(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open(&format!("sheet/#{}", ordinary(Language::English).encode())).await?;
    at(&page, "first").await?;
    if stage.browser.resize(NARROW).await.is_err() {
        // Two engines have no window as narrow as that; the page is narrowed inside it.
        page.run(&format!("document.documentElement.style.width = '{}px';", NARROW.width)).await?;
    }
    page.run("document.documentElement.style.setProperty('font-size', '237.5%');").await?;
    seen(stage, &page, "first").await?;
    focus_and_press(&page, "[data-act=read]").await?;
    at(&page, "today").await?;
    seen(stage, &page, "today").await?;
    focus_and_press(&page, "[data-act=\"steps 1\"]").await?;
    seen(stage, &page, "steps").await?;
    // From the top again: not every engine goes on there after the last button of a page.
    page.run("document.activeElement.blur(); getSelection().collapse(document.body, 0);").await?;
    focus_and_press(&page, "[data-act=\"start 0\"]").await?;
    at(&page, "before").await?;
    seen(stage, &page, "before").await?;
    focus_and_press(&page, "[data-act=\"rate 2\"]").await?;
    at(&page, "ready").await?;
    seen(stage, &page, "ready").await?;
    focus_and_press(&page, "[data-act=begin]").await?;
    at(&page, "work").await?;
    focus_and_press(&page, "[data-act=hold]").await?;
    seen(stage, &page, "work").await?;
    focus_and_press(&page, "[data-act=wrong]").await?;
    at(&page, "danger").await?;
    seen(stage, &page, "danger").await?;
    focus_and_press(&page, "[data-act=no-danger]").await?;
    focus_and_press(&page, "[data-act=stop]").await?;
    at(&page, "after").await?;
    focus_and_press(&page, "[data-act=\"rate 6\"]").await?;
    at(&page, "told").await?;
    seen(stage, &page, "told").await?;
    focus_and_press(&page, "[data-act=back]").await?;
    seen(stage, &page, "rest").await?;
    focus_and_press(&page, "[data-act=log]").await?;
    at(&page, "log").await?;
    seen(stage, &page, "log").await
}

/// What cannot be read is said in one sentence, nothing of it is shown or run, and a good link still opens after it.
pub async fn refused(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    let good = short().encode();
    let cases = [
        (String::new(), "empty", "You need a plan"),
        (good[..good.len() - 9].to_string(), "unreadable", "A part of this link is lost."),
        (good.replacen("SHEET1", "SHEET7", 1), "newer", "newer than this page"),
        ("<img src=x onerror=alert(1)>".to_string(), "unreadable", "something in this link that is not a plan"),
        ("A".repeat(1_000_000), "unreadable", "far too long"),
    ];
    for (given, place, says) in cases {
        page.client().goto("about:blank").await?;
        page.open(&format!("sheet/#{given}")).await?;
        at(&page, place).await?;
        let text = page.value("document.body.textContent").await?;
        ensure!(text.as_str().is_some_and(|text| text.contains(says)), "{says}: {text}");
        ensure!(page.count(css("#family img")).await? == 0, "something of it is shown");
        ensure!(page.value("location.hash.length").await? == 0, "it stands in the address still");
    }
    // A plan of a newer build is tried again by a reload, when a newer page may be there; what is damaged is not.
    for (given, then) in [(good.replacen("SHEET1", "SHEET7", 1), "newer"), (good.replacen('A', "9", 1), "empty")] {
        page.client().goto("about:blank").await?;
        page.open(&format!("sheet/#{given}")).await?;
        page.wait_until("a refusal", "!!document.documentElement.dataset.place").await?;
        page.reload().await?;
        at(&page, then).await?;
    }
    // A link that is opened where the page is open already.
    page.run_with("location.hash = arguments[0];", vec![good.into()]).await?;
    at(&page, "first").await?;
    ensure!(page.value("location.hash.length").await? == 0, "the plan stands in the address still");
    Ok(())
}

/// Does the first exercise by the clock, felt the same before and after.
async fn exercise_once(page: &Page, felt: u8) -> Result<()> {
    act(page, "start 0").await?;
    at(page, "before").await?;
    act(page, &format!("rate {felt}")).await?;
    at(page, "ready").await?;
    act(page, "begin").await?;
    page.wait_until("the set to begin", "!!document.querySelector('.face')").await?;
    at(page, "after").await?;
    act(page, &format!("rate {felt}")).await?;
    at(page, "told").await?;
    act(page, "back").await?;
    at(page, "today").await
}

pub(super) async fn act(page: &Page, name: &str) -> Result<()> {
    page.tap(css(&format!("[data-act=\"{name}\"]"))).await
}

/// The page takes a tap that follows a change of the screen too soon and too near for the second half of a double tap.
pub(super) async fn at(page: &Page, place: &str) -> Result<()> {
    page.wait_until(place, &format!("document.documentElement.dataset.place === '{place}'")).await?;
    tokio::time::sleep(DOUBLE_TAP).await;
    Ok(())
}

async fn seen(stage: &Stage, page: &Page, place: &str) -> Result<()> {
    audit(page, place).await?;
    no_overflow(page, place).await?;
    stage.shoot(&format!("family {place}")).await?;
    Ok(())
}

fn entry(id: &str, dose: Option<Dose>) -> Entry {
    let exercise = exercise::by_id(id).unwrap_or(exercise::ALL[0]);
    Entry { exercise, dose: dose.unwrap_or(exercise.start) }
}

/// One set of five seconds to a beat.
pub(super) fn short() -> Sheet {
    let dose = Dose { sets: 1, amount: Amount::Seconds(5), rest: 0, a_day: 1, a_week: 7, weeks: 1, beat: 60 };
    Sheet { entries: vec![entry("head_turn_seated", Some(dose))], advice: Vec::new(), ..ordinary(Language::English) }
}

fn ordinary(language: Language) -> Sheet {
    let four = ["head_turn_seated", "near_point_practice", "stance_steps", "steady_walk"];
    Sheet {
        entries: four.into_iter().map(|id| entry(id, None)).collect(),
        advice: advice::ALL.to_vec(),
        limits: Limits::CONSENSUS,
        emergency: "112".into(),
        helper: true,
        language,
    }
}
