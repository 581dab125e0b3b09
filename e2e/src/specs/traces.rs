//! What a browser leaves on the disk: the search for words in it finds what is stored in clear, wherever that is.

mod typed;

use std::time::Duration;

use anyhow::{Result, ensure};
use serde_json::json;

pub use self::typed::nothing_readable;
use crate::engine::Engine;
use crate::page::Page;
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
            request.onupgradeneeded = () => request.result.createObjectStore('words');
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
