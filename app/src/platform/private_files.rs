//! Looks now and then at the private files of this origin, of which the secret of the device is one.
//!
//! Limits: in a private window Chromium 148 forgets them when nobody has asked for ten minutes, and with them everything
//! that is sealed. A look at the file is enough to keep it. A device that sleeps longer than that does not look.

use gloo_timers::callback::Interval;
use js_sys::{Function, Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// The file of the second module that keeps the secret of the device.
const FILE: &str = "sidelight-device";

const LOOK_EVERY_MS: u32 = 4 * 60 * 1_000;

/// Looks for as long as the page lives.
pub fn keep() {
    Interval::new(LOOK_EVERY_MS, || {
        spawn_local(async {
            // Where there is no such file system there is nothing to keep.
            let _ = look().await;
        });
    })
    .forget();
}

async fn look() -> Result<JsValue, JsValue> {
    let manager = Reflect::get(&window().navigator(), &"storage".into())?;
    let root = asked(&manager, "getDirectory", &[]).await?;
    asked(&root, "getFileHandle", &[FILE.into()]).await
}

async fn asked(of: &JsValue, name: &str, with: &[JsValue]) -> Result<JsValue, JsValue> {
    let function: Function = Reflect::get(of, &name.into())?.dyn_into()?;
    let promise: Promise = Reflect::apply(&function, of, &with.iter().collect())?.dyn_into()?;
    JsFuture::from(promise).await
}
