//! Times a practice that grows: taking in its visits beside bare puts, unlocking up to the first list beside a bare read.

use std::fs;
use std::path::Path;
use std::time::Duration;

use anyhow::{Context, Result};
use serde_json::{Value, json};
use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::Visit;
use sidelight_core::demo;

use super::aim;
use crate::browser::Browser;
use crate::engine::Engine;
use crate::examine::{PASSPHRASE, make_passphrase, screen};
use crate::page::Page;
use crate::site::Site;
use crate::viewport::PHONE;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Closed visits after each step; every step takes in what is missing.
const SIZES: [usize; 3] = [100, 1_000, 10_000];

/// Unlocks that are timed at each size.
const UNLOCKS: usize = 5;

const PATIENCE: Duration = Duration::from_secs(300);

/// Prints one line for each figure.
pub async fn run(folder: &Path) -> Result<()> {
    println!("Timing a practice of {SIZES:?} closed visits, beside bare IndexedDB.");
    let files = tempfile::tempdir()?;
    let site = Site::start(&folder.join("app"))?;
    let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
    let page = browser.page()?;
    page.open("").await?;
    page.run("navigator.serviceWorker?.ready.then(() => {});").await?;
    make_passphrase(&page, PASSPHRASE).await?;
    let empty = unlocked(&page).await?;
    println!("unlock without a visit: {empty:.0} ms, nearly all of it the derivation of the key");
    let (mut from, mut above) = (0, Vec::new());
    for size in SIZES {
        let path = files.path().join(format!("{size}.json"));
        fs::write(&path, archive::write_compact(&visits(from..size)))?;
        take_in(&page, &path, size - from).await?;
        from = size;
        let (whole, bare) = (unlocked(&page).await?, bare_read(&page).await?);
        let ours = (whole - empty).max(1.0);
        println!(
            "unlock and first list, {size} visits: {whole:.0} ms, without the key {ours:.0} ms / bare read of the index \
             {bare:.1} ms = {:.2} (aim 1.5: {})",
            ours / bare,
            aim(ours / bare <= 1.5)
        );
        above.push(ours);
        println!("  memory of the page: {}", memory(&page).await?);
    }
    if let [.., few, many] = above[..] {
        println!(
            "unlock and first list, growth exponent from 1,000 to 10,000 visits: {:.2} (aim 1)",
            (many / few).log10()
        );
    }
    Ok(())
}

/// Takes in a file and times its writing, from the tap to the receipt, beside bare puts of the same rows.
async fn take_in(page: &Page, path: &Path, count: usize) -> Result<()> {
    page.run(ROWS).await?;
    page.tap("take-in").await?;
    page.run("window.began = performance.now();").await?;
    page.choose_file("take-files", path).await?;
    page.wait_until_within("the plan", "!!document.querySelector('[data-test=plan]')", PATIENCE).await?;
    let told = page.value("performance.now() - window.began").await?.as_f64().context("no time")?;
    page.run(WATCH_RECEIPT).await?;
    page.tap("go").await?;
    page.wait_until_within("the receipt", "typeof window.written === 'number'", PATIENCE).await?;
    let written = page.value("window.written").await?.as_f64().context("no time")?;
    let bare = page.run(BARE_PUTS).await?;
    let figure = |name: &str| bare[name].as_f64().with_context(|| format!("no figure {name}: {bare}"));
    println!(
        "taking in {count} visits: told {told:.0} ms; written {written:.0} ms / {} bare puts {:.0} ms = {:.2} (aim 1.5: {}), \
         {:.1} MB",
        figure("rows")?,
        figure("ms")?,
        written / figure("ms")?,
        aim(written / figure("ms")? <= 1.5),
        figure("bytes")? / 1e6
    );
    page.tap("go").await?;
    screen(page, "home").await
}

/// Milliseconds from the tap on "Open" to the home screen with its list: of the fastest time, since whatever else the
/// machine does only adds.
async fn unlocked(page: &Page) -> Result<f64> {
    let mut fastest = f64::INFINITY;
    for _ in 0..UNLOCKS {
        page.reload().await?;
        screen(page, "unlock").await?;
        page.fill("passphrase", PASSPHRASE).await?;
        page.run(WATCH_HOME).await?;
        page.tap("unlock").await?;
        page.wait_until_within("the first list", "typeof window.listed === 'number'", PATIENCE).await?;
        fastest = fastest.min(page.value("window.listed").await?.as_f64().context("no time")?);
    }
    Ok(fastest)
}

async fn bare_read(page: &Page) -> Result<f64> {
    page.run(BARE_READ).await?.as_f64().context("no time of the bare read")
}

/// Bytes the page's scripts and its WebAssembly hold, as Chromium counts them.
async fn memory(page: &Page) -> Result<String> {
    let told = page.devtools("Runtime.getHeapUsage", json!({})).await?;
    let bytes = |name: &str| told.get(name).and_then(Value::as_f64).map(|bytes| format!("{:.1} MB", bytes / 1e6));
    let [heap, behind] = ["usedSize", "backingStorageSize"].map(|name| bytes(name).unwrap_or_else(|| "?".to_owned()));
    Ok(format!("scripts {heap}, WebAssembly and other buffers {behind}"))
}

/// The demo's visits over and over, each closed under an id of its own.
fn visits(numbers: std::ops::Range<usize>) -> Archive {
    let (people, pattern) = demo::people(NOW);
    let one = |at: usize| Visit { id: format!("many-{at}"), ..pattern[at % pattern.len()].clone() };
    Archive::of(people, numbers.map(|at| archive::closed(one(at), NOW)).collect())
}

/// Notes the size of every row the app puts.
const ROWS: &str = "
    window.rows = [];
    if (!window.realPut) {
        window.realPut = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (value, ...rest) {
            if (this.transaction.db.name === 'sidelight') window.rows.push(value.byteLength ?? 0);
            return window.realPut.call(this, value, ...rest);
        };
    }
";

/// From the next tap until the receipt is there.
const WATCH_RECEIPT: &str = "
    window.rows = [];
    delete window.written;
    let began = 0;
    addEventListener('click', () => { began = performance.now(); }, { once: true, capture: true });
    const watch = new MutationObserver(() => {
        if (!document.querySelector('[data-test=receipt-words]')) return;
        window.written = performance.now() - began;
        watch.disconnect();
    });
    watch.observe(document, { childList: true, subtree: true });
";

const WATCH_HOME: &str = "
    let began = 0;
    addEventListener('click', () => { began = performance.now(); }, { once: true, capture: true });
    const watch = new MutationObserver(() => {
        if (document.querySelector('[data-screen=home]')?.dataset.ready !== 'true') return;
        window.listed = performance.now() - began;
        watch.disconnect();
    });
    watch.observe(document, { childList: true, subtree: true, attributes: true });
";

/// Puts as many rows of the same sizes in one transaction that is flushed to the disk, as the app's is.
const BARE_PUTS: &str = "
    return (async () => {
        const db = await new Promise((done, failed) => {
            const open = indexedDB.open('bench-puts', 1);
            open.onupgradeneeded = () => open.result.createObjectStore('row');
            open.onsuccess = () => done(open.result);
            open.onerror = () => failed(open.error);
        });
        const values = window.rows.map(size => crypto.getRandomValues(new Uint8Array(Math.min(size, 65536))));
        const start = performance.now();
        const transaction = db.transaction('row', 'readwrite', { durability: 'strict' });
        values.forEach((value, at) => window.realPut.call(transaction.objectStore('row'), value, at));
        transaction.commit();
        await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onabort = failed; });
        const ms = performance.now() - start;
        db.close();
        await new Promise(done => { const gone = indexedDB.deleteDatabase('bench-puts'); gone.onsuccess = gone.onerror = done; });
        return { ms, rows: values.length, bytes: values.reduce((all, value) => all + value.length, 0) };
    })();
";

/// Reads the rows of the index by bare calls, five times; the median.
const BARE_READ: &str = "
    return (async () => {
        const db = await new Promise((done, failed) => {
            const open = indexedDB.open('sidelight');
            open.onsuccess = () => done(open.result);
            open.onerror = () => failed(open.error);
        });
        const times = [];
        for (let turn = 0; turn < 5; turn++) {
            const start = performance.now();
            const store = db.transaction('entry').objectStore('entry');
            const [keys, values] = [store.getAllKeys(), store.getAll()];
            await new Promise((done, failed) => { values.onsuccess = done; values.onerror = failed; });
            if (keys.result.length !== values.result.length) throw new Error('rows without keys');
            times.push(performance.now() - start);
        }
        db.close();
        return times.sort((a, b) => a - b)[2];
    })();
";
