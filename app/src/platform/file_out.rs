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

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn a_blob_holds_the_bytes_and_their_kind() {
        let bytes = "naïve <b>é</b>".as_bytes();
        let made = blob(bytes, "text/html").expect("constructs");
        assert_eq!(made.type_(), "text/html");
        let buffer = wasm_bindgen_futures::JsFuture::from(made.array_buffer()).await.expect("reads");
        assert_eq!(js_sys::Uint8Array::new(&buffer).to_vec(), bytes);
    }
}
