//! The code another phone reads from this screen.

use leptos::prelude::*;
use sidelight_core::sheet::{HIGHEST_VERSION, qr_version};

use crate::widgets::qr::Qr;

#[component]
pub fn Code(link: String) -> impl IntoView {
    let drawn = RwSignal::new(None::<(u8, u32)>);
    let told = Callback::new(move |as_| drawn.set(Some(as_)));
    let size = move || {
        drawn.get().map(|(version, side)| {
            say!("Version {version} of {most} at most, {side} squares a side.", version, most = HIGHEST_VERSION, side)
        })
    };
    let code = match qr_version(&link) {
        Ok(_) => view! {
            <Qr text=link label=say!("Code with the family's sheet") drawn_as=told />
            <p>{say!("Hold the other phone about 30 cm away, with its camera on. Make this screen bright.")}</p>
            <p class="soft" data-test="qr-size">{size}</p>
        }
        .into_any(),
        Err(too_large) => view! { <p class="notice" data-test="too-large">{too_large.to_string()}</p> }.into_any(),
    };
    view! {
        <section class="code no-print">
            <h2>{say!("On their phone, now")}</h2>
            {code}
        </section>
    }
}
