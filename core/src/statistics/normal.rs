//! The standard normal distribution: its quantile and its tail.

use super::outside;

/// The quantile of the standard normal distribution: the z with Φ(z) = `p`, without a unit, accurate to about 1 part
/// in 10¹⁶.
///
/// Source: Wichura 1988, Applied Statistics 37:477 (algorithm AS 241, PPND16).
/// `None` unless `p` is strictly between 0 and 1.
///
/// ```
/// let z = sidelight_core::statistics::normal::quantile(0.975).unwrap();
/// assert!((z - 1.959963984540054).abs() < 1e-12);
/// ```
pub fn quantile(p: f64) -> Option<f64> {
    if !(p > 0.0 && p < 1.0) {
        return None;
    }
    let from_middle = p - 0.5;
    if from_middle.abs() <= 0.425 {
        let r = 0.180625 - from_middle * from_middle;
        return Some(from_middle * ratio(&MIDDLE, r));
    }
    let r = (-p.min(1.0 - p).ln()).sqrt();
    let size = if r <= 5.0 { ratio(&TAIL, r - 1.6) } else { ratio(&FAR_TAIL, r - 5.0) };
    Some(size.copysign(from_middle))
}

/// The critical value of a two-sided interval: z with P(|Z| <= z) = `confidence`, for example 1.96 for 0.95.
///
/// `None` unless `confidence` is strictly between 0 and 1.
pub fn critical(confidence: f64) -> Option<f64> {
    quantile(1.0 - outside(confidence)? / 2.0)
}

/// The two-sided tail probability P(|Z| >= |z|) of the standard normal distribution.
///
/// Near the middle the series of Marsaglia 2004 (Journal of Statistical Software 11(4)),
/// Φ(z) - 1/2 = φ(z) (z + z³/3 + z⁵/(3·5) + ...); beyond 3 the continued fraction of Laplace,
/// φ(z) / (z + 1/(z + 2/(z + 3/...))) (Abramowitz & Stegun 1964, 26.2.14), so that small tails keep their digits.
pub fn two_sided_p(z: f64) -> f64 {
    let z = z.abs();
    let density = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
    if z > 3.0 {
        let fraction = (1..=200).rev().fold(z, |rest, step| z + f64::from(step) / rest);
        return 2.0 * density / fraction;
    }
    let (mut term, mut sum, mut odd) = (z, z, 1.0);
    while term > sum * f64::EPSILON / 4.0 {
        odd += 2.0;
        term *= z * z / odd;
        sum += term;
    }
    1.0 - 2.0 * density * sum
}

/// A ratio of two polynomials of degree seven, lowest power first.
type Rational = ([f64; 8], [f64; 8]);

fn ratio((numerator, denominator): &Rational, x: f64) -> f64 {
    let polynomial = |coefficients: &[f64; 8]| coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c);
    polynomial(numerator) / polynomial(denominator)
}

// The coefficients of Wichura 1988, written as the nearest binary64 number.
const MIDDLE: Rational = (
    [
        3.3871328727963665,
        133.14166789178438,
        1971.5909503065513,
        13731.69376550946,
        45921.95393154987,
        67265.7709270087,
        33430.57558358813,
        2509.0809287301227,
    ],
    [
        1.0,
        42.31333070160091,
        687.1870074920579,
        5394.196021424751,
        21213.794301586597,
        39307.89580009271,
        28729.085735721943,
        5226.495278852854,
    ],
);
const TAIL: Rational = (
    [
        1.4234371107496835,
        4.630337846156546,
        5.769497221460691,
        3.6478483247632045,
        1.2704582524523684,
        0.2417807251774506,
        0.022723844989269184,
        0.0007745450142783414,
    ],
    [
        1.0,
        2.053191626637759,
        1.6763848301838038,
        0.6897673349851,
        0.14810397642748008,
        0.015198666563616457,
        0.0005475938084995345,
        1.0507500716444169e-09,
    ],
);
const FAR_TAIL: Rational = (
    [
        6.657904643501103,
        5.463784911164114,
        1.7848265399172913,
        0.29656057182850487,
        0.026532189526576124,
        0.0012426609473880784,
        2.7115555687434876e-05,
        2.0103343992922881e-07,
    ],
    [
        1.0,
        0.599832206555888,
        0.1369298809227358,
        0.014875361290850615,
        0.0007868691311456133,
        1.8463183175100548e-05,
        1.421511758316446e-07,
        2.0442631033899397e-15,
    ],
);

#[cfg(test)]
mod tests {
    use super::super::assert_close;
    use super::*;

    #[test]
    fn quantiles_agree_with_the_published_check_values() {
        // Wichura 1988, test values of AS 241.
        assert_close(quantile(0.25).expect("inside"), -0.674_489_750_196_081_7, 1e-15);
        assert_close(quantile(0.001).expect("inside"), -3.090_232_306_167_814, 1e-14);
        assert_close(quantile(1e-20).expect("inside"), -9.262_340_089_798_408, 1e-13);
    }

    #[test]
    fn tail_and_quantile_are_inverse() {
        for confidence in [0.001, 0.1, 0.5, 0.9, 0.95, 0.99, 0.999, 0.999_999] {
            let z = critical(confidence).expect("inside");
            assert_close(two_sided_p(z), 1.0 - confidence, 1e-15);
            assert_close(two_sided_p(-z), 1.0 - confidence, 1e-15);
        }
    }

    #[test]
    fn the_two_formulas_of_the_tail_meet() {
        let (below, above) = (two_sided_p(3.0), two_sided_p(3.0 + 1e-13));
        assert_close(above / below, 1.0, 1e-11);
    }

    #[test]
    fn impossible_levels_have_no_quantile() {
        for level in [0.0, 1.0, -0.1, 1.1, f64::NAN] {
            assert_eq!((quantile(level), critical(level)), (None, None));
        }
    }
}
