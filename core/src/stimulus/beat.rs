//! The beat of head turns: the time of each beat from its number alone, so that no error grows while it runs.

use crate::quantity::{Quantity, Refused};

/// 180 and 50 a minute are the paces in use (from memory of Mucha et al. 2014); the bounds leave room.
pub static PACE: Quantity =
    Quantity { name: "beats a minute", unit: "", min: 20.0, max: 240.0, step: 5.0, decimals: 0 };

/// A steady beat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beat {
    per_minute: f64,
}

impl Beat {
    /// A beat of so many a minute.
    ///
    /// # Errors
    /// [`Refused`] outside the bounds of [`PACE`].
    pub fn new(per_minute: f64) -> Result<Beat, Refused> {
        Ok(Beat { per_minute: PACE.check(per_minute)? })
    }

    /// Beats a minute.
    #[must_use]
    pub fn per_minute(self) -> f64 {
        self.per_minute
    }

    /// Seconds from the first beat to beat number `n`, counted from 1: (n - 1) 60 / pace, by one division.
    #[must_use]
    pub fn seconds(self, n: u32) -> f64 {
        60.0 * f64::from(n.saturating_sub(1)) / self.per_minute
    }

    /// The numbers of the beats due from `from` on and before `until`, in seconds after the first beat: what is to be
    /// scheduled next on the audio clock. Windows that follow each other name each beat once.
    pub fn due(self, from: f64, until: f64) -> std::ops::Range<u32> {
        self.first_from(from)..self.first_from(until)
    }

    /// The number of the first beat at or after this time.
    fn first_from(self, seconds: f64) -> u32 {
        let about = (seconds * self.per_minute / 60.0).ceil().max(0.0) as u32 + 1;
        // Rounding may put the estimate one beat off; the beats' own times decide.
        let earliest = about.saturating_sub(1).max(1);
        (earliest..=about + 1).find(|n| self.seconds(*n) >= seconds).unwrap_or(about)
    }

    /// The smooth swing between two beats, from 1 at the odd beats to -1 at the even ones: a mark that never flashes.
    #[must_use]
    pub fn swing(self, seconds: f64) -> f64 {
        (std::f64::consts::PI * seconds * self.per_minute / 60.0).cos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn beat(per_minute: f64) -> Beat {
        Beat::new(per_minute).expect("within bounds")
    }

    /// By arithmetic: 9 × 60 / 180 and 4 × 60 / 50.
    #[test]
    fn beats_fall_where_arithmetic_puts_them() {
        assert!((beat(180.0).seconds(10) - 3.0).abs() < 1e-12);
        assert!((beat(50.0).seconds(5) - 4.8).abs() < 1e-12);
        assert_eq!(beat(180.0).seconds(1), 0.0);
    }

    /// Whole beats against a fraction of whole numbers: after ten minutes the error is that of one rounding, far under a
    /// sample of 48 kHz. Adding the interval up instead would drift, which the second half shows.
    #[test]
    fn ten_minutes_bring_no_drift() {
        for pace in [20_u32, 50, 67, 113, 180, 240] {
            let beats = 10 * pace + 1;
            let at = beat(f64::from(pace)).seconds(beats);
            assert!((at - 600.0).abs() <= f64::EPSILON * 600.0, "{pace}: {at}");
        }
        let interval = (60.0_f32 / 113.0_f32, 1130);
        let added = (0..interval.1).fold(0.0_f32, |sum, _| sum + interval.0);
        assert!((added - 600.0).abs() > 1.0 / 48_000.0, "adding up does not drift: {added}");
    }

    #[test]
    fn windows_that_follow_each_other_name_each_beat_once() {
        for pace in [20.0, 50.0, 113.0, 180.0, 239.0] {
            let beat = beat(pace);
            let named: Vec<u32> = (0..24_000)
                .flat_map(|window| beat.due(f64::from(window) * 0.025, f64::from(window + 1) * 0.025))
                .collect();
            let expected: Vec<u32> = (1..=named.len() as u32).collect();
            assert_eq!(named, expected, "{pace}");
            assert!((named.len() as f64 - 10.0 * pace).abs() <= 1.0, "{pace}: {}", named.len());
        }
    }

    #[test]
    fn the_swing_turns_at_the_beats() {
        let beat = beat(180.0);
        for (n, side) in [(1, 1.0), (2, -1.0), (3, 1.0), (1801, 1.0)] {
            assert!((beat.swing(beat.seconds(n)) - side).abs() < 1e-9, "{n}");
        }
        assert!(beat.swing(0.5 / 3.0).abs() < 1e-9);
    }

    #[test]
    fn a_pace_no_one_turns_to_is_refused() {
        for pace in [0.0, 19.0, 241.0, f64::NAN] {
            assert!(Beat::new(pace).expect_err("refused").to_string().contains("from 20 to 240"), "{pace}");
        }
    }
}
