//! Reads a code with the camera, which is asked for on a tap and stops as soon as a code was read or the screen is left.

use std::cell::RefCell;
use std::rc::Rc;

use gloo_timers::future::TimeoutFuture;
use leptos::html::Video;
use leptos::prelude::*;
use sidelight_worker::{Answer, Ask};

use crate::platform::camera::Camera;
use crate::platform::worker;
use crate::widgets::show::Show;

/// Between two pictures, so that reading them does not warm the phone.
const PAUSE_MS: u32 = 150;

type Running = Rc<RefCell<Option<Camera>>>;

#[component]
pub fn Scan(
    /// What the button says.
    label: &'static str,
    /// Called with the text of the first code.
    on_text: Callback<String>,
) -> impl IntoView {
    let video = NodeRef::<Video>::new();
    let wanted = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let running = StoredValue::new_local(Running::default());
    let stop = move || {
        running.with_value(|running| running.replace(None));
        wanted.try_set(false);
    };
    on_cleanup(stop);
    Effect::new(move |_| {
        let Some(video) = video.get() else { return };
        if !wanted.get_untracked() {
            return;
        }
        let running = running.get_value();
        leptos::task::spawn_local(async move {
            match Camera::start(video).await {
                // The screen may have been left while the browser asked.
                Ok(camera) if wanted.try_get_untracked() == Some(true) => {
                    running.replace(Some(camera));
                }
                Ok(_) => return,
                Err(why) => {
                    wanted.try_set(false);
                    refused.try_set(Some(why.to_string()));
                    return;
                }
            }
            match read(&running).await {
                Ok(Some(text)) => {
                    running.replace(None);
                    wanted.try_set(false);
                    on_text.try_run(text);
                }
                Ok(None) => {}
                Err(why) => {
                    running.replace(None);
                    wanted.try_set(false);
                    refused.try_set(Some(why));
                }
            }
        });
    });
    let begin = move |_| {
        refused.set(None);
        wanted.set(true);
    };
    view! {
        <div class="scan">
            <Show
                when=move || wanted.get()
                fallback=move || view! { <button type="button" class="btn" data-test="scan" on:click=begin>{label}</button> }
            >
                <video node_ref=video playsinline=true muted=true aria-label=say!("What the camera sees") data-test="camera"></video>
                <p class="soft">{say!("Hold the code so that it fills half of the picture.")}</p>
                <button type="button" class="btn" data-test="scan-stop" on:click=move |_| stop()>{say!("Stop the camera")}</button>
            </Show>
            <p class="refused" role="alert" data-test="scan-refused">{move || refused.get()}</p>
        </div>
    }
}

/// Looks at one picture after the other, until a code was read or the camera was stopped.
async fn read(running: &Running) -> Result<Option<String>, String> {
    loop {
        TimeoutFuture::new(PAUSE_MS).await;
        let Some(picture) = running.borrow().as_ref().map(Camera::grey) else { return Ok(None) };
        let Some((width, height, grey)) = picture else { continue };
        let answer = worker::ask(Ask::QrRead { width, height }, vec![grey]).await;
        if running.borrow().is_none() {
            return Ok(None);
        }
        match answer {
            Ok((Answer::QrText(Some(text)), _)) => return Ok(Some(text)),
            Ok(_) => {}
            Err(trouble) => return Err(trouble.to_string()),
        }
    }
}
