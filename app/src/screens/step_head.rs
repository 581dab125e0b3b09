//! The head of a step: its title, the person, the way back.

use leptos::prelude::*;
use sidelight_core::flow::{self, Step};

use crate::memo::memo;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::words;

#[component]
pub fn StepHead(step: Step) -> impl IntoView {
    let app = App::get();
    let progress = memo(move |_| app.with_context(|context| flow::progress(context, &step)).flatten());
    let person = memo(move |_| app.person().map(|person| person.label).unwrap_or_default());
    let place = move || match progress.get() {
        Some((at, of)) => format!("{} · {at} / {of}", person.get()),
        None => person.get(),
    };
    let share = move || progress.get().map(|(at, of)| (at as f64 - 1.0) / of as f64);
    let back = Callback::new(move |()| {
        let before = untrack(|| app.with_context(|context| flow::previous(context, &step)).flatten());
        match before {
            Some(before) => app.go(before),
            None => app.show(Route::Home),
        }
    });
    view! {
        <Head
            title=words::of(step.title()).to_string()
            place=Signal::derive(place)
            progress=Signal::derive(share)
            back=(say!("Back to the step before"), back)
            leave=true
        />
    }
}
