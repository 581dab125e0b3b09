//! Colours as screens state them (sRGB), their light as the web's accessibility guidelines reckon it, and which two of
//! them make a flash.

use std::fmt;

/// A colour of a screen, eight bits a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Srgb {
    /// Red, coded.
    pub red: u8,
    /// Green, coded.
    pub green: u8,
    /// Blue, coded.
    pub blue: u8,
}

/// The colour as a style sheet writes it: "#59595a".
impl fmt::Display for Srgb {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

impl Srgb {
    /// Black.
    pub const BLACK: Srgb = Srgb::grey(0);
    /// White.
    pub const WHITE: Srgb = Srgb::grey(255);

    /// A colour by its channels.
    #[must_use]
    pub const fn new(red: u8, green: u8, blue: u8) -> Srgb {
        Srgb { red, green, blue }
    }

    /// A grey.
    #[must_use]
    pub const fn grey(level: u8) -> Srgb {
        Srgb::new(level, level, level)
    }

    /// Light of the three channels, each from 0 to 1 (sRGB as WCAG 2.2 has it,
    /// w3c.github.io/wcag/guidelines/relative-luminance.html).
    #[must_use]
    pub fn linear(self) -> [f64; 3] {
        [self.red, self.green, self.blue].map(|coded| {
            let part = f64::from(coded) / 255.0;
            if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        })
    }

    /// Relative luminance, 0 for black and 1 for white (WCAG 2.2, definition of relative luminance,
    /// w3c.github.io/wcag/guidelines/relative-luminance.html).
    #[must_use]
    pub fn luminance(self) -> f64 {
        let [red, green, blue] = self.linear();
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    /// R / (R + G + B); none for black. Of linear light, as working notes of the guideline read it and as is stricter
    /// (0.907 against 0.666 for #ff4040).
    #[must_use]
    pub fn red_share(self) -> Option<f64> {
        let [red, green, blue] = self.linear();
        let sum = red + green + blue;
        (sum > 0.0).then(|| red / sum)
    }

    /// Whether it counts as saturated red: a red share of 0.8 or more (WCAG 2.2, general flash and red flash thresholds).
    #[must_use]
    pub fn is_saturated_red(self) -> bool {
        self.red_share().is_some_and(|share| share >= 0.8)
    }

    /// u' and v' on the CIE 1976 UCS diagram; none for black.
    #[must_use]
    pub fn chromaticity(self) -> Option<(f64, f64)> {
        let [red, green, blue] = self.linear();
        // To CIE XYZ by the primaries and the white of sRGB (IEC 61966-2-1; from memory).
        let x = 0.4124 * red + 0.3576 * green + 0.1805 * blue;
        let y = self.luminance();
        let z = 0.0193 * red + 0.1192 * green + 0.9505 * blue;
        let sum = x + 15.0 * y + 3.0 * z;
        (sum > 0.0).then(|| (4.0 * x / sum, 9.0 * y / sum))
    }

    /// The grey that gives off as much light as these two do together, side by side.
    #[must_use]
    pub fn grey_between(self, other: Srgb) -> Srgb {
        let light = f64::midpoint(self.luminance(), other.luminance());
        let coded = if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
        Srgb::grey((coded * 255.0).round() as u8)
    }
}

/// The contrast of two colours, from 1 to 21 (WCAG 2.2, www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
#[must_use]
pub fn contrast_ratio(one: Srgb, other: Srgb) -> f64 {
    let (darker, lighter) = by_light(one, other);
    (lighter + 0.05) / (darker + 0.05)
}

/// The contrast of stripes, from 0 to 1: difference over sum of the light (Michelson).
#[must_use]
pub fn michelson(one: Srgb, other: Srgb) -> f64 {
    let (darker, lighter) = by_light(one, other);
    if lighter > 0.0 { (lighter - darker) / (lighter + darker) } else { 0.0 }
}

/// Whether there and back between these two is a general flash: luminance changes by 0.10 or more, and the darker is
/// below 0.80 (WCAG 2.2, general flash and red flash thresholds).
#[must_use]
pub fn general_flash(one: Srgb, other: Srgb) -> bool {
    let (darker, lighter) = by_light(one, other);
    lighter - darker >= 0.10 && darker < 0.80
}

/// Whether there and back between these two is a red flash: one is saturated red, and they lie more than 0.2 apart on the
/// CIE 1976 UCS diagram (WCAG 2.2, citing ISO 9241-391). Black has no place there and counts as far from red.
#[must_use]
pub fn red_flash(one: Srgb, other: Srgb) -> bool {
    let red = one.is_saturated_red() || other.is_saturated_red();
    red && match (one.chromaticity(), other.chromaticity()) {
        (Some(one), Some(other)) => (one.0 - other.0).hypot(one.1 - other.1) > 0.2,
        (Some(_), None) | (None, Some(_)) => true,
        (None, None) => false,
    }
}

/// Luminances, the darker first.
fn by_light(one: Srgb, other: Srgb) -> (f64, f64) {
    let (one, other) = (one.luminance(), other.luminance());
    (one.min(other), one.max(other))
}

#[cfg(test)]
mod tests {
    use super::*;

    const RED: Srgb = Srgb::new(255, 0, 0);

    #[track_caller]
    fn close(actual: f64, expected: f64, within: f64) {
        assert!((actual - expected).abs() <= within, "expected {expected}, found {actual}");
    }

    /// The coefficients of WCAG's definition are the luminances of the primaries; #808080 by arithmetic:
    /// ((128/255 + 0.055) / 1.055)^2.4 = 0.21586.
    #[test]
    fn luminances_of_the_guideline() {
        close(Srgb::BLACK.luminance(), 0.0, 0.0);
        close(Srgb::WHITE.luminance(), 1.0, 1e-12);
        close(RED.luminance(), 0.2126, 1e-12);
        close(Srgb::new(0, 255, 0).luminance(), 0.7152, 1e-12);
        close(Srgb::new(0, 0, 255).luminance(), 0.0722, 1e-12);
        close(Srgb::grey(0x80).luminance(), 0.21586, 5e-6);
        close(Srgb::grey(0xe8).luminance(), 0.80695, 5e-6);
        close(Srgb::grey(0x59).luminance(), 0.09990, 5e-6);
        close(Srgb::grey(0x5a).luminance(), 0.10224, 5e-6);
    }

    /// Black on white is 21:1 by the definition. #767676, the lightest grey that reaches 4.5:1 on white, is published as
    /// 4.54:1 and #777777 as 4.48:1, #ff0000 on white as 4.0:1 (common teaching of SC 1.4.3).
    #[test]
    fn published_contrast_ratios() {
        close(contrast_ratio(Srgb::BLACK, Srgb::WHITE), 21.0, 1e-9);
        close(contrast_ratio(Srgb::grey(0x76), Srgb::WHITE), 4.54, 5e-3);
        close(contrast_ratio(Srgb::WHITE, Srgb::grey(0x77)), 4.48, 5e-3);
        close(contrast_ratio(RED, Srgb::WHITE), 4.0, 5e-3);
        close(contrast_ratio(Srgb::grey(0x80), Srgb::WHITE), 3.949, 5e-4);
    }

    #[test]
    fn contrast_of_stripes() {
        close(michelson(Srgb::BLACK, Srgb::grey(0x59)), 1.0, 1e-12);
        close(michelson(Srgb::WHITE, Srgb::grey(0xe8)), 0.1068, 5e-5);
        close(michelson(Srgb::BLACK, Srgb::BLACK), 0.0, 0.0);
    }

    /// On both sides of both thresholds of WCAG 2.2, SC 2.3.1.
    #[test]
    fn general_flashes() {
        assert!(general_flash(Srgb::WHITE, Srgb::grey(0x80)));
        assert!(general_flash(Srgb::BLACK, Srgb::grey(0x5a)), "0.10224 apart");
        assert!(!general_flash(Srgb::BLACK, Srgb::grey(0x59)), "0.0999 apart");
        assert!(!general_flash(Srgb::WHITE, Srgb::grey(0xe8)), "the darker is at 0.807");
        assert!(general_flash(Srgb::grey(0xe6), Srgb::WHITE), "the darker is at 0.791");
        assert!(!general_flash(Srgb::WHITE, Srgb::WHITE));
    }

    /// x and y of the red primary are 0.640 and 0.330, of the white D65 0.3127 and 0.3290 (ITU-R BT.709), and
    /// u' = 4x / (-2x + 12y + 3), v' = 9y / (-2x + 12y + 3).
    #[test]
    fn places_on_the_diagram() {
        let (u, v) = RED.chromaticity().expect("not black");
        close(u, 2.56 / 5.68, 5e-4);
        close(v, 2.97 / 5.68, 5e-4);
        let (u, v) = Srgb::WHITE.chromaticity().expect("not black");
        close(u, 1.2508 / 6.3226, 5e-4);
        close(v, 2.961 / 6.3226, 5e-4);
        assert_eq!(Srgb::BLACK.chromaticity(), None);
    }

    #[test]
    fn red_flashes() {
        let pale = Srgb::new(255, 0x40, 0x40);
        close(pale.red_share().expect("not black"), 0.9070, 5e-5);
        assert!(red_flash(RED, Srgb::WHITE) && red_flash(Srgb::WHITE, RED));
        assert!(red_flash(pale, Srgb::WHITE), "0.2016 apart");
        assert!(red_flash(RED, Srgb::BLACK));
        assert!(!red_flash(RED, RED));
        assert!(!red_flash(Srgb::grey(0x80), Srgb::WHITE));
        assert!(!red_flash(Srgb::new(255, 0x90, 0), Srgb::WHITE), "orange is not saturated red");
    }

    #[test]
    fn the_grey_between_gives_as_much_light() {
        for (one, other) in [(Srgb::BLACK, Srgb::WHITE), (Srgb::BLACK, Srgb::grey(0x59)), (RED, Srgb::WHITE)] {
            let middle = f64::midpoint(one.luminance(), other.luminance());
            close(one.grey_between(other).luminance(), middle, 4e-3);
        }
        assert_eq!(Srgb::BLACK.grey_between(Srgb::WHITE).to_string(), "#bcbcbc");
    }
}
