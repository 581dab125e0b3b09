//! What is drawn of a target: one of the faces, a letter or a dot, as paths in a square from -50 to 50.

use sidelight_core::drawing::face::{self, Face, Part};
use sidelight_core::stimulus::target::Kind;

const fn filled(path: &'static str) -> Part {
    Part { path, fill: true, width: 0.0 }
}

static LETTER: &[Part] = &[filled("M-36 -48 H36 V-28 H-14 V-10 H28 V10 H-14 V28 H36 V48 H-36 Z")];

static DOT: &[Part] = &[filled("M0 -50 A50 50 0 1 1 0 50 A50 50 0 1 1 0 -50 Z")];

/// The parts of a target of this kind; the first face when none was chosen.
pub fn parts(kind: Kind, face: Option<&'static Face>) -> &'static [Part] {
    match kind {
        Kind::Face => face.or(face::ALL.first()).map_or(DOT, |face| face.parts),
        Kind::Letter => LETTER,
        Kind::Dot => DOT,
    }
}
