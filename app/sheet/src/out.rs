//! The log on its way out: a file, or the phone's own way to send something.
//!
//! Limits: sending is absent in Firefox and on most computers, and takes plain text where it takes no file.

use gloo_timers::callback::Timeout;
use js_sys::{Array, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement, ShareData, Url};

/// No name and no date is in it, so none is in its name.
const NAME: &str = "exercise-log.txt";
const KIND: &str = "text/plain";

/// Saves the log as a file. Whether the browser took it.
pub fn save(text: &str) -> bool {
    saved(text).is_ok()
}

/// Hands the log to another program, or saves it where that cannot be done.
pub fn share(text: &str) {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else { return };
    let knows = |name: &str| Reflect::has(&navigator, &name.into()).unwrap_or(false);
    if !knows("share") {
        let _ = saved(text);
        return;
    }
    let data = ShareData::new();
    match file(text) {
        Ok(file) if knows("canShare") => {
            data.set_files(&Array::of1(&file));
            if !navigator.can_share_with_data(&data) {
                data.set_files(&JsValue::UNDEFINED.unchecked_into());
                data.set_text(text);
            }
        }
        _ => data.set_text(text),
    }
    let shared = navigator.share_with_data(&data);
    // Whoever closes the phone's list of programs has changed their mind.
    spawn_local(async move { drop(JsFuture::from(shared).await) });
}

fn saved(text: &str) -> Result<(), JsValue> {
    let document = web_sys::window().and_then(|window| window.document()).ok_or(JsValue::NULL)?;
    let options = BlobPropertyBag::new();
    options.set_type(KIND);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(NAME);
    link.click();
    // The download reads the bytes after the click returns.
    Timeout::new(60_000, move || drop(Url::revoke_object_url(&address))).forget();
    Ok(())
}

fn file(text: &str) -> Result<File, JsValue> {
    let options = FilePropertyBag::new();
    options.set_type(KIND);
    File::new_with_str_sequence_and_options(&Array::of1(&text.into()), NAME, &options)
}
