//! Faces are measured on a grid of points, apart from any browser.

use super::*;
use crate::stimulus::target;

type Point = (f64, f64);

/// The path as straight pieces; only M, L, C and Z are in use, with absolute numbers.
fn outlines(path: &str) -> Vec<Vec<Point>> {
    let mut found: Vec<Vec<Point>> = Vec::new();
    let spaced: String =
        path.chars().map(|c| if "MLCZ".contains(c) { format!(" {c} ") } else { c.to_string() }).collect();
    let mut words = spaced.split_whitespace().peekable();
    let mut command = 'M';
    while let Some(word) = words.peek().copied() {
        if let Some(letter) = word.chars().next().filter(char::is_ascii_alphabetic) {
            command = letter;
            words.next();
        }
        let mut number = || words.next().and_then(|word| word.parse::<f64>().ok()).expect("a number");
        match command {
            'M' => found.push(vec![(number(), number())]),
            'L' => {
                let to = (number(), number());
                found.last_mut().expect("after M").push(to);
            }
            'C' => {
                let (a, b, to) = ((number(), number()), (number(), number()), (number(), number()));
                let line = found.last_mut().expect("after M");
                let from = *line.last().expect("a point");
                line.extend((1..=24).map(|at| cubic(from, a, b, to, f64::from(at) / 24.0)));
            }
            'Z' => {
                let line = found.last_mut().expect("after M");
                line.push(line[0]);
            }
            other => panic!("{other} is not in use"),
        }
    }
    found
}

fn cubic(from: Point, a: Point, b: Point, to: Point, t: f64) -> Point {
    let u = 1.0 - t;
    let mix = |from: f64, a: f64, b: f64, to: f64| {
        u * u * u * from + 3.0 * u * u * t * a + 3.0 * u * t * t * b + t * t * t * to
    };
    (mix(from.0, a.0, b.0, to.0), mix(from.1, a.1, b.1, to.1))
}

/// The canvas's rule for surfaces: how often the outline winds round the point.
fn winding(outlines: &[Vec<Point>], (x, y): Point) -> i32 {
    let pieces = outlines.iter().flat_map(|line| line.windows(2).map(|pair| (pair[0], pair[1])));
    pieces
        .map(|((ax, ay), (bx, by))| {
            let side = (bx - ax) * (y - ay) - (x - ax) * (by - ay);
            i32::from(ay <= y && by > y && side > 0.0) - i32::from(ay > y && by <= y && side < 0.0)
        })
        .sum()
}

fn distance(outlines: &[Vec<Point>], (x, y): Point) -> f64 {
    let pieces = outlines.iter().flat_map(|line| line.windows(2).map(|pair| (pair[0], pair[1])));
    pieces
        .map(|((ax, ay), (bx, by))| {
            let (dx, dy) = (bx - ax, by - ay);
            let along = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy).max(1e-9)).clamp(0.0, 1.0);
            (x - ax - along * dx).hypot(y - ay - along * dy)
        })
        .fold(f64::INFINITY, f64::min)
}

struct Grid(Vec<bool>);

/// Points one unit apart, from -52 to 52.
const STEPS: usize = 105;

impl Grid {
    fn of(face: &Face) -> Grid {
        let parts: Vec<_> = face.parts.iter().map(|part| (outlines(part.path), part)).collect();
        let at = |step: usize| step as f64 - 52.0;
        let dark = |point: Point| {
            parts.iter().any(|(outlines, part)| {
                part.fill && winding(outlines, point) != 0
                    || part.width > 0.0 && distance(outlines, point) <= part.width / 2.0
            })
        };
        Grid((0..STEPS * STEPS).map(|index| dark((at(index % STEPS), at(index / STEPS)))).collect())
    }

    fn dark(&self, (x, y): Point) -> bool {
        let step = |value: f64| (value + 52.0).round();
        let (column, row) = (step(x), step(y));
        let within = |step: f64| (0.0..STEPS as f64).contains(&step);
        within(column) && within(row) && self.0[row as usize * STEPS + column as usize]
    }

    /// How many dark stretches a line meets. Those, dark or light, that are shorter than three units do not count: along
    /// an edge the grid has steps.
    fn strokes(&self, angle: f64, offset: f64) -> u32 {
        let (sin, cos) = angle.to_radians().sin_cos();
        let along = |t: f64| self.dark((t * cos - offset * sin, t * sin + offset * cos));
        let (mut dark, mut other, mut strokes) = (false, 0, 0);
        for half in -150..=150 {
            other = if along(f64::from(half) / 2.0) == dark { 0 } else { other + 1 };
            if other == 6 {
                (dark, other) = (!dark, 0);
                strokes += u32::from(dark);
            }
        }
        strokes
    }
}

#[test]
fn no_line_through_a_face_meets_more_strokes_than_the_guard_counts_on() {
    let most = target::Kind::Face.strokes();
    let mut faults = Vec::new();
    for face in ALL {
        let grid = Grid::of(face);
        let mut met = 0;
        for angle in (0..180).step_by(5) {
            for offset in -50..=50 {
                let strokes = grid.strokes(f64::from(angle), f64::from(offset));
                met = met.max(strokes);
                if strokes > most {
                    faults.push(format!("{}: {strokes} strokes at {angle}°, {offset} beside the middle", face.id));
                }
            }
        }
        assert!(met >= 3, "{}: detail to look at, but a line meets {met} strokes at most", face.id);
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// At half a degree and 40 cm a face is 3.5 mm, or 13 CSS px, across: a stroke of 7 in 100 is 0.9 px.
#[test]
fn faces_keep_within_their_square_and_strokes_are_wide() {
    for face in ALL {
        let grid = Grid::of(face);
        let edge = (-52..=52).any(|at| {
            let at = f64::from(at);
            [(at, -51.0), (at, 51.0), (-51.0, at), (51.0, at)].iter().any(|point| grid.dark(*point))
        });
        assert!(!edge, "{} runs over its square", face.id);
        assert!(face.parts.iter().all(|part| part.fill || part.width >= 7.0), "{}", face.id);
    }
}

/// The count itself: a ring is met twice in its middle, once at its edge, and not beside it.
#[test]
fn a_ring_has_two_strokes() {
    static RING: Face = Face {
        id: "ring",
        name: "ring",
        parts: &[line("M0 -40C22 -40 40 -22 40 0C40 22 22 40 0 40C-22 40 -40 22 -40 0C-40 -22 -22 -40 0 -40Z")],
    };
    let grid = Grid::of(&RING);
    for angle in [0.0, 35.0, 90.0] {
        assert_eq!((grid.strokes(angle, 0.0), grid.strokes(angle, 40.0), grid.strokes(angle, 50.0)), (2, 1, 0));
    }
}

#[test]
fn a_face_is_found_and_drawn_with_its_label() {
    let cat = Face::by_id("cat").expect("it is there");
    assert!(cat.svg("a \"cat\" <b>").contains("aria-label=\"a &quot;cat&quot; &lt;b&gt;\""));
    assert!(Face::by_id("dog").is_none());
    assert!(ALL.len() >= 3);
}
