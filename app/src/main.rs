//! Starts the app: reads the records, takes the writer's place among the tabs, mounts the screens.

#![allow(clippy::needless_pass_by_value, reason = "components own their properties")]

#[macro_use]
mod words;

mod app;
mod lock;
mod memo;
mod platform;
mod route;
mod screens;
mod state;
mod storage;
mod widgets;

fn main() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(app::Root);
}
