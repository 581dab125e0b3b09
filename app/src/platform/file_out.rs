//! A blob with a name, for downloads and the share sheet.

use wasm_bindgen::JsValue;
use web_sys::{Blob, BlobPropertyBag};

/// The bytes as a blob of a media type.
pub fn blob(bytes: &[u8], kind: &str) -> Result<Blob, JsValue> {
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(bytes));
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    Blob::new_with_u8_array_sequence_and_options(&parts, &options)
}
