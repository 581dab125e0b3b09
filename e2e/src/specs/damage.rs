//! Sealed records with one fault each: every fault ends in a clear sentence, the other records stay readable, and what can
//! be read can be saved.

use std::collections::BTreeMap;
use std::fs;
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use serde_json::json;
use sidelight_core::archive::{self, Archive};
use sidelight_core::capture::visit::Visit;

use super::looks::{audit, no_overflow};
use super::take_in::{demo_file, many_visits};
use crate::examine::{
    begin, frame, no_danger, screen, slot, start_empty, to_first_task, try_passphrase, unlock, unlock_if_locked, usual,
};
use crate::page::{Page, css};
use crate::rows::{self, Beneath};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE};

/// One byte of a visit is flipped: it alone is told, everything else is read, saved and handed over, and the file that it
/// was handed over in brings it back.
pub async fn flipped(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let victim = newest(&file);
    let damaged = flip(&page, "visit", &victim.id).await?;
    start_again(&page).await?;
    page.wait_text("damaged", "cannot be read").await?;
    page.wait_text("unreadable", "1 record cannot be read. All others can be used.").await?;
    page.wait_text("unreadable", "changed or moved outside Sidelight").await?;
    stage.note(page.text(css("[data-test=unreadable] [role=alert]")).await?.replace('\n', " "));
    open_another(&page).await?;
    page.tap(css("[data-test=save-readable] summary")).await?;
    seen(stage, &page, "damaged").await?;
    page.tap("save-now").await?;
    page.wait_text("save-refused", "Nothing was saved").await?;
    page.tap("save-understood").await?;
    page.tap("save-now").await?;
    page.wait_text("said", "1 record cannot be read and is not in it").await?;
    holds(&saved(stage).await?, &file, |visit| visit.id != victim.id)?;

    page.open("#/hand-over").await?;
    unlock_if_locked(&page).await?;
    page.tap("what-all").await?;
    page.tap("way-passphrase").await?;
    page.fill("passphrase", "velvet anchor museum").await?;
    page.tap("make").await?;
    page.wait_text("file-ready", &format!("{} visits", file.visits.len() - 1)).await?;
    page.wait_text("lacks", "1 visit cannot be read").await?;
    seen(stage, &page, "handed over without").await?;

    let beneath = Beneath::read(&page).await?;
    ensure!(beneath.of("visit").get(victim.id.as_str()) == Some(&damaged.as_slice()), "the damaged row was changed");
    start_again(&page).await?;
    page.wait_text("damaged", "cannot be read").await?;
    take_in(&page, &file, "1 new visit").await?;
    page.open("#/").await?;
    screen(&page, "home").await?;
    page.wait_gone("damaged").await?;
    page.open("#/safe").await?;
    page.tap("check").await?;
    page.wait_text("said", &format!("Everything can be read: {} visits.", file.visits.len())).await?;
    seen(stage, &page, "checked").await
}

/// The row of a person is damaged, and another is missing: their visits stand under "name not readable", can be opened, and
/// are saved; the name can be typed anew.
pub async fn person(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let victim = newest(&file).person;
    flip(&page, "person", &victim).await?;
    let other = file.people.iter().find(|person| person.id != victim).context("one person only")?;
    rows::delete(&page, "person", &other.id).await?;
    start_again(&page).await?;
    page.wait_text("unreadable", "Some records cannot be read. All others can be used.").await?;
    page.wait_text("unreadable", "changed or moved outside Sidelight").await?;
    page.wait_text("unreadable", "are missing").await?;
    page.wait_text("visit-row", "name not readable").await?;
    page.tap("visit-row").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    page.tap("home").await?;
    save(&page).await?;
    let saved = saved(stage).await?;
    ensure!(saved.visits.len() == file.visits.len(), "{} visits were saved", saved.visits.len());
    let nameless = saved.people.iter().filter(|person| person.label == "name not readable").count();
    ensure!(nameless == 2 && saved.people.len() == file.people.len(), "{nameless} of the saved have no name");
    // One is named anew, the other comes back with the file.
    page.open(&format!("#/person/{}", other.id)).await?;
    unlock_if_locked(&page).await?;
    page.tap(css("[data-test=edit] summary")).await?;
    page.fill("edit-label", "Named anew").await?;
    page.tap("keep").await?;
    page.wait_text("said", "Changed").await?;
    take_in(&page, &file, "1 new person").await?;
    page.open("#/").await?;
    screen(&page, "home").await?;
    ensure!(page.count("unreadable").await? == 0, "something is still not readable");
    page.wait_text("visit-row", &label(&file, &victim)?).await
}

/// An index row is missing and another damaged: both are made anew from their visits, and nobody has to know.
pub async fn index(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let [gone, broken] = [&file.visits[0].id, &file.visits[1].id];
    rows::delete(&page, "entry", gone).await?;
    let flipped = flip(&page, "entry", broken).await?;
    start_again(&page).await?;
    page.find("visit-row").await?;
    ensure!(page.count("unreadable").await? == 0, "something is told");
    page.open("#/seen").await?;
    page.wait_text(css("main"), &format!("{} visits.", file.visits.len())).await?;
    // What was mended is on the disk within a second.
    tokio::time::sleep(Duration::from_secs(1)).await;
    let beneath = Beneath::read(&page).await?;
    let entries = beneath.of("entry");
    ensure!(entries.len() == file.visits.len() && entries.contains_key(gone.as_str()), "the index has no such row");
    ensure!(entries[broken.as_str()] != flipped, "the damaged row of the index is still there");
    start_again(&page).await?;
    save_from_safe(&page).await?;
    holds(&saved(stage).await?, &file, |_| true)
}

/// The key of one person is missing: what it sealed is told as gone, nobody else is touched. Without the practice's key the
/// records of all people are still there.
pub async fn key(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let victim = newest(&file).person;
    let key = key_of(&page, "person", &victim).await?;
    rows::delete(&page, "key", &key).await?;
    start_again(&page).await?;
    page.wait_text("unreadable", "A record has no key here: what it said is gone for good.").await?;
    open_another(&page).await?;
    save(&page).await?;
    holds(&saved(stage).await?, &file, |visit| visit.person != victim)?;
    take_in(&page, &file, "new visit").await?;
    page.open("#/").await?;
    page.wait_text("visit-row", &label(&file, &victim)?).await?;

    page.open("#/routines").await?;
    unlock_if_locked(&page).await?;
    page.tap("make").await?;
    page.fill("routine-name", "Ours").await?;
    page.tap("add-saccade").await?;
    page.tap("keep").await?;
    page.wait_text("own", "Ours").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    let beneath = Beneath::read(&page).await?;
    let id = beneath.of("setting").into_keys().next().context("no routine was kept")?.to_owned();
    let key = key_of(&page, "setting", &id).await?;
    rows::delete(&page, "key", &key).await?;
    start_again(&page).await?;
    page.wait_text("unreadable", "has no key here").await?;
    page.open("#/safe").await?;
    page.tap("check").await?;
    page.wait_text("said", &format!("{} visits can be read.", file.visits.len())).await
}

/// The lock is damaged, then missing: it is told, nothing is asked to be sealed again, and nothing is changed.
pub async fn lock(stage: &mut Stage) -> Result<()> {
    let (page, _) = with_records(stage).await?;
    let before = Beneath::read(&page).await?;
    for missing in [false, true] {
        if missing {
            rows::delete(&page, "meta", "lock").await?;
        } else {
            change(&page, "meta", "lock", |row| row[0] ^= 4).await?;
        }
        page.open("").await?;
        page.wait_text("lock-trouble", "The lock of these records is damaged").await?;
        let mut after = Beneath::read(&page).await?;
        after.rows.insert(("meta".into(), "lock".into()), before.rows[&("meta".into(), "lock".into())].clone());
        ensure!(after == before, "something was changed");
    }
    // One digit of the salt: the right passphrase does not open it, and is not called a wrong one.
    rows::put(&page, &before.rows).await?;
    let salt = b"\"salt\":\"";
    change(&page, "meta", "lock", |row| {
        let found = row.windows(salt.len()).position(|part| part == salt);
        row[found.unwrap_or_default() + salt.len()] ^= 1;
    })
    .await?;
    page.open("").await?;
    try_passphrase(&page, crate::examine::PASSPHRASE).await?;
    page.wait_text("refused", "The lock of these records is damaged").await?;
    rows::put(&page, &before.rows).await?;
    start_again(&page).await?;
    page.find("visit-row").await.map(|_| ())
}

/// A row, then the whole database, of a newer program: both are told and left alone.
pub async fn newer(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let victim = newest(&file);
    change(&page, "visit", &victim.id, |row| row[0] = 2).await?;
    start_again(&page).await?;
    page.wait_text("unreadable", "sealed by a newer Sidelight").await?;
    save(&page).await?;
    holds(&saved(stage).await?, &file, |visit| visit.id != victim.id)?;
    let before = Beneath::read(&page).await?;
    rows::raise_version(&page, 999).await?;
    page.open("").await?;
    page.wait_text("unreadable", "newer version of Sidelight").await?;
    stage.note(page.text("unreadable").await?.lines().next().unwrap_or_default().to_owned());
    ensure!(Beneath::read(&page).await? == before, "the newer database was changed");
    Ok(())
}

/// The store is filled to the browser's real limit: a file that does not fit leaves nothing half-written, a tap is kept on
/// the screen, everything is read and saved; with room again the tap is written.
pub async fn full(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    let many = tempfile::tempdir()?;
    let path = many.path().join("many.json");
    fs::write(&path, archive::write_compact(&many_visits(1_500)))?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;

    let origin = stage.site.url().trim_end_matches('/').to_owned();
    let quota = async |room: Option<u64>| -> Result<()> {
        let mut wish = json!({ "origin": origin });
        if let Some(room) = room {
            let used = page.value("navigator.storage.estimate().then(told => told.usage)").await?;
            wish["quotaSize"] = json!(used.as_u64().context("no usage")? + room);
        }
        page.devtools("Storage.overrideQuotaForOrigin", wish).await?;
        if room.is_some() {
            // The store believes for half a minute what it was last told of the room that is left.
            tokio::time::sleep(Duration::from_secs(32)).await;
        }
        Ok(())
    };
    quota(Some(300_000)).await?;
    page.open("#/take-in").await?;
    unlock_if_locked(&page).await?;
    page.choose_file("take-files", &path).await?;
    page.wait_text("plan", "1500 new visits").await?;
    page.tap("go").await?;
    page.wait_text("refused", "no room left").await?;
    let told = page.text("refused").await?;
    quota(Some(0)).await?;
    page.open("#/").await?;
    unlock_if_locked(&page).await?;
    page.tap("go-on").await?;
    slot(&page, "near_point").await?;
    page.tap("skip").await?;
    page.tap(css("[data-test=skip-panel] [data-test=reason]")).await?;
    slot(&page, "pursuit").await?;
    page.wait_text("save-failed", "no room left").await?;
    seen(stage, &page, "full").await?;
    page.tap("leave").await?;
    page.tap("visit-row").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    save_from_safe(&page).await?;
    let saved = saved(stage).await?;
    let (closed, open): (Vec<Visit>, Vec<Visit>) =
        saved.visits.iter().cloned().partition(|visit| visit.closed.is_some());
    ensure!(closed.len() == file.visits.len(), "{} closed visits were saved, nothing half-written", closed.len());
    ensure!(open.len() == 1 && open[0].record("near_point").is_some(), "the tap that was not written is not saved");

    quota(None).await?;
    page.tap(css("[data-test=save-failed] button")).await?;
    page.wait_gone("save-failed").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    start_again(&page).await?;
    page.tap("go-on").await?;
    slot(&page, "pursuit").await?;
    let beneath = Beneath::read(&page).await?;
    ensure!(beneath.of("visit").len() == file.visits.len(), "a part of the file that did not fit was written");
    stage.note(told);
    Ok(())
}

/// A second tab says that another one records; it reads everything, and saves it.
pub async fn second_tab(stage: &mut Stage) -> Result<()> {
    let (page, file) = with_records(stage).await?;
    begin(&page, None, "2012").await?;
    frame(&page).await?;
    no_danger(&page).await?;
    slot(&page, "resting_gaze").await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    page.new_tab().await?;
    page.open("#/").await?;
    unlock(&page).await?;
    page.wait_text("elsewhere", "open in another tab").await?;
    page.tap("visit-row").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    save_from_safe(&page).await?;
    let saved = saved(stage).await?;
    ensure!(saved.visits.len() == file.visits.len() + 1, "{} visits were saved", saved.visits.len());
    Ok(())
}

/// The invented people with their visits, taken in under a passphrase.
async fn with_records(stage: &mut Stage) -> Result<(Page, Archive)> {
    let page = start_empty(stage).await?;
    let file = demo_file();
    take_in(&page, &file, "new visits").await?;
    page.open("#/").await?;
    page.find("visit-row").await?;
    Ok((page, file))
}

async fn take_in(page: &Page, file: &Archive, planned: &str) -> Result<()> {
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("handed.json");
    fs::write(&path, archive::write_compact(file))?;
    page.open("#/take-in").await?;
    unlock_if_locked(page).await?;
    screen(page, "take-in").await?;
    page.choose_file("take-files", &path).await?;
    page.wait_text("plan", planned).await?;
    page.tap("go").await?;
    page.find("taken").await.map(|_| ())
}

async fn start_again(page: &Page) -> Result<()> {
    page.open("").await?;
    try_passphrase(page, crate::examine::PASSPHRASE).await?;
    screen(page, "home").await
}

/// Opens the second visit of the list and comes back.
async fn open_another(page: &Page) -> Result<()> {
    page.tap(css("[data-test=visit-row]:nth-child(2)")).await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    page.tap("home").await?;
    screen(page, "home").await
}

async fn save_from_safe(page: &Page) -> Result<()> {
    page.open("#/safe").await?;
    unlock_if_locked(page).await?;
    screen(page, "safe").await?;
    save(page).await
}

async fn save(page: &Page) -> Result<()> {
    page.tap(css("[data-test=save-readable] summary")).await?;
    page.tap("save-understood").await?;
    page.tap("save-now").await?;
    page.wait_text("said", "Saved to the downloads").await
}

/// What was saved last.
async fn saved(stage: &Stage) -> Result<Archive> {
    let path = stage.browser.wait_for_download(".json").await?;
    let bytes = fs::read(&path)?;
    fs::remove_file(&path)?;
    archive::read(&bytes).context("what was saved cannot be taken in")
}

/// Whether these visits of the file were saved as they are, and no others.
fn holds(saved: &Archive, file: &Archive, wanted: impl Fn(&Visit) -> bool) -> Result<()> {
    let by_id = |all: &[Visit]| all.iter().map(|visit| (visit.id.clone(), visit.clone())).collect::<BTreeMap<_, _>>();
    let wanted: Vec<Visit> = file.visits.iter().filter(|visit| wanted(visit)).cloned().collect();
    ensure!(wanted.len() < file.visits.len() || !wanted.is_empty(), "nothing is wanted");
    ensure!(by_id(&saved.visits) == by_id(&wanted), "{} of {} visits were saved", saved.visits.len(), wanted.len());
    Ok(())
}

/// The visit that stands first in the list.
fn newest(file: &Archive) -> Visit {
    let mut all = file.visits.clone();
    all.sort_by(|a, b| b.started.cmp(&a.started).then_with(|| a.id.cmp(&b.id)));
    all.swap_remove(0)
}

fn label(file: &Archive, person: &str) -> Result<String> {
    let found = file.people.iter().find(|one| one.id == person);
    found.map(|one| one.label.clone()).context("no such person")
}

/// Flips one bit in the middle of a row.
async fn flip(page: &Page, kind: &str, id: &str) -> Result<Vec<u8>> {
    change(page, kind, id, |row| {
        let middle = row.len() / 2;
        row[middle] ^= 4;
    })
    .await
}

async fn change(page: &Page, kind: &str, id: &str, act: impl FnOnce(&mut Vec<u8>)) -> Result<Vec<u8>> {
    let place = (kind.to_owned(), id.to_owned());
    let mut row = Beneath::read(page).await?.rows.remove(&place).with_context(|| format!("no {kind} {id}"))?;
    act(&mut row);
    rows::put(page, &BTreeMap::from([(place, row.clone())])).await?;
    Ok(row)
}

/// The row of the key that a row was sealed by.
async fn key_of(page: &Page, kind: &str, id: &str) -> Result<String> {
    let beneath = Beneath::read(page).await?;
    let row = beneath.of(kind).get(id).copied().with_context(|| format!("no {kind} {id}"))?;
    Ok(rows::hex(&row[rows::KEY_ID]))
}

/// A screen passes the audit and fits a phone and a desktop.
async fn seen(stage: &mut Stage, page: &Page, name: &str) -> Result<()> {
    for viewport in [DESKTOP, PHONE] {
        stage.browser.resize(viewport).await?;
        audit(page, name).await?;
        no_overflow(page, name).await?;
        stage.shoot(&format!("damage {name} {viewport}")).await?;
    }
    Ok(())
}
