//! A long list, a page at a time.

use crate::widgets::show::Show;
use leptos::prelude::*;

/// Rows shown at first, and added by each "show more".
pub const PAGE: usize = 50;

/// Shows that there is more, and shows it when it is asked for.
#[component]
pub fn More(shown: RwSignal<usize>, total: Signal<usize>) -> impl IntoView {
    view! {
        <Show when=move || { total.get() > shown.get() }>
            <button type="button" class="btn quiet" data-test="more" on:click=move |_| shown.update(|shown| *shown += PAGE)>
                {move || say!("Show {count} more", count = PAGE.min(total.get().saturating_sub(shown.get())))}
            </button>
        </Show>
    }
}
