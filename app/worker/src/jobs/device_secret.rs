//! A secret of this device, in a file that is overwritten in place: what a key hangs on can so be destroyed, which a
//! database that only marks rows as deleted does not do.
//!
//! Limits: a file of the origin's private file system with synchronous access, in a worker (Chromium 102, Firefox 111,
//! Safari 15.2; not in every private window). Flash memory may keep an old copy of a block out of reach of the browser.

use js_sys::Reflect;
use sidelight_worker::{Answer, Place, SECRET, SLOTS};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    DedicatedWorkerGlobalScope, FileSystemDirectoryHandle, FileSystemFileHandle, FileSystemGetFileOptions,
    FileSystemReadWriteOptions, FileSystemSyncAccessHandle,
};

use super::{Done, parts};

const FILE: &str = "sidelight-device";

/// What stands in a place.
pub async fn read(slot: u8) -> Done {
    let at = offset(slot)?;
    let Some(file) = open().await? else { return Ok((Answer::Secret(Place::Absent), Vec::new())) };
    let mut found = [0; SECRET];
    let count = file.read_with_u8_array_and_options(&mut found, &at);
    file.close();
    let count = count.map_err(|error| trouble(&error))?;
    // A place that was never written, or was cleared, is all zeros.
    let filled = count as usize == SECRET && found.iter().any(|byte| *byte != 0);
    Ok(if filled {
        (Answer::Secret(Place::Filled), vec![found.to_vec()])
    } else {
        (Answer::Secret(Place::Empty), Vec::new())
    })
}

/// Writes over a place, waits for the disk, and reads back what stands there now.
pub async fn write(slot: u8, bytes: Vec<Vec<u8>>) -> Done {
    let at = offset(slot)?;
    let [secret] = parts(bytes)?;
    if secret.len() != SECRET {
        return Err("A secret of the device has 32 bytes.".to_owned());
    }
    let Some(file) = open().await? else { return Ok((Answer::Secret(Place::Absent), Vec::new())) };
    let mut back = [0; SECRET];
    let written = file
        .write_with_u8_array_and_options(&secret, &at)
        .and_then(|_| file.flush())
        .and_then(|()| file.read_with_u8_array_and_options(&mut back, &at));
    file.close();
    written.map_err(|error| trouble(&error))?;
    if back[..] != secret[..] {
        return Err("The device's own file did not keep what was written to it.".to_owned());
    }
    Ok((Answer::Secret(if secret.iter().all(|byte| *byte == 0) { Place::Empty } else { Place::Filled }), Vec::new()))
}

/// The file, for this worker alone; nothing where the browser has no such files. That another tab has it just now is
/// trouble and not absence.
async fn open() -> Result<Option<FileSystemSyncAccessHandle>, String> {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let manager = Reflect::get(&scope.navigator(), &"storage".into()).unwrap_or_default();
    if !manager.is_object() || !Reflect::has(&manager, &"getDirectory".into()).unwrap_or(false) {
        return Ok(None);
    }
    let Ok(root) = JsFuture::from(scope.navigator().storage().get_directory()).await else { return Ok(None) };
    let root: FileSystemDirectoryHandle = root.unchecked_into();
    let create = FileSystemGetFileOptions::new();
    create.set_create(true);
    let file = JsFuture::from(root.get_file_handle_with_options(FILE, &create)).await;
    let file: FileSystemFileHandle = file.map_err(|error| trouble(&error))?.unchecked_into();
    if !Reflect::has(&file, &"createSyncAccessHandle".into()).unwrap_or(false) {
        return Ok(None);
    }
    let opened = JsFuture::from(file.create_sync_access_handle()).await;
    opened.map(|handle| Some(handle.unchecked_into())).map_err(|error| trouble(&error))
}

fn offset(slot: u8) -> Result<FileSystemReadWriteOptions, String> {
    if slot >= SLOTS {
        return Err("The device's secret has no such place.".to_owned());
    }
    let options = FileSystemReadWriteOptions::new();
    options.set_at(f64::from(slot) * SECRET as f64);
    Ok(options)
}

fn trouble(error: &JsValue) -> String {
    let words = Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string()).unwrap_or_default();
    format!("The device's own file cannot be used: close other Sidelight tabs, then try again ({words}).")
}
