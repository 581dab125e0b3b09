//! Pictures of QR codes as a camera brings them: turned, held askew, out of focus, in poor light. Made from the modules of
//! a code alone, so that any decoder can be tried on them.

use sidelight_worker::qr::{Code, MARGIN};

use crate::dice::Dice;

/// A grey picture, one byte a pixel, row by row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Pixels in a row.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Greys, 0 is black.
    pub grey: Vec<u8>,
}

/// How a code is held before the camera, and what the camera makes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shot {
    /// Pixels of the camera for each module, where the code is nearest.
    pub scale: f64,
    /// Degrees it is turned in the picture.
    pub turned: f64,
    /// How much smaller its far edge is than its near one: 0.2 is a fifth.
    pub askew: f64,
    /// Standard deviation of the blur, in modules.
    pub blur: f64,
    /// Grey of dark and of light modules.
    pub ink: f64,
    /// Grey of light modules.
    pub paper: f64,
    /// Standard deviation of the noise, in greys.
    pub noise: f64,
    /// How much darker the picture is at its right edge: 0.5 is half.
    pub shade: f64,
}

impl Shot {
    /// Held straight in good light: four pixels a module.
    pub const STRAIGHT: Shot =
        Shot { scale: 4.0, turned: 0.0, askew: 0.0, blur: 0.0, ink: 20.0, paper: 235.0, noise: 0.0, shade: 0.0 };

    /// What pictures of a code are taken of, by name.
    pub const ALL: [(&str, Shot); 14] = [
        ("straight", Shot::STRAIGHT),
        ("small", Shot { scale: 3.0, ..Shot::STRAIGHT }),
        ("turned 7", Shot { turned: 7.0, ..Shot::STRAIGHT }),
        ("turned 30", Shot { turned: 30.0, ..Shot::STRAIGHT }),
        ("turned 45", Shot { turned: 45.0, ..Shot::STRAIGHT }),
        ("turned 90", Shot { turned: 90.0, ..Shot::STRAIGHT }),
        ("turned 200", Shot { turned: 200.0, ..Shot::STRAIGHT }),
        ("askew", Shot { askew: 0.15, turned: 10.0, scale: 5.0, ..Shot::STRAIGHT }),
        ("blurred", Shot { blur: 0.45, noise: 1.5, ..Shot::STRAIGHT }),
        ("blurred and turned", Shot { blur: 0.4, turned: 20.0, noise: 1.5, ..Shot::STRAIGHT }),
        ("low light", Shot { ink: 12.0, paper: 44.0, noise: 3.0, ..Shot::STRAIGHT }),
        ("low light and blurred", Shot { ink: 12.0, paper: 60.0, noise: 3.0, blur: 0.35, ..Shot::STRAIGHT }),
        ("shaded", Shot { shade: 0.6, noise: 2.0, ..Shot::STRAIGHT }),
        (
            "in the hand",
            Shot { scale: 4.5, turned: -12.0, askew: 0.1, blur: 0.3, ink: 35.0, paper: 150.0, noise: 4.0, shade: 0.3 },
        ),
    ];

    /// A picture of a code: sampled at four points a pixel, blurred, then dimmed and made noisy as a sensor does. Each frame
    /// a camera brings has noise of its own.
    #[must_use]
    pub fn of(&self, code: &Code, frame: u64) -> Picture {
        let modules = (code.size + 2 * MARGIN) as f64;
        let (sin, cos) = self.turned.to_radians().sin_cos();
        // Room for the code in any turn, and a little of the table around it.
        let side = (modules * self.scale * (sin.abs() + cos.abs()) + 4.0 * self.scale).ceil() as usize;
        let middle = side as f64 / 2.0;
        let light_at = |x: f64, y: f64| {
            // From the picture's middle, turned back, in modules.
            let (dx, dy) = ((x - middle) / self.scale, (y - middle) / self.scale);
            let (u, v) = (dx * cos + dy * sin, dy * cos - dx * sin);
            // Held askew, the far edge shrinks: the nearer to the top, the more of the code falls on a pixel.
            let depth = 1.0 + self.askew * (0.5 - v / modules);
            if dark_at(code, u * depth + modules / 2.0, v * depth + modules / 2.0) { self.ink } else { self.paper }
        };
        let four = |at: usize| {
            let (x, y) = ((at % side) as f64, (at / side) as f64);
            let points = [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)];
            points.iter().map(|(i, j)| light_at(x + i, y + j)).sum::<f64>() / 4.0
        };
        let sharp: Vec<f64> = (0..side * side).map(four).collect();
        let mut dice = Dice::new(frame);
        let mut sensed = |(at, light): (usize, f64)| {
            let dimmed = light * (1.0 - self.shade * (at % side) as f64 / side as f64);
            dice.normal(dimmed, self.noise).round().clamp(0.0, 255.0) as u8
        };
        let grey = blurred(sharp, side, self.blur * self.scale).into_iter().enumerate().map(&mut sensed).collect();
        Picture { width: side, height: side, grey }
    }
}

/// A square picture under a Gaussian of this deviation in pixels, first along rows, then along columns.
fn blurred(picture: Vec<f64>, side: usize, deviation: f64) -> Vec<f64> {
    if deviation <= 0.0 {
        return picture;
    }
    let reach = (3.0 * deviation).ceil() as isize;
    let weights: Vec<f64> = (-reach..=reach).map(|d| (-(d * d) as f64 / (2.0 * deviation * deviation)).exp()).collect();
    let total: f64 = weights.iter().sum();
    let along = |picture: &[f64], step: usize| -> Vec<f64> {
        let mean = |at: usize| {
            let place = (at / step % side) as isize;
            let from = |d: isize| (place + d).clamp(0, side as isize - 1) - place;
            let sum: f64 = (-reach..=reach)
                .zip(&weights)
                .map(|(d, weight)| weight * picture[(at as isize + from(d) * step as isize) as usize])
                .sum();
            sum / total
        };
        (0..side * side).map(mean).collect()
    };
    along(&along(&picture, 1), side)
}

impl Picture {
    /// The picture as a file of the simplest format there is (PGM, netpbm).
    #[must_use]
    pub fn pgm(&self) -> Vec<u8> {
        let mut file = format!("P5 {} {} 255\n", self.width, self.height).into_bytes();
        file.extend_from_slice(&self.grey);
        file
    }

    /// Reads what [`Picture::pgm`] or another program wrote; none when it is no such file.
    #[must_use]
    pub fn from_pgm(file: &[u8]) -> Option<Picture> {
        let head_ends = file.iter().enumerate().filter(|(_, byte)| byte.is_ascii_whitespace()).nth(3)?.0;
        let head = std::str::from_utf8(&file[..head_ends]).ok()?;
        let mut words = head.split_ascii_whitespace();
        let (Some("P5"), Some(width), Some(height), Some("255")) =
            (words.next(), words.next(), words.next(), words.next())
        else {
            return None;
        };
        let (width, height) = (width.parse().ok()?, height.parse().ok()?);
        let grey = file[head_ends + 1..].to_vec();
        (width * height == grey.len()).then_some(Picture { width, height, grey })
    }
}

/// Whether there is a dark module at this place, counted in modules from the corner of the margin.
fn dark_at(code: &Code, x: f64, y: f64) -> bool {
    let (x, y) = (x - MARGIN as f64, y - MARGIN as f64);
    x >= 0.0 && y >= 0.0 && code.dark(x as usize, y as usize)
}

#[cfg(test)]
mod tests {
    use sidelight_worker::qr;

    use super::*;

    #[test]
    fn a_straight_picture_has_the_modules_of_its_code() {
        let code = qr::make("SHEET1.AAAA").expect("fits");
        let Picture { width, grey, .. } = Shot::STRAIGHT.of(&code, 0);
        // Two modules of table, four of margin, then the dark corner; half a pixel may be lost in rounding.
        let at = |module: usize| (2 + MARGIN + module) * 4 + 2;
        for y in 0..code.size {
            for x in 0..code.size {
                let expected = if code.dark(x, y) { 20 } else { 235 };
                assert_eq!(grey[at(y) * width + at(x)], expected, "{x} {y}");
            }
        }
    }

    #[test]
    fn a_picture_file_comes_back() {
        let picture = Picture { width: 3, height: 2, grey: vec![0, 10, 32, 13, 9, 255] };
        assert_eq!(Picture::from_pgm(&picture.pgm()), Some(picture));
        assert_eq!(Picture::from_pgm(b"P5 3 2 255\nab"), None);
        assert_eq!(Picture::from_pgm(b"P6 1 1 255\nabc"), None);
    }
}
