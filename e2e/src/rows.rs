//! The rows of the app's store beneath the seal, and the secret of the device beside them: read and changed from a page of
//! the same address on which the app does not run.

use std::collections::BTreeMap;

use anyhow::{Context, Result};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

use crate::page::Page;

/// Bytes of a sealed row that name its key, behind the version.
pub const KEY_ID: std::ops::Range<usize> = 1..9;

/// A kind and an id, as they stand in the store.
pub type Place = (String, String);

/// Every row, and the file of the device.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Beneath {
    /// The bytes of each row.
    pub rows: BTreeMap<Place, Vec<u8>>,
    /// The file with the secret of the device, where the browser has one.
    pub device: Option<Vec<u8>>,
}

impl Beneath {
    /// Reads everything. It leaves the app, so that nothing is written meanwhile.
    pub async fn read(page: &Page) -> Result<Self> {
        leave_app(page).await?;
        let told = page.run(&format!("{COMMON}{READ}")).await?;
        let mut beneath = Self { device: told["device"].as_str().map(bytes).transpose()?, ..Self::default() };
        for row in told["rows"].as_array().context("no rows")? {
            let part = |at: usize| row[at].as_str().map(str::to_owned).context("no row");
            beneath.rows.insert((part(0)?, part(1)?), bytes(&part(2)?)?);
        }
        Ok(beneath)
    }

    /// The rows of a kind, by id.
    pub fn of(&self, kind: &str) -> BTreeMap<&str, &[u8]> {
        let of_kind = self.rows.iter().filter(|((own, _), _)| own == kind);
        of_kind.map(|((_, id), row)| (id.as_str(), row.as_slice())).collect()
    }
}

/// Writes these rows as they are, in one transaction.
pub async fn put(page: &Page, rows: &BTreeMap<Place, Vec<u8>>) -> Result<()> {
    leave_app(page).await?;
    let rows: Vec<Value> = rows.iter().map(|((kind, id), row)| json!([kind, id, STANDARD.encode(row)])).collect();
    page.run_with(&format!("{COMMON}{PUT}"), vec![json!(rows)]).await.map(|_| ())
}

/// Deletes a row.
pub async fn delete(page: &Page, kind: &str, id: &str) -> Result<()> {
    leave_app(page).await?;
    page.run_with(&format!("{COMMON}{DELETE}"), vec![json!(kind), json!(id)]).await.map(|_| ())
}

/// Writes the file of the device.
pub async fn put_device(page: &Page, file: &[u8]) -> Result<()> {
    leave_app(page).await?;
    page.run_with(&format!("{COMMON}{PUT_DEVICE}"), vec![json!(STANDARD.encode(file))]).await.map(|_| ())
}

/// Raises the version of the database, as a newer program would.
pub async fn raise_version(page: &Page, version: u64) -> Result<()> {
    leave_app(page).await?;
    page.run_with(RAISE, vec![json!(version)]).await.map(|_| ())
}

/// Bytes as the store names keys.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Opens a file of the site that is no page of the app.
pub async fn leave_app(page: &Page) -> Result<()> {
    page.open("icon.svg").await
}

fn bytes(text: &str) -> Result<Vec<u8>> {
    Ok(STANDARD.decode(text)?)
}

const COMMON: &str = "
    const open = () => new Promise((done, failed) => {
        const request = indexedDB.open('sidelight');
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
    });
    const change = async act => {
        const db = await open();
        await new Promise((done, failed) => {
            const transaction = db.transaction([...db.objectStoreNames], 'readwrite', { durability: 'strict' });
            act(transaction);
            transaction.oncomplete = done;
            transaction.onabort = () => failed(transaction.error);
        });
        db.close();
        return true;
    };
    const text = bytes => btoa(Array.from(bytes, byte => String.fromCharCode(byte)).join(''));
    const from = text => Uint8Array.from(atob(text), letter => letter.charCodeAt(0));
    const file = async create => {
        const root = await navigator.storage.getDirectory();
        return root.getFileHandle('sidelight-device', { create });
    };
";

const READ: &str = "
    return (async () => {
        const db = await open();
        const rows = [];
        for (const kind of db.objectStoreNames) {
            const store = db.transaction(kind).objectStore(kind);
            const keys = store.getAllKeys(), values = store.getAll();
            await new Promise((done, failed) => { values.onsuccess = done; values.onerror = () => failed(values.error); });
            keys.result.forEach((key, at) => rows.push([kind, key, text(new Uint8Array(values.result[at]))]));
        }
        db.close();
        let device = null;
        try {
            device = text(new Uint8Array(await (await (await file(false)).getFile()).arrayBuffer()));
        } catch { }
        return { rows, device };
    })();
";

const PUT: &str = "
    return change(transaction => {
        for (const [kind, id, row] of arguments[0]) transaction.objectStore(kind).put(from(row), id);
    });
";

const DELETE: &str = "return change(transaction => transaction.objectStore(arguments[0]).delete(arguments[1]));";

const RAISE: &str = "
    return new Promise((done, failed) => {
        const open = indexedDB.open('sidelight', arguments[0]);
        open.onsuccess = () => { open.result.close(); done(true); };
        open.onerror = () => failed(open.error);
    });
";

const PUT_DEVICE: &str = "
    return (async () => {
        const writable = await (await file(true)).createWritable();
        await writable.write(from(arguments[0]));
        await writable.close();
        return true;
    })();
";
