//! Flashes counted from pictures alone, as the standard defines them. It knows nothing of the rules it judges: colours go
//! in, sampled as a display shows them, and what it reckons of them it reckons by itself.
//!
//! A flash is a pair of opposing changes of relative luminance by 10 % or more whose darker state is below 0.80; more than
//! three in any second over more than 0.006 sr within ten degrees fail (W3C, WCAG 2.2, SC 2.3.1). Any change to or from
//! saturated red over such an area fails, and so do more than eight stripes in view (Harding et al. 2005, Epilepsia
//! 46:1423). Ten degrees are taken as a square, which holds more than the disc of the standard.

/// A colour, eight bits a channel.
pub type Colour = [u8; 3];

/// Pictures one after another, of cells of one size. Of each cell only its changes are kept.
#[derive(Debug)]
pub struct Film {
    frames_a_second: f64,
    wide: usize,
    high: usize,
    frames: usize,
    last: Vec<Colour>,
    /// From which frame on each cell has which colour.
    cells: Vec<Vec<(usize, Colour)>>,
    stripes: usize,
}

/// What was counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Count {
    /// Flashes within any second at the place that has most.
    pub flashes: usize,
    /// Steradians within ten degrees that flash more than three times in the same second.
    pub flashing: f64,
    /// Steradians within ten degrees that change to or from saturated red in the same second.
    pub reddening: f64,
    /// Light and dark stripes in view at once, at most, along the middle of the picture.
    pub stripes: usize,
}

impl Count {
    /// Whether the pictures are within the standard.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.flashing <= AREA && self.reddening <= AREA && self.stripes <= 8
    }
}

const AREA: f64 = 0.006;
const WINDOW: f64 = 10.0;

impl Film {
    /// An empty film of so many cells a picture, row by row.
    #[must_use]
    pub fn new(frames_a_second: f64, wide: usize, high: usize) -> Film {
        let cells = vec![Vec::new(); wide * high];
        Film { frames_a_second, wide, high, frames: 0, last: Vec::new(), cells, stripes: 0 }
    }

    /// Adds a picture, which has to have as many cells as the film.
    ///
    /// # Panics
    /// When it has not.
    pub fn push(&mut self, picture: Vec<Colour>) {
        assert_eq!(picture.len(), self.wide * self.high, "the picture has another size than the film");
        for row in 0..self.high {
            let here = row * self.wide..(row + 1) * self.wide;
            if self.last.get(here.clone()) == Some(&picture[here.clone()]) {
                continue;
            }
            for cell in here {
                if self.last.get(cell) != Some(&picture[cell]) {
                    self.cells[cell].push((self.frames, picture[cell]));
                }
            }
        }
        self.stripes = self.stripes.max(self.edges_of(&picture));
        self.last = picture;
        self.frames += 1;
    }

    /// Counts, for an eye that sees each cell so many degrees wide and high.
    #[must_use]
    pub fn count(&self, cell_wide: f64, cell_high: f64) -> Count {
        let mut flashes = 0;
        let (mut flashing, mut reddening) = (Vec::new(), Vec::new());
        for cell in &self.cells {
            let changes = changes(cell.iter().map(|(frame, colour)| (*frame, luminance(*colour))));
            let (most, too_many) = self.seconds_with(&changes, 8);
            flashes = flashes.max(most / 2);
            flashing.push(too_many);
            reddening.push(self.seconds_with(&red_changes(cell), 1).1);
        }
        let area = cell_wide.to_radians() * cell_high.to_radians();
        let across = (WINDOW / cell_wide).floor() as usize + 1;
        let down = (WINDOW / cell_high).floor() as usize + 1;
        let largest = |marked: &[Vec<bool>]| self.largest(marked, across, down) as f64 * area;
        Count { flashes, flashing: largest(&flashing), reddening: largest(&reddening), stripes: self.stripes }
    }

    /// The most changes within any second, ends included, and for each frame whether the second that ends with it holds
    /// so many or more; no list when none does.
    fn seconds_with(&self, changes: &[usize], many: usize) -> (usize, Vec<bool>) {
        let second = self.frames_a_second.round() as usize;
        let (mut most, mut marked) = (0, Vec::new());
        for (at, change) in changes.iter().enumerate() {
            let first = changes[..=at].partition_point(|earlier| earlier + second < *change);
            let within = at + 1 - first;
            most = most.max(within);
            if within >= many {
                marked.resize(self.frames, false);
                // It stays so until the first of them is a second past.
                let until = (changes[at + 1 - many] + second).min(self.frames - 1);
                marked[*change..=until.max(*change)].fill(true);
            }
        }
        (most, marked)
    }

    /// The most marked cells within a window of so many cells in any one frame.
    fn largest(&self, marked: &[Vec<bool>], across: usize, down: usize) -> usize {
        let mut largest = 0;
        if marked.iter().all(Vec::is_empty) {
            return largest;
        }
        for frame in 0..self.frames {
            let here = |cell: usize| marked[cell].get(frame).copied().unwrap_or_default();
            if (0..marked.len()).filter(|cell| here(*cell)).count() <= largest {
                continue;
            }
            // Sums over all cells above and to the left.
            let mut sums = vec![vec![0_usize; self.wide + 1]; self.high + 1];
            for row in 0..self.high {
                for column in 0..self.wide {
                    let one = usize::from(here(row * self.wide + column));
                    sums[row + 1][column + 1] = sums[row][column + 1] + sums[row + 1][column] + one - sums[row][column];
                }
            }
            for row in 0..self.high {
                let bottom = (row + down).min(self.high);
                for column in 0..self.wide {
                    let right = (column + across).min(self.wide);
                    let within = sums[bottom][right] + sums[row][column] - sums[row][right] - sums[bottom][column];
                    largest = largest.max(within);
                }
            }
        }
        largest
    }

    /// Edges along the middle row or the middle column, whichever has more: eight stripes have at most eight where they
    /// fill the picture, for a part of a stripe at each end adds up with the other.
    fn edges_of(&self, picture: &[Colour]) -> usize {
        let start = self.high / 2 * self.wide;
        let row = edges(picture[start..start + self.wide].iter());
        row.max(edges(picture.iter().skip(self.wide / 2).step_by(self.wide)))
    }
}

/// The frames at which a cell turned saturated red from what is far from it, or back.
fn red_changes(cell: &[(usize, Colour)]) -> Vec<usize> {
    let mut changes = Vec::new();
    let mut last: Option<(bool, Colour)> = None;
    for (frame, colour) in cell {
        let red = red_share(*colour) >= 0.8;
        match last {
            Some((was_red, was)) if was_red != red => {
                // What is near goes on as what it was, so that a slow change counts once it is far.
                if apart(was, *colour) <= 0.2 {
                    continue;
                }
                changes.push(*frame);
            }
            Some(_) | None => {}
        }
        last = Some((red, *colour));
    }
    changes
}

/// The frames at which a change by 0.10 or more was complete enough to count, each opposed to the one before; those whose
/// darker state is not below 0.80 are left out.
fn changes(light: impl Iterator<Item = (usize, f64)>) -> Vec<usize> {
    // A hair's breadth for rounding: 0.10 counts.
    const CHANGE: f64 = 0.10 - 1e-12;
    // Each with its darker state.
    let mut changes: Vec<(usize, f64)> = Vec::new();
    let mut rising: Option<bool> = None;
    // The darkest and the lightest since the last change.
    let (mut dark, mut bright) = (f64::INFINITY, f64::NEG_INFINITY);
    for (frame, light) in light {
        (dark, bright) = (dark.min(light), bright.max(light));
        if rising != Some(true) && light - dark >= CHANGE {
            changes.push((frame, dark));
            (rising, bright) = (Some(true), light);
        } else if rising != Some(false) && bright - light >= CHANGE {
            changes.push((frame, light));
            (rising, dark) = (Some(false), light);
        }
        match (rising, changes.last_mut()) {
            // From here on only the way back counts, from the furthest point on.
            (Some(true), _) => dark = bright,
            (Some(false), Some(last)) => {
                last.1 = dark;
                bright = dark;
            }
            (Some(false), None) | (None, _) => {}
        }
    }
    changes.into_iter().filter(|(_, darker)| *darker < 0.80).map(|(frame, _)| frame).collect()
}

/// How often it turns lighter or darker from neighbour to neighbour, by more than a hair. What changes step by step in one
/// direction, as a soft edge does, is one edge.
fn edges<'a>(cells: impl Iterator<Item = &'a Colour>) -> usize {
    let mut last: Option<&Colour> = None;
    let mut going: Option<bool> = None;
    let mut edges = 0;
    for colour in cells {
        let change = last.map_or(0.0, |last| luminance(*colour) - luminance(*last));
        if last == Some(colour) {
            going = None;
        } else if change.abs() > 0.01 {
            let lighter = change > 0.0;
            edges += usize::from(going != Some(lighter));
            going = Some(lighter);
        }
        last = Some(colour);
    }
    edges
}

fn linear(coded: u8) -> f64 {
    let part = f64::from(coded) / 255.0;
    if part > 0.040_45 { (((part + 0.055) / 1.055).ln() * 2.4).exp() } else { part * 25.0 / 323.0 }
}

fn luminance([red, green, blue]: Colour) -> f64 {
    (2126.0 * linear(red) + 7152.0 * linear(green) + 722.0 * linear(blue)) / 10_000.0
}

fn red_share([red, green, blue]: Colour) -> f64 {
    let sum = linear(red) + linear(green) + linear(blue);
    if sum > 0.0 { linear(red) / sum } else { 0.0 }
}

/// How far apart two colours lie on the CIE 1976 UCS diagram; black is far from everything else.
fn apart(one: Colour, other: Colour) -> f64 {
    match (diagram(one), diagram(other)) {
        (Some(one), Some(other)) => ((one.0 - other.0).powi(2) + (one.1 - other.1).powi(2)).sqrt(),
        (None, None) => 0.0,
        (Some(_), None) | (None, Some(_)) => 1.0,
    }
}

/// u' and v' from the chromaticities of the primaries (ITU-R BT.709), each weighted by its light over its y.
fn diagram([red, green, blue]: Colour) -> Option<(f64, f64)> {
    let parts =
        [(0.2126 * linear(red), 0.64, 0.33), (0.7152 * linear(green), 0.30, 0.60), (0.0722 * linear(blue), 0.15, 0.06)];
    let (mut x, mut y, mut z) = (0.0, 0.0, 0.0);
    for (light, cx, cy) in parts {
        x += light * cx / cy;
        y += light;
        z += light * (1.0 - cx - cy) / cy;
    }
    let sum = x + 15.0 * y + 3.0 * z;
    (sum > 0.0).then(|| (4.0 * x / sum, 9.0 * y / sum))
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHITE: Colour = [255; 3];
    const BLACK: Colour = [0; 3];

    /// Two seconds of a field of one degree cells that changes between two colours so many times there and back a second.
    fn flicker(side: usize, one: Colour, other: Colour, times_a_second: f64, rate: f64) -> Count {
        let mut film = Film::new(rate, side, side);
        for frame in 0..(2.0 * rate) as usize {
            let second = (2.0 * times_a_second * frame as f64 / rate + 1e-9).floor() as usize % 2 == 1;
            film.push(vec![if second { other } else { one }; side * side]);
        }
        film.count(1.0, 1.0)
    }

    /// Two changes make a flash: 3 a second pass and 4 do not, on displays of 60 and of 30 frames a second.
    #[test]
    fn three_flashes_a_second_pass_and_four_do_not() {
        for rate in [30.0, 60.0, 120.0] {
            for (times, flashes) in [(1.0, 1), (2.0, 2), (3.0, 3), (4.0, 4), (5.0, 5)] {
                let count = flicker(10, BLACK, WHITE, times, rate);
                assert_eq!(count.flashes, flashes, "{times} at {rate}");
                assert_eq!(count.passes(), flashes <= 3, "{times} at {rate}");
            }
        }
    }

    /// Ten hard edges are ten; the same with each drawn out over three steps are ten as well; and a grey stripe between a
    /// light and a dark one is one of its own.
    #[test]
    fn a_soft_edge_is_one_edge() {
        let greys = |levels: &[u8]| levels.iter().map(|level| [*level; 3]).collect::<Vec<Colour>>();
        let hard: Vec<u8> = (0..11).flat_map(|n| [if n % 2 == 0 { 0 } else { 255 }; 4]).collect();
        let soft: Vec<u8> =
            (0..11).flat_map(|n| if n % 2 == 0 { [64, 0, 0, 128] } else { [192, 255, 255, 160] }).collect();
        assert_eq!(edges(greys(&hard).iter()), 10);
        assert_eq!(edges(greys(&soft[1..43]).iter()), 10);
        assert_eq!(edges(greys(&[0, 0, 128, 128, 255, 255]).iter()), 2);
    }

    /// Both thresholds from both sides: #595959 is 0.0999 light, #5a5a5a 0.1022; #e8e8e8 is 0.807, #e6e6e6 0.791.
    #[test]
    fn what_counts_as_a_change() {
        for (one, other, counts) in [
            (BLACK, [0x59; 3], false),
            (BLACK, [0x5a; 3], true),
            (WHITE, [0xe8; 3], false),
            (WHITE, [0xe6; 3], true),
            ([0x80; 3], WHITE, true),
        ] {
            assert_eq!(flicker(10, one, other, 10.0, 60.0).passes(), !counts, "{one:?} {other:?}");
        }
    }

    /// 0.006 sr are 19.7 square degrees; two places count together when ten degrees hold both.
    #[test]
    fn small_areas_pass() {
        assert!(flicker(4, BLACK, WHITE, 10.0, 60.0).passes(), "16 square degrees");
        assert!(!flicker(5, BLACK, WHITE, 10.0, 60.0).passes(), "25 square degrees");
        let two_places = |apart: usize| {
            let mut film = Film::new(60.0, 40, 4);
            for frame in 0..120 {
                let lit = |column: usize| column < 3 || (apart..apart + 3).contains(&column);
                let cell = |cell: usize| if lit(cell % 40) && frame % 6 < 3 { WHITE } else { BLACK };
                film.push((0..160).map(cell).collect());
            }
            film.count(1.0, 1.0)
        };
        assert!(!two_places(5).passes(), "24 square degrees within ten degrees");
        assert!(two_places(30).passes(), "12 square degrees each, far from each other");
    }

    #[test]
    fn any_change_to_saturated_red_fails() {
        let red = [255, 0, 0];
        for other in [WHITE, BLACK, [0, 0, 255]] {
            assert!(!flicker(10, red, other, 0.5, 60.0).passes(), "{other:?}");
        }
        assert!(flicker(4, red, WHITE, 0.5, 60.0).passes(), "a small area");
        assert!(flicker(10, [255, 0x90, 0], WHITE, 0.5, 60.0).passes(), "orange");
        // u'v' of red 0.4508, 0.5229 and of white 0.1978, 0.4683 (by x and y of ITU-R BT.709): 0.2588 apart.
        assert!((apart(red, WHITE) - 0.2588).abs() < 1e-3);
    }

    /// A slow rise in small steps is one change; a wave on its way up by less than 0.10 is none.
    #[test]
    fn changes_are_from_turn_to_turn() {
        let of = |light: &[f64]| changes(light.iter().copied().enumerate());
        let rise: Vec<f64> = (0..=100).map(|step| f64::from(step) / 100.0).collect();
        assert_eq!(of(&rise), [10]);
        assert_eq!(of(&[0.0, 0.5, 0.42, 0.9, 0.0]), [1, 4]);
        assert_eq!(of(&[0.5, 0.45, 0.5, 0.45, 0.5]), [0_usize; 0]);
        assert_eq!(of(&[0.95, 0.84, 0.70, 0.95]), [1, 3], "it goes on below 0.80");
        assert_eq!(of(&[0.95, 0.84, 0.81, 0.95]), [0_usize; 0]);
    }

    #[test]
    fn stripes_in_view_are_counted() {
        let count = |stripes: usize| {
            let mut film = Film::new(60.0, 240, 1);
            let cell = |cell: usize| if (cell * stripes / 240).is_multiple_of(2) { WHITE } else { BLACK };
            film.push((0..240).map(cell).collect());
            film.count(0.1, 1.0)
        };
        assert!(count(8).passes());
        assert!(!count(10).passes());
        assert_eq!(count(10).stripes, 9, "ten stripes have nine edges between them");
    }
}
