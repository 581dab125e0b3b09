//! The share sheet, with text and one file where the browser takes files.
//!
//! Limits: absent in Firefox and on most desktops; Firefox on Android takes text only; JSON is refused everywhere.

use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{FilePropertyBag, ShareData};

/// A file to share.
pub struct File {
    /// Its name.
    pub name: String,
    /// Its media type.
    pub kind: &'static str,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// How sharing ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Handed to the other program.
    Done,
    /// The user closed the sheet.
    Cancelled,
    /// The browser refused.
    Failed,
}

/// Whether there is a share sheet.
#[must_use]
pub fn available() -> bool {
    js_sys::Reflect::has(&window().navigator(), &"share".into()).unwrap_or(false)
}

/// Whether the share sheet takes a file of this name and kind.
#[must_use]
pub fn takes(file: &File) -> bool {
    let Ok(file) = as_file(file) else { return false };
    let data = ShareData::new();
    data.set_files(&js_sys::Array::of1(&file));
    takes_data(&data)
}

/// Opens the share sheet with a file and nothing beside it; must be called from a tap.
pub async fn share_file(file: File) -> Outcome {
    let Ok(file) = as_file(&file) else { return Outcome::Failed };
    let data = ShareData::new();
    data.set_files(&js_sys::Array::of1(&file));
    outcome(JsFuture::from(window().navigator().share_with_data(&data)).await)
}

fn takes_data(data: &ShareData) -> bool {
    let navigator = window().navigator();
    js_sys::Reflect::has(&navigator, &"canShare".into()).unwrap_or(false) && navigator.can_share_with_data(data)
}

/// Opens the share sheet; must be called from a tap.
pub async fn share(title: &str, text: &str, file: Option<File>) -> Outcome {
    let navigator = window().navigator();
    let data = ShareData::new();
    data.set_title(title);
    data.set_text(text);
    if let Some(file) = file.and_then(|file| as_file(&file).ok()) {
        let with_file = ShareData::new();
        with_file.set_title(title);
        with_file.set_files(&js_sys::Array::of1(&file));
        if takes_data(&with_file) {
            return outcome(JsFuture::from(navigator.share_with_data(&with_file)).await);
        }
    }
    outcome(JsFuture::from(navigator.share_with_data(&data)).await)
}

fn as_file(file: &File) -> Result<web_sys::File, JsValue> {
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(file.bytes.as_slice()));
    let options = FilePropertyBag::new();
    options.set_type(file.kind);
    web_sys::File::new_with_u8_array_sequence_and_options(&parts, &file.name, &options)
}

fn outcome(result: Result<JsValue, JsValue>) -> Outcome {
    match result {
        Ok(_) => Outcome::Done,
        Err(thrown) => {
            let name = thrown.dyn_ref::<web_sys::DomException>().map(web_sys::DomException::name);
            if name.as_deref() == Some("AbortError") { Outcome::Cancelled } else { Outcome::Failed }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_closed_sheet_is_no_failure() {
        let thrown = |name: &str| {
            let exception = web_sys::DomException::new_with_message_and_name("", name).expect("constructs");
            Err(JsValue::from(exception))
        };
        assert_eq!(outcome(thrown("AbortError")), Outcome::Cancelled);
        assert_eq!(outcome(thrown("NotAllowedError")), Outcome::Failed);
        assert_eq!(outcome(Err("odd".into())), Outcome::Failed);
        assert_eq!(outcome(Ok(JsValue::UNDEFINED)), Outcome::Done);
    }
}
