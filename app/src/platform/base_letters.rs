//! Texts without accents, by the browser's own tables, which the module then need not carry. A browser older than a letter
//! leaves it as it is.

use js_sys::{JsString, RegExp};
use wasm_bindgen::JsCast as _;

/// The same as [`sidelight_core::merge::base_letters`].
#[must_use]
pub fn base_letters(text: &str) -> String {
    if text.is_ascii() {
        return text.to_string();
    }
    let marks = RegExp::new("\\p{M}", "gu");
    let apart = JsString::from(text).normalize("NFKD");
    apart.replace_by_pattern(&marks, "").unchecked_into::<JsString>().into()
}

#[cfg(test)]
mod tests {
    use sidelight_core::merge;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn letters_are_the_same_as_natively() {
        for text in
            ["", "Ann", "Áine Ní Bhriain", "Jose\u{301}", "Nguyễn Thị", "ﬁ Ⅷ ﾊﾟ", "Øystein ß", "गी", "각", "\u{1f469}"]
        {
            assert_eq!(super::base_letters(text), merge::base_letters(text), "{text}");
        }
    }
}
