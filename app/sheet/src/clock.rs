//! The time, the calendar day where the phone is, and the steady clock.

use js_sys::Date;
use sidelight_core::family::Now;

const MS_A_MINUTE: f64 = 60_000.0;
const MS_A_DAY: f64 = 86_400_000.0;

/// When it is.
pub fn now() -> Now {
    let date = Date::new_0();
    // The calendar day as the phone shows it, laid on a calendar without time zones, so that no day has 23 hours.
    let day = Date::utc(f64::from(date.get_full_year()), f64::from(date.get_month())) / MS_A_DAY
        + f64::from(date.get_date())
        - 1.0;
    // Whole numbers far below what a float holds exactly.
    #[allow(clippy::cast_possible_truncation)]
    Now { day: day.floor() as i64, minute: (Date::now() / MS_A_MINUTE).floor() as i64 }
}

/// Milliseconds of a clock that is never set.
pub fn steady() -> f64 {
    web_sys::window().and_then(|window| window.performance()).map_or_else(Date::now, |clock| clock.now())
}
