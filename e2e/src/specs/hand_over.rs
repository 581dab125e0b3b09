//! Hand over: a file by key, by passphrase or unsealed; the log and its receipts; what a rule removes; a person erased.

pub(super) mod camera;

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

use super::looks::audit;
use super::people::fits;
use crate::examine::screen;
use crate::page::Page;
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

/// The clinic's key: made, pasted, compared by its words; a file sealed to it; the log; a file that did not arrive.
pub async fn by_key(stage: &mut Stage) -> Result<()> {
    let page = to_safe(stage).await?;
    let never = number(&page, "never").await?;
    ensure!(0 < never, "the demo has closed visits that were never handed over");
    seen(stage, &page, "safe keeping").await?;
    page.tap("clinic-key").await?;
    screen(&page, "clinic-key").await?;
    page.fill("key-text", "hello").await?;
    page.tap("read").await?;
    page.wait_until("a sentence about a text that is no key", &said_in("refused")).await?;
    page.wait_text("before-making", "This is the demo").await?;
    page.tap("make-key").await?;
    let words = page.text("own-words").await?;
    ensure!(words.split_whitespace().count() == 6, "six words: {words}");
    let key = page.text("own-text").await?;
    page.find("qr").await?;
    seen(stage, &page, "clinic key").await?;
    page.fill("key-text", &format!("{}{}", &key[..key.len() - 1], if key.ends_with('q') { "p" } else { "q" })).await?;
    page.tap("read").await?;
    page.wait_until("a sentence about a damaged key", &said_in("refused")).await?;
    for answer in ["differs", "same"] {
        page.fill("key-text", &key).await?;
        page.tap("read").await?;
        page.wait_text("found-words", &words).await?;
        page.tap(answer).await?;
        page.wait_gone("found-words").await?;
    }
    page.wait_text("known-key", &words).await?;
    page.tap("done").await?;
    screen(&page, "hand-over").await?;
    page.wait_text("key-words", &words).await?;
    seen(stage, &page, "hand over by key").await?;
    page.tap("make").await?;
    let name = page.text("file-name").await?;
    seen(stage, &page, "file made").await?;
    page.tap("save-file").await?;
    let saved = stage.browser.wait_for_download(".age").await?;
    ensure!(saved.file_name().is_some_and(|file| file.to_string_lossy() == name), "{saved:?} is not {name}");
    let bytes = fs::read(&saved)?;
    ensure!(bytes.starts_with(b"age-encryption.org/v1\n-> X25519 "), "no file sealed to a key");
    ensure!(!holds(&bytes, "N-14") && !name.contains("N-14"), "a person can be read");
    page.find("left").await?;
    page.tap("back").await?;
    ensure!(number(&page, "never").await? == 0, "visits are noted as handed over");
    ensure!(number(&page, "waiting").await? == never, "they wait for a receipt");
    page.wait_text("log", "no receipt yet").await?;
    seen(stage, &page, "handed over").await?;
    page.reload().await?;
    page.wait_text("log", "no receipt yet").await?;
    page.tap("lost").await?;
    ensure!(number(&page, "never").await? == never, "what did not arrive was never handed over");
    Ok(())
}

/// A passphrase with its strength; chosen people, one visit.
pub async fn by_passphrase(stage: &mut Stage) -> Result<()> {
    let page = to_safe(stage).await?;
    page.tap("hand-over").await?;
    screen(&page, "hand-over").await?;
    page.tap("what-people").await?;
    page.wait_text("selected", "Nothing to hand over").await?;
    page.fill("find", "n-1").await?;
    page.tap("choose-person").await?;
    page.wait_text("selected", "4 visits of 1 person").await?;
    page.tap("way-key").await?;
    page.find("no-key").await?;
    page.tap("way-passphrase").await?;
    page.tap("make").await?;
    page.wait_text("refused", "Type a passphrase").await?;
    page.fill("passphrase", "password").await?;
    page.wait_text("strength", "Weak").await?;
    page.fill("passphrase", "velvet anchor museum tiger").await?;
    page.wait_text("strength", "Strong").await?;
    seen(stage, &page, "hand over by passphrase").await?;
    page.tap("make").await?;
    page.tap("save-file").await?;
    let saved = fs::read(stage.browser.wait_for_download(".age").await?)?;
    ensure!(saved.starts_with(b"age-encryption.org/v1\n-> scrypt "), "no file sealed by a passphrase");
    page.open("#/").await?;
    page.tap("visit-row").await?;
    screen(&page, "summary").await?;
    page.tap("hand-over-visit").await?;
    page.wait_text("selected", "1 visit of 1 person").await
}

/// An unsealed file behind its warning; the receipt for it, others, and nonsense; what the rule removes and when.
pub async fn receipt_and_rule(stage: &mut Stage) -> Result<()> {
    let page = to_safe(stage).await?;
    page.tap("rule-7").await?;
    let here = number(&page, "never").await?;
    page.tap("hand-over").await?;
    page.tap("way-plain").await?;
    page.tap("make").await?;
    page.wait_text("refused", "Tick").await?;
    page.tap("understood").await?;
    page.tap("make").await?;
    page.wait_text("file-ready", "not sealed").await?;
    page.tap("save-file").await?;
    let code = receipt_of(&page, &stage.browser.wait_for_download(".json").await?).await?;
    page.tap("to-receipt").await?;
    screen(&page, "receipt").await?;
    // Another last digit than its own.
    let other = format!("{}{}", &code[..code.len() - 1], if code.ends_with('0') { '1' } else { '0' });
    for (typed, part) in [
        ("", "Type the six words"),
        ("abandon zoo", "six words"),
        ("abandon zoo qqqq one two three", "not one of the words"),
        ("abandon ability able about above absent", "other visits"),
        (other.as_str(), "other visits"),
    ] {
        page.fill("receipt-words", typed).await?;
        page.tap("check").await?;
        page.wait_text("refused", part).await?;
    }
    seen(stage, &page, "receipt").await?;
    page.fill("receipt-words", &code).await?;
    page.tap("check").await?;
    page.wait_text("confirmed", "the clinic has them").await?;
    page.fill("receipt-words", &code).await?;
    page.tap("check").await?;
    page.wait_text("confirmed", "entered before").await?;
    page.tap("back").await?;
    page.wait_text("log", "receipt entered").await?;
    ensure!(number(&page, "confirmed").await? == here, "all of them are confirmed");
    page.reload().await?;
    ensure!(number(&page, "confirmed").await? == here, "nothing goes on the same day");
    for (days, left) in [(-3650, true), (8, false)] {
        clock_set(&page, days).await?;
        page.reload().await?;
        let kept = number(&page, "confirmed").await?;
        ensure!((kept == here) == left, "{days} days later {kept} of {here} are here");
        if !left {
            page.wait_text("said", "removed from this device, 7 days after a receipt").await?;
            // The one whose re-test is awaited stays.
            ensure!(kept == 1, "{kept} visits stayed");
        }
    }
    Ok(())
}

/// A person is erased with every visit, after a warning and a word.
pub async fn erased(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.tap("people").await?;
    page.fill("find", "n-1").await?;
    page.tap("person-row").await?;
    page.tap("erase-person").await?;
    screen(&page, "erase-person").await?;
    page.wait_text("goes", "4 visits").await?;
    page.wait_text("never-handed-over", "4 visits were never handed over").await?;
    seen(stage, &page, "erase a person").await?;
    page.tap("hand-over-first").await?;
    page.wait_text("selected", "4 visits of 1 person").await?;
    page.run("history.back();").await?;
    screen(&page, "erase-person").await?;
    page.tap("erase").await?;
    page.wait_text("refused", "Nothing was erased").await?;
    page.fill("erase-word", "Erase").await?;
    page.tap("erase").await?;
    screen(&page, "people").await?;
    for _ in 0..2 {
        page.fill("find", "n-1").await?;
        page.wait_text("found", "No one fits").await?;
        page.reload().await?;
        screen(&page, "people").await?;
    }
    Ok(())
}

/// The clinic's key is read by the camera from a picture of its code.
pub async fn scanned(stage: &mut Stage) -> Result<()> {
    camera::show(&stage.browser.camera(), camera::KEY)?;
    let page = to_safe(stage).await?;
    page.tap("clinic-key").await?;
    page.tap("scan").await?;
    page.wait_text("compare", "six words").await?;
    page.wait_gone("camera").await?;
    page.tap("same").await?;
    page.find("known-key").await.map(|_| ())
}

/// From the first run to safe keeping, with the invented people.
async fn to_safe(stage: &mut Stage) -> Result<Page> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.wait_text("only-here", "on this device alone").await?;
    page.tap("safe").await?;
    screen(&page, "safe").await?;
    Ok(page)
}

/// A screen passes the audit and fits on a phone, a small one and a desktop; pictures of it are kept.
async fn seen(stage: &mut Stage, page: &Page, name: &str) -> Result<()> {
    for viewport in [SMALL_PHONE, DESKTOP, PHONE] {
        stage.browser.resize(viewport).await?;
        fits(page, &format!("{name} at {viewport}")).await?;
        audit(page, &format!("{name} at {viewport}")).await?;
        stage.shoot(&format!("{name} {viewport}")).await?;
    }
    Ok(())
}

async fn number(page: &Page, target: &'static str) -> Result<usize> {
    page.text(target).await?.trim().parse().with_context(|| format!("{target} is no number"))
}

fn said_in(target: &str) -> String {
    format!("(document.querySelector('[data-test={target}]')?.textContent.length ?? 0) > 10")
}

fn holds(bytes: &[u8], word: &str) -> bool {
    bytes.windows(word.len()).any(|part| part == word.as_bytes())
}

/// The receipt's code by its published form: SHA-256 over the sorted lines "id sha256" of what the file holds.
async fn receipt_of(page: &Page, file: &Path) -> Result<String> {
    let archive: Value = serde_json::from_slice(&fs::read(file)?)?;
    let visits = archive["visits"].as_array().context("no visits")?;
    let line = |visit: &Value| Some(format!("{} {}\n", visit["id"].as_str()?, visit["sha256"].as_str()?));
    let mut lines: Vec<String> = visits.iter().map(line).collect::<Option<_>>().context("a visit without a digest")?;
    lines.sort();
    let digest = page
        .run_with(
            "return crypto.subtle.digest('SHA-256', new TextEncoder().encode(arguments[0]))
                .then(sum => [...new Uint8Array(sum)].map(byte => byte.toString(16).padStart(2, '0')).join(''));",
            vec![Value::from(lines.concat())],
        )
        .await?;
    let digest = digest.as_str().context("no digest")?.to_uppercase();
    Ok(format!("SIDELIGHT RECEIPT 1 {} {digest}", lines.len()))
}

/// From the next load on the page's clock stands so many days from now.
async fn clock_set(page: &Page, days: i64) -> Result<()> {
    let source = format!(
        "(() => {{
            const Real = globalThis.RealDate ??= Date;
            const shift = {days} * 86400000;
            globalThis.Date = class extends Real {{
                constructor(...given) {{ given.length ? super(...given) : super(Real.now() + shift); }}
                static now() {{ return Real.now() + shift; }}
            }};
        }})();"
    );
    page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await.map(|_| ())
}
