//! Locks by itself: when nothing was touched for a while, or when the page was out of sight for a while; never in the
//! middle of a task.

use std::cell::Cell;
use std::rc::Rc;

use gloo_events::{EventListener, EventListenerOptions};
use gloo_timers::callback::Interval;
use leptos::prelude::*;
use web_sys::VisibilityState;

use super::Lock;
use crate::platform::clock::{self, Now};
use crate::state::App;

const LOOK_EVERY_MS: u32 = 1_000;

/// What counts as being used. A pointer that merely moves over a lying phone does not.
const SIGNS: [&str; 4] = ["pointerdown", "keydown", "input", "wheel"];

/// Watches for as long as it lives.
pub struct Watch {
    _listeners: Vec<EventListener>,
    _interval: Interval,
}

struct Times {
    used: Cell<i64>,
    hidden: Cell<Option<i64>>,
}

/// Begins to watch.
#[must_use]
pub fn start(lock: Lock, app: App) -> Watch {
    let times = Rc::new(Times { used: Cell::new(now_ms()), hidden: Cell::new(None) });
    let mut listeners: Vec<EventListener> = SIGNS.iter().map(|sign| notice(sign, &times)).collect();
    let seen = Rc::clone(&times);
    listeners.push(EventListener::new(&document(), "visibilitychange", move |_| {
        if document().visibility_state() == VisibilityState::Hidden {
            seen.hidden.set(Some(now_ms()));
        } else {
            look(&seen, lock, app);
            seen.hidden.set(None);
        }
    }));
    let interval = Interval::new(LOOK_EVERY_MS, move || look(&times, lock, app));
    Watch { _listeners: listeners, _interval: interval }
}

fn notice(sign: &'static str, times: &Rc<Times>) -> EventListener {
    let times = Rc::clone(times);
    let options = EventListenerOptions::run_in_capture_phase();
    EventListener::new_with_options(&document(), sign, options, move |_| times.used.set(now_ms()))
}

fn look(times: &Times, lock: Lock, app: App) {
    let now = now_ms();
    let (idle, hidden) = app.settings.with_untracked(|settings| (settings.lock_idle_s, settings.lock_hidden_s));
    let over = |since: i64, seconds: u32| now.saturating_sub(since) >= i64::from(seconds) * 1_000;
    // A clock that was set back begins the time anew.
    times.used.set(times.used.get().min(now));
    let due = over(times.used.get(), idle) || times.hidden.get().is_some_and(|since| over(since, hidden));
    if due && !app.in_mid_task() && lock.working.with_untracked(Option::is_none) {
        // When something cannot be written it stays open, and the next look tries again.
        leptos::task::spawn_local(async move {
            let _ = lock.lock().await;
        });
    }
}

fn now_ms() -> i64 {
    let Now(ms, _) = clock::now();
    ms
}
