//! The browser, one API to a file. Each file says what the API cannot do.

pub mod clock;

#[cfg(test)]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
