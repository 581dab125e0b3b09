//! Someone who was erased is gone: neither the store nor what the browser left on the disk says anything of them, even
//! to whoever has the passphrase.

use std::collections::BTreeMap;

use anyhow::{Context, Result, ensure};

use crate::engine::KEEPING;
use crate::examine::{decide_and_close, screen, skip, start_empty, to_first_task, try_passphrase, unlock, usual};
use crate::page::{Page, css};
use crate::rows::{self, Beneath, Place};
use crate::spec::Stage;

const GONE: &str = "Gorbantel Z.";
const STAYS: &str = "Mirovasta K.";

/// Bytes that stand nowhere but in this row.
const OWN: std::ops::Range<usize> = 9..57;
/// Bytes of a secret of the device.
const SECRET: usize = 32;

/// A person is erased; then everything that stood in the store before is put back, bit by bit, as someone would who found
/// it on the disk and knows the passphrase. Only together with the secret that was overwritten does it open.
pub async fn for_good(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    for name in [GONE, STAYS] {
        closed_visit(&page, name).await?;
    }
    let before = Beneath::read(&page).await?;
    let keeps = KEEPING.contains(&stage.engine);
    ensure!(before.device.is_some() || !keeps, "{} keeps no secret of the device", stage.engine);
    let old_secret = before.device.as_deref().map(secrets).unwrap_or_default();
    if keeps {
        ensure!(old_secret.len() == 1, "one secret is in use: {old_secret:?}");
        stage.browser.close().await?;
        let found = stage.browser.search_bytes(&old_secret)?;
        ensure!(found == old_secret.len(), "the search does not find the secret where it is");
        stage.browser.reopen().await?;
    }

    let page = stage.page()?;
    page.open("").await?;
    unlock(&page).await?;
    let told = erase(&page, GONE).await?;
    stage.note(told.clone());
    let after = Beneath::read(&page).await?;
    let new_secret = after.device.as_deref().map(secrets).unwrap_or_default();
    let (gone, key_row) = rows_gone(&before, &after)?;
    ensure!(before.rows[&lock()] != after.rows[&lock()], "the lock is the old one");
    for (place, row) in after.of("key") {
        // The note that someone was erased is the first thing the practice keeps, and has a key of its own.
        ensure!(before.of("key").get(place) != Some(&row), "the key {place} is sealed by the old data key");
    }
    if before.device.is_none() {
        ensure!(told.contains("cannot destroy a key for good"), "it says {told:?}");
        stage.note("this browser keeps no secret of the device, and says so");
        return Ok(());
    }
    ensure!(told.contains("the key to it was destroyed"), "it says {told:?}");
    ensure!(new_secret.len() == 1 && new_secret != old_secret, "the secret of the device did not change");

    if keeps {
        stage.browser.close().await?;
        ensure!(stage.browser.search_bytes(&old_secret)? == 0, "the old secret is still on the disk");
        ensure!(stage.browser.search_bytes(&new_secret)? == 1, "the search does not find the new secret");
        let parts: Vec<Vec<u8>> = gone.values().map(|row| row[OWN].to_vec()).collect();
        let left = stage.browser.search_bytes(&parts)?;
        stage.note(format!("of {} rows of the person {left} are still on the disk, sealed", gone.len()));
        stage.browser.reopen().await?;
    }

    // Every row of the person, and the row of their key.
    let page = stage.page()?;
    let mut found = gone.clone();
    found.insert(key_row.0, key_row.1);
    rows::put(&page, &found).await?;
    page.open("").await?;
    unlock(&page).await?;
    page.wait_text("unreadable", "has no key here").await?;
    page.wait_text("visit-row", STAYS).await?;
    ensure!(!shows(&page, GONE).await?, "someone erased is there again");

    // The whole store as it was, under its own lock.
    rows::put(&page, &before.rows).await?;
    page.open("").await?;
    try_passphrase(&page, crate::examine::PASSPHRASE).await?;
    page.wait_text("refused", "is gone: they cannot be opened").await?;

    // And with the secret that was overwritten it would have been all there: this is what hung on it.
    rows::put_device(&page, before.device.as_deref().unwrap_or_default()).await?;
    page.open("").await?;
    unlock(&page).await?;
    page.wait_text(css("main"), GONE).await
}

async fn closed_visit(page: &Page, name: &str) -> Result<()> {
    to_first_task(page, Some(name), "2012").await?;
    usual(page, "resting_gaze").await?;
    for task in ["near_point", "pursuit", "saccade", "optokinetic"] {
        skip(page, task).await?;
    }
    decide_and_close(page).await?;
    page.tap("home").await?;
    screen(page, "home").await
}

async fn erase(page: &Page, name: &str) -> Result<String> {
    page.tap("people").await?;
    page.fill("find", name).await?;
    page.tap("person-row").await?;
    page.tap("erase-person").await?;
    screen(page, "erase-person").await?;
    page.fill("erase-word", "erase").await?;
    page.tap("erase").await?;
    screen(page, "people").await?;
    page.text("said").await
}

/// The rows of the person, of which none may be left, and the row of their key.
#[allow(clippy::type_complexity, reason = "rows by their places")]
fn rows_gone(before: &Beneath, after: &Beneath) -> Result<(BTreeMap<Place, Vec<u8>>, (Place, Vec<u8>))> {
    let left: Vec<&str> = after.of("key").into_keys().collect();
    let before_keys = before.of("key");
    let mut keys = before_keys.iter().filter(|(id, _)| !left.contains(id));
    let (id, key) = keys.next().context("no key is gone")?;
    ensure!(keys.next().is_none(), "more than one key is gone");
    let named = |row: &[u8]| row.get(rows::KEY_ID).is_some_and(|part| rows::hex(part) == *id);
    let of = |beneath: &Beneath| -> BTreeMap<Place, Vec<u8>> {
        let rows = beneath.rows.iter().filter(|((kind, _), row)| kind != "key" && named(row));
        rows.map(|(place, row)| (place.clone(), row.clone())).collect()
    };
    let gone = of(before);
    let kinds: Vec<&str> = gone.keys().map(|(kind, _)| kind.as_str()).collect();
    ensure!(kinds == ["entry", "person", "visit"], "rows of the person were {kinds:?}");
    ensure!(of(after).is_empty(), "rows of the person are left");
    ensure!(gone.keys().all(|place| !after.rows.contains_key(place)), "rows of the person were sealed anew");
    Ok((gone, (("key".to_owned(), (*id).to_owned()), key.to_vec())))
}

/// The secrets in the file of the device; places with zeros hold none.
fn secrets(file: &[u8]) -> Vec<Vec<u8>> {
    file.chunks(SECRET).filter(|place| place.iter().any(|byte| *byte != 0)).map(<[u8]>::to_vec).collect()
}

fn lock() -> Place {
    ("meta".to_owned(), "lock".to_owned())
}

async fn shows(page: &Page, words: &str) -> Result<bool> {
    let shown = page.run_with("return document.body.textContent.includes(arguments[0]);", vec![words.into()]).await?;
    Ok(shown == true)
}
