//! A drawing made in core, shown as it is printed and exported.

use leptos::prelude::*;
use sidelight_core::export::svg;
use sidelight_core::figure::Figure;

#[component]
pub fn FigureView(figure: Figure) -> impl IntoView {
    // The markup is made by core, which escapes every text in it; no user text reaches this as markup.
    view! {
        <figure class="figure" data-test="figure">
            <figcaption>{figure.title.clone()}</figcaption>
            <div inner_html=svg::render(&figure)></div>
        </figure>
    }
}
