//! Saves bytes as a file through a link with a name.
//!
//! Limits: the browser chooses the folder and may ask; an installed app on some phones opens the file instead of saving it.
//! Whether the file arrived cannot be known here.

use gloo_timers::callback::Timeout;
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlAnchorElement, Url};

use super::file_out::blob;

/// Offers the bytes as a download.
pub fn save(name: &str, kind: &str, bytes: &[u8]) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(&blob(bytes, kind)?)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // The download reads the blob after the click returns; a minute is ample for any summary.
    Timeout::new(60_000, move || {
        let _ = Url::revoke_object_url(&address);
    })
    .forget();
    Ok(())
}
