//! What this phone keeps: one text a plan, in the browser's storage.
//!
//! Limits: absent in some private windows and for files in some browsers, may be full, and may be emptied by the browser
//! after weeks without a visit. The page then works, and says that it keeps nothing.

use web_sys::Storage;

/// Names of ours; the storage is shared with everything at the same address.
const PREFIX: &str = "sidelight.sheet ";

fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok()?
}

/// The storage, if it takes and gives back.
fn tried() -> Option<Storage> {
    let storage = storage()?;
    let probe = "sidelight.probe";
    storage.set_item(probe, "1").ok()?;
    storage.remove_item(probe).ok()?;
    Some(storage)
}

/// Whether anything can be kept, and what is.
pub fn read() -> (bool, Vec<String>) {
    let Some(storage) = tried() else { return (false, Vec::new()) };
    let names = (0..storage.length().unwrap_or(0)).filter_map(|at| storage.key(at).ok().flatten());
    let texts = names.filter(|name| name.starts_with(PREFIX)).filter_map(|name| storage.get_item(&name).ok().flatten());
    (true, texts.collect())
}

/// Keeps a text. Whether it could.
pub fn keep(name: &str, text: &str) -> bool {
    storage().is_some_and(|storage| storage.set_item(&format!("{PREFIX}{name}"), text).is_ok())
}

/// Forgets a text.
pub fn forget(name: &str) {
    if let Some(storage) = storage() {
        let _ = storage.remove_item(&format!("{PREFIX}{name}"));
    }
}
