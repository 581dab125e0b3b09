//! Student's t distribution for a whole number of degrees of freedom: its tail and its critical value.

use std::f64::consts::FRAC_2_PI;

use super::outside;

/// The two-sided tail probability P(|T| >= |t|) of Student's t with `degrees` degrees of freedom.
///
/// With cos²θ = ν/(ν + t²) the central probability is a finite sum in cos θ (Abramowitz & Stegun 1964, 26.7.3 and 26.7.4).
/// The same sum carried on without end gives 1, so far out the tail is summed directly and keeps its digits.
/// `None` without degrees of freedom or when `t` is not a number.
pub fn two_sided_p(t: f64, degrees: u32) -> Option<f64> {
    if degrees == 0 || t.is_nan() {
        return None;
    }
    if t.is_infinite() {
        return Some(0.0);
    }
    let radius = f64::from(degrees).sqrt().hypot(t);
    let sine = t.abs() / radius;
    let cosine = f64::from(degrees).sqrt() / radius;
    let odd = degrees % 2 == 1;
    let terms = Terms::new(cosine, odd);
    let (start, scale) = if odd { ((degrees - 1) / 2, FRAC_2_PI * sine) } else { (degrees / 2, sine) };
    let start = start as usize;
    // Nearer the middle the tail is large enough to be found as what the centre leaves.
    if t.abs() > 2.0 {
        let mut tail = 0.0;
        for term in terms.skip(start) {
            tail += term;
            if term <= tail * f64::EPSILON / 16.0 {
                break;
            }
        }
        return Some(scale * tail);
    }
    let angle = if odd { FRAC_2_PI * sine.atan2(cosine) } else { 0.0 };
    let centre = angle + scale * terms.take(start).sum::<f64>();
    Some((1.0 - centre).clamp(0.0, 1.0))
}

/// The critical value of a two-sided interval: the t with P(|T| <= t) = `confidence`.
///
/// Found by halving, to the last bit of [`two_sided_p`].
/// `None` without degrees of freedom or unless `confidence` is strictly between 0 and 1.
pub fn critical(confidence: f64, degrees: u32) -> Option<f64> {
    let wanted = outside(confidence)?;
    let (mut low, mut high) = (0.0, 1.0);
    while two_sided_p(high, degrees)? > wanted {
        (low, high) = (high, high * 2.0);
    }
    loop {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            return Some(middle);
        }
        if two_sided_p(middle, degrees)? > wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
}

/// The terms of the series: (1·3·5...)/(2·4·6...) cos^2k θ for even, (2·4·6...)/(3·5·7...) cos^(2k+1) θ for odd degrees.
struct Terms {
    next: f64,
    step: f64,
    square: f64,
}

impl Terms {
    fn new(cosine: f64, odd: bool) -> Self {
        let (next, step) = if odd { (cosine, 2.0) } else { (1.0, 1.0) };
        Self { next, step, square: cosine * cosine }
    }
}

impl Iterator for Terms {
    type Item = f64;

    fn next(&mut self) -> Option<f64> {
        let term = self.next;
        self.next *= self.square * self.step / (self.step + 1.0);
        self.step += 2.0;
        Some(term)
    }
}

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn critical_values_agree_with_the_printed_table() {
        // Abramowitz & Stegun 1964, table 26.10, column 0.95 (three decimals).
        for (degrees, printed) in
            [(1, 12.706), (2, 4.303), (3, 3.182), (5, 2.571), (10, 2.228), (30, 2.042), (120, 1.980)]
        {
            assert_close(critical(0.95, degrees).expect("inside"), printed, 0.000_5);
        }
    }

    #[test]
    fn one_degree_is_the_cauchy_distribution() {
        for t in [0.0, 1e-9, 0.2, 1.0, 5.0, 1e6] {
            assert_close(two_sided_p(t, 1).expect("defined"), FRAC_2_PI * (1.0_f64).atan2(t), 1e-15);
        }
    }

    #[test]
    fn many_degrees_approach_the_normal_distribution() {
        let p = two_sided_p(1.959_963_984_540_054, 100_000).expect("defined");
        assert_close(p, 0.05, 3e-6);
    }

    #[test]
    fn the_two_ways_of_summing_meet() {
        for degrees in 1..=40 {
            let below = two_sided_p(2.0 * (1.0 - 1e-13), degrees).expect("defined");
            let above = two_sided_p(2.0 * (1.0 + 1e-13), degrees).expect("defined");
            assert_close(above, below, 1e-12);
        }
    }

    #[test]
    fn nothing_without_degrees_or_level() {
        assert_eq!(two_sided_p(1.0, 0), None);
        assert_eq!(two_sided_p(f64::NAN, 3), None);
        assert_eq!(critical(1.0, 3), None);
        assert_eq!(critical(0.95, 0), None);
        assert_eq!(two_sided_p(f64::INFINITY, 3), Some(0.0));
    }
}
