//! The time of day and a steady clock, which `core` takes as arguments.
//!
//! Limits: the time of day is whatever the device is set to, and may jump. The steady clock may stand
//! still while a device sleeps, and browsers coarsen it to between 0.005 and 1 ms.

use leptos::prelude::window;

/// A moment as the device tells it: milliseconds since 1970-01-01T00:00:00Z, and by how many minutes
/// local time is ahead of UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Now(pub i64, pub i16);

/// The present moment.
#[must_use]
pub fn now() -> Now {
    let date = js_sys::Date::new_0();
    // The browser counts minutes that local time is behind UTC.
    Now(date.get_time() as i64, -(date.get_timezone_offset() as i16))
}

/// Milliseconds of a clock that never goes back, from an arbitrary start.
#[must_use]
pub fn monotonic() -> f64 {
    window().performance().map_or_else(js_sys::Date::now, |clock| clock.now())
}
