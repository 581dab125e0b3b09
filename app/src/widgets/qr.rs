//! A text as a code for a camera, with what it says beside it for whoever cannot see it.

use leptos::prelude::*;
use sidelight_worker::{Answer, Ask};

use crate::platform::worker;

#[component]
pub fn Qr(
    /// What the code says.
    text: String,
    /// What it is, for a screen reader.
    label: &'static str,
    /// Told how large it became: its version and its modules a side.
    #[prop(optional)]
    drawn_as: Option<Callback<(u8, u32)>>,
) -> impl IntoView {
    let drawn = RwSignal::new(None::<Result<String, String>>);
    leptos::task::spawn_local(async move {
        let made = worker::ask(Ask::QrMake { text }, Vec::new()).await;
        if drawn.is_disposed() {
            return;
        }
        drawn.set(Some(match made {
            Ok((Answer::Qr(code), _)) => {
                if let Some(told) = drawn_as {
                    told.run((code.version, code.modules));
                }
                Ok(code.svg)
            }
            Ok(_) => Err(say!("The code could not be drawn.").to_string()),
            Err(trouble) => Err(trouble.to_string()),
        }));
    });
    // The drawing is made by the second module from squares alone; no text reaches this as markup.
    move || match drawn.get() {
        None => view! { <p class="soft">{say!("Drawing the code…")}</p> }.into_any(),
        Some(Ok(svg)) => {
            view! { <div class="qr" role="img" aria-label=label data-test="qr" inner_html=svg></div> }.into_any()
        }
        Some(Err(why)) => view! { <p class="refused" role="alert">{why}</p> }.into_any(),
    }
}
