//! The second module, in a worker of its own: slow work off the page's thread, started when first asked for.
//!
//! Limits: module workers need Chromium 80, Firefox 114 or Safari 15. A job that ends the module ends every job that
//! waits; the next one starts it again.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;

use futures_channel::oneshot;
use gloo_events::EventListener;
use js_sys::{Array, Uint8Array};
use leptos::prelude::document;
use sidelight_worker::{Answer, Ask, Reply};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};

/// The page names the script by its fingerprint.
const NAMED: &str = "meta[name=sidelight-second]";

thread_local! {
    static SECOND: RefCell<Option<Second>> = const { RefCell::new(None) };
}

/// An answer and the bytes that belong to it.
pub type Answered = (Answer, Vec<Vec<u8>>);

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// This page has no second module, or the browser cannot start it.
    Absent,
    /// The module ended while it worked, and is started again by the next job.
    Ended,
    /// The job was refused, in one sentence.
    Refused(String),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Absent => f.write_str(
                say!("A part of Sidelight could not be loaded: load the page again, or update the browser if that does not help."),
            ),
            Self::Ended => f.write_str(
                say!("The work in the background broke off and nothing was changed: close other tabs if memory is short, then try again."),
            ),
            Self::Refused(why) => f.write_str(why),
        }
    }
}

/// Has a job done. The bytes change hands; [`Ask`] says what each job expects.
pub async fn ask(ask: Ask, bytes: Vec<Vec<u8>>) -> Result<Answered, Trouble> {
    let answer = SECOND.with_borrow_mut(|second| {
        if second.is_none() {
            *second = Second::start();
        }
        second.as_mut().and_then(|second| second.send(&ask, &bytes)).ok_or(Trouble::Absent)
    })?;
    // The sender is dropped when the module ends.
    answer.await.unwrap_or(Err(Trouble::Ended))
}

/// Ends the module, and with it whatever it still holds in memory.
pub fn end() {
    SECOND.with_borrow_mut(|second| *second = None);
}

struct Second {
    worker: Worker,
    asked: u32,
    waiting: BTreeMap<u32, oneshot::Sender<Result<Answered, Trouble>>>,
    _listeners: [EventListener; 2],
}

impl Second {
    fn start() -> Option<Second> {
        let named = document().query_selector(NAMED).ok().flatten()?;
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&named.get_attribute("content")?, &options).ok()?;
        let listeners = [
            EventListener::new(&worker, "message", |event| {
                let data: Array = event.unchecked_ref::<MessageEvent>().data().unchecked_into();
                SECOND.with_borrow_mut(|second| second.as_mut().map(|second| second.receive(&data)));
            }),
            // A trap leaves the module in an unknown state, so it is not used again.
            EventListener::new(&worker, "error", |_| end()),
        ];
        Some(Second { worker, asked: 0, waiting: BTreeMap::new(), _listeners: listeners })
    }

    fn send(&mut self, ask: &Ask, bytes: &[Vec<u8>]) -> Option<oneshot::Receiver<Result<Answered, Trouble>>> {
        let text = serde_json::to_string(ask).ok()?;
        let arrays: Array = bytes.iter().map(|bytes| Uint8Array::from(bytes.as_slice())).collect();
        let buffers: Array = arrays.iter().map(|array| array.unchecked_into::<Uint8Array>().buffer()).collect();
        self.asked += 1;
        let message = Array::of3(&self.asked.into(), &text.into(), &arrays);
        self.worker.post_message_with_transfer(&message, &buffers).ok()?;
        let (sender, receiver) = oneshot::channel();
        self.waiting.insert(self.asked, sender);
        Some(receiver)
    }

    fn receive(&mut self, message: &Array) {
        let number = message.get(0).as_f64().unwrap_or_default() as u32;
        let Some(sender) = self.waiting.remove(&number) else { return };
        let made: Array = message.get(2).unchecked_into();
        let bytes = made.iter().map(|part: JsValue| part.unchecked_into::<Uint8Array>().to_vec()).collect();
        let reply = message.get(1).as_string().and_then(|text| serde_json::from_str(&text).ok());
        let answer = match reply {
            Some(Reply::Done(answer)) => Ok((answer, bytes)),
            Some(Reply::Refused(why)) => Err(Trouble::Refused(why)),
            None => Err(Trouble::Ended),
        };
        // Whoever asked may be gone with its screen.
        let _ = sender.send(answer);
    }
}

impl Drop for Second {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    /// Stands in for the second module: answers one kind of job, refuses another, and breaks at a third.
    const SCRIPT: &str = "
        onmessage = ({ data: [number, text, bytes] }) => {
            if (text === '\"strength\"') {
                postMessage([number, '{\"done\":\"done\"}', [bytes[0].map(byte => byte + 1)]]);
            } else if (text.includes('qr_make')) {
                postMessage([number, '{\"refused\":\"too long\"}', []]);
            } else {
                throw new Error('broken');
            }
        };
    ";

    #[wasm_bindgen_test]
    async fn jobs_are_answered_refused_and_survive_a_module_that_ends() {
        assert_eq!(ask(Ask::Strength, Vec::new()).await, Err(Trouble::Absent));
        let parts = Array::of1(&SCRIPT.into());
        let options = web_sys::BlobPropertyBag::new();
        options.set_type("text/javascript");
        let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).expect("a file");
        let address = web_sys::Url::create_object_url_with_blob(&blob).expect("an address");
        let meta = document().create_element("meta").expect("an element");
        meta.set_attribute("name", "sidelight-second").expect("is set");
        meta.set_attribute("content", &address).expect("is set");
        document().document_element().expect("a root").append_child(&meta).expect("is placed");

        let make = || Ask::QrMake { text: String::new() };
        let answered = ask(Ask::Strength, vec![vec![1, 2]]).await;
        assert_eq!(answered, Ok((Answer::Done, vec![vec![2, 3]])));
        assert_eq!(ask(make(), Vec::new()).await, Err(Trouble::Refused("too long".to_owned())));
        let broken = ask(Ask::SecretRead { slot: 0 }, Vec::new());
        assert_eq!(broken.await, Err(Trouble::Ended));
        assert_eq!(ask(make(), Vec::new()).await, Err(Trouble::Refused("too long".to_owned())));
        end();
        meta.remove();
    }
}
