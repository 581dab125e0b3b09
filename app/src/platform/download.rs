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

#[cfg(test)]
mod tests {
    use std::cell::RefCell;
    use std::rc::Rc;

    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_link_of_this_name_to_a_blob_is_clicked() {
        let seen: Rc<RefCell<Vec<(String, String)>>> = Rc::default();
        let noted = Rc::clone(&seen);
        // A real click would save a file on the machine that runs the tests.
        let make = js_sys::Function::new_with_args(
            "noted",
            "const click = HTMLAnchorElement.prototype.click;
             HTMLAnchorElement.prototype.click = function () { noted(this) };
             return () => { HTMLAnchorElement.prototype.click = click; };",
        );
        let note =
            wasm_bindgen::closure::Closure::<dyn FnMut(HtmlAnchorElement)>::new(move |link: HtmlAnchorElement| {
                noted.borrow_mut().push((link.download(), link.href()));
            });
        let restore: js_sys::Function = make.call1(&JsValue::NULL, note.as_ref()).expect("is covered").unchecked_into();
        let saved = save("summary.html", "text/html", b"<p>");
        restore.call0(&JsValue::NULL).expect("is restored");
        saved.expect("saves");
        let seen = seen.borrow();
        assert_eq!(seen.len(), 1);
        assert_eq!(seen[0].0, "summary.html");
        assert!(seen[0].1.starts_with("blob:"), "{}", seen[0].1);
    }
}
