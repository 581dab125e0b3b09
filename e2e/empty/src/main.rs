//! The least a Leptos app can be: one button that counts.

use leptos::prelude::*;

fn main() {
    leptos::mount::mount_to_body(|| {
        let taps = RwSignal::new(0);
        view! { <button data-test="start" on:click=move |_| taps.update(|taps| *taps += 1)>{move || taps.get()}</button> }
    });
}
