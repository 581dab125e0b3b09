//! The worker that serves the app without a network, and new versions of it.
//!
//! Limits: absent on pages that are not secure and in some private windows; the app then needs its server. A new version is
//! only looked for when the page is loaded with a network, and takes over only when told to.

use std::cell::OnceCell;

use gloo_events::EventListener;
use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{ServiceWorkerContainer, ServiceWorkerRegistration};

thread_local! {
    static STATE: OnceCell<State> = const { OnceCell::new() };
}

#[derive(Clone)]
struct State {
    ready: ArcRwSignal<bool>,
    waiting: ArcRwSignal<Option<SendWrapped>>,
}

type SendWrapped = send_wrapper::SendWrapper<ServiceWorkerRegistration>;

/// Whether the app works without a network from now on.
#[must_use]
pub fn ready() -> ArcReadSignal<bool> {
    state().ready.read_only()
}

/// Whether a new version waits.
#[must_use]
pub fn update_waiting() -> Signal<bool> {
    let waiting = state().waiting;
    Signal::derive(move || waiting.with(Option::is_some))
}

/// Lets the new version take over, and loads the page again once it has.
pub fn activate_update() {
    let Some(registration) = state().waiting.get_untracked() else { return };
    let Some(worker) = registration.waiting() else { return };
    if let Some(container) = container() {
        EventListener::once(&container, "controllerchange", |_| {
            let _ = window().location().reload();
        })
        .forget();
    }
    let message = js_sys::Object::new();
    let _ = js_sys::Reflect::set(&message, &"type".into(), &"activate".into());
    let _ = worker.post_message(&message);
}

/// Registers the worker; to be called once.
pub fn register() {
    let Some(container) = container() else { return };
    spawn_local(async move {
        let Ok(registered) = JsFuture::from(container.register("./sw.js")).await else { return };
        let registration: ServiceWorkerRegistration = registered.unchecked_into();
        watch_updates(&registration);
        if let Ok(ready) = container.ready()
            && JsFuture::from(ready).await.is_ok()
        {
            state().ready.set(true);
        }
    });
}

fn watch_updates(registration: &ServiceWorkerRegistration) {
    offer_waiting(registration);
    // The browser looks for a new version as soon as the page is asked for, so one may be on its way in already.
    watch_installing(registration);
    let found = registration.clone();
    EventListener::new(registration, "updatefound", move |_| watch_installing(&found)).forget();
}

fn watch_installing(registration: &ServiceWorkerRegistration) {
    let Some(installing) = registration.installing() else { return };
    let registration = registration.clone();
    EventListener::new(&installing, "statechange", move |_| offer_waiting(&registration)).forget();
}

/// A waiting worker is a new version only when another one serves this page already.
fn offer_waiting(registration: &ServiceWorkerRegistration) {
    let served = container().is_some_and(|container| container.controller().is_some());
    if served && registration.waiting().is_some() {
        state().waiting.set(Some(SendWrapped::new(registration.clone())));
    }
}

fn container() -> Option<ServiceWorkerContainer> {
    let navigator = window().navigator();
    let there = js_sys::Reflect::get(&navigator, &"serviceWorker".into()).is_ok_and(|it| it.is_object());
    there.then(|| navigator.service_worker())
}

fn state() -> State {
    STATE.with(|state| {
        state.get_or_init(|| State { ready: ArcRwSignal::new(false), waiting: ArcRwSignal::new(None) }).clone()
    })
}
