//! Sealed at rest: made on first use, locked by hand and by itself, opened by the passphrase alone, or a passkey with it.

use std::time::Duration;

use anyhow::{Result, ensure};
use fantoccini::key::Key;
use serde_json::{Value, json};

use super::looks::{audit, no_overflow};
use crate::examine::{
    PASSPHRASE, begin, decide_and_close, make_passphrase, reload, screen, skip, slot, start_empty, to_first_task,
    try_passphrase, unlock, usual,
};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::SMALL_PHONE;

const OTHER: &str = "ribbon glacier pepper violin";

/// Locked by hand nothing is left on the page; a wrong passphrase changes nothing; the right one brings all back.
pub async fn by_hand(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, Some("Hedwig Q."), "2012").await?;
    page.tap("leave").await?;
    page.wait_text("open-visit", "Hedwig Q.").await?;
    page.tap("lock").await?;
    screen(&page, "unlock").await?;
    let left = page.value("document.documentElement.outerHTML.includes('Hedwig')").await?;
    ensure!(left == false, "a name is left on the page");
    try_passphrase(&page, "velvet anchor museum tigers").await?;
    page.wait_text("refused", "not the passphrase").await?;
    let started = std::time::Instant::now();
    unlock(&page).await?;
    stage.note(format!("unlocked in {} ms", started.elapsed().as_millis()));
    page.wait_text("open-visit", "Hedwig Q.").await?;
    page.tap("go-on").await?;
    slot(&page, "resting_gaze").await
}

/// After the idle time it locks, and unlocking returns to the same screen; never in the middle of a task.
pub async fn idle(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    prefer(&page, json!({ "lock_idle_s": 2 })).await?;
    page.tap("start").await?;
    page.fill("born", "2012").await?;
    page.tap("begin").await?;
    screen(&page, "unlock").await?;
    unlock(&page).await?;
    screen(&page, "frame").await?;
    prefer(&page, json!({ "lock_idle_s": 600 })).await?;
    screen(&page, "frame").await?;
    crate::examine::frame(&page).await?;
    crate::examine::no_danger(&page).await?;
    slot(&page, "resting_gaze").await?;
    prefer(&page, json!({ "lock_idle_s": 2 })).await?;
    slot(&page, "resting_gaze").await?;
    tokio::time::sleep(Duration::from_secs(5)).await;
    slot(&page, "resting_gaze").await?;
    prefer(&page, json!({ "lock_idle_s": 600 })).await?;
    usual(&page, "resting_gaze").await?;
    for task in ["near_point", "pursuit", "saccade", "optokinetic"] {
        skip(&page, task).await?;
    }
    decide_and_close(&page).await?;
    // A closed visit in sight is in sight again.
    page.run(LOCK_SOON).await?;
    screen(&page, "unlock").await?;
    unlock(&page).await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await
}

/// Out of sight for longer than was set it locks; for less it does not.
pub async fn hidden(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    prefer(&page, json!({ "lock_hidden_s": 3 })).await?;
    screen(&page, "home").await?;
    page.run(&seen("hidden")).await?;
    tokio::time::sleep(Duration::from_secs(1)).await;
    page.run(&seen("visible")).await?;
    tokio::time::sleep(Duration::from_secs(3)).await;
    screen(&page, "home").await?;
    page.run(&seen("hidden")).await?;
    tokio::time::sleep(Duration::from_secs(4)).await;
    page.run(&seen("visible")).await?;
    screen(&page, "unlock").await?;
    unlock(&page).await
}

/// Wrong passphrases wait longer and longer, also over a reload, and destroy nothing.
pub async fn wrong(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin(&page, Some("W-01"), "2012").await?;
    page.reload().await?;
    for wrong in ["wrong one", "wrong two", "wrong three"] {
        try_passphrase(&page, wrong).await?;
        page.wait_text("refused", "not the passphrase").await?;
    }
    page.wait_text("wait", "Next try in").await?;
    page.reload().await?;
    screen(&page, "unlock").await?;
    page.wait_text("wait", "Next try in").await?;
    ensure!(!page.find("unlock").await?.is_enabled().await?, "one can try while the wait lasts");
    unlock(&page).await?;
    screen(&page, "frame").await
}

/// A new passphrase opens, the old one does not, and a wrong old one changes nothing.
pub async fn changed(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    begin(&page, Some("C-01"), "2012").await?;
    page.open("#/passphrase").await?;
    screen(&page, "change-passphrase").await?;
    for (old, part) in [("not the old one", "old passphrase is not this one"), (PASSPHRASE, "")] {
        page.fill("old-passphrase", old).await?;
        page.fill("passphrase", OTHER).await?;
        page.fill("passphrase-again", OTHER).await?;
        page.tap("seal").await?;
        if !part.is_empty() {
            page.wait_text("refused", part).await?;
        }
    }
    screen(&page, "settings").await?;
    page.wait_text("said", "passphrase was changed").await?;
    page.reload().await?;
    try_passphrase(&page, PASSPHRASE).await?;
    page.wait_text("refused", "not the passphrase").await?;
    try_passphrase(&page, OTHER).await?;
    screen(&page, "settings").await
}

/// The demo needs no passphrase, says what it is, keeps to a database of its own, and is erased on leaving.
pub async fn demo(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.find("visit-row").await?;
    page.wait_text("demo-note", "invented").await?;
    page.reload().await?;
    page.find("visit-row").await?;
    begin(&page, Some("D-99"), "2012").await?;
    page.tap("leave").await?;
    page.tap("leave-demo").await?;
    screen(&page, "first-run").await?;
    let kept = page.value("indexedDB.databases().then(all => all.map(d => d.name).join(' '))").await?;
    ensure!(!kept.to_string().contains("demo"), "the demo is still there: {kept}");
    page.reload().await?;
    screen(&page, "first-run").await
}

/// Records of an earlier version, in clear, are sealed with the first passphrase, and none is lost.
pub async fn migrates(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.find("visit-row").await?;
    let visits = page.value(&count_rows("sidelight-demo", "visit")).await?;
    page.open("icon.svg").await?;
    let copied = page.run(EARLIER).await?;
    ensure!(copied.as_u64().is_some_and(|rows| rows > 5), "only {copied} rows of an earlier version");
    page.open("").await?;
    page.wait_text("clear", "none is lost").await?;
    fill_new(&page, PASSPHRASE).await?;
    screen(&page, "home").await?;
    page.find("visit-row").await?;
    page.wait_text("due", "B-33").await?;
    let after = page.value(&count_rows("sidelight", "visit")).await?;
    ensure!(visits == after, "{visits} visits before, {after} after");
    let clear = page.run(READABLE).await?;
    ensure!(clear == 0, "{clear} rows can still be read");
    reload(&page).await?;
    page.wait_text("due", "B-33").await
}

/// A passkey that keeps a key opens the records; the passphrase still does; taken away it opens nothing.
pub async fn passkey(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.devtools("WebAuthn.enable", json!({})).await?;
    let options = json!({ "options": {
        "protocol": "ctap2", "ctap2Version": "ctap2_1", "transport": "internal", "hasResidentKey": true,
        "hasUserVerification": true, "isUserVerified": true, "automaticPresenceSimulation": true, "hasPrf": true,
    } });
    page.devtools("WebAuthn.addVirtualAuthenticator", options).await?;
    // A number is no domain to have passkeys for.
    page.client().goto(&stage.site.url().replace("127.0.0.1", "localhost")).await?;
    make_passphrase(&page, PASSPHRASE).await?;
    page.tap("settings").await?;
    page.wait_state("passkey", "there", "false").await?;
    page.tap("passkey").await?;
    page.wait_text("said", "passkey opens the records").await?;
    page.reload().await?;
    screen(&page, "unlock").await?;
    page.tap("by-passkey").await?;
    screen(&page, "settings").await?;
    reload(&page).await?;
    screen(&page, "settings").await?;
    page.wait_state("passkey", "there", "true").await?;
    page.tap("passkey").await?;
    page.wait_text("said", "opens nothing here any more").await?;
    page.reload().await?;
    screen(&page, "unlock").await?;
    tokio::time::sleep(Duration::from_millis(500)).await;
    ensure!(page.count("by-passkey").await? == 0, "the passkey is still offered");
    unlock(&page).await
}

/// Erasing asks for a word, tells what went, and leaves nothing; it works with the passphrase forgotten.
pub async fn erased(stage: &mut Stage) -> Result<()> {
    let page = start_empty(stage).await?;
    to_first_task(&page, Some("Gone G."), "2012").await?;
    page.tap("leave").await?;
    page.tap("lock").await?;
    screen(&page, "unlock").await?;
    page.tap("erase-device").await?;
    page.wait_text("will-go", "1 visits of 1 people").await?;
    page.tap("erase-all").await?;
    page.wait_text("refused", "Type the word").await?;
    page.fill("erase-word", "Erase").await?;
    page.tap("erase-all").await?;
    screen(&page, "erased").await?;
    page.wait_text("went", "1 visits of 1 people").await?;
    page.wait_text("left", "Left now: 0 rows").await?;
    let key = page.text("key").await?;
    stage.note(key);
    audit(&page, "erased").await?;
    page.tap("start-again").await?;
    screen(&page, "first-run").await
}

/// Every screen of the lock passes the audit and fits a small phone, and works with the keyboard alone.
pub async fn looks(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    stage.browser.resize(SMALL_PHONE).await?;
    page.tap("empty").await?;
    look(stage, &page, "passphrase").await?;
    page.tap("offer").await?;
    page.wait_until("a strength", "document.querySelector('[data-test=strength]').dataset.score === '4'").await?;
    let words = page.field("passphrase").await?;
    ensure!(words.split(' ').count() == 5, "offered: {words:?}");
    look(stage, &page, "passphrase").await?;
    for (typed, part) in [("abc", "Too short"), ("password1", "Too easy")] {
        page.fill("passphrase", typed).await?;
        page.wait_until("a strength", "!!document.querySelector('[data-test=strength]').dataset.score").await?;
        tokio::time::sleep(Duration::from_millis(500)).await;
        page.tap("seal").await?;
        page.wait_text("refused", part).await?;
    }
    page.tap("show").await?;
    let taps = page.taps();
    type_by_keyboard(&page, "passphrase", PASSPHRASE).await?;
    type_by_keyboard(&page, "passphrase-again", PASSPHRASE).await?;
    page.press(Key::Enter).await?;
    screen(&page, "home").await?;
    page.reload().await?;
    screen(&page, "unlock").await?;
    look(stage, &page, "unlock").await?;
    type_by_keyboard(&page, "passphrase", PASSPHRASE).await?;
    page.press(Key::Enter).await?;
    screen(&page, "home").await?;
    ensure!(page.taps() == taps, "the pointer was used");
    for (address, name) in
        [("#/passphrase", "change-passphrase"), ("#/erase-device", "erase-device"), ("#/settings", "settings")]
    {
        page.open(address).await?;
        screen(&page, name).await?;
        look(stage, &page, name).await?;
    }
    Ok(())
}

async fn look(stage: &Stage, page: &Page, name: &str) -> Result<()> {
    screen(page, name).await?;
    audit(page, name).await?;
    no_overflow(page, name).await?;
    stage.shoot(&format!("lock {name}")).await.map(|_| ())
}

async fn fill_new(page: &Page, passphrase: &str) -> Result<()> {
    page.fill("passphrase", passphrase).await?;
    page.fill("passphrase-again", passphrase).await?;
    page.tap("seal").await
}

async fn type_by_keyboard(page: &Page, field: &str, text: &str) -> Result<()> {
    // A page that was just loaded may not have the focus yet; its heading is where a reader begins.
    page.run("document.querySelector('h1')?.focus();").await?;
    for _ in 0..60 {
        let here = page.value("document.activeElement?.dataset?.test ?? ''").await?;
        if here == field {
            page.run("document.activeElement.value = '';").await?;
            // Not `:focus`, which in WebKit matches nothing while the window itself is not the active one.
            page.find(field).await?.send_keys(text).await?;
            return Ok(());
        }
        page.press(Key::Tab).await?;
    }
    anyhow::bail!("the keyboard does not reach {field}")
}

/// Sets preferences as the settings would, and starts again with them.
async fn prefer(page: &Page, changed: Value) -> Result<()> {
    page.run_with(
        "const key = 'sidelight-preferences';
         const known = JSON.parse(localStorage.getItem(key) ?? '{}');
         localStorage.setItem(key, JSON.stringify({ ...known, ...arguments[0] }));",
        vec![changed],
    )
    .await?;
    reload(page).await
}

/// The page goes out of sight, or comes back.
pub(super) fn seen(state: &str) -> String {
    format!(
        "Object.defineProperty(document, 'visibilityState', {{ get: () => '{state}', configurable: true }});
         document.dispatchEvent(new Event('visibilitychange'));"
    )
}

/// The clock of the page goes on by an hour, as it does while a phone lies in a drawer.
const LOCK_SOON: &str = "const now = Date.now, real = Date; \
    window.Date = class extends real { constructor(...given) { if (given.length) super(...given); else super(now() + 3600000); } \
    static now() { return now() + 3600000; } };";

fn count_rows(database: &str, store: &str) -> String {
    format!(
        "new Promise((done, failed) => {{ const open = indexedDB.open('{database}'); open.onerror = () => failed(open.error); \
         open.onsuccess = () => {{ const db = open.result; const asked = db.transaction('{store}').objectStore('{store}').count(); \
         asked.onsuccess = () => {{ db.close(); done(asked.result); }}; }}; }})"
    )
}

/// Copies the demo's rows into a database of the first form, and forgets that there was a demo.
const EARLIER: &str = "
    localStorage.clear();
    const opened = (name, version, upgrade) => new Promise((done, failed) => {
        const open = version ? indexedDB.open(name, version) : indexedDB.open(name);
        open.onupgradeneeded = () => upgrade(open.result);
        open.onsuccess = () => done(open.result);
        open.onerror = () => failed(open.error);
    });
    const kinds = ['person', 'visit', 'draft', 'setting', 'meta'];
    const rows = (db, kind) => new Promise((done, failed) => {
        const store = db.transaction(kind).objectStore(kind);
        const keys = store.getAllKeys(), values = store.getAll();
        values.onsuccess = () => done(keys.result.map((key, at) => [key, values.result[at]]));
        values.onerror = () => failed(values.error);
    });
    return (async () => {
        const demo = await opened('sidelight-demo');
        await new Promise(done => { const gone = indexedDB.deleteDatabase('sidelight'); gone.onsuccess = gone.onerror = done; });
        const old = await opened('sidelight', 1, db => kinds.forEach(kind => db.createObjectStore(kind)));
        let count = 0;
        for (const kind of kinds.slice(0, 4)) {
            const all = await rows(demo, kind);
            const transaction = old.transaction(kind, 'readwrite');
            all.forEach(([key, value]) => transaction.objectStore(kind).put(value, key));
            await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onabort = failed; });
            count += all.length;
        }
        demo.close();
        old.close();
        return count;
    })();
";

/// Counts rows in which a JSON text or a name of the demo can be read.
const READABLE: &str = "
    return (async () => {
        const db = await new Promise(done => { const open = indexedDB.open('sidelight'); open.onsuccess = () => done(open.result); });
        let readable = 0;
        for (const kind of db.objectStoreNames) {
            if (kind === 'meta') continue;
            const values = await new Promise(done => { const all = db.transaction(kind).objectStore(kind).getAll(); all.onsuccess = () => done(all.result); });
            readable += values.filter(value => /B-33|\"id\"|started/.test(new TextDecoder('latin1').decode(value))).length;
        }
        db.close();
        return readable;
    })();
";
