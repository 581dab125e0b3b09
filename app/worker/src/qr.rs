//! QR codes: a text as modules and as SVG, and the text of a code in a grey picture.

use std::borrow::Cow;
use std::fmt::Write as _;

use fast_qr::{ECL, Module, QRBuilder};
use rqrr::PreparedImage;

/// White modules that ISO/IEC 18004 asks for around a code.
pub const MARGIN: usize = 4;

/// Above this many bytes a code is drawn with the least correction, so that its modules stay large enough for a camera.
const LONG: usize = 300;

/// Pictures beyond this are taken for a mistake; a camera's frame is scaled down before it comes here.
const MOST_PIXELS: usize = 4_096 * 4_096;

/// Ways to draw edges out: how far around a pixel it is smoothed, how far its surroundings reach, and how much further than
/// it is it is put from them. Pixels are those of the enlarged picture. Found by trial on pictures of known blur and noise
/// (`tests/src/codes.rs`): each reads what the others miss.
const EDGES: [(usize, usize, i32); 3] = [(0, 8, 3), (2, 6, 5), (3, 4, 5)];

/// A code: square modules, dark or light.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// 1 to 40.
    pub version: u8,
    /// Modules on each side, without the margin.
    pub size: usize,
    dark: Vec<bool>,
}

/// A text as a code.
///
/// # Errors
/// One sentence when it fits no code.
pub fn make(text: &str) -> Result<Code, String> {
    let level = if text.len() > LONG { ECL::L } else { ECL::M };
    let made = QRBuilder::new(text).ecl(level).build();
    let made = made.map_err(|_| "This is too long for one QR code.".to_owned())?;
    let size = made.size;
    let dark = (0..size * size).map(|at| made[at / size][at % size].value() == Module::DARK).collect();
    // ISO/IEC 18004: a code of version v has 17 + 4 v modules on each side.
    Ok(Code { version: u8::try_from((size - 17) / 4).unwrap_or(u8::MAX), size, dark })
}

impl Code {
    /// Whether a module is dark; those beyond the code are light.
    #[must_use]
    pub fn dark(&self, x: usize, y: usize) -> bool {
        x < self.size && y < self.size && self.dark[y * self.size + x]
    }

    /// The code with its margin as a drawing. Runs of dark modules in a row are one rectangle, which keeps it small.
    #[must_use]
    pub fn svg(&self) -> String {
        let side = self.size + 2 * MARGIN;
        let mut path = String::new();
        for y in 0..self.size {
            let mut x = 0;
            while x < self.size {
                let run = (x..self.size).take_while(|at| self.dark(*at, y)).count();
                if run > 0 {
                    let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + MARGIN, y + MARGIN);
                }
                x += run.max(1);
            }
        }
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\" \
             role=\"img\" aria-label=\"QR code\"><path fill=\"#fff\" d=\"M0 0h{side}v{side}H0z\"/>\
             <path fill=\"#000\" d=\"{path}\"/></svg>"
        )
    }
}

/// The text of the first code in a picture of one byte of grey for each pixel, row by row; nothing when there is none.
///
/// # Errors
/// One sentence when the picture has not the size that is said.
pub fn read(width: usize, height: usize, grey: &[u8]) -> Result<Option<String>, String> {
    let pixels = width.checked_mul(height).filter(|count| (1..=MOST_PIXELS).contains(count));
    if pixels != Some(grey.len()) {
        return Err("This picture cannot be read: its size does not fit its contents.".to_owned());
    }
    let picture = Picture { width, height, grey: Cow::Borrowed(grey) };
    // The decoder looks at whole pixels, one a module, so a coarse picture is read better when it is enlarged, and one out
    // of focus when its edges are drawn out. Most pictures need neither.
    Ok(picture.text().or_else(|| {
        let twice = picture.twice();
        twice.text().or_else(|| EDGES.iter().find_map(|edges| twice.sharp(*edges).text()))
    }))
}

/// A grey picture on its way to the decoder.
struct Picture<'p> {
    width: usize,
    height: usize,
    grey: Cow<'p, [u8]>,
}

impl Picture<'_> {
    fn text(&self) -> Option<String> {
        let at = |x: usize, y: usize| self.grey[y * self.width + x];
        let mut picture = PreparedImage::prepare_from_greyscale(self.width, self.height, at);
        let grids = picture.detect_grids();
        grids.iter().find_map(|grid| grid.decode().ok()).map(|(_, text)| text)
    }

    /// At twice its size; what lies between pixels is their mean by distance.
    fn twice(&self) -> Picture<'static> {
        let (width, height) = (2 * self.width, 2 * self.height);
        // The middles of the four small pixels lie a quarter to each side of the middle of the large one.
        let near = |at: usize, most: usize| {
            let here = at / 2;
            (here, if at.is_multiple_of(2) { here.saturating_sub(1) } else { (here + 1).min(most - 1) })
        };
        let mut grey = Vec::with_capacity(width * height);
        for at in 0..height {
            let (y, below) = near(at, self.height);
            for at in 0..width {
                let (x, beside) = near(at, self.width);
                let pixel = |x: usize, y: usize| u32::from(self.grey[y * self.width + x]);
                let sum = 9 * pixel(x, y) + 3 * pixel(beside, y) + 3 * pixel(x, below) + pixel(beside, below);
                grey.push((sum / 16) as u8);
            }
        }
        Picture { width, height, grey: Cow::Owned(grey) }
    }

    /// With edges drawn out: each pixel, smoothed a little against noise, is put further from the mean of the square around.
    fn sharp(&self, (smoothed, reach, gain): (usize, usize, i32)) -> Picture<'static> {
        let sums = Sums::of(self);
        let mut grey = Vec::with_capacity(self.grey.len());
        for y in 0..self.height {
            for x in 0..self.width {
                let (pixel, around) = (sums.mean(x, y, smoothed), sums.mean(x, y, reach));
                grey.push((pixel + gain * (pixel - around)).clamp(0, 255) as u8);
            }
        }
        Picture { width: self.width, height: self.height, grey: Cow::Owned(grey) }
    }
}

/// Of each pixel the sum over all that lies above it and to its left, so that any square's mean is four look-ups.
struct Sums {
    width: usize,
    height: usize,
    sums: Vec<u32>,
}

impl Sums {
    fn of(picture: &Picture<'_>) -> Sums {
        let (width, height) = (picture.width, picture.height);
        let mut sums = vec![0_u32; (width + 1) * (height + 1)];
        for y in 0..height {
            let mut row = 0_u32;
            for x in 0..width {
                row += u32::from(picture.grey[y * width + x]);
                // A large picture's sum runs over; differences of sums come out right all the same.
                sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1].wrapping_add(row);
            }
        }
        Sums { width, height, sums }
    }

    fn mean(&self, x: usize, y: usize, reach: usize) -> i32 {
        let (top, bottom) = (y.saturating_sub(reach), (y + reach + 1).min(self.height));
        let (left, right) = (x.saturating_sub(reach), (x + reach + 1).min(self.width));
        let to = |x: usize, y: usize| self.sums[y * (self.width + 1) + x];
        let square = to(right, bottom).wrapping_sub(to(right, top)).wrapping_sub(to(left, bottom));
        square.wrapping_add(to(left, top)) as i32 / ((bottom - top) * (right - left)) as i32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_size_follows_from_the_version_and_capitals_make_it_smaller() {
        let text = "SIDELIGHT RECEIPT 1 12 0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF";
        let of = |text: &str| make(text).expect("fits");
        let (upper, lower) = (of(text), of(&text.to_lowercase()));
        // ISO/IEC 18004: 87 letters and digits at level M fit version 4 (90 of them), 87 bytes need version 6 (106).
        assert_eq!((upper.version, upper.size), (4, 33));
        assert_eq!((lower.version, lower.size), (6, 41));
        assert!(upper.svg().contains("viewBox=\"0 0 41 41\""));
    }

    #[test]
    fn what_fits_no_code_is_refused_in_a_sentence() {
        assert_eq!(make(&"é".repeat(2_000)), Err("This is too long for one QR code.".to_owned()));
    }

    #[test]
    fn a_picture_without_a_code_gives_nothing_and_a_wrong_size_a_sentence() {
        assert_eq!(read(64, 64, &[200; 64 * 64]), Ok(None));
        assert!(read(64, 63, &[200; 64 * 64]).is_err());
        assert!(read(0, 0, &[]).is_err());
        assert!(read(usize::MAX, usize::MAX, &[1]).is_err());
    }
}
