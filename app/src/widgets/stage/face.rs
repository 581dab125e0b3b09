//! Drawings that are looked at, as paths in a square from -50 to 50: a face with eyes, nose and mouth, and a letter.

use sidelight_core::stimulus::target::Kind;

/// One line or one filled shape.
pub struct Part {
    /// SVG path data.
    pub path: &'static str,
    /// Whether it is filled.
    pub fill: bool,
    /// Width of its line; 0 for none.
    pub width: f64,
}

const fn line(path: &'static str, width: f64) -> Part {
    Part { path, fill: false, width }
}

const fn filled(path: &'static str) -> Part {
    Part { path, fill: true, width: 0.0 }
}

/// A line through it meets outline, two eyes and outline at most, as the guard reckons.
static FACE: &[Part] = &[
    line("M0 -46 A46 46 0 1 1 0 46 A46 46 0 1 1 0 -46 Z", 7.0),
    filled("M-18 -20 a6.5 8 0 1 1 0 16 a6.5 8 0 1 1 0 -16 Z M18 -20 a6.5 8 0 1 1 0 16 a6.5 8 0 1 1 0 -16 Z"),
    line("M1 -6 L-5 12 L4 13", 4.5),
    line("M-20 22 Q0 38 20 22", 5.0),
];

static LETTER: &[Part] = &[filled("M-36 -48 H36 V-28 H-14 V-10 H28 V10 H-14 V28 H36 V48 H-36 Z")];

static DOT: &[Part] = &[filled("M0 -50 A50 50 0 1 1 0 50 A50 50 0 1 1 0 -50 Z")];

/// What is drawn of a kind.
pub fn parts(kind: Kind) -> &'static [Part] {
    match kind {
        Kind::Face => FACE,
        Kind::Letter => LETTER,
        Kind::Dot => DOT,
    }
}
