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

#[cfg(test)]
mod tests {
    use super::{Now, monotonic, now};
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_offset_is_what_local_time_is_ahead_of_utc() {
        let Now(unix_ms, offset) = now();
        let date = js_sys::Date::new(&(unix_ms as f64).into());
        // Local wall time read as if it were UTC, minus the true time, is the offset by definition.
        let wall = js_sys::Date::utc(f64::from(date.get_full_year()), f64::from(date.get_month()))
            + f64::from(date.get_date() - 1) * 86_400_000.0
            + f64::from(date.get_hours()) * 3_600_000.0
            + f64::from(date.get_minutes()) * 60_000.0;
        let minutes = (wall - (unix_ms as f64 / 60_000.0).floor() * 60_000.0) / 60_000.0;
        assert!((minutes - f64::from(offset)).abs() < 1e-9, "{minutes} against {offset}");
    }

    #[wasm_bindgen_test]
    fn the_steady_clock_never_goes_back() {
        let readings: Vec<f64> = (0..10_000).map(|_| monotonic()).collect();
        assert!(readings.is_sorted());
        assert!(readings[0] > 0.0);
    }
}
