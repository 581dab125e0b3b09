//! Times the finished app in Chromium, each figure beside a reference in the same run.

mod family;
mod records;
mod stage;

use std::path::Path;
use std::time::Duration;

use anyhow::{Context, Result, bail, ensure};
use serde_json::json;

use crate::browser::Browser;
use crate::engine::Engine;
use crate::examine::{PASSPHRASE, make_passphrase, near_point, skip, slot, to_first_task, usual};
use crate::page::{Page, css};
use crate::site::Site;
use crate::viewport::PHONE;

/// Loads of each page for the start, in turn.
const LOADS: usize = 15;

/// Times everything on the sites below `folder`: app, empty, static, timing; or only the parts whose name contains `only`.
/// Prints one line for each figure.
pub async fn run(folder: &Path, only: &str) -> Result<()> {
    let wanted = |name: &str| name.contains(only);
    if wanted("assessing") {
        assessing(folder).await?;
    }
    if wanted("writes") {
        writes(folder).await?;
    }
    if wanted("records") {
        records::run(folder).await?;
    }
    if wanted("starts") {
        starts(folder).await?;
    }
    if wanted("family") {
        family::run(folder).await?;
    }
    if wanted("stage") {
        stage::run(folder).await?;
    }
    Ok(())
}

/// Navigation to the first accepted tap: warm worker, server stopped.
async fn starts(folder: &Path) -> Result<()> {
    println!("Timing the start: {LOADS} loads of each page, offline.");
    let mut opened = Vec::new();
    for name in ["app", "empty", "static"] {
        let mut site = Site::start(&folder.join(name))?;
        let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
        let page = browser.page()?;
        page.open("").await?;
        if name == "app" {
            page.wait_until(
                "the service worker to control the page",
                "navigator.serviceWorker.controller?.state === 'activated'",
            )
            .await?;
            // The demo is not sealed: what is timed is the start, not the typing of a passphrase.
            page.tap("demo").await?;
        } else {
            register(&page).await?;
        }
        page.find("start").await?;
        site.stop()?;
        page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": FIRST_TAP })).await?;
        opened.push((name, browser, site, Vec::new()));
    }
    for _ in 0..LOADS {
        for (name, browser, _, times) in &mut opened {
            let page = browser.page()?;
            page.client().goto("about:blank").await?;
            // What the old page still has to do is not part of the start of the new one.
            tokio::time::sleep(Duration::from_millis(400)).await;
            page.open("").await?;
            let tapped = page.wait_until("the first tap", "typeof window.firstTap === 'number'").await;
            tapped.with_context(|| format!("load {} of {name}", times.len() + 1))?;
            // A tap that nothing answered would only time the markup.
            page.wait_until(
                "an answer to the tap",
                "location.hash === '#/who' || document.body.innerText.trim() === '1'",
            )
            .await?;
            times.push(
                page.value("window.firstTap")
                    .await?
                    .as_f64()
                    .with_context(|| format!("no time of the first tap of {name}"))?,
            );
        }
    }
    let [app, empty, plain] = [0, 1, 2].map(|at: usize| median(&opened[at].3));
    println!(
        "start app/empty: {app:.0} ms / {empty:.0} ms = {:.2} (aim 1.5: {})",
        app / empty,
        aim(app / empty <= 1.5)
    );
    println!("start app/static: {app:.0} ms / {plain:.0} ms = {:.2}", app / plain);
    Ok(())
}

/// Registers the worker of a page that does not do it by itself.
async fn register(page: &Page) -> Result<()> {
    page.run("return navigator.serviceWorker.register('./sw.js').then(() => navigator.serviceWorker.ready).then(() => true);")
        .await?;
    page.wait_until("the worker to take the page", "!!navigator.serviceWorker.controller").await
}

/// Tap to durable write, beside the same bytes written by bare IndexedDB calls.
async fn writes(folder: &Path) -> Result<()> {
    println!("Timing the write of a tap, beside bare IndexedDB.");
    let site = Site::start(&folder.join("app"))?;
    let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
    let page = browser.page()?;
    page.open("").await?;
    make_passphrase(&page, PASSPHRASE).await?;
    to_first_task(&page, None, "2012").await?;
    usual(&page, "resting_gaze").await?;
    near_point(&page, [5.0, 5.0, 5.5]).await?;
    skip(&page, "pursuit").await?;
    slot(&page, "saccade").await?;
    page.find(css("[data-test=right-on]")).await?;
    let figures = page.run(WRITES).await?;
    let figure = |name: &str| figures[name].as_f64().with_context(|| format!("no figure {name}: {figures}"));
    let (app, bare, count) = (figure("app")?, figure("bare")?, figure("count")?);
    ensure!(count >= 50.0, "only {count} writes were timed");
    println!(
        "write app/bare: {app:.2} ms / {bare:.2} ms = {:.2} (aim 1.3: {}), {count} taps",
        app / bare,
        aim(app / bare <= 1.3)
    );
    Ok(())
}

/// The assessment in WebAssembly, beside the reading of the same visit.
async fn assessing(folder: &Path) -> Result<()> {
    let site = Site::start(&folder.join("timing"))?;
    let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
    let page = browser.page()?;
    page.open("").await?;
    page.wait_until("the timing", "!!document.documentElement.dataset.timing").await?;
    let told = page.value("document.documentElement.dataset.timing").await?;
    let told = told.as_str().context("no timing")?;
    let times = told.split(' ').map(str::parse).collect::<Result<Vec<f64>, _>>()?;
    let [read, assess, whole] = times[..] else { bail!("not three timings: {told}") };
    println!(
        "assess in wasm: {assess:.0} µs, reading the file {read:.0} µs, ratio {:.2} (aim 1000 µs: {})",
        assess / read,
        aim(assess < 1000.0)
    );
    println!("a visit with ten earlier ones, in wasm: {:.2} ms (aim 5 ms: {})", whole / 1000.0, aim(whole < 5000.0));
    Ok(())
}

fn median(times: &[f64]) -> f64 {
    let mut sorted = times.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted[sorted.len() / 2]
}

fn aim(met: bool) -> &'static str {
    if met { "met" } else { "missed" }
}

/// Taps the start button the moment it is there and notes the time since navigation began.
const FIRST_TAP: &str = "
    const look = () => {
        const button = document.querySelector('[data-test=start]');
        if (button && window.firstTap === undefined) {
            button.click();
            window.firstTap = performance.now();
            watch.disconnect();
        }
    };
    const watch = new MutationObserver(look);
    watch.observe(document, { childList: true, subtree: true });
";

/// Taps a pad and waits for the end of the transaction that holds it, in turn with a bare write of the same bytes.
const WRITES: &str = "
    return (async () => {
        const realPut = IDBObjectStore.prototype.put;
        let written = null, bytes = null;
        IDBObjectStore.prototype.put = function (value, ...rest) {
            if (this.transaction.db.name === 'sidelight') {
                bytes = value;
                const strict = this.transaction.durability === 'strict';
                this.transaction.addEventListener('complete', () => written && written(strict ? null : performance.now()));
            }
            return realPut.call(this, value, ...rest);
        };
        const bench = await new Promise((done, failed) => {
            const open = indexedDB.open('bench', 1);
            open.onupgradeneeded = () => open.result.createObjectStore('draft');
            open.onsuccess = () => done(open.result);
            open.onerror = () => failed(open.error);
        });
        const pad = document.querySelector('[data-test=right-on]');
        const app = [], bare = [];
        for (let turn = 0; turn < 60; turn++) {
            const end = new Promise(done => { written = done; });
            const start = performance.now();
            pad.click();
            const ended = await end;
            // Every few seconds a flush to the disk falls in between; it is no tap.
            if (ended !== null) app.push(ended - start);
            written = null;
            await new Promise(done => setTimeout(done, 30));
            const from = performance.now();
            const transaction = bench.transaction('draft', 'readwrite', { durability: 'relaxed' });
            realPut.call(transaction.objectStore('draft'), bytes, 'visit');
            transaction.commit();
            await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onabort = failed; });
            bare.push(performance.now() - from);
            await new Promise(done => setTimeout(done, 30));
        }
        const median = list => list.sort((a, b) => a - b)[list.length >> 1];
        return { app: median(app), bare: median(bare), count: app.length };
    })();
";
