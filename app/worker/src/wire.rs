//! Takes one message after the other: a number, a JSON text, and byte arrays.

use gloo_events::EventListener;
use js_sys::{Array, Uint8Array};
use sidelight_worker::{Ask, Reply};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

use crate::jobs;

/// Answers every message for as long as the worker lives.
pub fn listen() {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    EventListener::new(&scope, "message", |event| {
        let data: Array = event.unchecked_ref::<MessageEvent>().data().unchecked_into();
        spawn_local(answer(data));
    })
    .forget();
}

async fn answer(message: Array) {
    let text = message.get(1).as_string().unwrap_or_default();
    let given: Array = message.get(2).unchecked_into();
    let bytes = given.iter().map(|part| part.unchecked_into::<Uint8Array>().to_vec()).collect();
    let (reply, made) = match serde_json::from_str::<Ask>(&text) {
        Ok(ask) => match jobs::run(ask, bytes).await {
            Ok((answer, made)) => (Reply::Done(answer), made),
            Err(why) => (Reply::Refused(why), Vec::new()),
        },
        Err(_) => (Reply::Refused("Two versions of Sidelight met: load the page again.".to_owned()), Vec::new()),
    };
    send(message.get(0), &reply, &made);
}

fn send(number: JsValue, reply: &Reply, made: &[Vec<u8>]) {
    let Ok(text) = serde_json::to_string(reply) else { return };
    let arrays: Array = made.iter().map(|bytes| Uint8Array::from(bytes.as_slice())).collect();
    let buffers: Array = arrays.iter().map(|array| array.unchecked_into::<Uint8Array>().buffer()).collect();
    let message = Array::of3(&number, &text.into(), &arrays);
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    // What cannot be sent was asked for by a page that is gone.
    let _ = scope.post_message_with_transfer(&message, &buffers);
}
