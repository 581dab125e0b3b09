//! A file that is dragged out of the page into a folder of the desktop.
//!
//! Limits: Chromium's own way. Elsewhere a dragged link leaves a shortcut to an address that ends with the page, so
//! nothing is offered there. Whether the file arrived cannot be known; that nothing took it can.

use leptos::prelude::window;
use wasm_bindgen::JsValue;
use web_sys::{DragEvent, Url};

use super::engine::is_chromium;
use super::file_out::blob;

/// Whether this browser drags files out, and there is a pointer to drag with.
#[must_use]
pub fn available() -> bool {
    let pointer = window().match_media("(hover: hover) and (pointer: fine)").ok().flatten();
    is_chromium() && pointer.is_some_and(|query| query.matches())
}

/// A file with an address for as long as this value lives.
pub struct Offered {
    name: String,
    kind: &'static str,
    address: String,
}

impl Offered {
    /// Gives the bytes an address.
    pub fn new(name: &str, kind: &'static str, bytes: &[u8]) -> Result<Offered, JsValue> {
        let address = Url::create_object_url_with_blob(&blob(bytes, kind)?)?;
        Ok(Offered { name: name.to_string(), kind, address })
    }

    /// The address of the bytes.
    #[must_use]
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Names the file to whatever it is dropped on.
    pub fn begin(&self, event: &DragEvent) {
        if let Some(carried) = event.data_transfer() {
            let Offered { name, kind, address } = self;
            let _ = carried.set_data("DownloadURL", &format!("{kind}:{name}:{address}"));
        }
    }
}

impl Drop for Offered {
    fn drop(&mut self) {
        let _ = Url::revoke_object_url(&self.address);
    }
}

/// Whether something took the file.
#[must_use]
pub fn taken(event: &DragEvent) -> bool {
    event.data_transfer().is_some_and(|carried| carried.drop_effect() != "none")
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_file_is_named_with_its_kind_and_address() {
        let offered = Offered::new("a.age", "application/octet-stream", &[1, 2]).expect("an address");
        assert!(offered.address().starts_with("blob:"));
        let carried = web_sys::DataTransfer::new().expect("constructs");
        let options = web_sys::DragEventInit::new();
        options.set_data_transfer(Some(&carried));
        let event = DragEvent::new_with_event_init_dict("dragstart", &options).expect("constructs");
        offered.begin(&event);
        let named = carried.get_data("DownloadURL").expect("is read");
        assert_eq!(named, format!("application/octet-stream:a.age:{}", offered.address()));
        assert!(!taken(&event));
    }
}
