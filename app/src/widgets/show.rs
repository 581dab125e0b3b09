//! What is on the page only while something is so, as one piece of code for all places: the framework's own is made anew
//! for each, about a kilobyte every time.

use leptos::children::ViewFn;
use leptos::prelude::*;

/// The children while this is so, else the fallback. They are drawn anew only when the answer changes.
#[component]
pub fn Show(
    when: impl Fn() -> bool + Send + Sync + 'static,
    #[prop(optional, into)] fallback: ViewFn,
    children: ChildrenFn,
) -> AnyView {
    show(Box::new(when), fallback, children)
}

fn show(when: Box<dyn Fn() -> bool + Send + Sync>, fallback: ViewFn, children: ChildrenFn) -> AnyView {
    let when = ArcMemo::new(move |_| when());
    (move || if when.get() { children() } else { fallback.run() }).into_any()
}
