//! The family's page: its address for links and codes, and a sheet as one file that needs no network.
//!
//! Limits: the file is made from a part the service worker keeps; where there is no worker it comes from the site, and
//! without both it cannot be made, which is said.

use std::fmt;

use leptos::prelude::window;
use sidelight_core::family;
use sidelight_core::sheet::Sheet;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;

/// The page's folder beside this one.
const FOLDER: &str = "sheet/";
/// What a file is made from.
const TEMPLATE: &str = "sheet/file.html";

/// The file could not be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unmade;

impl fmt::Display for Unmade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(say!(
            "The file could not be made, because a part of Sidelight is missing on this device. Load Sidelight again \
             with a network, or give the code or the link."
        ))
    }
}

/// The address of the family's page, for [`Sheet::link`].
#[must_use]
pub fn address() -> String {
    let here = window().location().href().unwrap_or_default();
    beside(&here)
}

/// The sheet as one HTML file.
pub async fn html(sheet: &Sheet) -> Result<Vec<u8>, Unmade> {
    let template = template().await.ok_or(Unmade)?;
    family::file(&template, sheet).map(String::into_bytes).ok_or(Unmade)
}

/// The name of the file. No name and no date is in a sheet, so none is in its name.
#[must_use]
pub fn name(sheet: &Sheet) -> &'static str {
    match sheet.language {
        sidelight_core::catalogue::Language::English => "exercises.html",
        sidelight_core::catalogue::Language::Spanish => "ejercicios.html",
    }
}

async fn template() -> Option<String> {
    let answer: Response = JsFuture::from(window().fetch_with_str(TEMPLATE)).await.ok()?.dyn_into().ok()?;
    if !answer.ok() {
        return None;
    }
    JsFuture::from(answer.text().ok()?).await.ok()?.as_string()
}

fn beside(here: &str) -> String {
    let page = here.split(['#', '?']).next().unwrap_or_default();
    let folder = page.rfind('/').map_or(page, |at| &page[..=at]);
    format!("{folder}{FOLDER}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_page_stands_in_a_folder_beside_the_app() {
        for here in ["https://a.example/x/", "https://a.example/x/#/visit", "https://a.example/x/index.html?y#z/w"] {
            assert_eq!(beside(here), "https://a.example/x/sheet/", "{here}");
        }
    }
}
