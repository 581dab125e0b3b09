//! Every published figure with its source, on one page that can be taken along.

use leptos::prelude::*;
use sidelight_core::export::html;
use sidelight_core::norms;

use crate::platform::download;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::document::DocumentView;

#[component]
pub fn Norms() -> impl IntoView {
    let app = App::get();
    let page = norms::page();
    let title = page.title.clone();
    let back = Callback::new(move |()| app.show(Route::About));
    let save = move |_| {
        let said = match download::save("sidelight-ranges.html", "text/html", html::render(&norms::page()).as_bytes()) {
            Ok(()) => say!("Saved to the downloads of this device."),
            Err(_) => say!("This browser did not save the file. Print the page instead."),
        };
        app.said.set(Some(said.to_string()));
    };
    view! {
        <main class="screen" data-screen="norms">
            <Head title back=(say!("Back to how each task is done"), back) />
            <div class="body document" tabindex="0" data-test="norms">
                <DocumentView document=page fold=true />
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="html" on:click=save>{say!("Save as a page")}</button>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Home)>{say!("Done")}</button>
            </footer>
        </main>
    }
}
