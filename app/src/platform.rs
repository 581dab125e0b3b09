//! The browser, one API to a file. Each file says what the API cannot do.

pub mod base_letters;
pub mod beat;
pub mod camera;
pub mod clipboard;
pub mod clock;
pub mod display;
pub mod download;
pub mod drag_out;
pub mod engine;
pub mod file_in;
pub mod file_out;
pub mod focus;
pub mod folder;
pub mod frames;
pub mod hash_route;
pub mod ids;
pub mod passkey;
pub mod persist;
pub mod print;
pub mod private_files;
pub mod remains;
pub mod service_worker;
pub mod settings;
pub mod share;
pub mod sheet_file;
pub mod tab_lock;
pub mod theme;
pub mod vibrate;
pub mod visibility;
pub mod wake_lock;
pub mod worker;

#[cfg(test)]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);
