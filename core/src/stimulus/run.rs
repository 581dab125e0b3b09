//! What the display really showed of a run: frames drawn and frames dropped, and whether the run can be trusted.

use super::screen::{Calibration, Scale, Screen};
use crate::evidence::number;
use crate::quantity::Centimetres;

/// A run with a larger share of dropped frames says so (design choice).
pub const MOST_DROPPED: f64 = 0.05;

/// Below this many frames a second a warning is due: phones that save power draw 30 on purpose
/// (bugs.webkit.org/show_bug.cgi?id=215745).
pub const SLOW: f64 = 50.0;

/// Fewer intervals than these do not show how often the display draws.
const FEWEST: usize = 30;

/// How often the display drew, from the times of its frames.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frames {
    /// Frames a second the display draws when nothing is late; none when too few were drawn to tell.
    pub a_second: Option<f64>,
    /// Frames drawn.
    pub drawn: u32,
    /// Frames that should have been drawn between the first and the last, and were not.
    pub dropped: u32,
}

impl Frames {
    /// Counts them from the times the browser gave each frame, in milliseconds.
    ///
    /// The usual interval is the median of all, which late frames do not shift; what takes one and a half of it or more
    /// has dropped the frames that would have fitted in. Times that stand still or run back are no frames.
    #[must_use]
    pub fn from_times(milliseconds: &[f64]) -> Frames {
        let mut times = Vec::new();
        for time in milliseconds.iter().copied().filter(|time| time.is_finite()) {
            if times.last().is_none_or(|last| time > *last) {
                times.push(time);
            }
        }
        let intervals: Vec<f64> = times.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let drawn = times.len() as u32;
        let Some(usual) = median(&intervals).filter(|_| intervals.len() >= FEWEST) else {
            return Frames { a_second: None, drawn, dropped: 0 };
        };
        let missing = |interval: &f64| (interval / usual).round().max(1.0) as u32 - 1;
        Frames { a_second: Some(1000.0 / usual), drawn, dropped: intervals.iter().map(missing).sum() }
    }

    /// The share of frames dropped, from 0 to 1; none when too few were drawn to tell.
    #[must_use]
    pub fn dropped_share(&self) -> Option<f64> {
        self.a_second?;
        Some(f64::from(self.dropped) / (f64::from(self.drawn) + f64::from(self.dropped)))
    }

    /// Whether more than [`MOST_DROPPED`] were dropped.
    #[must_use]
    pub fn too_many_dropped(&self) -> bool {
        self.dropped_share().is_some_and(|share| share > MOST_DROPPED)
    }
}

/// What is kept of a run beside what was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// The scale it was drawn with.
    pub scale: Scale,
    /// The distance that was said.
    pub distance: Centimetres,
    /// Device pixels in a CSS pixel at the start.
    pub pixel_ratio: f64,
    /// Pinch zoom at the start.
    pub zoom: f64,
    /// Its frames.
    pub frames: Frames,
    /// Whether pixel ratio and zoom were at the end what they were at the start, so that sizes and speeds hold.
    pub held: bool,
}

impl Run {
    /// The summary of a run that began with this calibration on this screen, and ended with this pixel ratio and zoom.
    #[must_use]
    pub fn new(calibration: &Calibration, screen: &Screen, ended: (f64, f64), frames: Frames) -> Run {
        let held = calibration.scale_at(ended.0, ended.1) == Some(screen.scale());
        let Calibration { pixel_ratio, zoom, .. } = *calibration;
        Run { scale: screen.scale(), distance: screen.distance(), pixel_ratio, zoom, frames, held }
    }

    /// What a reader of its results must know, as sentences; empty when nothing went wrong.
    #[must_use]
    pub fn remarks(&self) -> Vec<String> {
        remarks(self.held, &self.frames)
    }
}

/// What a reader of the results of a run must know, as sentences: whether its scale held to the end, and its frames.
#[must_use]
pub fn remarks(held: bool, frames: &Frames) -> Vec<String> {
    let mut remarks = Vec::new();
    if !held {
        remarks.push(
            "The page was zoomed or moved to another display during the run: its sizes and speeds do not hold."
                .to_string(),
        );
    }
    if let Some(share) = frames.dropped_share().filter(|_| frames.too_many_dropped()) {
        remarks.push(format!(
            "The display dropped {} % of its frames, more than {} %: the movement was not smooth, and catch-ups seen \
             may come from it.",
            number((1000.0 * share).round() / 10.0),
            number(100.0 * MOST_DROPPED)
        ));
    }
    match frames.a_second {
        None => remarks.push("Too few frames were drawn to tell whether the movement was smooth.".to_string()),
        Some(rate) if rate < SLOW => remarks.push(format!(
            "The display draws only {} times a second, as phones do that save power: the movement is coarser.",
            rate.round()
        )),
        Some(_) => {}
    }
    remarks
}

fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted.len() / 2;
    let upper = *sorted.get(middle)?;
    if sorted.len() % 2 == 1 {
        return Some(upper);
    }
    Some(f64::midpoint(*sorted.get(middle - 1)?, upper))
}

#[cfg(test)]
mod tests {
    use super::super::screen::{CardEdge, Px};
    use super::*;

    /// Times of a display that draws every `interval` milliseconds, without the frames named.
    fn times(interval: f64, frames: u32, without: &[u32]) -> Vec<f64> {
        (0..frames).filter(|frame| !without.contains(frame)).map(|frame| 1000.0 + f64::from(frame) * interval).collect()
    }

    fn run(frames: Frames, ended: (f64, f64)) -> Run {
        let scale = Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone");
        let calibration = Calibration { scale, pixel_ratio: 3.0, zoom: 1.0 };
        let screen = Screen::new(scale, Px(844.0), Px(390.0), Centimetres(40.0)).expect("a phone");
        Run::new(&calibration, &screen, ended, frames)
    }

    #[test]
    fn dropped_frames_are_counted() {
        let frames = Frames::from_times(&times(1000.0 / 60.0, 600, &[50, 51, 52, 300, 400]));
        assert!((frames.a_second.expect("enough") - 60.0).abs() < 1e-6);
        assert_eq!((frames.drawn, frames.dropped), (595, 5));
        assert!(!frames.too_many_dropped());
        assert!(run(frames, (3.0, 1.0)).remarks().is_empty());
    }

    /// 30 of 600 are five in a hundred and pass; 31 do not.
    #[test]
    fn more_than_five_of_a_hundred_are_told() {
        let every_twentieth = |more: &[u32]| {
            let without: Vec<u32> = (0..30).map(|n| 10 + 19 * n).chain(more.iter().copied()).collect();
            Frames::from_times(&times(1000.0 / 60.0, 600, &without))
        };
        let (at, beyond) = (every_twentieth(&[]), every_twentieth(&[590]));
        assert_eq!((at.dropped, beyond.dropped), (30, 31));
        assert!(!at.too_many_dropped() && beyond.too_many_dropped());
        let said = run(beyond, (3.0, 1.0)).remarks();
        assert!(said.len() == 1 && said[0].contains("5.2 % of its frames"), "{said:?}");
    }

    #[test]
    fn times_rounded_to_a_millisecond_drop_nothing() {
        let rounded: Vec<f64> = times(1000.0 / 60.0, 600, &[]).iter().map(|time| time.round()).collect();
        assert_eq!(Frames::from_times(&rounded).dropped, 0);
    }

    #[test]
    fn a_display_of_thirty_frames_is_told_and_drops_nothing() {
        let frames = Frames::from_times(&times(1000.0 / 30.0, 300, &[]));
        assert_eq!(frames.dropped, 0);
        let said = run(frames, (3.0, 1.0)).remarks();
        assert!(said.len() == 1 && said[0].contains("only 30 times"), "{said:?}");
    }

    #[test]
    fn zoom_during_a_run_ends_its_scale() {
        let frames = Frames::from_times(&times(1000.0 / 60.0, 600, &[]));
        for ended in [(2.0, 1.0), (3.0, 1.5)] {
            let run = run(frames, ended);
            assert!(!run.held && run.remarks()[0].ends_with("its sizes and speeds do not hold."), "{ended:?}");
        }
    }

    #[test]
    fn too_few_frames_say_nothing_about_smoothness() {
        for times in [vec![], vec![5.0], vec![5.0; 100], vec![f64::NAN; 100], times(16.0, 30, &[])] {
            let frames = Frames::from_times(&times);
            assert_eq!((frames.a_second, frames.dropped_share()), (None, None), "{times:?}");
            assert!(run(frames, (3.0, 1.0)).remarks()[0].contains("Too few"));
        }
    }
}
