//! What a browser leaves on the disk: the search for words in it finds what is stored in clear, wherever that is.

use std::fs;
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

use crate::engine::Engine;
use crate::examine::{all_as_expected, screen, skip, slot, start_empty, to_first_task, unlock_if_locked};
use crate::page::{Page, css};
use crate::search::{Found, Place};
use crate::spec::Stage;

/// Words that stand nowhere else, one for each way of storing.
const BYTES: &str = "qorvindel-bytes-7";
const LATIN: &str = "qorvindël-latin-7";
const WIDE: &str = "qorvinđel-wide-7";
const LARGE: &str = "qorvindel-large-7";
const LOCAL: &str = "qorvindel-local-7";
const KEY: &str = "qorvindel-key-7";
const ADDRESS: &str = "qorvindel-address-7";
const TITLE: &str = "qorvindel-title-7";
/// A word of two halves that stand in its row apart from each other too, so that compression leaves no whole copy.
const HALVES: [&str; 2] = ["mopralikwent", "ubastrofelch"];

/// The search finds words written in clear: at once after the browser was killed, after much was written and deleted
/// behind them, in the history, and where compression hides them from a search of plain bytes.
pub async fn found(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    write(&page).await?;
    // Chromium holds local storage back for up to five seconds.
    tokio::time::sleep(Duration::from_secs(7)).await;
    let packed = HALVES.concat();
    let words = [BYTES, LATIN, WIDE, LARGE, LOCAL, KEY, ADDRESS, TITLE, &packed];
    stage.browser.kill();
    let found = stage.browser.search(&words)?;
    stage.note(format!("killed: {found}"));
    for word in [BYTES, LATIN, WIDE, LARGE, LOCAL, KEY, &packed] {
        expect(&found, word)?;
    }

    let page = stage.browser.reopen().await?;
    page.open("").await?;
    churn(&page).await?;
    page.open(&format!("?{ADDRESS}")).await?;
    page.run_with("document.title = arguments[0];", vec![json!(TITLE)]).await?;
    tokio::time::sleep(Duration::from_secs(2)).await;
    stage.browser.close().await?;
    let found = stage.browser.search(&words)?;
    stage.note(format!("closed: {found}"));
    for word in words {
        expect(&found, word)?;
    }
    let hidden = if stage.engine == Engine::Chromium { Place::Table } else { Place::Packed };
    let places = found.of(&packed);
    stage.note(format!("{packed}: {places:?}"));
    ensure!(found.is_at(&packed, hidden), "{packed} was not found unpacked, only at {places:?}");
    let absent = stage.browser.search(&["qorvindel-never-written-7"])?;
    ensure!(absent.hits.is_empty(), "a word that was never written was found: {:?}", absent.hits);
    Ok(())
}

/// Words of a person, one for each place where something can be typed or taken in.
const LABEL: &str = "Vantriskel Örbund";
const NOTE: &str = "krelmuvantis note";
const REASON: &str = "pfostrabaline reason";
const DECISION: &str = "quenzibarut decision";
const ROUTINE: &str = "womtrelsibad routine";
const IN_FILE: &str = "hulbrikanteso in a file";
/// Written in clear by the spec itself, so that a search that finds nothing is known to have looked.
const CONTROL: &str = "zimtorbalek-control";

/// The folders of the store itself. Records are not sealed yet: with sealing this list is empty.
const STORE: &[&str] = &["IndexedDB", "/idb/"];

/// A whole visit, a routine and a file taken in: nothing that was typed stands anywhere on the disk but in the store, nor in
/// an address, a title, the history or the console, neither when the browser is killed nor when it is closed.
pub async fn nothing_readable(stage: &mut Stage) -> Result<()> {
    let words = [LABEL, "Örbund", NOTE, REASON, DECISION, ROUTINE, IN_FILE, CONTROL];
    let page = start_empty(stage).await?;
    page.run_with("localStorage.setItem('control', arguments[0]);", vec![json!(CONTROL)]).await?;
    let mut shown = String::new();
    make_routine(&page).await?;
    shown += &told(&page).await?;
    take_in(&page).await?;
    shown += &told(&page).await?;
    to_first_task(&page, Some(LABEL), "2012").await?;
    shown += &told(&page).await?;
    all_as_expected(&page).await?;
    page.tap(css("[data-test=details] summary")).await?;
    page.fill(css("[data-test=note] input, [data-test=note] textarea"), NOTE).await?;
    page.tap("next").await?;
    slot(&page, "near_point").await?;
    page.tap("skip").await?;
    page.fill("skip-other", REASON).await?;
    page.tap("skip-typed").await?;
    for task in ["pursuit", "saccade", "optokinetic"] {
        skip(&page, task).await?;
        shown += &told(&page).await?;
    }
    screen(&page, "findings").await?;
    page.tap("next").await?;
    screen(&page, "decision").await?;
    page.fill(css("[data-test=note] textarea"), DECISION).await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    page.wait_text(css("[data-test=summary]"), LABEL).await?;
    shown += &told(&page).await?;
    shown += &stage.browser.console_errors().await?.join("\n");
    for word in words {
        ensure!(!shown.contains(word), "{word:?} is in an address, a title or the console");
    }
    tokio::time::sleep(Duration::from_secs(7)).await;
    stage.browser.kill();
    only_the_control(stage, "killed", &words)?;
    let page = stage.browser.reopen().await?;
    page.open("").await?;
    unlock_if_locked(&page).await?;
    screen(&page, "home").await?;
    stage.browser.close().await?;
    only_the_control(stage, "closed", &words)
}

fn only_the_control(stage: &mut Stage, when: &str, words: &[&str]) -> Result<()> {
    let found = stage.browser.search(words)?;
    stage.note(format!("{when}: {found}"));
    expect(&found, CONTROL)?;
    let mut readable = Vec::new();
    for word in words.iter().filter(|word| **word != CONTROL) {
        let in_store = |path: &str| STORE.iter().any(|part| path.contains(part));
        let places = found.of(word).into_iter().filter(|hit| !in_store(&hit.file.to_string_lossy()));
        readable.extend(places.map(|hit| format!("{word:?} in {hit}")));
    }
    ensure!(readable.is_empty(), "{when}, readable on the disk: {}", readable.join("; "));
    Ok(())
}

/// What the browser itself shows and remembers of the page: its address and its title.
async fn told(page: &Page) -> Result<String> {
    let told = page.value("decodeURIComponent(location.href) + ' ' + document.title").await?;
    Ok(told.as_str().unwrap_or_default().to_owned())
}

async fn make_routine(page: &Page) -> Result<()> {
    page.tap("routines").await?;
    page.tap("make").await?;
    screen(page, "routine").await?;
    page.fill("routine-name", ROUTINE).await?;
    page.tap("add-saccade").await?;
    page.tap("keep").await?;
    page.wait_text("own", ROUTINE).await?;
    page.tap("back").await?;
    screen(page, "home").await
}

/// Takes in a file of one person whose name is a word to look for.
async fn take_in(page: &Page) -> Result<()> {
    let mut file: Value = serde_json::from_str(VISIT_FILE)?;
    let label = file.pointer_mut("/people/0/label").context("the file has no person")?;
    *label = json!(IN_FILE);
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("handed.json");
    fs::write(&path, file.to_string())?;
    page.tap("take-in").await?;
    page.choose_file("take-files", &path).await?;
    page.tap("go").await?;
    page.find("taken").await?;
    page.tap("back").await?;
    page.tap("back").await?;
    page.wait_text(css("main"), IN_FILE).await
}

const VISIT_FILE: &str = include_str!("../../../tests/archives/v1/sideline.json");

fn expect(found: &Found, word: &str) -> Result<()> {
    ensure!(!found.of(word).is_empty(), "{word} was written in clear and not found in {found}");
    Ok(())
}

async fn write(page: &Page) -> Result<()> {
    let [first, second] = HALVES;
    let row =
        format!("{first} and, apart from it, {second}; {} {first}{second} twice {first}{second}", "-".repeat(300));
    let words = json!([BYTES, LATIN, WIDE, LARGE, LOCAL, KEY, row]);
    page.run_with(WRITE, vec![words]).await.map(|_| ())
}

/// Writes and deletes so many rows that the store makes its files anew.
async fn churn(page: &Page) -> Result<()> {
    let written = page.run(CHURN).await?;
    ensure!(written == 4_000, "{written} rows were written");
    Ok(())
}

const WRITE: &str = "
    const [bytes, latin, wide, large, local, key, row] = arguments[0];
    localStorage.setItem('word', local);
    const open = name => new Promise((done, failed) => {
        const request = indexedDB.open('words', 1);
        request.onupgradeneeded = () => request.result.createObjectStore('words');
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
    });
    return (async () => {
        const database = await open();
        const transaction = database.transaction('words', 'readwrite', { durability: 'strict' });
        const store = transaction.objectStore('words');
        const encoder = new TextEncoder();
        store.put(encoder.encode(JSON.stringify({ label: bytes })), 'bytes');
        store.put({ label: latin }, 'latin');
        store.put(wide, 'wide');
        store.put(encoder.encode(large + ' '.repeat(200_000)), 'large');
        store.put(1, key);
        store.put(encoder.encode(row), 'row');
        await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onabort = failed; });
        return true;
    })();
";

const CHURN: &str = "
    return (async () => {
        const database = await new Promise((done, failed) => {
            const request = indexedDB.open('words', 1);
            request.onsuccess = () => done(request.result);
            request.onerror = () => failed(request.error);
        });
        let written = 0;
        for (let round = 0; round < 4; round++) {
            const change = async act => {
                const transaction = database.transaction('words', 'readwrite', { durability: 'strict' });
                act(transaction.objectStore('words'));
                await new Promise((done, failed) => { transaction.oncomplete = done; transaction.onabort = failed; });
            };
            await change(store => {
                for (let index = 0; index < 1000; index++) {
                    store.put(crypto.getRandomValues(new Uint8Array(4000)), `filler ${index}`);
                    written++;
                }
            });
            await change(store => store.delete(IDBKeyRange.bound('filler', 'fillez')));
        }
        return written;
    })();
";
